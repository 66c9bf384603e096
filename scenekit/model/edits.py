"""Changes to a document, each from a whole document to a new one."""

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeVar

from scenekit.errors import ProjectError
from scenekit.model.project import Project
from scenekit.model.scene import Placed, Plane, Scene
from scenekit.model.sprites import Animation, Facing, Sheet, Sprite
from scenekit.model.target import Target

T = TypeVar("T", Sheet, Sprite, Scene, Plane, Placed, Target, Animation)


def put(items: Sequence[T], item: T) -> tuple[T, ...]:
    """Return items with one replaced by name, or added at the end."""
    changed = [item if other.name == item.name else other for other in items]
    if all(other is not item for other in changed):
        changed.append(item)
    return tuple(changed)


def put_sheet(project: Project, sheet: Sheet) -> Project:
    """Add a sheet, or replace the one of that name.

    raises   ProjectError: an animation uses a frame that the new sheet does not have
    """
    names = {frame.name for frame in sheet.frames}
    for sprite in project.sprites:
        for animation in sprite.animations:
            lost = [step.frame for step in animation.steps if step.frame not in names]
            if animation.sheet == sheet.name and lost:
                raise ProjectError(
                    f"sheet {sheet.name}: frame {lost[0]} is used by sprite {sprite.name}, animation "
                    f"{animation.name}, and is not in the new cut; cut it another way or give it another name"
                )
    return replace(project, sheets=put(project.sheets, sheet))


def put_animation(project: Project, sprite: str, animation: Animation, facings: Sequence[Facing]) -> Project:
    """Add an animation to a sprite, which is made if it is new; facings replace the sprite's when given."""
    known = {frame.name for frame in project.sheet(animation.sheet).frames}
    for step in animation.steps:
        if step.frame not in known:
            raise ProjectError(
                f"animation {animation.name}: sheet {animation.sheet} has no frame {step.frame}"
            )
    old = next((s for s in project.sprites if s.name == sprite), None)
    default = (Facing(facing="right", flip=0),)
    if old is None:
        new = Sprite(name=sprite, animations=(animation,), facings=tuple(facings) or default)
    else:
        new = replace(old, animations=put(old.animations, animation), facings=tuple(facings) or old.facings)
    return replace(project, sprites=put(project.sprites, new))


def put_target(project: Project, target: Target) -> Project:
    """Add a target, or replace the one of that name."""
    return replace(project, targets=put(project.targets, target))


def put_scene(project: Project, scene: Scene) -> Project:
    """Add a scene, or replace the one of that name."""
    return replace(project, scenes=put(project.scenes, scene))


def put_plane(scene: Scene, plane: Plane) -> Scene:
    """Add a plane in front of the others, or replace the one of that name."""
    return replace(scene, planes=put(scene.planes, plane))


def put_placed(scene: Scene, placed: Placed) -> Scene:
    """Add a sprite to a scene, or replace the one placed under that name."""
    return replace(scene, placed=put(scene.placed, placed))

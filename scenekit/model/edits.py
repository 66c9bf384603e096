"""Changes to a document, each from a whole document to a new one."""

import tomllib
from collections.abc import Sequence
from dataclasses import replace
from typing import TypeVar

from scenekit.errors import ProjectError
from scenekit.model.palette import Cycle
from scenekit.model.project import Project, read_project
from scenekit.model.project_text import project_text
from scenekit.model.scene import Placed, Plane, Scene, read_scene
from scenekit.model.scene_text import scene_text
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


def checked(project: Project) -> Project:
    """Read a document back from its own text, so that every rule of the format is applied, and return it.

    raises   ProjectError, UnknownNameError: with the file, record and key
    """
    for scene in project.scenes:
        read_scene(tomllib.loads(scene_text(scene)), scene.name)
    read_project(tomllib.loads(project_text(project)), project.folder, project.scenes)
    return project


def move_plane(scene: Scene, name: str, place: int) -> Scene:
    """Put a plane at another depth; place 0 is the rearmost."""
    plane = scene.planes[scene.plane_number(name)]
    rest = [other for other in scene.planes if other.name != name]
    rest.insert(max(0, min(place, len(rest))), plane)
    return replace(scene, planes=tuple(rest))


def drop_plane(scene: Scene, name: str) -> Scene:
    """Take a plane out of a scene.

    raises   ProjectError: it is the last one, or a placed sprite stands on it
    """
    if len(scene.planes) == 1:
        raise ProjectError(f"scene {scene.name}: plane {name} is its only one; a scene needs one")
    holder = next((p.name for p in scene.placed if name in (p.over, p.moves_with)), None)
    if holder is not None:
        raise ProjectError(
            f"plane {name}: sprite {holder} stands on it; move the sprite to another plane first"
        )
    return replace(scene, planes=tuple(plane for plane in scene.planes if plane.name != name))


def drop_placed(scene: Scene, name: str) -> Scene:
    """Take a sprite out of a scene."""
    camera = replace(scene.camera, keeps="") if scene.camera.keeps == name else scene.camera
    return replace(scene, camera=camera, placed=tuple(p for p in scene.placed if p.name != name))


def drop_sheet(project: Project, name: str) -> Project:
    """Take a sheet out of a project; its file stays.

    raises   ProjectError: an animation, plane or font uses it
    """
    users = [s.name for s in project.sprites for a in s.animations if a.sheet == name]
    users += [plane.name for scene in project.scenes for plane in scene.planes if plane.sheet == name]
    users += [font.name for font in project.fonts if font.sheet == name]
    if users:
        raise ProjectError(f"sheet {name}: {users[0]} uses it; change that first")
    return replace(project, sheets=tuple(sheet for sheet in project.sheets if sheet.name != name))


def drop_animation(project: Project, sprite: str, name: str) -> Project:
    """Take an animation from a sprite; with its last one the sprite goes.

    raises   ProjectError: a facing or a placed sprite uses it
    """
    old = project.sprite(sprite)
    for scene in project.scenes:
        for placed in scene.placed:
            used = {placed.animation, *(segment.animation for segment in placed.path.segments)}
            if placed.sprite == sprite and (name in used or len(old.animations) == 1):
                raise ProjectError(f"animation {name}: {placed.name} in scene {scene.name} plays it")
    for facing in old.facings:
        if any(name in pair for pair in facing.own):
            raise ProjectError(f"animation {name}: facing {facing.facing} uses it")
    left = tuple(animation for animation in old.animations if animation.name != name)
    if not left:
        return replace(project, sprites=tuple(other for other in project.sprites if other.name != sprite))
    return replace(project, sprites=put(project.sprites, replace(old, animations=left)))


def put_facing(sprite: Sprite, facing: Facing) -> Sprite:
    """Add a facing to a sprite, or replace the one of that direction."""
    known = [other.facing for other in sprite.facings]
    if facing.facing in known:
        facings = tuple(facing if other.facing == facing.facing else other for other in sprite.facings)
    else:
        facings = (*sprite.facings, facing)
    return replace(sprite, facings=facings)


def put_cycle(project: Project, cycle: Cycle) -> Project:
    """Add a cycle, or replace the one of that name."""
    if any(other.name == cycle.name for other in project.cycles):
        cycles = tuple(cycle if other.name == cycle.name else other for other in project.cycles)
    else:
        cycles = (*project.cycles, cycle)
    return replace(project, cycles=cycles)


def drop_cycle(project: Project, name: str) -> Project:
    """Take a cycle out of a project."""
    return replace(project, cycles=tuple(cycle for cycle in project.cycles if cycle.name != name))

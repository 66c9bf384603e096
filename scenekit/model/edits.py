"""Changes to a document, each from a whole document to a new one."""

import tomllib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import TypeVar

from scenekit.errors import ProjectError
from scenekit.model.palette import Cycle
from scenekit.model.project import Project, read_project
from scenekit.model.project_text import project_text
from scenekit.model.scene import Placed, Plane, Scene, read_scene
from scenekit.model.scene_text import scene_text
from scenekit.model.sprites import Animation, Facing, Frame, Sheet, Sprite
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


def rename_frames(project: Project, sheet: str, names: Mapping[str, str]) -> Project:
    """Give frames of a sheet other names, in its animations too.

    names    new name by old name
    raises   ProjectError: two frames would share a name
    """
    old = project.sheet(sheet)
    frames = tuple(replace(frame, name=names.get(frame.name, frame.name)) for frame in old.frames)
    taken = [frame.name for frame in frames]
    double = next((name for name in taken if taken.count(name) > 1), None)
    if double is not None:
        raise ProjectError(f"sheet {sheet}: two frames would be named {double}; choose another name")

    def renamed(animation: Animation) -> Animation:
        if animation.sheet != sheet:
            return animation
        steps = tuple(replace(step, frame=names.get(step.frame, step.frame)) for step in animation.steps)
        return replace(animation, steps=steps)

    sprites = tuple(
        replace(sprite, animations=tuple(renamed(animation) for animation in sprite.animations))
        for sprite in project.sprites
    )
    scenes = tuple(_renamed_items(scene, sheet, names) for scene in project.scenes)
    return replace(
        project, sheets=put(project.sheets, replace(old, frames=frames)), sprites=sprites, scenes=scenes
    )


def _renamed_items(scene: Scene, sheet: str, names: Mapping[str, str]) -> Scene:
    """Give the frames that a score panel shows their new names."""
    if scene.panel is None or all(item.sheet != sheet for item in scene.panel.items):
        return scene
    items = tuple(
        replace(item, lit=names.get(item.lit, item.lit), dark=names.get(item.dark, item.dark))
        if item.sheet == sheet
        else item
        for item in scene.panel.items
    )
    return replace(scene, panel=replace(scene.panel, items=items))


def put_frames(project: Project, sheet: str, frames: Sequence[Frame]) -> Project:
    """Replace the frames of a sheet.

    raises   ProjectError: an animation uses a frame that is not among them
    """
    return put_sheet(project, replace(project.sheet(sheet), frames=tuple(frames)))


def change_frames(
    project: Project, sheet: str, names: Sequence[str], change: Callable[[Frame], Frame]
) -> Project:
    """Change some frames of a sheet, each by itself."""
    old, wanted = project.sheet(sheet), set(names)
    frames = tuple(change(frame) if frame.name in wanted else frame for frame in old.frames)
    return replace(project, sheets=put(project.sheets, replace(old, frames=frames)))


def drop_frames(project: Project, sheet: str, names: Sequence[str]) -> Project:
    """Take frames off a sheet.

    raises   ProjectError: an animation uses one of them
    """
    wanted = set(names)
    return put_frames(project, sheet, [f for f in project.sheet(sheet).frames if f.name not in wanted])


def merge_frames(project: Project, sheet: str, names: Sequence[str]) -> Project:
    """Make one frame of several: the first keeps its name, pivot place and hit boxes' union.

    raises   ProjectError: fewer than two are named, or an animation uses one that goes
    """
    wanted = set(names)
    parts = [frame for frame in project.sheet(sheet).frames if frame.name in wanted]
    if len(parts) < 2:
        raise ProjectError(f"sheet {sheet}: choose two frames or more to join")
    left, top = min(f.box[0] for f in parts), min(f.box[1] for f in parts)
    right, bottom = max(f.box[0] + f.box[2] for f in parts), max(f.box[1] + f.box[3] for f in parts)
    first = parts[0]
    shift = (first.box[0] - left, first.box[1] - top)
    hits = [
        (f.box[0] - left + f.hit_box[0], f.box[1] - top + f.hit_box[1], f.hit_box[2], f.hit_box[3])
        for f in parts
        if f.hit_box is not None
    ]
    whole = replace(
        first,
        box=(left, top, right - left, bottom - top),
        pivot=(first.pivot[0] + shift[0], first.pivot[1] + shift[1]),
        hit_box=_union(hits) if hits else None,
    )
    rest = [f for f in project.sheet(sheet).frames if f.name not in wanted or f is first]
    return put_frames(project, sheet, [whole if f is first else f for f in rest])


def split_frame(project: Project, sheet: str, name: str, axis: int, at_px: int) -> Project:
    """Make two frames of one, cut at a line across (axis 0) or down (axis 1) its box.

    at_px    first column or row of the second part, counted from the box
    raises   ProjectError: a part would be empty
    """
    frames = list(project.sheet(sheet).frames)
    place = next(n for n, frame in enumerate(frames) if frame.name == name)
    frame = frames[place]
    if not 0 < at_px < frame.box[2 + axis]:
        raise ProjectError(f"frame {name}: cut at {at_px} px; must be 1 to {frame.box[2 + axis] - 1}")
    near, far = list(frame.box), list(frame.box)
    near[2 + axis] = at_px
    far[axis] += at_px
    far[2 + axis] -= at_px
    taken = {other.name for other in frames}
    second = next(f"{name}-{n}" for n in range(2, len(frames) + 3) if f"{name}-{n}" not in taken)
    parts = [
        Frame(name=part, box=(b[0], b[1], b[2], b[3]), pivot=((b[2] - 1) // 2, b[3] - 1), flags=frame.flags)
        for part, b in ((name, near), (second, far))
    ]
    return put_frames(project, sheet, [*frames[:place], *parts, *frames[place + 1 :]])


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


def _union(boxes: Sequence[tuple[int, int, int, int]]) -> tuple[int, int, int, int]:
    left, top = min(b[0] for b in boxes), min(b[1] for b in boxes)
    right, bottom = max(b[0] + b[2] for b in boxes), max(b[1] + b[3] for b in boxes)
    return left, top, right - left, bottom - top

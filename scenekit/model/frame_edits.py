"""Changes to the frames of a sheet, each from a whole document to a new one."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from scenekit.errors import ProjectError
from scenekit.model.edits import put, put_sheet
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.model.sprites import Animation, Frame


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


def _union(boxes: Sequence[tuple[int, int, int, int]]) -> tuple[int, int, int, int]:
    left, top = min(b[0] for b in boxes), min(b[1] for b in boxes)
    right, bottom = max(b[0] + b[2] for b in boxes), max(b[1] + b[3] for b in boxes)
    return left, top, right - left, bottom - top

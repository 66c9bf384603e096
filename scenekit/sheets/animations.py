"""Makes animations of frames at once: from the delays of a file, or from the groups found on a sheet."""

from collections.abc import Sequence
from dataclasses import dataclass

from scenekit.machines.machine import DisplayMode
from scenekit.machines.profile import load_machine
from scenekit.model.project import Project
from scenekit.model.sprites import Animation, Facing, Step
from scenekit.model.store import inside
from scenekit.slicing.cut import CutFrame
from scenekit.slicing.grouping import FrameGroup
from scenekit.symmetry.flips import FLIP_NAMES, HV, H, V

OPPOSITE = {"right": "left", "left": "right", "up": "down", "down": "up"}
LONGEST_STEP_TICKS = 9999


@dataclass(frozen=True, slots=True, kw_only=True)
class Grouped:
    """What the groups of a sheet become.

    facings   () where no group is another one mirrored
    notes     one sentence for each group
    """

    animations: tuple[Animation, ...]
    facings: tuple[Facing, ...]
    notes: tuple[str, ...]


def first_mode(project: Project) -> DisplayMode:
    """Return the display mode of the project's first target.

    raises   ProjectError, UnknownNameError: no target, or one of an unknown machine or mode
    """
    target = project.target(None)
    own = target.machine.endswith(".toml")
    machine = load_machine(inside(project.folder, target.machine) if own else target.machine)
    return machine.mode(target.mode)


def steps_of(names: Sequence[str], ticks: Sequence[int]) -> tuple[Step, ...]:
    """Return steps; one number of ticks holds for all."""
    each = list(ticks) * len(names) if len(ticks) == 1 else list(ticks)
    return tuple(
        Step(frame=name, ticks=min(LONGEST_STEP_TICKS, count))
        for name, count in zip(names, each, strict=True)
    )


def animations_of_groups(
    sheet: str,
    frames: Sequence[CutFrame],
    groups: Sequence[FrameGroup],
    *,
    ticks: int,
    play: str = "loop",
    names: Sequence[str] = (),
    looks: str = "",
) -> Grouped:
    """Make an animation of each group of frames that are alike; a mirrored group becomes a facing.

    names   for the animations, in order; groups beyond them keep the names of their rows
    looks   the direction in which the first of two mirrored groups looks; "": right, or up
    """
    animations: list[Animation] = []
    notes: list[str] = []
    called: dict[str, str] = {}
    flips: list[int] = []
    for group in groups:
        many = f"{len(group.frames)} frame{'s' if len(group.frames) != 1 else ''}"
        if not group.alike:
            notes.append(f"{group.name}: {many}, {group.reason}; no animation")
        elif group.mirrors and group.flip:
            flips.append(group.flip)
            way = FLIP_NAMES[group.flip]
            notes.append(f"{group.name}: {many}, is {called[group.mirrors]} mirrored {way}; used as a facing")
        elif group.mirrors:
            notes.append(f"{group.name}: {many}, the same as {called[group.mirrors]}; left out")
        else:
            name = names[len(animations)] if len(animations) < len(names) else group.name
            called[group.name] = name
            steps = steps_of([frames[index].name for index in group.frames], [ticks])
            animations.append(Animation(name=name, sheet=sheet, play=play, steps=steps))
            shown = name if name == group.name else f"{group.name} as {name}"
            notes.append(f"{shown}: {many}, {group.reason}")
    return Grouped(animations=tuple(animations), facings=_facings(flips, looks), notes=tuple(notes))


def _facings(flips: Sequence[int], looks: str) -> tuple[Facing, ...]:
    """Return the facing that is drawn, and the one that a flip turns it to."""
    if not flips:
        return ()
    flip = next(code for code in (H, HV, V) if code in flips)
    drawn = looks or ("up" if flip == V else "right")
    return Facing(facing=drawn, flip=0), Facing(facing=OPPOSITE[drawn], flip=flip)

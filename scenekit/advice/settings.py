"""What could be given up so that a scene fits: pictures a second, a part of the view, a display mode."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from scenekit.build import Build
from scenekit.machines.machine import DisplayMode
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.model.target import Target

MOST_TICKS_PER_UPDATE = 4
VIEW_EIGHTHS = (7, 6, 5, 4)
VIEW_STEP_PX = 8
SMALLEST_VIEW_PX = 32


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """A target and scene with something given up.

    words   say what, "" for nothing
    alone   whether it is taken as it is, with no tiles and the like weighed beside it
    """

    words: str
    target: Target
    scene: Scene
    alone: bool = False


def settings_of(
    base: Build, document: Project, *, slower: bool = True, smaller: bool = True, modes: bool = True
) -> Iterator[Setting]:
    """Yield settings in the order in which they are tried: as it is, then what takes ever more away.

    slower   whether fewer pictures a second may be proposed; smaller, modes   likewise a view and a mode
    """
    scene, target = base.scene, base.target
    original = document.scene(scene.name)
    yield Setting(words="", target=target, scene=original)
    if slower:
        for every in range(scene.ticks_per_update + 1, MOST_TICKS_PER_UPDATE + 1):
            hz = float(base.mode.timing.refresh_hz) / every
            words = f"{every} ticks a picture: {hz:.1f} pictures a second"
            yield Setting(words=words, target=target, scene=replace(original, ticks_per_update=every))
    if smaller:
        for view in smaller_views(base):
            words = f"a view of {view[2]} x {view[3]} px instead of {base.size[0]} x {base.size[1]}"
            yield Setting(words=words, target=replace(target, view=view), scene=original)
    if modes:
        for mode in other_modes(base):
            words = f"display mode {mode.name} instead of {base.mode.name}"
            x, y, w, h = target.view or (0, 0, 0, 0)
            if x + w <= mode.width_px and y + h <= mode.height_px:
                yield Setting(words=words, target=replace(target, mode=mode.name), scene=original)


def smaller_views(base: Build) -> list[tuple[int, int, int, int]]:
    """Return views around the middle of the one it has, ever smaller, on whole steps of pixels."""
    x, y, w, h = base.view
    found = []
    for eighths in VIEW_EIGHTHS:
        wide, high = (side * eighths // 8 // VIEW_STEP_PX * VIEW_STEP_PX for side in (w, h))
        if min(wide, high) >= SMALLEST_VIEW_PX:
            found.append((x + (w - wide) // 2, y + (h - high) // 2, wide, high))
    return list(dict.fromkeys(found))


def other_modes(base: Build) -> list[DisplayMode]:
    """Return the machine's other modes of the same kind that have fewer pixels or a longer refresh."""
    now = base.mode

    def pixels(mode: DisplayMode) -> int:
        return mode.width_px * mode.height_px

    found = [
        mode
        for mode in base.machine.modes.values()
        if mode.name != now.name
        and mode.colour == now.colour
        and not mode.palette
        and (pixels(mode) < pixels(now) or mode.timing.period_ms > now.timing.period_ms)
    ]
    return sorted(found, key=lambda mode: (-pixels(mode), mode.name))

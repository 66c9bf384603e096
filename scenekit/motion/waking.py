"""When sprites that sleep are woken by the view coming to their start places."""

from collections import OrderedDict

import numpy as np
from numpy.typing import NDArray

from scenekit.model.scene import Placed, Scene
from scenekit.motion.tracks import cameras_along, shown_scrolls

Whole = NDArray[np.int64]
MOST_SCENES = 4
TICKS_AT_ONCE = 4096
FAR = -30_000
"""Where a sprite that sleeps stands in the view, so that nothing of it is ever seen."""


class _Waking:
    """How far the view has come on each plane, worked out as far as it was asked for."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self.ticks = 0
        self.least: dict[str, Whole] = {}
        self.most: dict[str, Whole] = {}
        self.planes = dict.fromkeys(placed.moves_with for placed in scene.placed if placed.asleep)

    def reach(self, tick: int) -> None:
        while self.ticks <= tick:
            ticks = np.arange(self.ticks, self.ticks + TICKS_AT_ONCE, dtype=np.int64)
            camera = cameras_along(self.scene, ticks)
            for name in self.planes:
                plane = self.scene.planes[self.scene.plane_number(name)]
                scroll = shown_scrolls(self.scene, plane, camera, ticks)[self.scene.wakes.axis]
                low, high = scroll + self.scene.wakes.start, scroll + self.scene.wakes.end
                self.least[name] = _onward(self.least.get(name), low, np.minimum)
                self.most[name] = _onward(self.most.get(name), high, np.maximum)
            self.ticks += TICKS_AT_ONCE

    def woken_at(self, placed: Placed, tick: int) -> int | None:
        self.reach(tick)
        place = placed.at[self.scene.wakes.axis]
        behind = int(np.searchsorted(-self.least[placed.moves_with], -place, side="left"))
        ahead = int(np.searchsorted(self.most[placed.moves_with], place, side="right"))
        first = max(behind, ahead)
        return first if first <= tick else None


def _onward(known: Whole | None, more: Whole, extreme: "np.ufunc") -> Whole:
    whole = more if known is None else np.concatenate((known[-1:], more))
    found = np.asarray(extreme.accumulate(whole), dtype=np.int64)
    return found if known is None else np.concatenate((known, found[1:]))


_KNOWN: "OrderedDict[int, _Waking]" = OrderedDict()


def woken_at(scene: Scene, placed: Placed, tick: int) -> int | None:
    """Return the tick at which a placed sprite was woken, 0 for one that never sleeps, None if it still does.

    It wakes as soon as its start place is not beyond how far the view has come either way until then.
    """
    if not placed.asleep:
        return 0
    known = _KNOWN.get(id(scene))
    if known is None or known.scene is not scene:
        known = _KNOWN[id(scene)] = _Waking(scene)
        while len(_KNOWN) > MOST_SCENES:
            _KNOWN.popitem(last=False)
    return known.woken_at(placed, tick)


def own_tick(scene: Scene, placed: Placed, tick: int) -> int:
    """Return how many ticks a placed sprite has been going on for."""
    woken = woken_at(scene, placed, tick)
    return 0 if woken is None else tick - woken


def own_ticks(scene: Scene, placed: Placed, ticks: Whole) -> tuple[Whole, NDArray[np.bool_]]:
    """Return how many ticks a placed sprite has been going on for at ticks, and where it sleeps."""
    if not placed.asleep:
        return np.maximum(ticks, 0), ticks < 0
    woken = woken_at(scene, placed, int(ticks.max(initial=0)))
    asleep = ticks < (1 << 62 if woken is None else woken)
    return np.where(asleep, 0, ticks - (woken or 0)), asleep


def wake_groups(scene: Scene) -> list[tuple[int, list[int]]]:
    """Return for each plane that carries sleepers its number and theirs, sorted by start place."""
    groups: dict[int, list[int]] = {}
    for number, placed in enumerate(scene.placed):
        if placed.asleep:
            groups.setdefault(scene.plane_number(placed.moves_with), []).append(number)
    axis = scene.wakes.axis
    return [
        (plane, sorted(groups[plane], key=lambda n: (scene.placed[n].at[axis], n)))
        for plane in sorted(groups)
    ]

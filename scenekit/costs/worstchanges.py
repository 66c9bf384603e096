"""The dearest picture of a game whose pictures draw only what changed, where none of them is drawn whole."""

from collections.abc import Iterable, Mapping, Sequence
from math import lcm

import numpy as np

from scenekit.costs.pricing import PriceList, price_amounts
from scenekit.model.scene import Scene
from scenekit.motion.tracks import cameras_along, shown_scrolls
from scenekit.plan.changes import MOST_BOXES, Box, area, cut, most_area, plane_box
from scenekit.plan.changework import LOOKING
from scenekit.plan.counting import counter_of
from scenekit.plan.drawplan import DrawPlanner
from scenekit.plan.work import Work

Pair = tuple[int, int]
MOST_TICKS = 5000
MOST_PLACES = (24, 16)
"""Places along each axis at which a sprite's box is tried, since it cuts tiles there in different ways."""


def due_planes(scene: Scene, back: int) -> frozenset[frozenset[int]]:
    """Return which planes may show a new place together, after the ticks since their page was drawn.

    back   those ticks; every tick at which a picture may be drawn is looked at
    """
    movers = [number for number in range(len(scene.planes)) if moves(scene, number)]
    every = scene.ticks_per_update
    ticks = range(0, min(MOST_TICKS, lcm(every, *(plane.cadence[0] for plane in scene.planes))), every)
    return frozenset(
        frozenset(number for number in movers if is_due(scene.planes[number].cadence, tick, back))
        for tick in ticks
    )


def is_due(cadence: Pair, tick: int, back: int) -> bool:
    """Say whether a plane may show another place at a tick than it did some ticks before."""
    return (tick - cadence[1]) % cadence[0] < back


def moves(scene: Scene, number: int) -> bool:
    """Say whether a plane moves at all: by itself, or with a camera that does."""
    plane, camera = scene.planes[number], scene.camera
    limits = camera.limits
    for axis in (0, 1):
        goes = bool(camera.keeps) or any(segment.speed[axis] for segment in camera.path.segments)
        goes |= limits is not None and limits[axis] != limits[axis + 2]
        if plane.drift[axis] or (plane.ratio[axis] and goes):
            return True
    return False


class ChangesAtWorst:
    """What pictures take in which some planes and all sprites changed, seen from one place of the camera.

    scrolls  of all planes there
    sprites  (width, height) of each one that is on screen
    drawn    the work of drawing each of them once, and of looking at it
    """

    def __init__(
        self,
        planner: DrawPlanner,
        prices: PriceList,
        scrolls: Sequence[Pair],
        sprites: Sequence[Pair],
        drawn: Sequence[Work],
    ) -> None:
        self.planner = planner
        self.prices = prices
        self.scrolls = scrolls
        self.sprites = sprites
        self.drawn = drawn
        self.back = planner.abilities.pages * planner.scene.ticks_per_update
        self.steps = self._steps()

    def _steps(self) -> list[Pair]:
        """Return by how much each plane moves at most, on the time line, while a page is out of sight."""
        scene = self.planner.scene
        ticks = np.arange(scene.ticks, dtype=np.int64)
        old = np.maximum(0, ticks - self.back)
        found = []
        for plane in scene.planes:
            now = shown_scrolls(scene, plane, cameras_along(scene, ticks), ticks)
            then = shown_scrolls(scene, plane, cameras_along(scene, old), old)
            moved = [int(np.abs(a - b).max(initial=0)) for a, b in zip(now, then, strict=True)]
            found.append((moved[0], moved[1]))
        return found

    def strip(self, number: int) -> Box | None:
        """Return the box in which a plane that moved is drawn anew, or None where it is out of view."""
        plane, inked = self.planner.scene.planes[number], self.planner.inked[number]
        box = plane_box(self.planner.view, inked, plane.wrap, self.scrolls[number], self.steps[number])
        return cut(box, self.planner.view) if inked[2] else None

    def work(self, due: Iterable[int]) -> list[Work] | None:
        """Return the work of the picture in which planes are due, or None where it may be drawn whole."""
        strips = [box for box in map(self.strip, sorted(due)) if box is not None]
        boxes = len(strips) + 2 * len(self.sprites)
        pixels = sum(map(area, strips)) + 2 * sum(w * h for w, h in self.sprites)
        if boxes > MOST_BOXES or pixels > most_area(self.planner.view):
            return None
        found = self._looking(boxes, bool(strips))
        for strip in strips:
            found += self.inside(strip)
        kinds = dict.fromkeys(self.sprites)
        for size in kinds:
            found += _times(self.inside(self._dearest(size)), 2 * self.sprites.count(size))
        return [*found, *self.drawn, *(self.drawn_again() if strips else ())]

    def drawn_again(self) -> list[Work]:
        """Return the work of drawing each sprite once more, within the strip of a plane that moved."""
        return [work for work in self.drawn if work.operation != "seen-sprite"]

    def _looking(self, boxes: int, apart: bool) -> list[Work]:
        """Return the work of finding out what changed, no two boxes joined, and of what each box takes."""
        planes, sprites = len(self.planner.scene.planes), len(self.sprites)
        counts = {
            "changes": 1,
            "seen-plane": planes * (2 if apart else 1),
            "box-added": boxes,
            "box-pair": boxes * (boxes - 1) // 2,
            "box": boxes,
            "box-sprite": boxes * sprites,
            "box-plane": 2 * planes * boxes,
        }
        return [
            Work(name=LOOKING, operation=operation, calls=count, rows=0, pixels=0)
            for operation, count in counts.items()
            if count
        ]

    def inside(self, box: Box) -> list[Work]:
        """Return the work of drawing all planes within a box."""
        x, y, w, h = box
        found = [self.planner.clear_work((w, h))] if self.planner.clears else []
        for number, (left, top) in enumerate(self.scrolls):
            found += self.planner.plane_work(number, (left + x, top + y), (w, h))
        return found

    def _dearest(self, size: Pair) -> Box:
        """Return the place in the view, of some all over it, at which planes within a box take most."""
        w, h = (min(side, whole) for side, whole in zip(size, self.planner.view, strict=True))
        across, down = (
            np.unique(np.linspace(0, whole - side, most).astype(np.int64))
            for whole, side, most in zip(self.planner.view, (w, h), MOST_PLACES, strict=True)
        )
        xs, ys = np.repeat(across, len(down)), np.tile(down, len(across))
        sides = np.full_like(xs, w), np.full_like(xs, h)
        times = np.zeros(len(xs))
        for counts, (left, top) in zip(counter_of(self.planner).planes, self.scrolls, strict=True):
            times += price_amounts(counts.at(left + xs, top + ys, sides), self.prices, 0.0)[0]
        place = int(np.argmax(np.round(times, 9)))
        return int(xs[place]), int(ys[place]), w, h


def _times(work: Sequence[Work], count: int) -> list[Work]:
    return [
        Work(
            name=w.name,
            operation=w.operation,
            calls=w.calls * count,
            rows=w.rows * count,
            pixels=w.pixels * count,
        )
        for w in work
    ]


def may_be_whole(planner: DrawPlanner) -> bool:
    """Say whether colours or transitions make pictures be drawn whole, whatever moves."""
    scene = planner.scene
    colours = planner.art.cycles or planner.art.changes[scene.name]
    return bool(scene.transitions) or (bool(colours) and not planner.abilities.recolours)


def sizes_of(shapes: Mapping[str, Pair], held: Mapping[str, int]) -> list[Pair]:
    """Return (width, height) of every sprite that is on screen, from the largest look of each kind."""
    return [shapes[name] for name, number in held.items() for _ in range(number) if shapes[name][0]]

"""Counts pictures of which only what changed is drawn, many ticks at once."""

import numpy as np
from numpy.typing import NDArray

from scenekit.plan.amounts import Amounts
from scenekit.plan.changes import Changes, Pair, Seen, changes
from scenekit.plan.changework import moved_between
from scenekit.plan.drawplan import DrawPlanner
from scenekit.plan.planecounts import PlaneCounts
from scenekit.plan.spritecounts import Scrolls, SpriteCounts

Whole = NDArray[np.int64]
Shown = tuple[Whole, Whole, Whole]
Then = tuple[Whole, Scrolls]


class ChangeCounts:
    """Counts the boxes that pictures draw anew, for a planner whose pictures are moved along."""

    def __init__(self, planner: DrawPlanner, planes: list[PlaneCounts], sprites: SpriteCounts) -> None:
        self.planner = planner
        self.planes = planes
        self.sprites = sprites
        self.shown: list[Shown] = []

    def add(
        self,
        amounts: Amounts,
        looking: Amounts,
        places: Whole,
        now: tuple[Whole, Scrolls],
        old: tuple[Whole, Scrolls],
    ) -> None:
        """Add the work of ticks, which stand at places of the amounts.

        looking   what finding out what changed takes
        now, old  ticks and scroll positions of all planes then: of the pictures, and of their pages before
        """
        planner = self.planner
        found = self._changes(now, old)
        for operation, counts in (
            ("box-added", [c.added for c in found]),
            ("box-pair", [c.pairs for c in found]),
        ):
            looking.of(operation)[0, places] += np.array(counts, dtype=np.int64)
        boxes = np.array(
            [(n, *box) for n, change in enumerate(found) for box in change.boxes], dtype=np.int64
        ).reshape(-1, 5)
        which, x, y, w, h = boxes.T
        inner = Amounts(len(boxes))
        inner.add("box", 1)
        inner.add("box-sprite", len(planner.scene.placed))
        inner.add("box-plane", 2 * len(planner.scene.planes) * ((x != 0) | (y != 0)))
        if planner.clears:
            inner.add("fill", 1, h, w * h)
        for plane, (across, down) in zip(self.planes, now[1], strict=True):
            inner.add_all(plane.at(across[which] + x, down[which] + y, (w, h)))
        for looks, left, top in self.shown:
            self.sprites.add_drawn(inner, looks[which], left[which] - x, top[which] - y, (w, h))
        self.sprites.finish(inner)
        amounts.of("seen-sprite")[0, places] += len(planner.scene.placed)
        for operation, sums in inner.sums.items():
            total = amounts.of(operation)
            for part in range(3):
                np.add.at(total[part], places[which], sums[part])
        self._add_moves(amounts, places, found)

    def _add_moves(self, amounts: Amounts, places: Whole, found: list[Changes]) -> None:
        """Add the pictures that are moved along."""
        for place, change in zip(places.tolist(), found, strict=True):
            if any(change.moved) and not change.whole:
                wide, high = (
                    side - abs(by) for side, by in zip(self.planner.view, change.moved, strict=True)
                )
                amounts.of("move")[:, place] += (1, high, wide * high)

    def _changes(self, now: Then, old: Then) -> list[Changes]:
        """Return what is drawn of each picture; all planes are known to have moved alike."""
        planner, scene = self.planner, self.planner.scene
        moved = [now[1][0][axis] - old[1][0][axis] for axis in (0, 1)]
        self.shown = [self.sprites.boxes(placed, now[0], now[1]) for placed in scene.placed]
        before = [self.sprites.boxes(placed, old[0], old[1]) for placed in scene.placed]
        changed: list[list[int]] = [[] for _ in range(len(now[0]))]
        for number, (new, was) in enumerate(zip(self.shown, before, strict=True)):
            other = (new[0] != was[0]) | (was[1] - moved[0] != new[1]) | (was[2] - moved[1] != new[2])
            for place in np.flatnonzero(other).tolist():
                changed[place].append(number)
        art = planner.art
        simple = not scene.transitions and (
            planner.abilities.recolours or not (art.cycles or art.changes[scene.name])
        )
        found = []
        for place, numbers in enumerate(changed):
            by: Pair | None = (int(moved[0][place]), int(moved[1][place]))
            if not simple:
                by = moved_between(planner, int(now[0][place]), int(old[0][place]))
            pairs = ((self._seen(before[n], place), self._seen(self.shown[n], place)) for n in numbers)
            found.append(changes(planner.view, by, pairs))
        return found

    def _seen(self, shown: Shown, place: int) -> Seen:
        look = int(shown[0][place])
        _, _, wide, high, piece, flip = (int(part) for part in self.sprites.shapes[look])
        box = (int(shown[1][place]), int(shown[2][place]), wide, high)
        return Seen(box=box, piece=piece, flip=flip, look=look)

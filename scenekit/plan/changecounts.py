"""Counts pictures of which only what changed is drawn, many ticks at once."""

import numpy as np
from numpy.typing import NDArray

from scenekit.plan.amounts import Amounts
from scenekit.plan.boxesalong import Apart, ManyChanges, Moved, changes_along
from scenekit.plan.drawplan import DrawPlanner
from scenekit.plan.planecounts import PlaneCounts
from scenekit.plan.spritecounts import Scrolls, SpriteCounts

Whole = NDArray[np.int64]
Flags = NDArray[np.bool_]
Then = tuple[Whole, Scrolls]
AT_ONCE = 4096
"""Pictures that are counted at the same time, which bounds the memory that it takes."""


class ChangeCounts:
    """Counts the boxes that pictures draw anew, for a planner whose pictures are moved along."""

    def __init__(self, planner: DrawPlanner, planes: list[PlaneCounts], sprites: SpriteCounts) -> None:
        self.planner = planner
        self.planes = planes
        self.sprites = sprites

    def add(self, amounts: Amounts, looking: Amounts, places: Whole, now: Then, old: Then) -> None:
        """Add the work of ticks, which stand at places of the amounts.

        looking   what finding out what changed takes
        now, old  ticks and scroll positions of all planes then: of the pictures, and of their pages before
        """
        for first in range(0, len(places), AT_ONCE):
            part = slice(first, first + AT_ONCE)
            self._add(amounts, looking, places[part], _part(now, part), _part(old, part))

    def _add(self, amounts: Amounts, looking: Amounts, places: Whole, now: Then, old: Then) -> None:
        looks, x, y = self._shown(now, old)
        moved, split, apart = self._moved(now, old)
        x[0] -= moved[0]
        y[0] -= moved[1]
        changed = (looks[0] != looks[1]) | (x[0] != x[1]) | (y[0] != y[1])
        wide, high = self.sprites.shapes[:, 2][looks], self.sprites.shapes[:, 3][looks]
        sprites = Moved(changed=changed, x=x, y=y, w=wide, h=high)
        found = changes_along(self.planner.view, moved, sprites, apart)
        looking.of("box-added")[0, places] += found.added
        looking.of("seen-plane")[0, places] += len(now[1]) * split
        looking.of("box-pair")[0, places] += found.pairs
        amounts.of("seen-sprite")[0, places] += len(self.planner.scene.placed)
        self._add_moves(amounts, places, moved, found)
        self._add_boxes(amounts, places, now, found.boxes)
        self._add_sprites(amounts, places, (looks[1], x[1], y[1]), found.boxes)

    def _moved(self, now: Then, old: Then) -> tuple[tuple[Whole, Whole], Flags, list[Apart]]:
        """Return how far all planes moved alike, 0 where they moved apart, where that is, and what moved."""
        steps = np.array(now[1]) - np.array(old[1])
        split = (steps != steps[:1]).any(axis=(0, 1))
        moved = np.where(split, 0, steps[0])
        found = []
        planes = zip(self.planner.scene.planes, self.planner.inked, now[1], steps, strict=True)
        for plane, inked, scroll, step in planes:
            who = np.flatnonzero(split & step.any(axis=0))
            if not len(who) or not inked[2]:
                continue
            sides = [np.full(len(who), side) for side in (0, 0, *self.planner.view)]
            for axis in (0, 1):
                if not plane.wrap[axis]:
                    by = step[axis][who]
                    sides[axis] = inked[axis] - scroll[axis][who] + np.minimum(0, by)
                    sides[axis + 2] = inked[axis + 2] + np.abs(by)
            found.append((who, (sides[0], sides[1], sides[2], sides[3])))
        return (moved[0], moved[1]), split, found

    def _shown(self, now: Then, old: Then) -> tuple[Whole, Whole, Whole]:
        """Return look, x and y of every sprite, (2, S, T) each: on the page before, then now."""
        ticks, first, which = np.unique(
            np.concatenate([old[0], now[0]]), return_index=True, return_inverse=True
        )
        scrolls = [
            (np.concatenate([a[0], b[0]])[first], np.concatenate([a[1], b[1]])[first])
            for a, b in zip(old[1], now[1], strict=True)
        ]
        placed = self.planner.scene.placed
        found = np.zeros((3, 2, len(placed), len(now[0])), dtype=np.int64)
        for number, sprite in enumerate(placed):
            for part, values in enumerate(self.sprites.boxes(sprite, ticks, scrolls)):
                found[part, :, number] = values[which].reshape(2, -1)
        return found[0], found[1], found[2]

    def _add_moves(
        self, amounts: Amounts, places: Whole, moved: tuple[Whole, Whole], found: ManyChanges
    ) -> None:
        """Add the pictures that are moved along."""
        along = ~found.whole & ((moved[0] != 0) | (moved[1] != 0))
        wide, high = (side - np.abs(by) for side, by in zip(self.planner.view, moved, strict=True))
        amounts.of("move")[:, places] += np.stack([along, along * high, along * wide * high]).astype(np.int64)

    def _add_boxes(self, amounts: Amounts, places: Whole, now: Then, boxes: Whole) -> None:
        """Add what the boxes take beside sprites."""
        planner, (which, x, y, w, h) = self.planner, boxes.T
        inner = Amounts(len(boxes))
        inner.add("box", 1)
        inner.add("box-sprite", len(planner.scene.placed))
        inner.add("box-plane", 2 * len(planner.scene.planes) * ((x != 0) | (y != 0)))
        if planner.clears:
            inner.add("fill", 1, h, w * h)
        for plane, (across, down) in zip(self.planes, now[1], strict=True):
            inner.add_all(plane.at(across[which] + x, down[which] + y, (w, h)))
        _add_up(amounts, inner, places[which])

    def _add_sprites(
        self, amounts: Amounts, places: Whole, shown: tuple[Whole, Whole, Whole], boxes: Whole
    ) -> None:
        """Add sprites that meet boxes of their pictures."""
        which, x, y, w, h = boxes.T
        right, bottom, shapes = x + w, y + h, self.sprites.shapes
        met: list[tuple[Whole, Whole, Whole, Whole]] = []
        for looks, left, top in zip(*shown, strict=True):
            ends = left + shapes[looks, 2], top + shapes[looks, 3]
            meets = (left[which] < right) & (ends[0][which] > x)
            meets &= (top[which] < bottom) & (ends[1][which] > y)
            box = np.flatnonzero(meets)
            at = which[box]
            met.append((box, looks[at], left[at] - x[box], top[at] - y[box]))
        if not met:
            return
        box, looks, left, top = (np.concatenate(parts) for parts in zip(*met, strict=True))
        inner = Amounts(len(box))
        self.sprites.add_drawn(inner, looks, left, top, (w[box], h[box]))
        self.sprites.finish(inner)
        _add_up(amounts, inner, places[which[box]])


def _part(then: Then, part: slice) -> Then:
    return then[0][part], [(across[part], down[part]) for across, down in then[1]]


def _add_up(amounts: Amounts, inner: Amounts, places: Whole) -> None:
    """Add amounts to those of the places that each of them belongs to."""
    for operation, sums in inner.sums.items():
        total = amounts.of(operation)
        for part in range(3):
            if sums[part].any():
                np.add.at(total[part], places, sums[part])

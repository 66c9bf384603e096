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
Small = NDArray[np.int32] | NDArray[np.int64]
Then = tuple[Whole, Scrolls]
Sides = tuple[Small, Small]
AT_ONCE, BOXES_AT_ONCE = 3072, 4096
"""Pictures, and boxes, that are counted at the same time, which bounds the memory that it takes."""

FAR_AWAY = 1 << 30
"""Places from which on numbers of 32 bits do not do."""


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
        if not len(places):
            return
        shown, which = self._shown(now, old)
        for first in range(0, len(places), AT_ONCE):
            part = slice(first, first + AT_ONCE)
            then = _at(shown, which[0, part]), _at(shown, which[1, part])
            self._add(amounts, looking, places[part], _part(now, part), _part(old, part), then)

    def _add(
        self,
        amounts: Amounts,
        looking: Amounts,
        places: Whole,
        now: Then,
        old: Then,
        then: tuple[Small, Small],
    ) -> None:
        """Add the work of some pictures; then: look and sides of every sprite, (5, S, T), before and now."""
        moved, split, apart = self._moved(now, old)
        before = [side - moved[axis % 2].astype(side.dtype) for axis, side in enumerate(then[0][1:])]
        changed = then[0][0] != then[1][0]
        changed |= (before[0] != then[1][1]) | (before[1] != then[1][2])
        sprites = Moved(changed=changed, before=before, now=tuple(then[1][1:]))
        found = changes_along(self.planner.view, moved, sprites, apart)
        looking.of("box-added")[0, places] += found.added
        looking.of("seen-plane")[0, places] += len(now[1]) * split
        looking.of("box-pair")[0, places] += found.pairs
        amounts.of("seen-sprite")[0, places] += len(self.planner.scene.placed)
        self._add_moves(amounts, places, moved, found)
        self._add_boxes(amounts, places, now, found.boxes)
        for first in range(0, len(found.boxes), BOXES_AT_ONCE):
            self._add_sprites(amounts, places, then[1], found.boxes[first : first + BOXES_AT_ONCE])

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

    def _shown(self, now: Then, old: Then) -> tuple[Small, Whole]:
        """Return look, left, top, right and bottom of every sprite at every tick that matters, (5, S, U); and
        of which of these the pages before and the pictures are, (2, T).
        """
        ticks, first, which = np.unique(
            np.concatenate([old[0], now[0]]), return_index=True, return_inverse=True
        )
        scrolls = [
            (np.concatenate([a[0], b[0]])[first], np.concatenate([a[1], b[1]])[first])
            for a, b in zip(old[1], now[1], strict=True)
        ]
        placed = self.planner.scene.placed
        found: Small = np.zeros((5, len(placed), len(ticks)), dtype=np.int32)
        for number, sprite in enumerate(placed):
            looks, x, y = self.sprites.boxes(sprite, ticks, scrolls)
            ends = x + self.sprites.wide.take(looks), y + self.sprites.high.take(looks)
            for part, values in enumerate((looks, x, y, *ends)):
                if found.dtype == np.int32 and not -FAR_AWAY < values.min() <= values.max() < FAR_AWAY:
                    found = found.astype(np.int64)
                found[part, number] = values
        return found, which.reshape(2, -1)

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

    def _add_sprites(self, amounts: Amounts, places: Whole, shown: Small, boxes: Whole) -> None:
        """Add sprites that meet boxes of their pictures.

        shown   look, left, top, right and bottom of every sprite in every picture, (5, S, T)
        """
        which, x, y, w, h = boxes.T
        looks, left, top, right, bottom = shown
        small = boxes.astype(left.dtype).T
        meets = left.take(which, axis=1) < small[1] + small[3]
        meets &= right.take(which, axis=1) > small[1]
        meets &= top.take(which, axis=1) < small[2] + small[4]
        meets &= bottom.take(which, axis=1) > small[2]
        sprite, box = np.nonzero(meets)
        met = sprite, which[box]
        inner = Amounts(len(box))
        self.sprites.add_drawn(
            inner,
            looks[met].astype(np.int64),
            left[met].astype(np.int64) - x[box],
            top[met].astype(np.int64) - y[box],
            (w[box], h[box]),
        )
        self.sprites.finish(inner)
        _add_up(amounts, inner, places[which[box]])


def _at(shown: Small, which: Whole) -> Small:
    """Return what is shown at some ticks, a view where they follow each other."""
    if (np.diff(which) == 1).all():
        return shown[:, :, which[0] : which[-1] + 1]
    return shown[:, :, which]


def _part(then: Then, part: slice) -> Then:
    return then[0][part], [(across[part], down[part]) for across, down in then[1]]


def _add_up(amounts: Amounts, inner: Amounts, places: Whole) -> None:
    """Add amounts to those of the places that each of them belongs to."""
    for operation, sums in inner.sums.items():
        total = amounts.of(operation)
        for part in range(3):
            if sums[part].any():
                np.add.at(total[part], places, sums[part])

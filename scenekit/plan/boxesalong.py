"""Which boxes many pictures draw anew, all at once; picture by picture it equals `changes`."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from scenekit.plan.changes import MOST_BOXES, most_area

Whole = NDArray[np.int64]
Small = NDArray[np.int32]
Some = NDArray[np.int32] | NDArray[np.int64]
Flags = NDArray[np.bool_]
Corners = tuple[Whole, Whole, Whole, Whole]
FREE = -(1 << 30)
"""The area of a box that is none: joined with another it is never small enough."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Moved:
    """Sprites of many pictures, as their pages show them moved along and as they are now.

    changed      (S, T) which look or stand otherwise
    before, now  left, top, right and bottom of their boxes, (S, T) each, empty for what is not drawn
    """

    changed: Flags
    before: Sequence[Some]
    now: Sequence[Some]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ManyChanges:
    """What many pictures take.

    whole         (T,) whether everything is drawn, as one box
    added, pairs  (T,) boxes that were added to find that out, and held against another
    boxes         (N, 5) the number of a picture and its box, in order
    """

    whole: Flags
    added: Whole
    pairs: Whole
    boxes: Whole


class ManyBoxes:
    """Boxes of each of many pictures: left, top, right, bottom and area by place, (MOST_BOXES, T) each."""

    def __init__(self, view: tuple[int, int], count: int) -> None:
        self.view = view
        self.sides = np.zeros((4, MOST_BOXES, count), dtype=np.int32)
        self.areas = np.full((MOST_BOXES, count), FREE, dtype=np.int32)
        self.counts = np.zeros(count, dtype=np.int64)
        self.full = np.zeros(count, dtype=bool)
        self.added = np.zeros(count, dtype=np.int64)
        self.pairs = np.zeros(count, dtype=np.int64)

    def add(self, who: Whole, x: Some, y: Some, w: Some, h: Some) -> None:
        """Add a box to each of some pictures, joined with others wherever that is no larger."""
        self.added[who] += 1
        self.join(who, self.cut((x, y, x + w, y + h)))

    def cut(self, sides: Sequence[Some]) -> Small:
        """Return the sides of boxes, cut at the view's edges."""
        left, top, right, bottom = sides
        cut = np.empty((4, *right.shape), dtype=np.int32)
        cut[0], cut[1] = np.maximum(left, 0), np.maximum(top, 0)
        cut[2] = np.maximum(np.minimum(right, self.view[0]), -1)
        cut[3] = np.maximum(np.minimum(bottom, self.view[1]), -1)
        return cut

    def shows(self, sides: Sequence[Some]) -> Flags:
        """Return which boxes the view shows a part of."""
        left, top, right, bottom = sides
        shown = (left < self.view[0]) & (right > 0) & (left < right)
        return np.asarray(shown & (top < self.view[1]) & (bottom > 0) & (top < bottom))

    def join(self, who: Whole, sides: Small) -> None:
        """Join a box, by its sides within the view, with those of each of some pictures."""
        seen = np.flatnonzero((sides[0] < sides[2]) & (sides[1] < sides[3]))
        if len(seen) < len(who):
            who, sides = who[seen], sides.take(seen, axis=1)
        while len(who):
            who, sides = self._held_against(who, sides)

    def _held_against(self, who: Whole, new: Small) -> tuple[Whole, Small]:
        """Hold new boxes against those of their pictures; return the pictures in which two were joined."""
        most = int(self.counts[who].max())
        joins = np.zeros((1, len(who)), dtype=bool)
        if most:
            left, top, right, bottom = self.sides[:, :most].take(who, axis=2)
            wide = np.maximum(right, new[2]) - np.minimum(left, new[0])
            high = np.maximum(bottom, new[3]) - np.minimum(top, new[1])
            joins = wide * high <= self.areas[:most].take(who, axis=1) + _area(new)
        place = joins.argmax(axis=0)
        joined = joins[place, np.arange(len(who))]
        self.pairs[who] += np.where(joined, place + 1, self.counts[who])
        self._append(who[~joined], new[:, ~joined])
        who, place, new = who[joined], place[joined], new[:, joined]
        old = self.sides[:, place, who]
        self._take_out(who, place)
        return who, np.concatenate([np.minimum(new[:2], old[:2]), np.maximum(new[2:], old[2:])])

    def _append(self, who: Whole, new: Small) -> None:
        room = self.counts[who] < MOST_BOXES
        self.full[who[~room]] = True
        who, new = who[room], new[:, room]
        self.sides[:, self.counts[who], who] = new
        self.areas[self.counts[who], who] = _area(new)
        self.counts[who] += 1

    def _take_out(self, who: Whole, place: Whole) -> None:
        """Take boxes out; the last one of a picture comes into its place."""
        self.counts[who] -= 1
        last = self.counts[who]
        self.sides[:, place, who] = self.sides[:, last, who]
        self.areas[place, who] = self.areas[last, who]
        self.areas[last, who] = FREE


def _area(sides: Small) -> Small:
    return np.asarray((sides[2] - sides[0]) * (sides[3] - sides[1]), dtype=np.int32)


Apart = tuple[Whole, Corners]


def changes_along(
    view: tuple[int, int], moved: tuple[Whole, Whole], sprites: Moved, apart: Sequence[Apart] = ()
) -> ManyChanges:
    """Return what is drawn of pictures whose planes all moved alike, by less than the view, or moved apart.

    moved   (x, y), each (T,), 0 where they moved apart
    apart   for each plane the pictures in which it moved, apart from others, and its boxes (x, y, w, h)
    """
    count = len(moved[0])
    boxes = ManyBoxes(view, count)
    _add_edges(boxes, view, moved)
    for who, corners in apart:
        free = ~boxes.full[who]
        boxes.add(who[free], *(part[free] for part in corners))
    _add_sprites(boxes, sprites)
    areas = np.where(boxes.areas > 0, boxes.areas, 0).sum(axis=0, dtype=np.int64)
    whole = boxes.full | (areas > most_area(view))
    held = np.where(whole, 0, boxes.counts)
    which = np.repeat(np.arange(count), np.where(whole, 1, held))
    place = np.arange(len(which)) - np.searchsorted(which, which)
    left, top, right, bottom = boxes.sides[:, place, which].astype(np.int64)
    found = np.stack([which, left, top, right - left, bottom - top], axis=1)
    found[whole[which], 1:] = (0, 0, *view)
    return ManyChanges(whole=whole, added=boxes.added, pairs=boxes.pairs, boxes=found)


def _add_edges(boxes: ManyBoxes, view: tuple[int, int], moved: tuple[Whole, Whole]) -> None:
    """Add the columns and then the rows that come into view."""
    for axis in (0, 1):
        who = np.flatnonzero(moved[axis])
        by = moved[axis][who]
        start, all_of_it = np.where(by > 0, view[axis] - by, 0), np.zeros_like(by)
        across = (start, all_of_it, np.abs(by), all_of_it + view[1])
        down = (all_of_it, start, all_of_it + view[0], np.abs(by))
        boxes.add(who, *(down if axis else across))


def _add_sprites(boxes: ManyBoxes, sprites: Moved) -> None:
    """Add where sprites that changed were and are: the first that changed of every picture, then the next.

    Those that the view shows neither before nor now are counted, without going through them.
    """
    turns = np.cumsum(sprites.changed, axis=0, dtype=np.int32)
    done = turns[-1].astype(np.int64) if len(turns) else np.zeros_like(boxes.added)
    done[boxes.full] = 0
    shown = sprites.changed & (boxes.shows(sprites.before) | boxes.shows(sprites.now))
    sprite, picture = np.nonzero(shown)
    rounds = np.cumsum(shown, axis=0, dtype=np.int32)[sprite, picture]
    order = np.argsort(rounds, kind="stable")
    sprite, picture = sprite[order], picture[order]
    turn = turns[sprite, picture]
    then, now = (
        boxes.cut([side[sprite, picture] for side in sides]) for sides in (sprites.before, sprites.now)
    )
    ends = np.cumsum(np.bincount(rounds)).tolist()
    for first, end in pairwise(ends):
        free = first + np.flatnonzero(~boxes.full[picture[first:end]])
        who = picture[free]
        boxes.join(who, then.take(free, axis=1))
        boxes.join(who, now.take(free, axis=1))
        filled = boxes.full[who]
        done[who[filled]] = turn[free[filled]]
    boxes.added += 2 * done

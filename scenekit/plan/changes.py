"""Which boxes of a picture are drawn anew when the rest of it is moved along, as the routines decide it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

Box = tuple[int, int, int, int]
Pair = tuple[int, int]
MOST_BOXES = 24
"""Boxes of one picture; with more of them everything is drawn."""


def most_area(view: Pair) -> int:
    """Return how many pixels of a view boxes may hold, three quarters; with more everything is drawn."""
    return 3 * view[0] * view[1] // 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """A sprite as drawn: its box in the view (no width when nothing is drawn), piece, flip, and look.

    look   4 x frame + flip, of the frame that is drawn
    """

    box: Box
    piece: int
    flip: int
    look: int

    def moved(self, by: Pair) -> Box:
        """Return its box after the picture moved by (x, y)."""
        return self.box[0] - by[0], self.box[1] - by[1], self.box[2], self.box[3]


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """What a picture takes: moved by (x, y), then these boxes drawn; or everything, as one box.

    apart   whether planes moved apart, so that the picture stays and those that moved are drawn anew
    added   boxes that were added to find that out
    pairs   how often one of them was held against another
    """

    moved: Pair
    boxes: tuple[Box, ...]
    whole: bool
    apart: bool = False
    added: int = 0
    pairs: int = 0


class Boxes:
    """Boxes of the view that are drawn anew."""

    def __init__(self, view: Pair) -> None:
        self.view = view
        self.found: list[Box] = []
        self.full = False
        self.added = 0
        self.pairs = 0

    def add(self, box: Box) -> None:
        """Add a box, cut at the view's edges; joined with others wherever that is no larger."""
        self.added += 1
        new = cut(box, self.view)
        if new is None:
            return
        number = 0
        while number < len(self.found):
            self.pairs += 1
            old = self.found[number]
            joined = union(new, old)
            if area(joined) <= area(new) + area(old):
                new = joined
                last = self.found.pop()
                if number < len(self.found):
                    self.found[number] = last
                number = 0
            else:
                number += 1
        if len(self.found) == MOST_BOXES:
            self.full = True
        else:
            self.found.append(new)


def changes(
    view: Pair,
    moved: Pair | None,
    sprites: Iterable[tuple[Seen, Seen]],
    apart: Sequence[Box] | None = None,
) -> Changes:
    """Return what is drawn of a picture.

    moved     pixels that all planes moved alike since the page was drawn, (0, 0) when they moved apart,
              None when it is drawn whole anyway
    sprites   each as the page shows it, and as it is now
    apart     boxes of the planes that moved, where planes moved apart
    """
    everything = Changes(moved=(0, 0), boxes=((0, 0, *view),), whole=True)
    if moved is None or abs(moved[0]) >= view[0] or abs(moved[1]) >= view[1]:
        return everything
    boxes = Boxes(view)
    for box in edges(view, moved) if apart is None else apart:
        if boxes.full:
            break
        boxes.add(box)
    for before, now in sprites:
        if boxes.full:
            break
        if before.look != now.look or before.moved(moved) != now.box:
            boxes.add(before.moved(moved))
            boxes.add(now.box)
    found = everything
    if not boxes.full and sum(area(box) for box in boxes.found) <= most_area(view):
        found = Changes(moved=moved, boxes=tuple(boxes.found), whole=False)
    return replace(found, apart=apart is not None, added=boxes.added, pairs=boxes.pairs)


def plane_box(view: Pair, inked: Box, wrap: tuple[bool, bool], now: Pair, moved: Pair) -> Box:
    """Return the box of the view in which a plane was and is shown.

    inked   the box of all that its picture shows
    now     how far it has scrolled, moved pixels further than before
    """
    starts, sizes = [0, 0], list(view)
    for axis in (0, 1):
        if not wrap[axis]:
            starts[axis] = inked[axis] - now[axis] + min(0, moved[axis])
            sizes[axis] = inked[axis + 2] + abs(moved[axis])
    return starts[0], starts[1], sizes[0], sizes[1]


def edges(view: Pair, moved: Pair) -> list[Box]:
    """Return the columns and rows that come into view."""
    x, y = moved
    found: list[Box] = []
    if x:
        found.append((view[0] - x, 0, x, view[1]) if x > 0 else (0, 0, -x, view[1]))
    if y:
        found.append((0, view[1] - y, view[0], y) if y > 0 else (0, 0, view[0], -y))
    return found


def cut(box: Box, view: Pair) -> Box | None:
    """Return the part of a box that the view shows, or None."""
    left, top = max(0, box[0]), max(0, box[1])
    right, bottom = min(view[0], box[0] + box[2]), min(view[1], box[1] + box[3])
    return (left, top, right - left, bottom - top) if left < right and top < bottom else None


def union(a: Box, b: Box) -> Box:
    """Return the smallest box around two."""
    left, top = min(a[0], b[0]), min(a[1], b[1])
    right, bottom = max(a[0] + a[2], b[0] + b[2]), max(a[1] + a[3], b[1] + b[3])
    return left, top, right - left, bottom - top


def area(box: Box) -> int:
    """Return the pixels of a box."""
    return box[2] * box[3]


def meet(a: Box, b: Box) -> bool:
    """Say whether two boxes share a pixel."""
    across = a[0] < b[0] + b[2] and b[0] < a[0] + a[2]
    return a[2] > 0 and b[2] > 0 and across and a[1] < b[1] + b[3] and b[1] < a[1] + a[3]

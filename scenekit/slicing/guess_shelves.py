"""Read a sheet as a packer's shelves: trimmed sprites hang from one line, side by side, by falling height."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt

Mask = npt.NDArray[np.bool_]
Floats = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]

WIDEST_GUTTER_PX = 4
LEAST_SPRITES = 12
LEAST_HEIGHTS = 4
"""Least different heights: sprites of one height are a grid's."""
MOST_WORK = 60_000
"""Most pairs of stretches of columns with art, all shelves together."""
LOOK_PX = 1 << 22
"""Larger sheets are not looked through."""
LOOSE = 0.02
"""What a sprite costs that does not reach its shelf's line."""
LOOSE_GAP = 8
"""Least gap beside such a sprite, in gutters."""
AREA_COST = 1e-5
"""What a pixel of a box costs: so many pixels of emptiness are worth a sprite of its own."""
EDGE_GAP = 1 << 20
"""The gap beside the outermost sprites."""
LEAST_HANGING = 0.75
"""Least share of the sprites that reach their shelf's line."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shelves:
    """Sprites on shelves.

    boxes    (N, 4) left, top, right, bottom
    hanging  how many reach the line of their shelf
    gutter   empty pixels between neighbours
    """

    boxes: Integers
    hanging: int
    gutter: int


def find_shelves(mask: Mask) -> Shelves | None:
    """Return the sprites of a sheet on shelves of any of the eight orientations; None where there are none.

    mask   (H, W) bool
    """
    best: Shelves | None = None
    if mask.size > LOOK_PX:
        return None
    for turned in (False, True):
        view = np.ascontiguousarray(mask.T) if turned else mask
        stretches = stretches_of(np.any(view, axis=1))
        gutter = common_gutter(stretches)
        if not gutter:
            continue
        for upside in (False, True):
            for backwards in (False, True):
                own = view[:: -1 if upside else 1, :: -1 if backwards else 1]
                found = read_shelves(own, gutter)
                if found is None or (best is not None and found.hanging <= best.hanging):
                    continue
                boxes = turned_back(found.boxes, view.shape, upside, backwards)
                boxes = boxes[:, [1, 0, 3, 2]] if turned else boxes
                best = Shelves(boxes=boxes, hanging=found.hanging, gutter=gutter)
    return best


def turned_back(boxes: Integers, shape: tuple[int, ...], upside: bool, backwards: bool) -> Integers:
    """Return boxes found on a mirrored view as they lie on the view."""
    out = boxes.copy()
    for flipped, axis, length in ((backwards, 0, shape[1]), (upside, 1, shape[0])):
        if flipped:
            out[:, axis], out[:, axis + 2] = length - boxes[:, axis + 2], length - boxes[:, axis]
    return out


def stretches_of(lines: Mask) -> Integers:
    """Return the stretches of True as (N, 2) start and exclusive end."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], lines, [False]]).astype(np.int8)))
    return edges.reshape(-1, 2)


def common_gutter(stretches: Integers) -> int:
    """Return the narrowest gap between stretches; 0 where even that is wide or there are fewer than two."""
    gap = int((stretches[1:, 0] - stretches[:-1, 1]).min(initial=WIDEST_GUTTER_PX + 1))
    return gap if gap <= WIDEST_GUTTER_PX else 0


def read_shelves(mask: Mask, gutter: int) -> Shelves | None:
    """Return sprites that hang from the tops of shelves and get lower to the right, as shelves downwards."""
    shelves = stretches_of(np.any(mask, axis=1))
    if (np.diff(shelves[:, 1] - shelves[:, 0]) >= 0).any():
        return None
    columns = [stretches_of(np.any(mask[top:bottom], axis=0)) for top, bottom in shelves.tolist()]
    if sum(len(part) ** 2 for part in columns) > MOST_WORK:
        return None
    boxes: list[Integers] = []
    hanging = 0
    for (top, bottom), part in zip(shelves.tolist(), columns, strict=True):
        shelf = np.ascontiguousarray(mask[top:bottom])
        found, own = part_shelf(shelf, part, gutter)
        found = widest_first(shelf, found, gutter)
        boxes.append(found + np.array([0, top, 0, top]))
        hanging += own
    every = np.concatenate(boxes)
    heights = np.unique(every[:, 3] - every[:, 1]).size
    if len(every) < LEAST_SPRITES or heights < LEAST_HEIGHTS or hanging < LEAST_HANGING * len(every):
        return None
    return Shelves(boxes=every, hanging=hanging, gutter=gutter)


def part_shelf(shelf: Mask, columns: Integers, gutter: int) -> tuple[Integers, int]:
    """Part a shelf into most sprites whose heights do not rise, each reaching the top, a gutter apart.

    columns  (N, 2) stretches of columns with art
    returns  (M, 4) boxes on the shelf; how many reach the top
    """
    height, count = shelf.shape[0], len(columns)
    lines = np.arange(height)[:, None]
    first = np.array([int(np.where(shelf[:, a:b], lines, height).min()) for a, b in columns.tolist()])
    last = np.array([int(np.where(shelf[:, a:b], lines, -1).max()) for a, b in columns.tolist()]) + 1
    gaps = np.concatenate([[EDGE_GAP], columns[1:, 0] - columns[:-1, 1], [EDGE_GAP]])
    # the best count by: whether the last sprite hangs, where the next begins, the least height of the last
    scores = np.full((2, count + 1, height + 2), -np.inf)
    scores[0, 0, : height + 1] = 0.0
    origin = np.zeros(
        (2, count + 1, height + 2, 3), np.int64
    )  # start of the last sprite, height, state before
    for end in range(1, count + 1):
        tops = np.minimum.accumulate(first[:end][::-1])[::-1]
        lows = np.maximum.accumulate(last[:end][::-1])[::-1]
        for start in range(end - 1, -1, -1):
            low, wide = int(lows[start]), int(columns[end - 1, 1] - columns[start, 0])
            if tops[start] == 0 and gaps[end] >= gutter:
                before = int(gaps[start] == gutter and scores[1, start, low] > scores[0, start, low])
                value = scores[before, start, low] + 1 - AREA_COST * wide * low
                better = scores[1, end, : low + 1] < value
                scores[1, end, : low + 1][better] = value
                origin[1, end, : low + 1][better] = (start, low, before)
            elif min(gaps[start], gaps[end]) >= LOOSE_GAP * max(
                gutter, int(gaps[start + 1 : end].max(initial=0))
            ):
                earlier = scores[1, start] > scores[0, start]
                value = (
                    np.where(earlier, scores[1, start], scores[0, start])
                    - LOOSE
                    - AREA_COST * wide * (low - int(tops[start]))
                )
                better = scores[0, end] < value
                scores[0, end][better] = value[better]
                origin[0, end][better] = np.stack(
                    [np.full(value.size, start), np.full(value.size, -1), earlier], axis=1
                )[better]
    return walk_back(scores, origin, columns, first, last)


def walk_back(
    scores: Floats, origin: Integers, columns: Integers, first: Integers, last: Integers
) -> tuple[Integers, int]:
    """Return the boxes of the best parting of a shelf, and how many reach its top."""
    end, least, hanging = len(columns), 0, 0
    state = int(scores[1, end, 0] > scores[0, end, 0])
    if not np.isfinite(scores[state, end, 0]):
        whole = [columns[0, 0], first.min(), columns[-1, 1], last.max()]
        return np.array([whole], np.int64), 0
    boxes = []
    while end:
        start, low, state = origin[state, end, least].tolist()
        boxes.append([columns[start, 0], first[start:end].min(), columns[end - 1, 1], last[start:end].max()])
        if low >= 0:
            hanging, least = hanging + 1, low
        end = start
    return np.array(boxes[::-1], np.int64), hanging


def widest_first(shelf: Mask, boxes: Integers, gutter: int) -> Integers:
    """Move the line between sprites of one height to where fewest are wider than the one before.

    Only where the heights stay and both sprites still reach the top; of equal places the last. Packers that
    sort by height sort equals by width: common practice.
    """
    out = boxes.copy()
    for at in range(len(out) - 1):
        left, right = out[at], out[at + 1]
        if left[1] or right[1] or left[3] != right[3]:
            continue
        before, after = (
            [int(near[2] - near[0]) for near in beside if near[3] == left[3]]
            for beside in (out[max(at - 1, 0) : at], out[at + 2 : at + 3])
        )
        ranked = []
        for end, start in lines_between(shelf, int(left[0]), int(right[2]), int(left[3]), gutter):
            widths = [*before, end - int(left[0]), int(right[2]) - start, *after]
            ranked.append((-sum(one < two for one, two in pairwise(widths)), end, start))
        if ranked:
            left[2], right[0] = max(ranked)[1:]
    return out


def lines_between(shelf: Mask, start: int, end: int, low: int, gutter: int) -> list[tuple[int, int]]:
    """Return the empty stretches, a gutter wide, that part a stretch into two sprites of its height.

    returns  first empty column and first of the second sprite, for each
    """
    part = shelf[:low, start:end]
    found = []
    stretches = stretches_of(np.any(part, axis=0))
    for one, two in zip(stretches[:-1, 1].tolist(), stretches[1:, 0].tolist(), strict=True):
        sides = (part[:, :one], part[:, two:])
        if two - one == gutter and all(side[0].any() and side[-1].any() for side in sides):
            found.append((start + one, start + two))
    return found

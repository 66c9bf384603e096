"""Join islands of art that belong to one sprite."""

import numpy as np
import numpy.typing as npt

from scenekit.slicing.runs import join_pairs

Mask = npt.NDArray[np.bool_]
Integers = npt.NDArray[np.int64]

CHUNK = 256
"""Rows of box pairs looked at together."""
MOST_JOINED = 6000
"""Beyond so many islands nothing is joined: the sheet is noise or a texture."""


def near(boxes: Integers, distance: int) -> tuple[Integers, Integers]:
    """Return the pairs of boxes with a gap of at most `distance` along both axes; below 0 they overlap."""
    left, top, right, bottom = (boxes[:, k].astype(np.int32) for k in range(4))
    ones, twos = [], []
    for start in range(0, len(boxes), CHUNK):
        part = slice(start, start + CHUNK)
        across = np.maximum(left[part, None], left[None]) - np.minimum(right[part, None], right[None])
        down = np.maximum(top[part, None], top[None]) - np.minimum(bottom[part, None], bottom[None])
        one, two = np.nonzero(np.maximum(across, down) <= distance)
        ones.append(one + start)
        twos.append(two)
    return np.concatenate(ones), np.concatenate(twos)


def join(boxes: Integers, distance: int) -> Integers:
    """Join boxes with gaps of at most `distance`, then those that overlap, until none is left.

    distance  in pixels; -1 joins only boxes that overlap
    returns   (M, 4) in reading order of their top left corners
    """
    reach = distance
    while 1 < len(boxes) <= MOST_JOINED:
        one, two = near(boxes, reach)
        roots = join_pairs(len(boxes), one, two)
        heads = np.flatnonzero(roots == np.arange(len(boxes)))
        count, group = heads.size, np.searchsorted(heads, roots)
        if count == len(boxes):
            if reach == -1:
                break
            reach = -1
            continue
        joined = np.empty((count, 4), np.int64)
        joined[:, :2] = np.iinfo(np.int64).max
        joined[:, 2:] = -1
        np.minimum.at(joined[:, :2], group, boxes[:, :2])
        np.maximum.at(joined[:, 2:], group, boxes[:, 2:])
        boxes, reach = joined, -1
    return boxes[np.lexsort((boxes[:, 0], boxes[:, 1]))]


DISTANCES = (-1, 0, 1, 2, 3, 4, 6, 8, 12, 16, 24)


def joinings(boxes: Integers, merge_px: int = 0) -> list[tuple[float, int, Integers]]:
    """Rank the distances at which islands may be joined, by how alike in size the joined boxes are.

    merge_px  the distance the user gives, else 0

    returns  (bits a box, distance, joined boxes), best first
    """
    if merge_px:
        return [(0.0, merge_px, join(boxes, merge_px))]
    out: list[tuple[float, int, Integers]] = []
    for distance in DISTANCES:
        joined = join(out[-1][2] if out else boxes, distance)
        if out and len(joined) == len(out[-1][2]):
            continue
        out.append((unlikeness(joined) + 0.04 * (distance + 1), distance, joined))
        if len(joined) < max(2, len(boxes) // 64):
            break
    return sorted(out, key=lambda item: (round(item[0], 6), item[1]))


def unlikeness(boxes: Integers) -> float:
    """Return the spread of the boxes' widths and heights, in powers of two."""
    if len(boxes) < 2:
        return 2.0
    sides = np.log2((boxes[:, 2:] - boxes[:, :2]).astype(np.float64) + 1)
    return float(np.abs(sides - np.median(sides, axis=0)).mean(axis=0).sum())


TANGLED_ISLANDS = 12
TANGLED_SHARE = 0.5


def tangled(found: Integers, ranked: list[tuple[float, int, Integers]]) -> bool:
    """Say whether most islands' boxes overlap, so that islands are no sprites.

    found   all islands
    ranked  from joinings
    """
    if len(found) < TANGLED_ISLANDS:
        return False
    by_distance = {distance: joined for _, distance, joined in ranked}
    joined = by_distance[min(by_distance)]
    areas = (joined[:, 2:] - joined[:, :2]).prod(axis=1)
    own = (found[:, 2:] - found[:, :2]).prod(axis=1)
    return bool(areas.max() > TANGLED_SHARE * areas.sum() and areas.max() > 3 * own.max())

"""Find islands of art from the runs of pixels in its rows, without a picture of labels."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Mask = npt.NDArray[np.bool_]
Integers = npt.NDArray[np.int64]

MOST_RUNS = 1 << 20
"""Beyond so many runs a picture of labels takes less memory."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Runs:
    """Stretches of art pixels within rows, in reading order.

    starts, ends   places along the rows laid end to end, each row followed by one empty place; exclusive ends
    stride         places a row
    """

    starts: Integers
    ends: Integers
    stride: int


def find_runs(mask: Mask) -> Runs:
    """Return the runs of a mask.

    mask     (H, W) bool
    """
    height, width = mask.shape
    padded = np.zeros((height, width + 1), np.bool_)
    padded[:, :width] = mask
    flat = padded.reshape(-1)
    changes = np.flatnonzero(flat[1:] != flat[:-1]) + 1
    if flat[:1].any():
        changes = np.concatenate([np.zeros(1, changes.dtype), changes])
    return Runs(starts=changes[::2], ends=changes[1::2], stride=width + 1)


def islands_of_runs(runs: Runs) -> tuple[Integers, Integers]:
    """Join runs that touch at sides or corners in neighbouring rows.

    returns  (N,) number of each run's island, in the order of the islands' first pixels; (M,) each island's
             first run
    """
    first = np.searchsorted(runs.ends, runs.starts - runs.stride, side="left")
    last = np.searchsorted(runs.starts, runs.ends - runs.stride, side="right")
    counts = np.maximum(last - first, 0)
    below = np.repeat(np.arange(counts.size), counts)
    above = np.arange(below.size) - np.repeat(np.cumsum(counts) - counts - first, counts)
    roots = join_pairs(counts.size, above, below)
    heads = np.flatnonzero(roots == np.arange(roots.size))
    return np.searchsorted(heads, roots), heads


def join_pairs(count: int, one: Integers, two: Integers) -> Integers:
    """Return for each of `count` things the lowest thing it hangs together with through pairs.

    one, two  (P,) the pairs
    """
    parent = np.arange(count)
    while one.size:
        a, b = parent[one], parent[two]
        apart = a != b
        one, two, a, b = one[apart], two[apart], a[apart], b[apart]
        np.minimum.at(parent, np.maximum(a, b), np.minimum(a, b))
        while True:
            higher = parent[parent]
            if np.array_equal(higher, parent):
                break
            parent = higher
    return parent


def island_boxes(mask: Mask, wide: Mask | None = None) -> tuple[Integers, Integers]:
    """Return the boxes of the 8-connected islands and how many pixels each has.

    mask     (H, W) bool
    wide     (H, W) bool, True wherever mask is: decides what hangs together where it is given
    returns  (N, 4) left, top, right, bottom in reading order of their first pixel; (N,)
    """
    joining = find_runs(mask if wide is None else wide)
    if joining.starts.size > MOST_RUNS:
        return labelled_boxes(mask, wide)
    number, heads = islands_of_runs(joining)
    runs = joining
    if wide is not None:
        runs = find_runs(mask)
        number = number[np.searchsorted(joining.starts, runs.starts, side="right") - 1]
    boxes = np.empty((heads.size, 4), np.int64)
    boxes[:, :2] = np.iinfo(np.int64).max
    boxes[:, 2:] = 0
    row = runs.starts // runs.stride
    np.minimum.at(boxes[:, 0], number, runs.starts - row * runs.stride)
    np.minimum.at(boxes[:, 1], number, row)
    np.maximum.at(boxes[:, 2], number, runs.ends - row * runs.stride)
    np.maximum.at(boxes[:, 3], number, row + 1)
    sizes = np.bincount(number, runs.ends - runs.starts, heads.size).astype(np.int64)
    return boxes, sizes


def labelled_boxes(mask: Mask, wide: Mask | None = None) -> tuple[Integers, Integers]:
    """Do the same through a picture of labels."""
    from scipy import ndimage

    labels, count = ndimage.label(mask if wide is None else wide, structure=np.ones((3, 3), np.int8))
    if wide is not None:
        labels[~mask] = 0
    found = ndimage.find_objects(labels, count)
    boxes = np.array([(p[1].start, p[0].start, p[1].stop, p[0].stop) for p in found], np.int64)
    sizes = np.bincount(labels.reshape(-1), minlength=count + 1)[1:].astype(np.int64)
    return boxes.reshape(-1, 4), sizes

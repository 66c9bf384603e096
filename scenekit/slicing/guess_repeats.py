"""Find art that comes again elsewhere on a sheet: in a grid it comes again whole cells further on."""

from math import log2

import numpy as np
import numpy.typing as npt

Mask = npt.NDArray[np.bool_]
Colours = npt.NDArray[np.uint32]
Floats = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]

WINDOW_PX = 4
"""Side of the squares of pixels that are looked for elsewhere."""
LOOK_PX = 1 << 20
"""Larger sheets are not looked through."""
LEAST_DISTANCE_PX = 3
"""Art repeats at shorter distances by itself: lines, hatchings."""
LEAST_PAIRS = 8
"""Distances of fewer pairs are chance."""
PAIRS_A_WITNESS = 32
"""So many pairs tell something once; twice as many are one witness more."""
MOST_BITS = 4.0
"""What a witness says for a period at most: longer ones are not told from their halves."""
FACTORS = (0x9E3779B97F4A7C15, 0xC2B2AE3D27D4EB4F, 0x165667B19E3779F9, 0xD6E8FEB86659FD93)
"""Odd numbers with bits set all over, for mixing."""


def repeated_art(packed: Colours, mask: Mask) -> Integers:
    """Return where squares of art that are not of one colour come again next, in reading order.

    packed   (H, W) a number for each colour
    returns  (P, 4) x and y of a square's top left, x and y of the next equal one's
    """
    height, width = mask.shape
    if min(height, width) < WINDOW_PX or mask.size > LOOK_PX:
        return np.zeros((0, 4), np.int64)
    values = np.where(mask, packed, np.uint32(0)).astype(np.uint64)
    rows, columns = height - WINDOW_PX + 1, width - WINDOW_PX + 1
    mixed = np.zeros((height, columns), np.uint64)
    for shift, factor in enumerate(FACTORS):
        mixed += values[:, shift : shift + columns] * np.uint64(factor)
    mixed ^= mixed >> np.uint64(29)
    marks = np.zeros((rows, columns), np.uint64)
    for shift, factor in enumerate(reversed(FACTORS)):
        marks = marks * np.uint64(factor) + mixed[shift : shift + rows]
    found = np.flatnonzero(telling(values, mask))
    order = np.argsort(marks.reshape(-1)[found], kind="stable")
    found, marks = found[order], marks.reshape(-1)[found[order]]
    again = marks[1:] == marks[:-1]
    y, x = np.divmod(np.stack([found[:-1][again], found[1:][again]]), columns)
    return np.stack([x[0], y[0], x[1], y[1]], axis=1)


def telling(values: npt.NDArray[np.uint64], mask: Mask) -> Mask:
    """Mark the squares that are half art or more and not of one colour, by their top left pixels."""
    rows, columns = mask.shape[0] - WINDOW_PX + 1, mask.shape[1] - WINDOW_PX + 1
    art = np.zeros((rows, columns), np.uint8)
    varied = np.zeros((rows, columns), np.bool_)
    for down in range(WINDOW_PX):
        for across in range(WINDOW_PX):
            part = slice(down, down + rows), slice(across, across + columns)
            art += mask[part]
            varied |= values[part] != values[:rows, :columns]
    return varied & (2 * art >= WINDOW_PX**2)


def repeat_bits(distances: Integers, length: int) -> Floats:
    """Return for each period how well it explains the distances at which art comes again.

    Distances that are whole periods speak for it, others against it; below half of them it gets nothing.

    distances  (P,) along one axis
    returns    (length,) bits by period
    """
    bits = np.zeros(max(length, 1), np.float64)
    counts = np.bincount(np.abs(distances), minlength=length)
    counts[:LEAST_DISTANCE_PX] = 0
    counts[counts < LEAST_PAIRS] = 0
    total = int(counts.sum())
    witnesses = log2(1 + total / PAIRS_A_WITNESS)
    for period in range(2, length if total else 0):
        share = int(counts[period::period].sum()) / total
        bits[period] = witnesses * min(log2(period), MOST_BITS) * max(2 * share - 1, 0.0)
    return bits

"""Find the tight content boxes of all cells of a grid at once."""

import numpy as np
import numpy.typing as npt

Mask = npt.NDArray[np.bool_]
Bits = npt.NDArray[np.uint8]
Integers = npt.NDArray[np.int64]


def band_columns(packed: Bits, width: int, starts: Integers, ends: Integers) -> Mask:
    """Say for each band of rows which columns hold art.

    packed   (H, W / 8 rounded up) uint8, the mask's rows in bits
    width    W
    starts   (R,) first row of each band; bands do not overlap
    ends     (R,) row after the last of each band
    returns  (R, W) bool
    """
    out = np.zeros((starts.size, packed.shape[1]), np.uint8)
    for index, (start, end) in enumerate(zip(starts.tolist(), ends.tolist(), strict=True)):
        np.bitwise_or.reduce(packed[start:end], axis=0, out=out[index])
    return np.unpackbits(out, axis=1, count=width).astype(np.bool_)


def extents(lines: Mask, starts: Integers, ends: Integers) -> tuple[Integers, Integers]:
    """Return first and one past the last True of every stretch of every row; equal when there is none.

    lines    (R, W) bool
    starts   (C,) ascending, stretches do not overlap
    returns  two (R, C) arrays
    """
    width = lines.shape[1]
    where = np.arange(width, dtype=np.int64)
    cuts = np.stack([starts, ends], axis=1).reshape(-1)
    cuts = cuts[:-1] if cuts[-1] >= width else cuts
    first = np.minimum.reduceat(np.where(lines, where, width), np.minimum(cuts, width - 1), axis=1)[:, ::2]
    last = np.maximum.reduceat(np.where(lines, where, -1), np.minimum(cuts, width - 1), axis=1)[:, ::2] + 1
    first = np.where(last > 0, first, 0)
    return first, last


def merge_contents(
    by_band: Mask, by_column: Mask, columns: tuple[Integers, Integers], rows: tuple[Integers, Integers]
) -> Integers:
    """Return the tight box of art in every cell, row by row.

    by_band    (R, W) from band_columns of the mask
    by_column  (C, H) from band_columns of the turned mask
    columns    starts and ends of the C cell columns
    returns    (R, C, 4) left, top, right, bottom; all 0 where a cell is empty
    """
    left, right = extents(by_band, *columns)
    top, bottom = extents(by_column, *rows)
    boxes = np.stack([left, top.T, right, bottom.T], axis=-1)
    boxes[(right <= left) | (bottom.T <= top.T)] = 0
    return boxes


def gapped(lines: Mask, starts: Integers, ends: Integers) -> Mask:
    """Say for every stretch of every row whether an empty gap parts its True values.

    lines    (R, W) bool
    returns  (R, C) bool
    """
    rises = lines.copy()
    rises[:, 1:] &= ~lines[:, :-1]
    inner = rises.copy()
    inner[:, starts] = lines[:, starts]
    sums = np.concatenate(
        [np.zeros((lines.shape[0], 1), np.int64), np.cumsum(inner, axis=1, dtype=np.int64)], axis=1
    )
    parted: Mask = sums[:, ends] - sums[:, starts] > 1
    return parted

"""Weigh every line between two pixel columns as a place where cells may meet."""

from collections.abc import Iterator
from math import log2

import numpy as np
import numpy.typing as npt

Mask = npt.NDArray[np.bool_]
Pixels = npt.NDArray[np.uint8]
Floats = npt.NDArray[np.float64]
Counts = npt.NDArray[np.int64]

ROWS_PX = 512
"""Most rows that are looked at."""
LEAST_SPREAD = 0.25
"""Least variance of counts that are looked at for a rhythm."""
LEAST_REST = 0.01
"""Share of the variance that no period is believed to explain."""
JUMP = 8
"""Smallest step of a channel that counts as a jump of colour."""
SHARPNESS = 0.25
"""Exponent of the assumed distribution of ranks at true lines: density a * u ** (a - 1)."""


def crossings(pixels: Pixels, mask: Mask) -> tuple[Counts, Counts, Counts]:
    """Count the pixel pairs that run on across each vertical line, and those that jump in colour there.

    A pair jumps when both pixels are art and its step is larger than the steps on either side of it.

    pixels   (H, W, 4) uint8
    mask     (H, W) bool
    returns  three (W + 1,) arrays, the last of the rows with art on either side; line x lies left of column x
    """
    height, width = mask.shape
    step = max(1, -(-height // ROWS_PX))
    part, art = pixels[::step], mask[::step]
    both = art[:, 1:] & art[:, :-1]
    size = np.zeros(both.shape, np.uint8)
    for channel in range(3):
        plane = np.ascontiguousarray(part[..., channel])
        left, right = plane[:, :-1], plane[:, 1:]
        np.maximum(size, np.maximum(left, right) - np.minimum(left, right), out=size)
    size[~both] = 0
    beside = np.zeros_like(size)
    if width > 2:
        np.maximum(beside[:, 1:], size[:, :-1], out=beside[:, 1:])
        np.maximum(beside[:, :-1], size[:, 1:], out=beside[:, :-1])
    jump = size > np.minimum(beside, 255 - JUMP) + JUMP
    on, over = np.zeros(width + 1, np.int64), np.zeros(width + 1, np.int64)
    over[1:width] = np.count_nonzero(jump, axis=0)
    on[1:width] = np.count_nonzero(both, axis=0) - over[1:width]
    beside_art = np.zeros(width + 1, np.int64)
    beside_art[1:width] = np.count_nonzero(art[:, 1:] | art[:, :-1], axis=0)
    return on, over, beside_art


def rank_bits(on: Counts, reach: int) -> Floats:
    """Return for each line the evidence, in bits, that it is a line between cells.

    A line is ranked by its crossings among the lines up to `reach` away; equal counts share their ranks.

    on       (W + 1,) crossings that run on
    returns  (W + 1,) float64; 0 at the picture's sides
    """
    inner = on[1:-1].astype(np.float64)
    if inner.size < 3:
        return np.zeros(on.shape, np.float64)
    reach = min(reach, inner.size - 1)
    padded = np.concatenate([np.full(reach, np.nan), inner, np.full(reach, np.nan)])
    windows = np.lib.stride_tricks.sliding_window_view(padded, 2 * reach + 1)
    total = np.count_nonzero(~np.isnan(windows), axis=1)
    below = np.count_nonzero(windows < inner[:, None], axis=1) / total
    upto = np.count_nonzero(windows <= inner[:, None], axis=1) / total
    density = (upto**SHARPNESS - below**SHARPNESS) / (upto - below)
    bits = np.zeros(on.shape, np.float64)
    bits[1:-1] = np.log2(density)
    return bits


def rhythm_bits(on: Counts, over: Counts, art: Mask) -> Floats:
    """Return for each period how much better the counts of lines are told from the lines of the same phase.

    The gain is that of a fit by phase means over one mean, less the price of the means by their number; lines
    that are like their neighbours count for less, by the usual factor for a series of first order.

    on, over  (W + 1,) from crossings
    art       (W,) columns that hold art
    returns   (W // 2 + 1,) bits; 0 where a period explains nothing
    source    Schwarz (1978), Estimating the dimension of a model: half log2 n bits a parameter
    """
    gain = np.zeros(art.size // 2 + 1, np.float64)
    where = np.flatnonzero(art)
    if where.size < 8:
        return gain
    lines = slice(int(where[0]) + 1, int(where[-1]) + 1)
    for counts in (on[lines].astype(np.float64), over[lines].astype(np.float64)):
        size = counts.size
        spread = counts - counts.mean()
        total = float((spread**2).sum())
        if total < LEAST_SPREAD * size:
            continue
        likeness = min(max(float((spread[1:] * spread[:-1]).sum()) / total, 0.0), 0.999)
        free = (1 - likeness) / (1 + likeness)
        for period in range(2, size // 2 + 1):
            rows, rest = divmod(size, period)
            sums = np.add.reduce(spread[: rows * period].reshape(rows, period), axis=0)
            sums[:rest] += spread[rows * period :]
            longer, shorter = sums[:rest], sums[rest:]
            explained = float(longer @ longer) / (rows + 1) + float(shorter @ shorter) / rows
            left = max(total - explained, 0.0) + total * LEAST_REST
            gain[period] += free * (0.5 * size * log2(total / left) - 0.5 * period * log2(size))
    return np.maximum(gain, 0.0)


def folds_of(bits: Floats, periods: range) -> Iterator[tuple[int, Floats]]:
    """Sum the evidence of all lines of each phase, for each period: (period, (period,) float64)."""
    lines = bits.size
    padded = np.zeros(lines + periods.stop, np.float64)
    padded[:lines] = bits
    for period in periods:
        rows = -(-lines // period)
        yield period, np.add.reduce(padded[: rows * period].reshape(rows, period), axis=0)

"""Look at a sheet along one axis: what its lines are crossed by, and where art lies between them."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from scenekit.slicing.guess_axis import Axis
from scenekit.slicing.guess_cells import band_columns
from scenekit.slicing.guess_lines import JUMP

Mask = npt.NDArray[np.bool_]
Bits = npt.NDArray[np.uint8]
Pixels = npt.NDArray[np.uint8]
Integers = npt.NDArray[np.int64]
Sums = npt.NDArray[np.int32]

CHUNK = 64
"""Lines counted at a time, which bounds the memory."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Side:
    """A picture seen so that the lines of one axis stand upright, with what was counted once for all grids.

    pixels   (H, W, 4) uint8
    mask     (H, W) bool
    packed   (W, H / 8 rounded up) the turned mask's rows in bits
    lines    the lines that are counted
    sums     (H + 1, L) int32: how many pixel pairs above each row run on across each line
    bands    by period, margin and count of an axis: (cells, H) rows that hold art, of each of its cells
    """

    pixels: Pixels
    mask: Mask
    packed: Bits
    lines: Integers
    sums: Sums
    bands: dict[tuple[int, int, int], Mask] = field(default_factory=dict)

    def band(self, axis: Axis) -> Mask:
        """Say for each cell of an axis which rows hold art: (cells, H) bool."""
        key = (axis.period, axis.margin, axis.count)
        if key not in self.bands:
            cells = axis.cells(self.mask.shape[1])
            self.bands[key] = band_columns(self.packed, self.mask.shape[0], *cells)
        return self.bands[key]

    def unbroken(self, axis: Axis, starts: Integers, ends: Integers) -> Mask:
        """Mark the cells whose left and right sides nothing runs across.

        starts, ends   (R,) rows at which the stretches of the other axis begin and end
        returns        (R, C) bool
        """
        lines = lines_of(axis, self.mask.shape[1])
        inside = (lines > 0) & (lines < self.mask.shape[1])
        crossed = np.zeros((starts.size, lines.size), np.bool_)
        columns = np.searchsorted(self.lines, lines[inside])
        crossed[:, inside] = self.sums[np.ix_(ends, columns)] > self.sums[np.ix_(starts, columns)]
        free: Mask = ~(crossed[:, :-1] | crossed[:, 1:])
        return free


def side(pixels: Pixels, mask: Mask, packed: Bits, axes: Iterable[Axis]) -> Side:
    """Look at a picture along an axis, at the lines of several cuts of it."""
    width = mask.shape[1]
    lines = np.unique(np.concatenate([lines_of(axis, width) for axis in axes]))
    lines = lines[(lines > 0) & (lines < width)]
    sums = np.zeros((mask.shape[0] + 1, lines.size), np.int32)
    for start in range(0, lines.size, CHUNK):
        part = slice(start, start + CHUNK)
        np.cumsum(running_on(pixels, mask, lines[part]), axis=0, dtype=np.int32, out=sums[1:, part])
    return Side(pixels=pixels, mask=mask, packed=packed, lines=lines, sums=sums)


def lines_of(axis: Axis, length: int) -> Integers:
    """Return the lines between which an axis has its cells; a cell's end is the next one's start."""
    starts, ends = axis.cells(length)
    return np.append(starts, ends[-1])


def running_on(pixels: Pixels, mask: Mask, lines: Integers) -> Mask:
    """Mark the pixel pairs that run on across vertical lines: both are art, and no colour jumps there.

    lines    (L,) positions, each inside the picture
    returns  (H, L) bool
    """
    width = mask.shape[1]
    columns = [np.clip(lines + shift, 0, width - 1) for shift in (-2, -1, 0, 1)]
    art = [mask[:, places] for places in columns]
    art[0] &= lines >= 2
    art[3] &= lines + 1 < width
    steps = [np.zeros(art[0].shape, np.uint8) for _ in range(3)]
    for channel in range(3):
        values = [pixels[:, places, channel] for places in columns]
        for step, (left, right) in zip(steps, pairwise(values), strict=True):
            np.maximum(step, np.maximum(left, right) - np.minimum(left, right), out=step)
    both = [one & two for one, two in pairwise(art)]
    beside = np.maximum(steps[0] * both[0], steps[2] * both[2])
    jump = steps[1] > np.minimum(beside, 255 - JUMP) + JUMP
    return both[1] & ~jump

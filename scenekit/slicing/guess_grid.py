"""Find the grids that explain a sheet, from lines that nothing crosses and from where art lies in its cells."""

from dataclasses import dataclass, replace
from math import log2

import numpy as np
import numpy.typing as npt

from scenekit.slicing.guess_cells import band_columns, gapped, merge_contents
from scenekit.slicing.guess_lines import crossed_segments, crossings, fold, rank_bits
from scenekit.slicing.guess_prior import axis_bits

Mask = npt.NDArray[np.bool_]
Pixels = npt.NDArray[np.uint8]
Floats = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]

REACHES = (16, 64, 256)
GUTTER_LIMIT = 8
KEPT_AXES = 8
KEPT_GRIDS = 16
SQUARE_BITS = 3.0
UNEQUAL_BITS = 4.0
PARTED_BITS = 1.5
PAINTED_BITS = 12.0
LOWEST_BITS = -16.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """One axis of a grid.

    bits  evidence minus surprise
    """

    cell: int
    gutter: int
    margin: int
    count: int
    evidence: float
    bits: float

    @property
    def period(self) -> int:
        """Distance between two cell starts."""
        return self.cell + self.gutter

    def starts(self) -> Integers:
        """Where the cells start."""
        return self.margin + self.period * np.arange(self.count, dtype=np.int64)

    def cells(self, length: int) -> tuple[Integers, Integers]:
        """Where the cells, with their gutters, start and end within a picture."""
        starts = self.starts()
        return starts, np.minimum(starts + self.period, length)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GridReading:
    """A grid with the content boxes of its cells; boxes of empty cells have no width.

    contents  (R, C, 4) left, top, right, bottom; exclusive ends
    """

    columns: Axis
    rows: Axis
    contents: Integers
    alignment: float
    bits: float


def count_cells(length: int, margin: int, cell: int, gutter: int) -> int:
    """Return how many cells begin before the end; the last may stick out by less than half of it."""
    period = cell + gutter
    full = (length - margin + gutter) // period
    rest = length - margin - full * period
    return max(1, full + (1 if rest * 2 > cell else 0))


def axis_candidates(pixels: Pixels, mask: Mask, sizes: tuple[int, ...] = ()) -> list[Axis]:
    """Rank the ways to cut a picture into columns.

    sizes  allowed cell sizes, when the user gives them
    """
    on, _ = crossings(pixels, mask)
    length = mask.shape[1]
    whole = Axis(cell=length, gutter=0, margin=0, count=1, evidence=0.0, bits=-axis_bits(length, 0, length, 0))
    evidence = {reach: rank_bits(on, reach) for reach in REACHES}
    found: list[Axis] = []
    for period in range(2, length):
        reach = next((r for r in REACHES if period <= r), REACHES[-1])
        folded = fold(evidence[reach], period)
        found += best_phases(folded, period, length, sizes)
    found.sort(key=lambda axis: (-round(axis.bits, 6), axis.cell, axis.margin, axis.gutter))
    return [*found[:KEPT_AXES], whole]


def best_phases(folded: Floats, period: int, length: int, sizes: tuple[int, ...]) -> list[Axis]:
    """Return the best cuts of one period: with the likely margins, and with the best phase."""
    out = []
    for gutter in range(0, min(GUTTER_LIMIT, period - 2) + 1):
        cell = period - gutter
        if sizes and cell not in sizes:
            continue
        both = folded if gutter == 0 else np.minimum(folded, np.roll(folded, -cell))
        for margin in sorted({0, gutter, gutter // 2, int(np.argmax(both))}):
            count = count_cells(length, margin, cell, gutter)
            if margin >= period or count < 2:
                continue
            gain = float(both[margin % period])
            bits = gain - axis_bits(length, margin, cell, gutter)
            if bits > -12.0:
                out.append(Axis(cell=cell, gutter=gutter, margin=margin, count=count, evidence=gain, bits=bits))
    return out


def grids(pixels: Pixels, mask: Mask) -> list[GridReading]:
    """Rank the grids that may explain a sheet, best first; the last resort is one cell."""
    turned_mask = np.ascontiguousarray(mask.T)
    turned = pixels.swapaxes(0, 1)
    columns = axis_candidates(pixels, mask)
    rows = axis_candidates(turned, turned_mask)
    pairs = sorted(
        ((c.bits + r.bits + square_bits(c, r), -i, -j) for i, c in enumerate(columns) for j, r in enumerate(rows)),
        reverse=True,
    )
    bands: dict[tuple[str, int, int, int], Mask] = {}
    out = []
    for bits, i, j in pairs[:KEPT_GRIDS]:
        column, row = columns[-i], rows[-j]
        if bits < pairs[0][0] - 20:
            break
        for name, axis, where in (("rows", row, mask), ("columns", column, turned_mask)):
            if (name, axis.period, axis.margin, axis.count) not in bands:
                bands[name, axis.period, axis.margin, axis.count] = band_columns(where, *axis.cells(where.shape[0]))
        by_band = bands["rows", row.period, row.margin, row.count]
        by_column = bands["columns", column.period, column.margin, column.count]
        contents = merge_contents(by_band, by_column, column.cells(mask.shape[1]), row.cells(mask.shape[0]))
        parted = gapped(by_band, *column.cells(mask.shape[1])) | gapped(by_column, *row.cells(mask.shape[0])).T
        whole = unbroken(pixels, mask, column, row) & unbroken(turned, turned_mask, row, column).T
        out.append(read_grid(column, row, contents, whole, parted, mask.shape))
    out.sort(key=lambda reading: -round(reading.bits, 6))
    return out


def square_bits(column: Axis, row: Axis) -> float:
    """Return how much likelier a grid is for square cells, and for equal gutters and margins on both axes."""
    square = SQUARE_BITS if column.cell == row.cell else 0.0
    if column.count > 1 and row.count > 1 and column.gutter != row.gutter:
        square -= UNEQUAL_BITS
    return square


def unbroken(pixels: Pixels, mask: Mask, column: Axis, row: Axis) -> Mask:
    """Mark the cells whose left and right sides nothing runs across.

    returns  (R, C) bool
    """
    starts, ends = column.cells(mask.shape[1])
    lines = np.append(starts, ends[-1])
    inside = (lines > 0) & (lines < mask.shape[1])
    crossed = np.zeros((lines.size, row.count), np.int64)
    if inside.any():
        crossed[inside] = crossed_segments(pixels, mask, lines[inside], *row.cells(mask.shape[0]))
    free: Mask = ((crossed[:-1] == 0) & (crossed[1:] == 0)).T
    return free


def read_grid(
    column: Axis, row: Axis, contents: Integers, whole: Mask, parted: Mask, shape: tuple[int, ...]
) -> GridReading:
    """Weigh a grid by where art lies in its cells, and settle its gutter."""
    filled = contents[..., 2] > 0
    at = np.nonzero(filled)
    boxes = contents[filled]
    left = boxes[:, 0] - column.starts()[at[1]]
    right = boxes[:, 2] - column.starts()[at[1]]
    top = boxes[:, 1] - row.starts()[at[0]]
    bottom = boxes[:, 3] - row.starts()[at[0]]
    alignment = 0.0
    if column.count > 1:
        alignment += alignment_bits(left, right, at[1], column.period, whole[filled])
    if row.count > 1:
        alignment += alignment_bits(top, bottom, at[0], row.period, whole[filled])
    best_column = settle(column, left, right, shape[1])
    best_row = settle(row, top, bottom, shape[0])
    bits = best_column.bits + best_row.bits + square_bits(best_column, best_row) + alignment
    if filled.any():
        bits -= PARTED_BITS * tempered(int(filled.sum())) * float(parted[filled].mean())
    return GridReading(columns=best_column, rows=best_row, contents=contents, alignment=alignment, bits=bits)


def alignment_bits(first: Integers, last: Integers, line: Integers, period: int, whole: Mask) -> float:
    """Return how much better one expects a content's place in its cell from those in other rows of cells.

    first, last  extents of the contents, counted from their cells' starts
    line         which cell of the axis each content lies in
    whole        contents that nothing runs out of
    """
    free = ((first > 0) | (last < period)) & whole
    filled = np.unique(line).size
    lines, line = np.unique(line[free], return_inverse=True)
    if lines.size < 2:
        return 0.0
    weight = tempered(filled) * line.size / first.size
    best = 0.0
    for place in (first[free] * 2, last[free] * 2, first[free] + last[free]):
        seen = np.zeros((lines.size, 2 * period + 1), np.float64)
        np.add.at(seen, (line, place), 1.0)
        others = seen.sum(axis=0, keepdims=True) - seen
        total = others.sum(axis=1)[line]
        density = np.full(line.size, 0.25)
        for reach, share in ((2, 0.45), (period // 4, 0.3)):
            density += share * box_mean(others, reach)[line, place] / total * (2 * period)
        best = max(best, float(np.log2(density).mean()) * weight)
    return best


def tempered(count: int) -> float:
    """Return how much so many like witnesses count for: the first few fully, more by their root."""
    return min(count, 6) + max(count - 6, 0) ** 0.5


def box_mean(values: Floats, reach: int) -> Floats:
    """Return the mean over each value and `reach` values on either side; beyond the ends counts as absent."""
    width = values.shape[1]
    sums = np.concatenate([np.zeros((values.shape[0], 1)), np.cumsum(values, axis=1)], axis=1)
    low = np.maximum(np.arange(width) - reach, 0)
    high = np.minimum(np.arange(width) + reach + 1, width)
    mean: Floats = (sums[:, high] - sums[:, low]) / (high - low)
    return mean


def settle(axis: Axis, first: Integers, last: Integers, length: int) -> Axis:
    """Choose cell, gutter and margin of one period: art that stops sharply at both sides speaks for a gutter.

    first, last  extents of the contents, counted from the starts of the cells they lie in
    """
    if axis.count < 2 or first.size == 0:
        return axis
    period, low, high = axis.period, int(first.min()), int(last.max())
    best = axis
    for gutter in range(0, min(GUTTER_LIMIT, period - 2) + 1):
        cell = period - gutter
        for margin in sorted({0, gutter, gutter // 2, axis.margin, (axis.margin + low) % period}):
            shift = (margin - axis.margin + period // 2) % period - period // 2
            if margin >= period or low < shift or high > shift + cell:
                continue
            wall = 0.0
            if gutter:
                for touching in (first == shift, last == shift + cell):
                    wall += log2(1 + int(np.count_nonzero(touching))) * float(np.mean(touching))
            bits = axis.evidence + wall - axis_bits(length, margin, cell, gutter)
            if bits > best.bits + 1e-6:
                count = count_cells(length, margin, cell, gutter)
                best = replace(axis, cell=cell, gutter=gutter, margin=margin, count=count, bits=bits)
    return best

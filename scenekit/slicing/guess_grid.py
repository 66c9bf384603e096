"""Find the grids that explain a sheet, from lines that nothing crosses and from where art lies in its cells."""

from dataclasses import dataclass, replace
from math import log2

import numpy as np
import numpy.typing as npt

from scenekit.slicing.guess_cells import band_columns, gapped, merge_contents
from scenekit.slicing.guess_ground import Ground
from scenekit.slicing.guess_lines import crossed_segments, crossings, fold, rank_bits, rhythm_bits
from scenekit.slicing.guess_prior import axis_bits, size_bits

Mask = npt.NDArray[np.bool_]
Pixels = npt.NDArray[np.uint8]
Floats = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]

REACHES = (16, 64, 256)
GUTTER_LIMIT = 8
KEPT_AXES = 8
KEPT_PERIODS = 40
KEPT_PHASES = 3
KEPT_GRIDS = 16
UNEQUAL_BITS = 4.0
PARTED_BITS = 1.5
BESIDE = 0.5
IRREGULAR_BITS = 5.0
LEFT_OUT_BITS = 12.0
PAINTED_BITS = 12.0
LOWEST_BITS = -16.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Hints:
    """What the user says about the grid; 0 where nothing."""

    width: int = 0
    height: int = 0
    columns: int = 0
    rows: int = 0


NO_HINTS = Hints()


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

    def start_of(self, positions: Integers) -> Integers:
        """Where the cells start that hold these positions."""
        return (positions - self.margin) // self.period * self.period + self.margin

    def cells(self, length: int) -> tuple[Integers, Integers]:
        """Where the cells, with their gutters, start and end within a picture."""
        starts = self.starts()
        return np.maximum(starts, 0), np.minimum(starts + self.period, length)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GridReading:
    """A grid with the content boxes of its cells; boxes of empty cells have no width.

    contents  (R, C, 4) left, top, right, bottom; exclusive ends
    broken    share of the cells with art that art runs out of
    """

    columns: Axis
    rows: Axis
    contents: Integers
    alignment: float
    broken: float
    bits: float


def count_cells(length: int, margin: int, cell: int, gutter: int) -> int:
    """Return how many cells begin before the end; the last may stick out by less than half of it."""
    period = cell + gutter
    full = (length - margin + gutter) // period
    rest = length - margin - full * period
    return max(1, full + (1 if rest * 2 > cell else 0))


def axis_candidates(pixels: Pixels, mask: Mask, painted: Mask, size: int = 0, count: int = 0) -> list[Axis]:
    """Rank the ways to cut a picture into columns.

    painted      (W,) columns that are painted gutters
    size, count  the cell size and the number of cells, where the user gives them, else 0
    """
    on, over, beside = crossings(pixels, mask)
    length = mask.shape[1]
    evidence = {reach: rank_bits(on, reach) + BESIDE * rank_bits(beside, reach) for reach in REACHES}
    art = mask.any(axis=0)
    rhythm, extent = rhythm_bits(on, over, art), art_extent(art)
    folds = {}
    for period in range(2, length):
        reach = next((r for r in REACHES if period <= r), REACHES[-1])
        folds[period] = fold(evidence[reach], period)
        if period < rhythm.size:
            folds[period] = folds[period] + tempered(rhythm[period])
    found: list[Axis] = []
    for period in folds if size or count else promising(folds):
        found += best_phases(folds[period], period, painted, extent, size)
    if count:
        found = [axis for axis in found if axis.count == count]
    found.sort(key=lambda axis: (-round(axis.bits, 6), axis.cell, axis.margin, axis.gutter))
    kept: list[Axis] = []
    for axis in found:
        if len(kept) < KEPT_AXES and sum(other.period == axis.period for other in kept) < KEPT_PHASES:
            kept.append(axis)
    if found and (0 < size < length or count > 1):
        return kept
    return [*kept, one_cell(painted)]


def promising(folds: dict[int, Floats]) -> list[int]:
    """Return the periods that are worth a closer look: those best at any phase, and those best at the first."""
    anywhere = sorted(folds, key=lambda period: (log2(period) / 2 - round(float(folds[period].max()), 6), period))
    at_first = sorted(folds, key=lambda period: (size_bits(period) - round(float(folds[period][0]), 6), period))
    return sorted({*anywhere[:KEPT_PERIODS], *at_first[:KEPT_PERIODS]})


def one_cell(painted: Mask) -> Axis:
    """Return the axis that is not cut, without the painted lines at its sides."""
    inside = np.flatnonzero(~painted)
    low, high = (int(inside[0]), int(inside[-1]) + 1) if inside.size else (0, painted.size)
    bits = -1.0 - (PAINTED_BITS if painted[low:high].any() else 0.0)
    return Axis(cell=high - low, gutter=0, margin=low, count=1, evidence=0.0, bits=bits)


def art_extent(art: Mask) -> tuple[int, int]:
    """Return first and one past the last column with art; (0, 0) where there is none or it fills the whole."""
    where = np.flatnonzero(art)
    if where.size == 0 or (art[0] and art[-1]):
        return 0, 0
    return int(where[0]), int(where[-1]) + 1


def best_phases(
    folded: Floats, period: int, painted: Mask, extent: tuple[int, int], size: int
) -> list[Axis]:
    """Return the best cuts of one period: with the likely margins, and with the best phase."""
    out = []
    length, lines = painted.size, np.flatnonzero(painted)
    for gutter in range(0, min(GUTTER_LIMIT, period - 2) + 1):
        cell = period - gutter
        if size and cell != size:
            continue
        both = folded if gutter == 0 else np.minimum(folded, np.roll(folded, -cell))
        phase = int(np.argmax(both))
        for margin in sorted({0, gutter, gutter // 2, phase, phase - period}):
            count = count_cells(length, margin, cell, gutter)
            if margin >= period or count < 2:
                continue
            gain = float(both[margin % period])
            if (
                extent[1]
                and (extent[0] - margin) % period == 0
                and (extent[1] - extent[0] + gutter) % period == 0
            ):
                gain += log2(period)  # art begins and ends with a cell: by chance one period in so many
            gain += painted_bits(lines, length, margin, cell, gutter)
            bits = gain - axis_bits(length, margin, cell, gutter)
            if bits > LOWEST_BITS or size:
                out.append(
                    Axis(cell=cell, gutter=gutter, margin=margin, count=count, evidence=gain, bits=bits)
                )
    return out


def painted_bits(lines: Integers, length: int, margin: int, cell: int, gutter: int) -> float:
    """Return how well painted lines fit the gutters of an axis."""
    if lines.size == 0:
        return 0.0
    lines = lines[lines < lines[-1] - np.arange(lines.size)[::-1]] if lines[-1] == length - 1 else lines
    inside = (lines >= margin) & ((lines - margin) % (cell + gutter) < cell)
    return -PAINTED_BITS if inside.any() else PAINTED_BITS


def grids(pixels: Pixels, ground: Ground, hints: Hints = NO_HINTS) -> list[GridReading]:
    """Rank the grids that may explain a sheet, best first; the last resort is one cell."""
    mask = ground.mask
    turned_mask = np.ascontiguousarray(mask.T)
    turned = pixels.swapaxes(0, 1)
    columns = axis_candidates(pixels, mask, ground.columns, hints.width, hints.columns)
    rows = axis_candidates(turned, turned_mask, ground.rows, hints.height, hints.rows)
    pairs = sorted(
        (
            (c.bits + r.bits + square_bits(c, r), -i, -j)
            for i, c in enumerate(columns)
            for j, r in enumerate(rows)
        ),
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
                bands[name, axis.period, axis.margin, axis.count] = band_columns(
                    where, *axis.cells(where.shape[0])
                )
        by_band = bands["rows", row.period, row.margin, row.count]
        by_column = bands["columns", column.period, column.margin, column.count]
        contents = merge_contents(by_band, by_column, column.cells(mask.shape[1]), row.cells(mask.shape[0]))
        parted = (
            gapped(by_band, *column.cells(mask.shape[1])) | gapped(by_column, *row.cells(mask.shape[0])).T
        )
        whole = unbroken(pixels, mask, column, row) & unbroken(turned, turned_mask, row, column).T
        out.append(read_grid(column, row, contents, whole, parted, ground, hints))
    out.sort(key=lambda reading: -round(reading.bits, 6))
    return out


def square_bits(column: Axis, row: Axis) -> float:
    """Return how much likelier a grid is for square cells, and for equal gutters and margins on both axes.

    The size of square cells is paid for once.
    """
    square = size_bits(column.cell) if column.cell == row.cell else 0.0
    if irregular(column) or irregular(row):
        square -= IRREGULAR_BITS
    if column.gutter and row.gutter and column.margin != row.margin:
        square -= UNEQUAL_BITS / 2
    if column.count > 1 and row.count > 1 and column.gutter != row.gutter:
        square -= UNEQUAL_BITS
    return square


def unbroken(pixels: Pixels, mask: Mask, column: Axis, row: Axis) -> Mask:
    """Mark the cells whose left and right sides nothing runs across.

    returns  (R, C) bool
    """
    starts, ends = column.cells(mask.shape[1])
    lines = np.append(starts, ends[-1])  # each cell's start is the one before's end
    inside = (lines > 0) & (lines < mask.shape[1])
    crossed = np.zeros((lines.size, row.count), np.int64)
    if inside.any():
        crossed[inside] = crossed_segments(pixels, mask, lines[inside], *row.cells(mask.shape[0]))
    free: Mask = ((crossed[:-1] == 0) & (crossed[1:] == 0)).T
    return free


def irregular(axis: Axis) -> bool:
    """Say whether cells begin where they need not: the sheet was cropped or moved."""
    return axis.count > 1 and (axis.margin < 0 or axis.margin not in (0, axis.gutter, axis.gutter // 2))


def read_grid(
    column: Axis, row: Axis, contents: Integers, whole: Mask, parted: Mask, ground: Ground, hints: Hints
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
    best_column = settle(column, left, right, ground.columns, hints.width)
    best_row = settle(row, top, bottom, ground.rows, hints.height)
    bits = best_column.bits + best_row.bits + square_bits(best_column, best_row) + alignment
    bits -= LEFT_OUT_BITS * (
        left_out(column, ground.mask.any(axis=0)) + left_out(row, ground.mask.any(axis=1))
    )
    if filled.any():
        bits -= PARTED_BITS * tempered(int(filled.sum())) * float(parted[filled].mean())
    broken = 1.0 - float(whole[filled].mean()) if filled.any() else 0.0
    return GridReading(
        columns=best_column,
        rows=best_row,
        contents=contents,
        alignment=alignment,
        broken=broken,
        bits=bits,
    )


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


def left_out(axis: Axis, lines: Mask) -> bool:
    """Say whether art lies before the first or after the last cell."""
    starts, ends = axis.cells(lines.size)
    return bool(lines[: max(int(starts[0]), 0)].any() or lines[int(ends[-1]) :].any())


def settle(axis: Axis, first: Integers, last: Integers, painted: Mask, size: int) -> Axis:
    """Choose cell, gutter and margin of one period: art that stops sharply at both sides speaks for a gutter.

    first, last  extents of the contents, counted from the starts of the cells they lie in
    painted      (length,) the painted lines
    """
    if axis.count < 2 or first.size == 0:
        return axis
    period, low, high, length = axis.period, int(first.min()), int(last.max()), painted.size
    lines = np.flatnonzero(painted)
    size = size if size <= period else 0
    evidence = axis.evidence - painted_bits(lines, length, axis.margin, axis.cell, axis.gutter)
    best: Axis | None = None
    for gutter in range(0, min(GUTTER_LIMIT, period - 2) + 1):
        cell = period - gutter
        if size and cell != size:
            continue
        for margin in sorted({0, gutter, gutter // 2, axis.margin, axis.margin + low}):
            shift = (margin - axis.margin + period // 2) % period - period // 2
            if margin >= period or low < shift or high > shift + cell:
                continue
            wall = 0.0
            if gutter and lines.size == 0:
                for touching in (first == shift, last == shift + cell):
                    wall += log2(max(int(np.count_nonzero(touching)), 1)) * float(np.mean(touching))
            wall += painted_bits(lines, length, margin, cell, gutter)
            bits = evidence + wall - axis_bits(length, margin, cell, gutter)
            if best is None or bits > best.bits + 1e-6:
                count = count_cells(length, margin, cell, gutter)
                best = replace(axis, cell=cell, gutter=gutter, margin=margin, count=count, bits=bits)
                best = replace(best, evidence=evidence)
    return best or axis

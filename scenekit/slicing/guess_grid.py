"""Find the grids that explain a sheet: lines that nothing crosses, and art in its place in every cell."""

from dataclasses import dataclass, replace
from math import log2

import numpy as np
import numpy.typing as npt

from scenekit.slicing.guess_axis import (
    Axis,
    axis_candidates,
    count_cells,
    painted_bits,
    tempered,
)
from scenekit.slicing.guess_cells import gapped, merge_contents
from scenekit.slicing.guess_ground import Ground
from scenekit.slicing.guess_prior import GUTTER_LIMIT, aspect_bits, axis_bits, size_bits
from scenekit.slicing.guess_sides import side

Mask = npt.NDArray[np.bool_]
Pixels = npt.NDArray[np.uint8]
Integers = npt.NDArray[np.int64]

KEPT_GRIDS = 32
FEWER_GRIDS = 16
LARGE_PX = 1 << 22
"""Fewer pairs of axes are looked at on sheets of more pixels."""
UNEQUAL_BITS = 4.0
PARTED_BITS = 1.5
IRREGULAR_BITS = 5.0
LEFT_OUT_BITS = 12.0
SPAN_BITS = 20.0
"""Pairs of axes that fall so far behind the best are not looked at."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hints:
    """What the user says about the grid; 0 where nothing."""

    width: int = 0
    height: int = 0
    columns: int = 0
    rows: int = 0


NO_HINTS = Hints()


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

    @property
    def measures(self) -> tuple[int, ...]:
        """Cell, gutter and margin of columns and rows."""
        one, two = self.columns, self.rows
        return one.cell, one.gutter, one.margin, two.cell, two.gutter, two.margin


def grids(pixels: Pixels, ground: Ground, hints: Hints = NO_HINTS) -> list[GridReading]:
    """Rank the grids that may explain a sheet, best first; the last resort is one cell."""
    mask, turned = ground.mask, pixels.swapaxes(0, 1)
    across, down = (ground.repeats[:, 2:] - ground.repeats[:, :2]).T
    columns = axis_candidates(pixels, mask, ground.columns, across, hints.width, hints.columns)
    rows = axis_candidates(turned, mask.T, ground.rows, down, hints.height, hints.rows)
    pairs = likely_pairs(columns, rows, KEPT_GRIDS if mask.size <= LARGE_PX else FEWER_GRIDS)
    packed = (np.ascontiguousarray(np.packbits(mask, axis=0).T), np.packbits(mask, axis=1))
    art: tuple[Mask, Mask] = (np.any(packed[0], axis=1), np.any(packed[1], axis=1))
    upright = side(pixels, mask, packed[0], (column for column, _ in pairs))
    level = side(turned, mask.T, packed[1], (row for _, row in pairs))
    out = []
    for column, row in pairs:
        across, down = column.cells(mask.shape[1]), row.cells(mask.shape[0])
        by_band, by_column = level.band(row), upright.band(column)
        contents = merge_contents(by_band, by_column, across, down)
        parted = gapped(by_band, *across) | gapped(by_column, *down).T
        whole = upright.unbroken(column, *down) & level.unbroken(row, *across).T
        out.append(read_grid(column, row, contents, whole, parted, ground, art, hints))
    out.sort(key=lambda reading: -round(reading.bits, 6))
    distinct: dict[tuple[int, ...], GridReading] = {}
    for reading in out:
        distinct.setdefault(reading.measures, reading)
    return list(distinct.values())


def likely_pairs(columns: list[Axis], rows: list[Axis], most: int) -> list[tuple[Axis, Axis]]:
    """Return at most so many pairs of axes, best first; none that is far behind the best."""
    pairs = sorted(
        (
            (c.bits + r.bits + square_bits(c, r), -i, -j)
            for i, c in enumerate(columns)
            for j, r in enumerate(rows)
        ),
        reverse=True,
    )
    return [(columns[-i], rows[-j]) for bits, i, j in pairs[:most] if bits >= pairs[0][0] - SPAN_BITS]


def square_bits(column: Axis, row: Axis) -> float:
    """Return how much likelier a grid is for cells of common shape, equal gutters and equal margins.

    The size of square cells is paid for once.
    """
    square = size_bits(column.cell) if column.cell == row.cell else -aspect_bits(column.cell, row.cell)
    if irregular(column) or irregular(row):
        square -= IRREGULAR_BITS
    if column.gutter and row.gutter and column.margin != row.margin:
        square -= UNEQUAL_BITS / 2
    if column.count > 1 and row.count > 1 and column.gutter != row.gutter:
        square -= UNEQUAL_BITS
    return square


def irregular(axis: Axis) -> bool:
    """Say whether cells begin where they need not: the sheet was cropped or moved."""
    return axis.count > 1 and (axis.margin < 0 or axis.margin not in (0, axis.gutter, axis.gutter // 2))


def read_grid(
    column: Axis,
    row: Axis,
    contents: Integers,
    whole: Mask,
    parted: Mask,
    ground: Ground,
    art: tuple[Mask, Mask],
    hints: Hints,
) -> GridReading:
    """Weigh a grid by where art lies in its cells, and settle its gutter.

    art   columns and rows that hold any
    """
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
    for axis, lines in ((column, art[0]), (row, art[1])):
        bits -= LEFT_OUT_BITS if left_out(axis, lines) else 0.0
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
        width = 2 * period + 1
        seen = np.bincount(line * width + place, minlength=lines.size * width).reshape(lines.size, width)
        others = seen.sum(axis=0, keepdims=True) - seen
        sums = np.zeros((lines.size, width + 1), np.int64)
        np.cumsum(others, axis=1, out=sums[:, 1:])
        total = sums[line, width]
        density = np.full(line.size, 0.25)
        for reach, share in ((2, 0.45), (period // 4, 0.3)):
            low, high = np.maximum(place - reach, 0), np.minimum(place + reach + 1, width)
            mean = (sums[line, high] - sums[line, low]) / (high - low)
            density += share * mean / total * (2 * period)
        best = max(best, float(np.log2(density).mean()) * weight)
    return best


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
    lowest, highest = tally(first), tally(last)
    varied = len(lowest) > 1 or len(highest) > 1  # a figure of one size stops at both sides by itself
    size = size if size <= period else 0
    evidence = axis.evidence - painted_bits(lines, length, axis.margin, axis.cell, axis.gutter)
    best: Axis | None = None
    for gutter in range(min(GUTTER_LIMIT, period - 2) + 1):
        cell = period - gutter
        if size and cell != size:
            continue
        for margin in sorted({0, gutter, gutter // 2, axis.margin, axis.margin + low}):
            shift = (margin - axis.margin + period // 2) % period - period // 2
            if margin >= period or low < shift or high > shift + cell:
                continue
            count = count_cells(length, margin, cell, gutter)
            if count < 2 and lines.size == 0:
                continue
            wall = 0.0
            if gutter and lines.size == 0 and varied:
                for touching in (lowest.get(shift, 0), highest.get(shift + cell, 0)):
                    wall += log2(max(touching, 1)) * (touching / first.size)
            wall += painted_bits(lines, length, margin, cell, gutter)
            bits = evidence + wall - axis_bits(length, margin, cell, gutter)
            if best is None or bits > best.bits + 1e-6:
                best = replace(axis, cell=cell, gutter=gutter, margin=margin, count=count, bits=bits)
                best = replace(best, evidence=evidence)
    return best or axis


def tally(values: Integers) -> dict[int, int]:
    """Return how often each value comes."""
    each, counts = np.unique(values, return_counts=True)
    return dict(zip(each.tolist(), counts.tolist(), strict=True))

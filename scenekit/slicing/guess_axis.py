"""Rank the ways to cut one axis of a sheet into equal cells."""

from dataclasses import dataclass
from math import log2, sqrt

import numpy as np
import numpy.typing as npt

from scenekit.slicing.guess_lines import crossings, fold, rank_bits, rhythm_bits
from scenekit.slicing.guess_prior import axis_bits, size_bits

Mask = npt.NDArray[np.bool_]
Pixels = npt.NDArray[np.uint8]
Floats = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]

REACHES = (16, 64, 256)
"""How far a line is compared with others; periods up to a reach use it."""
GUTTER_LIMIT = 8
KEPT_PERIODS = 40
KEPT_AXES = 12
KEPT_PHASES = 6
TRIED_PHASES = 4
"""Places of the first line, best first, that are tried for each period."""
BESIDE = 0.5
"""Weight of the rows with any art beside a line against those that run across it."""
PAINTED_BITS = 12.0
LOWEST_BITS = -16.0
WIDEST_BORDER = 2
"""Widest outline of a cell that is looked for."""
BORDER_BITS = 4.0
"""The surprise that cells have outlines."""


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
    art: Mask = np.any(mask, axis=0)
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
        usual = axis.margin == 0 and axis.gutter == 0 and axis.period in {other.period for other in kept}
        few = len(kept) < KEPT_AXES and sum(other.period == axis.period for other in kept) < KEPT_PHASES
        if few or usual:
            kept.append(axis)
    if found and (0 < size < length or count > 1):
        return kept
    return [*kept, one_cell(painted)]


def promising(folds: dict[int, Floats]) -> list[int]:
    """Return the periods that are worth a closer look: the best at any phase, and the best at the first."""
    anywhere = sorted(
        folds, key=lambda period: (log2(period) / 2 - round(float(folds[period].max()), 6), period)
    )
    at_first = sorted(
        folds, key=lambda period: (size_bits(period) - round(float(folds[period][0]), 6), period)
    )
    return sorted({*anywhere[:KEPT_PERIODS], *at_first[:KEPT_PERIODS]})


def one_cell(painted: Mask) -> Axis:
    """Return the axis that is not cut, without the painted lines at its sides."""
    inside = np.flatnonzero(~painted)
    low, high = (int(inside[0]), int(inside[-1]) + 1) if inside.size else (0, painted.size)
    bits = -1.0 - (PAINTED_BITS if painted[low:high].any() else 0.0)
    return Axis(cell=high - low, gutter=0, margin=low, count=1, evidence=0.0, bits=bits)


def art_extent(art: Mask) -> tuple[int, int]:
    """Return first and one past the last column with art; (0, 0) where none has or all have."""
    where = np.flatnonzero(art)
    if where.size == 0 or (art[0] and art[-1]):
        return 0, 0
    return int(where[0]), int(where[-1]) + 1


def best_phases(folded: Floats, period: int, painted: Mask, extent: tuple[int, int], size: int) -> list[Axis]:
    """Return the best cuts of one period: with the likely margins, and with the best phase."""
    out = []
    length, lines = painted.size, np.flatnonzero(painted)
    for gutter in range(min(GUTTER_LIMIT, period - 2) + 1):
        cell = period - gutter
        if size and cell != size:
            continue
        both = framed(folded) if gutter == 0 else np.minimum(folded, np.roll(folded, -cell))
        phases = np.argsort(-np.round(both, 6), kind="stable")[:TRIED_PHASES].tolist()
        begins = extent[0] % period
        moved = {phase - whole for phase in phases for whole in (0, period)}
        for margin in sorted({0, gutter, gutter // 2, begins} | moved):
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


def framed(folded: Floats) -> Floats:
    """Return the evidence of each phase; that of cells with an outline lies on both sides of the line.

    Where every cell has a border drawn, art runs on from border to border and stops inside them.
    """
    out = folded
    for width in range(1, min(WIDEST_BORDER, (folded.size - 1) // 4) + 1):
        sides = np.minimum(np.roll(folded, width), np.roll(folded, -width))
        out = np.maximum(out, sides - BORDER_BITS)
    return out


def painted_bits(lines: Integers, length: int, margin: int, cell: int, gutter: int) -> float:
    """Return how well painted lines fit the gutters of an axis."""
    if lines.size == 0:
        return 0.0
    lines = lines[lines < lines[-1] - np.arange(lines.size)[::-1]] if lines[-1] == length - 1 else lines
    inside = (lines >= margin) & ((lines - margin) % (cell + gutter) < cell)
    return -PAINTED_BITS if inside.any() else PAINTED_BITS


def tempered(count: int) -> float:
    """Return how much so many like witnesses count for: the first few fully, more by their root."""
    return min(count, 6) + sqrt(max(count - 6, 0))

"""Rank the ways to cut one axis of a sheet into equal cells."""

from dataclasses import dataclass
from math import log2, sqrt

import numpy as np
import numpy.typing as npt

from scenekit.slicing.guess_lines import crossings, folds_of, rank_bits, rhythm_bits
from scenekit.slicing.guess_prior import GUTTER_LIMIT, axis_bits, gutter_bits, least_bits, size_bits
from scenekit.slicing.guess_repeats import repeat_bits

Mask = npt.NDArray[np.bool_]
Pixels = npt.NDArray[np.uint8]
Floats = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]

REACHES = (16, 64, 256)
"""How far a line is compared with others; periods up to a reach use it."""
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


def axis_candidates(
    pixels: Pixels, mask: Mask, painted: Mask, distances: Integers, size: int = 0, count: int = 0
) -> list[Axis]:
    """Rank the ways to cut a picture into columns.

    painted      (W,) columns that are painted gutters
    distances    (P,) columns from some art to where it comes again
    size, count  the cell size and the number of cells, where the user gives them, else 0
    """
    on, over, beside = crossings(pixels, mask)
    length = mask.shape[1]
    evidence = {reach: rank_bits(on, reach) + BESIDE * rank_bits(beside, reach) for reach in REACHES}
    art: Mask = np.any(mask, axis=0)
    rhythm, extent = rhythm_bits(on, over, art), art_extent(art)
    folds: dict[int, Floats] = {}
    for reach, shortest in zip(REACHES, (2, *(reach + 1 for reach in REACHES[:-1])), strict=True):
        longest = reach if reach != REACHES[-1] else length - 1
        folds |= dict(folds_of(evidence[reach], range(shortest, min(longest + 1, length))))
    repeats = repeat_bits(distances, length)
    for period in folds:
        folds[period] += repeats[period] + (tempered(rhythm[period]) if period < rhythm.size else 0.0)
    periods = list(folds) if size or count else promising(folds)
    kept = best_axes(folds, periods, painted, extent, size, count)
    if kept and (0 < size < length or count > 1):
        return kept
    return [*kept, one_cell(painted)]


def best_axes(
    folds: dict[int, Floats],
    periods: list[int],
    painted: Mask,
    extent: tuple[int, int],
    size: int,
    count: int,
) -> list[Axis]:
    """Return the best cuts of several periods; periods none of whose cuts can be among them are left out."""
    sure = (PAINTED_BITS if painted.any() else 0.0) + 1e-5
    most = {
        period: float(folds[period].max()) + (log2(period) if extent[1] else 0.0) - least_bits(period) + sure
        for period in periods
    }
    kept: list[Axis] = []
    for period in sorted(periods, key=lambda period: (-most[period], period)):
        least = kept[KEPT_AXES - 1].bits - 1e-5 if len(kept) >= KEPT_AXES else LOWEST_BITS
        if most[period] < least:
            break
        cuts = best_phases(folds[period], period, painted, extent, size, least)
        fitting = [axis for axis in cuts if not count or axis.count == count]
        if fitting:
            kept = few_of(sorted(kept + fitting, key=rank))
    return kept


def rank(axis: Axis) -> tuple[float, int, int, int]:
    """Return the key that sorts axes: most bits first, then the smaller measures."""
    return -round(axis.bits, 6), axis.cell, axis.margin, axis.gutter


def few_of(ranked: list[Axis]) -> list[Axis]:
    """Return the best axes, of one period not too many, and those that begin at 0 without a gutter."""
    kept: list[Axis] = []
    counts: dict[int, int] = {}
    for axis in ranked:
        own = counts.get(axis.period, 0)
        few = len(kept) < KEPT_AXES and own < KEPT_PHASES
        if few or (own and axis.margin == axis.gutter == 0):
            kept.append(axis)
            counts[axis.period] = own + 1
    return kept


def promising(folds: dict[int, Floats]) -> list[int]:
    """Return the periods that are worth a closer look: the best at any phase, and the best at the first."""
    periods = np.array(list(folds), np.int64)
    best = np.array([float(bits.max()) for bits in folds.values()])
    first = np.array([float(bits[0]) for bits in folds.values()])
    prices = np.array([size_bits(period) for period in folds])
    anywhere = np.lexsort((periods, np.log2(periods) / 2 - np.round(best, 6)))
    at_first = np.lexsort((periods, prices - np.round(first, 6)))
    return sorted({*periods[anywhere[:KEPT_PERIODS]].tolist(), *periods[at_first[:KEPT_PERIODS]].tolist()})


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


def best_phases(
    folded: Floats, period: int, painted: Mask, extent: tuple[int, int], size: int, least: float
) -> list[Axis]:
    """Return the best cuts of one period: with the likely margins, and with the best phase.

    least   gutters none of whose cuts can have so many bits are left out
    """
    out = []
    length, lines = painted.size, np.flatnonzero(painted)
    highest = float(folded.max()) + PAINTED_BITS * (lines.size > 0)
    for gutter in range(min(GUTTER_LIMIT, period - 2) + 1):
        cell = period - gutter
        if size and cell != size:
            continue
        ends_with_cell = extent[1] > 0 and (extent[1] - extent[0] + gutter) % period == 0
        most = highest + log2(period) * ends_with_cell - size_bits(cell) - gutter_bits(gutter)
        if gutter and not size and most < least:  # its evidence is at most that without a gutter
            continue
        both = framed(folded) if gutter == 0 else np.minimum(folded, rolled(folded, -cell))
        phases = np.argsort(-np.round(both, 6), kind="stable")[:TRIED_PHASES].tolist()
        begins = extent[0] % period
        moved = {phase - whole for phase in phases for whole in (0, period)}
        for margin in sorted({0, gutter, gutter // 2, begins} | moved):
            count = count_cells(length, margin, cell, gutter)
            if margin >= period or count < 2:
                continue
            gain = float(both[margin % period])
            if ends_with_cell and (extent[0] - margin) % period == 0:
                gain += log2(period)  # art begins and ends with a cell: by chance one period in so many
            gain += painted_bits(lines, length, margin, cell, gutter)
            bits = gain - axis_bits(length, margin, cell, gutter)
            if bits > LOWEST_BITS or size:
                out.append(
                    Axis(cell=cell, gutter=gutter, margin=margin, count=count, evidence=gain, bits=bits)
                )
    return out


def rolled(values: Floats, places: int) -> Floats:
    """Return values moved on by so many places, round the end."""
    places %= values.size
    return np.concatenate([values[-places:], values[:-places]]) if places else values


def framed(folded: Floats) -> Floats:
    """Return the evidence of each phase; that of cells with an outline lies on both sides of the line.

    Where every cell has a border drawn, art runs on from border to border and stops inside them.
    """
    out = folded
    for width in range(1, min(WIDEST_BORDER, (folded.size - 1) // 4) + 1):
        sides = np.minimum(rolled(folded, width), rolled(folded, -width))
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

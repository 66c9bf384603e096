"""Sums over many boxes of a grid at once, of a grid that may repeat."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Whole = NDArray[np.int64]
Some = NDArray[np.int32] | NDArray[np.int64]
LARGEST_SMALL = 2**31 - 1


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ends:
    """Where stretches along an axis begin and end, each (2, N).

    cells  in which cell that is; one after the last for the end of the axis
    parts  how far into it, None where every cell is 1 wide
    laps   (N,) how many whole repeats lie between begin and end, None where no stretch has any
    """

    cells: Whole
    parts: Whole | None
    laps: Whole | None


class Axis:
    """An axis of a grid: the widths of its cells, and whether it repeats; else there is nothing beside it."""

    def __init__(self, sizes: Sequence[int] | int, wrap: bool = False) -> None:
        self.sizes = np.ones(sizes, np.int64) if isinstance(sizes, int) else np.asarray(sizes, np.int64)
        self.wrap = wrap
        self.count = len(self.sizes)
        self.length = int(self.sizes.sum())
        self.edges = np.concatenate(([0], np.cumsum(self.sizes)))
        self.even = bool((self.sizes == 1).all())
        self.cell_at = np.append(np.repeat(np.arange(self.count), self.sizes), self.count)

    def ends(self, low: Whole, high: Whole) -> Ends:
        """Return the ends of stretches from low to high, empty ones where high is below low."""
        places, laps = np.stack((low, np.maximum(low, high))), None
        if self.wrap:
            turns = places // self.length
            places -= turns * self.length
            laps = turns[1] - turns[0]
        else:
            np.clip(places, 0, self.length, out=places)
        cells = places if self.even else self.cell_at.take(places)
        return Ends(
            cells=cells,
            parts=None if self.even else places - self.edges.take(cells),
            laps=laps if laps is not None and laps.any() else None,
        )


class Areas:
    """A grid of amounts, (R, C), whose cells have widths and heights; sums over boxes that may cut cells.

    A box takes of each cell its amount times the width and the height of what it shares with the cell.
    """

    def __init__(self, amounts: ArrayLike, across: Axis | None = None, down: Axis | None = None) -> None:
        grid = np.asarray(amounts)
        self.across = across or Axis(grid.shape[1])
        self.down = down or Axis(grid.shape[0])
        most = int(grid.max(initial=0)) * self.across.length * self.down.length
        kind: type[np.int32 | np.int64] = np.int32 if most <= LARGEST_SMALL else np.int64
        grid = grid.astype(kind)
        wide, high = self.across.sizes.astype(kind), self.down.sizes.astype(kind)[:, None]
        self.row = self.across.count + 1
        self.corners = self._summed(grid if self.across.even and self.down.even else grid * wide * high, 0, 1)
        if not self.across.even:
            self.rightward = self._summed(grid * high, 0)
        if not self.down.even:
            self.downward = self._summed(grid * wide, 1)
            self.cells = self._summed(grid)

    def _summed(self, grid: Some, *axes: int) -> Some:
        """Return what lies above or left of each corner, or above and left, all corners in one row."""
        sums = np.zeros((self.down.count + 1, self.row), dtype=grid.dtype)
        down, across = int(0 in axes), int(1 in axes)
        part = sums[down : down + self.down.count, across : across + self.across.count]
        part[:] = grid
        for axis in axes:
            np.cumsum(part, axis=axis, out=part)
        return sums.ravel()

    def within(self, left: Whole, top: Whole, right: Whole, bottom: Whole) -> Whole:
        """Return the sum over each box, 0 for those that are empty."""
        return self.between(self.across.ends(left, right), self.down.ends(top, bottom))

    def between(self, x: Ends, y: Ends) -> Whole:
        """Return the sum over each box, whose ends lie on this grid's axes or on others like them."""
        parts = (None, None) if y.parts is None else (y.parts[0], y.parts[1])
        rows = y.cells * self.row
        total = self._above(x, rows[1], parts[1]) - self._above(x, rows[0], parts[0])
        if y.laps is not None:
            total = total + y.laps * self._above(x, np.full_like(rows[0], self.down.count * self.row), None)
        return np.asarray(total, dtype=np.int64)

    def _above(self, x: Ends, row: Whole, part: Whole | None) -> Some:
        """Return the sums between the ends across, from the grid's top down into a row."""
        parts = (None, None) if x.parts is None else (x.parts[0], x.parts[1])
        found = self._upto(row + x.cells[1], parts[1], part) - self._upto(row + x.cells[0], parts[0], part)
        return found if x.laps is None else found + x.laps * self._upto(row + self.across.count, None, part)

    def _upto(self, place: Whole, wide: Whole | None, high: Whole | None) -> Some:
        """Return the sums from the grid's origin up to places within cells, by numbers of these."""
        total = self.corners.take(place)
        if high is not None:
            total = total + high * self.downward.take(place)
        if wide is not None:
            right = self.rightward.take(place)
            total = total + wide * (right if high is None else right + high * self.cells.take(place))
        return total

"""Sums over many boxes of a grid at once, of a grid that may repeat."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

Whole = NDArray[np.int64]


class Areas:
    """A grid of amounts whose cells have widths and heights; sums over boxes that may cut cells.

    A box takes of each cell its amount times the width and the height of what it shares with the cell.
    amounts  (R, C); widths (C,) and heights (R,), 1 each when left out
    wrap     (x, y) whether the grid repeats; where it does not, there is nothing beside it
    """

    def __init__(
        self,
        amounts: ArrayLike,
        widths: ArrayLike | None = None,
        heights: ArrayLike | None = None,
        wrap: tuple[bool, bool] = (False, False),
    ) -> None:
        grid = np.asarray(amounts, dtype=np.int64)
        self.even = widths is None and heights is None
        wide = np.ones(grid.shape[1], np.int64) if widths is None else np.asarray(widths, np.int64)
        high = np.ones(grid.shape[0], np.int64) if heights is None else np.asarray(heights, np.int64)
        self.edges = tuple(np.concatenate(([0], np.cumsum(sizes))) for sizes in (wide, high))
        self.wrap = wrap
        self.corners = _summed(grid * high[:, None] * wide)
        if not self.even:
            self.cells = np.pad(grid, ((0, 1), (0, 1)))
            self.down = np.pad(
                np.cumsum(np.pad(grid * high[:, None], ((1, 0), (0, 0))), axis=0), ((0, 0), (0, 1))
            )
            self.across = np.pad(np.cumsum(np.pad(grid * wide, ((0, 0), (1, 0))), axis=1), ((0, 1), (0, 0)))

    def within(self, left: Whole, top: Whole, right: Whole, bottom: Whole) -> Whole:
        """Return the sum over each box, 0 for those that are empty."""
        right, bottom = np.maximum(left, right), np.maximum(top, bottom)
        x, y = (self._split(np.stack(ends), axis) for axis, ends in enumerate(((left, right), (top, bottom))))
        corner = [[self._upto(x, y, i, j) for i in (0, 1)] for j in (0, 1)]
        return corner[1][1] - corner[1][0] - corner[0][1] + corner[0][0]

    def _split(self, places: Whole, axis: int) -> tuple[Whole, Whole]:
        """Return whole repeats and the rest of places along an axis."""
        size = int(self.edges[axis][-1])
        if self.wrap[axis]:
            laps = places // size
            return laps, places - laps * size
        return np.zeros_like(places), np.clip(places, 0, size)

    def _upto(self, x: tuple[Whole, Whole], y: tuple[Whole, Whole], i: int, j: int) -> Whole:
        """Return the sum from the grid's origin up to (x[i], y[j])."""
        lap_x, rest_x, lap_y, rest_y = x[0][i], x[1][i], y[0][j], y[1][j]
        total = self._corner(rest_x, rest_y)
        if self.wrap[0]:
            total = total + lap_x * self._corner(np.full_like(rest_x, self.edges[0][-1]), rest_y)
        if self.wrap[1]:
            total = total + lap_y * self._corner(rest_x, np.full_like(rest_y, self.edges[1][-1]))
        if all(self.wrap):
            total = total + lap_x * lap_y * int(self.corners[-1, -1])
        return total

    def _corner(self, x: Whole, y: Whole) -> Whole:
        """Return the sum from the origin up to places within the grid."""
        if self.even:
            return np.asarray(self.corners[y, x])
        column = np.searchsorted(self.edges[0], x, side="right") - 1
        row = np.searchsorted(self.edges[1], y, side="right") - 1
        wide, high = x - self.edges[0][column], y - self.edges[1][row]
        part = wide * self.down[row, column] + high * self.across[row, column]
        return np.asarray(self.corners[row, column] + part + wide * high * self.cells[row, column])


def _summed(amounts: Whole) -> Whole:
    """Return the sums from the origin up to each corner of the cells."""
    return np.pad(np.cumsum(np.cumsum(amounts, axis=0), axis=1), ((1, 0), (1, 0)))

"""What a plane takes at many scroll positions at once."""

import numpy as np
from numpy.typing import NDArray

from scenekit.plan.amounts import Amounts
from scenekit.plan.areas import Areas
from scenekit.plan.drawplan import DrawPlanner
from scenekit.tables.pieces import EMPTY, restored

Whole = NDArray[np.int64]
MOST_PIXELS = 4_000_000
"""Pixels of a plane up to which sums over all its boxes are kept."""


class PlaneCounts:
    """Counts the work of one plane of a planner; sums over its cells and pixels are made once."""

    def __init__(self, planner: DrawPlanner, number: int) -> None:
        self.planner = planner
        self.number = number
        cut = planner.pieces.planes[number]
        self.wrap = planner.scene.planes[number].wrap
        self.sizes = (cut.tile_w_px, cut.tile_h_px)
        self.cells = (cut.columns, cut.rows)
        self.whole = (
            (cut.columns - 1) * cut.tile_w_px + cut.last_w_px,
            (cut.rows - 1) * cut.tile_h_px + cut.last_h_px,
        )
        self.map = planner.maps[number]
        self.filled = Areas(self.map != EMPTY, wrap=self.wrap)
        widths = [cut.tile_w_px] * (cut.columns - 1) + [cut.last_w_px]
        heights = [cut.tile_h_px] * (cut.rows - 1) + [cut.last_h_px]
        self.kinds = self._kinds(widths, heights) if planner.scheme.copies else {}
        self.runs = () if planner.scheme.copies else self._runs()

    def _kinds(self, widths: list[int], heights: list[int]) -> dict[str, tuple[Areas, Areas, Areas]]:
        """Return for each way to copy a cell the sums of its calls, rows and pixels."""
        cells, solid = self.map, self.planner.solid
        kinds = np.where(cells == EMPTY, -1, np.where(cells % 4 > 0, 2, 1 - solid[cells // 4]))
        found = {}
        for kind, operation in enumerate(("blit", "blit-keyed", "blit-flipped")):
            mask = kinds == kind
            if mask.any():
                ones = np.ones(mask.shape[1], dtype=np.int64)
                found[operation] = (
                    Areas(mask, wrap=self.wrap),
                    Areas(mask, ones, heights, self.wrap),
                    Areas(mask, widths, heights, self.wrap),
                )
        return found

    def _runs(self) -> tuple[Areas, ...]:
        """Return sums of starts of runs, pixels within them, all pixels, runs of cells, of mirrored cells."""
        cells, counts = self.map, self.planner.run_counts
        if self.whole[0] * self.whole[1] > MOST_PIXELS:
            return ()
        picture = restored(self.planner.pieces, self.number)
        drawn = (picture != EMPTY) & (picture != self.planner.art.transparent)
        goes_on = np.zeros_like(drawn)
        goes_on[:, 1:] = drawn[:, 1:] & (picture[:, 1:] == picture[:, :-1])
        goes_on[:, :: self.sizes[0]] = False
        held = np.where(cells == EMPTY, 0, counts[cells // 4]) if len(counts) else np.zeros_like(cells)
        turned = np.where(cells % 4 > 0, held, 0)
        grids = (drawn & ~goes_on, goes_on, drawn, held, turned)
        return tuple(Areas(grid, wrap=self.wrap) for grid in grids)

    def at(self, across: Whole, down: Whole, size: tuple[Whole, Whole] | None = None) -> Amounts:
        """Return the work of the plane at scroll positions, in the view or in boxes of other sizes (w, h)."""
        amounts = Amounts(len(across))
        if not self.planner.scheme.copies and not self.runs:
            for place, scroll in enumerate(zip(across.tolist(), down.tolist(), strict=True)):
                box = None if size is None else (int(size[0][place]), int(size[1][place]))
                amounts.add_work(self.planner.plane_work(self.number, scroll, box), place)
            return amounts
        view = size or self.planner.view
        seen = [self._seen(start, view[axis], axis) for axis, start in enumerate((across, down))]
        walked = [
            self._walked(start, view[axis], axis, seen[axis]) for axis, start in enumerate((across, down))
        ]
        columns, rows = (last - first for first, last in walked)
        amounts.add("plane", 1)
        amounts.add("row", rows)
        if self.planner.windows[self.number] is not None:
            amounts.add("map-row", rows)
        amounts.add("cell", columns * rows)
        amounts.add("piece", self.filled.within(walked[0][0], walked[1][0], walked[0][1], walked[1][1]))
        ends = tuple(start + view[axis] for axis, start in enumerate((across, down)))
        if self.planner.scheme.copies:
            self._copied(amounts, (across, down), ends, seen)
        else:
            self._run(amounts, (across, down), ends, seen)
        return amounts

    def _seen(self, start: Whole, view: Whole | int, axis: int) -> tuple[Whole, Whole]:
        """Return the first visible cell along an axis and one after the last, counted on through repeats."""
        count, size, whole = self.cells[axis], self.sizes[axis], self.whole[axis]
        if self.wrap[axis]:
            ends = []
            for place in (start, start + view - 1):
                laps = place // whole
                ends.append(laps * count + (place - laps * whole) // size)
            return ends[0], ends[1] + 1
        first = np.maximum(start, 0) // size
        last = np.minimum((start + view - 1) // size + 1, count)
        hidden = (start >= whole) | (start + view <= 0)
        return first, np.where(hidden, first, np.maximum(first, last))

    def _walked(
        self, start: Whole, view: Whole | int, axis: int, seen: tuple[Whole, Whole]
    ) -> tuple[Whole, Whole]:
        """Return the cells that the routines walk over along an axis; the first may be out of view."""
        if self.wrap[axis]:
            return seen
        size, count = self.sizes[axis], self.cells[axis]
        first = np.maximum(start, 0) // size
        end = np.minimum(count, first - (first * size - start - view) // size)
        return first, np.maximum(first, end)

    def _copied(
        self,
        amounts: Amounts,
        starts: tuple[Whole, Whole],
        ends: tuple[Whole, ...],
        seen: list[tuple[Whole, Whole]],
    ) -> None:
        (left, right), (top, bottom) = seen
        for operation, (calls, rows, pixels) in self.kinds.items():
            amounts.add(
                operation,
                calls.within(left, top, right, bottom),
                rows.within(left, starts[1], right, ends[1]),
                pixels.within(starts[0], starts[1], ends[0], ends[1]),
            )

    def _run(
        self,
        amounts: Amounts,
        starts: tuple[Whole, Whole],
        ends: tuple[Whole, ...],
        seen: list[tuple[Whole, Whole]],
    ) -> None:
        """Runs that begin in view, and those that the view's left edge cuts; edge and mirrored cells."""
        begun, goes_on, pixels, held, turned = self.runs
        box = (starts[0], starts[1], ends[0], ends[1])
        count = begun.within(*box) + goes_on.within(starts[0], starts[1], starts[0] + 1, ends[1])
        amounts.add("run", count, count, pixels.within(*box))
        visible = (seen[0][0], seen[1][0], seen[0][1], seen[1][1])
        inner = [self._uncut(starts[axis], ends[axis], axis, seen[axis]) for axis in (0, 1)]
        whole = (inner[0][0], inner[1][0], inner[0][1], inner[1][1])
        amounts.add("edge-run", held.within(*visible) - held.within(*whole))
        amounts.add("turned-run", turned.within(*whole))

    def _uncut(self, start: Whole, end: Whole, axis: int, seen: tuple[Whole, Whole]) -> tuple[Whole, Whole]:
        """Return the cells of those in view along an axis that are wholly in view."""
        first, last = seen
        first = first + (self._edge(first, axis) < start)
        last = last - (self._edge(last, axis) > end)
        return first, np.maximum(first, last)

    def _edge(self, cell: Whole, axis: int) -> Whole:
        """Return where a cell begins, in pixels, counted on through repeats."""
        count, size, whole = self.cells[axis], self.sizes[axis], self.whole[axis]
        if not self.wrap[axis]:
            return np.minimum(cell * size, whole)
        laps = cell // count
        return laps * whole + (cell - laps * count) * size

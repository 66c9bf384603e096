"""What a plane takes at many scroll positions at once."""

import numpy as np
from numpy.typing import NDArray

from scenekit.plan.amounts import Amounts
from scenekit.plan.areas import Areas, Axis, Ends
from scenekit.plan.drawplan import DrawPlanner
from scenekit.tables.pieces import EMPTY, restored

Whole = NDArray[np.int64]
Stretches = list[tuple[Whole, Whole]]
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
        self.counted = tuple(Axis(self.cells[axis], self.wrap[axis]) for axis in (0, 1))
        self.filled = Areas(self.map != EMPTY, *self.counted)
        widths = [cut.tile_w_px] * (cut.columns - 1) + [cut.last_w_px]
        heights = [cut.tile_h_px] * (cut.rows - 1) + [cut.last_h_px]
        self.measured = (Axis(widths, self.wrap[0]), Axis(heights, self.wrap[1]))
        self.pixels = tuple(Axis(self.whole[axis], self.wrap[axis]) for axis in (0, 1))
        self.kinds = self._kinds() if planner.scheme.copies else {}
        self.runs = () if planner.scheme.copies else self._runs()

    def _kinds(self) -> dict[str, tuple[Areas, Areas, Areas]]:
        """Return for each way to copy a cell the sums of its calls, rows and pixels."""
        cells, solid = self.map, self.planner.solid
        kinds = np.where(cells == EMPTY, -1, np.where(cells % 4 > 0, 2, 1 - solid[cells // 4]))
        found = {}
        for kind, operation in enumerate(("blit", "blit-keyed", "blit-flipped")):
            mask = kinds == kind
            if mask.any():
                found[operation] = (
                    Areas(mask, *self.counted),
                    Areas(mask, self.counted[0], self.measured[1]),
                    Areas(mask, *self.measured),
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
        return (
            *(Areas(grid, *self.pixels) for grid in (drawn & ~goes_on, goes_on, drawn)),
            *(Areas(grid, *self.counted) for grid in (held, turned)),
        )

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
        visible = self._ends(self.counted, seen)
        over = visible if all(self.wrap) else self._ends(self.counted, walked)
        amounts.add("piece", self.filled.between(*over))
        shown = [(start, start + view[axis]) for axis, start in enumerate((across, down))]
        if self.planner.scheme.copies:
            self._copied(amounts, visible, self._ends(self.measured, shown))
        else:
            self._run(amounts, visible, seen, shown)
        return amounts

    def _ends(self, axes: tuple[Axis, ...], stretches: Stretches) -> tuple[Ends, Ends]:
        across, down = (axis.ends(*stretch) for axis, stretch in zip(axes, stretches, strict=True))
        return across, down

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

    def _copied(self, amounts: Amounts, cells: tuple[Ends, Ends], pixels: tuple[Ends, Ends]) -> None:
        """Add the cells that the view shows, copied, and of their rows and pixels those in view."""
        for operation, (calls, rows, all_of_them) in self.kinds.items():
            amounts.add(
                operation,
                calls.between(*cells),
                rows.between(cells[0], pixels[1]),
                all_of_them.between(*pixels),
            )

    def _run(self, amounts: Amounts, visible: tuple[Ends, Ends], seen: Stretches, shown: Stretches) -> None:
        """Runs that begin in view, and those that the view's left edge cuts; edge and mirrored cells."""
        begun, goes_on, pixels, held, turned = self.runs
        across, down = self._ends(self.pixels, shown)
        edge = self.pixels[0].ends(shown[0][0], shown[0][0] + 1)
        count = begun.between(across, down) + goes_on.between(edge, down)
        amounts.add("run", count, count, pixels.between(across, down))
        inner = [self._uncut(*shown[axis], axis, seen[axis]) for axis in (0, 1)]
        whole = self._ends(self.counted, inner)
        amounts.add("edge-run", held.between(*visible) - held.between(*whole))
        amounts.add("turned-run", turned.between(*whole))

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

"""Cuts a sheet into cells of one size."""

from dataclasses import dataclass

import numpy as np

from scenekit.errors import SliceError
from scenekit.model.arrays import Pixels
from scenekit.slicing.art import art_mask, background, background_findings, content_box
from scenekit.slicing.cut import (
    Cut,
    CutFrame,
    Grid,
    Mask,
    SliceOptions,
    SlicingMethod,
    check_count,
    check_sheet,
    finding,
    grid_name,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Axis:
    """Cells along one axis; the last may be cut off by the edge."""

    start: int
    cell: int
    pitch: int
    whole: int
    cut_off: int

    def span(self, number: int) -> tuple[int, int]:
        first = self.start + number * self.pitch
        return first, self.cell if number < self.whole else self.cut_off


def cut_cells(pixels: Pixels, options: SliceOptions) -> Cut:
    """Cut a sheet into cells; empty cells are left out, cells cut off by an edge kept where they hold art.

    raises   SliceError: no cell size, a size or gutter that cannot be, no cell on the sheet, too many cells
    """
    width, height = check_sheet(pixels, options)
    across, down = _axes(width, height, options)
    check_count((across.whole + 1) * (down.whole + 1), "cells", options)
    ground = background(pixels, options.keys)
    frames, columns, rows, cut_off = _frames(art_mask(pixels, options.keys), across, down)
    findings = background_findings(ground, pixels, options)
    if cut_off:
        text = f"{cut_off} cells are cut off by the right or lower edge; they are kept as far as they go"
        findings.append(finding("note", "cells-cut-off", options, text))
    if not frames:
        findings.append(finding("warning", "nothing-drawn", options, "every cell is empty"))
    return Cut(
        size_px=(width, height),
        method="cells",
        background=ground,
        grid=Grid(
            cell=(across.cell, down.cell),
            margin=(across.start, down.start),
            gutter=options.gutter,
            columns=columns,
            rows=rows,
        ),
        frames=tuple(frames),
        findings=tuple(findings),
        reason=f"cells of {across.cell} x {down.cell} px as asked",
    )


def _axes(width: int, height: int, options: SliceOptions) -> tuple[_Axis, _Axis]:
    if options.cell is None:
        raise SliceError(f"{options.where}: no cell size given; cells need one, such as 16x16")
    across = _axis(options, 0, width, "wide")
    return across, _axis(options, 1, height, "high")


def _axis(options: SliceOptions, axis: int, length: int, side: str) -> _Axis:
    assert options.cell is not None
    where, cell = options.where, options.cell[axis]
    margin, gutter, offset = options.margin[axis], options.gutter[axis], options.offset[axis]
    if cell < 1:
        raise SliceError(f"{where}: cell {cell} px {side}; at least 1 is needed")
    if cell > length:
        raise SliceError(f"{where}: cell {cell} px {side}; the sheet has only {length}")
    if gutter < 0 or margin < 0:
        raise SliceError(f"{where}: margin {margin} and gutter {gutter} px; neither may be negative")
    pitch = cell + gutter
    start = margin + offset
    start = start if start >= 0 else start % pitch
    if start >= length:
        raise SliceError(f"{where}: the first cell begins at {start} px; the sheet is {length} px {side}")
    whole = max(0, (length - start + gutter) // pitch)
    rest = length - start - whole * pitch
    return _Axis(start=start, cell=cell, pitch=pitch, whole=whole, cut_off=max(0, min(rest, cell)))


def _frames(mask: Mask, across: _Axis, down: _Axis) -> tuple[list[CutFrame], int, int, int]:
    """Return frames, the columns and rows of the grid, and how many cells an edge cuts off."""
    frames = []
    columns, rows, cut_off = across.whole, down.whole, 0
    for row in range(down.whole + (down.cut_off > 0)):
        y, h = down.span(row)
        inked = np.flatnonzero(mask[y : y + h].any(axis=0))
        for column in sorted({int(c) for c in (inked - across.start) // across.pitch if c >= 0}):
            x, w = across.span(column)
            content = content_box(mask, (x, y, w, h)) if w > 0 else None
            if content is None:
                continue
            name = grid_name(row, column)
            frames.append(CutFrame(name=name, box=(x, y, w, h), content=content))
            cut_off += row >= down.whole or column >= across.whole
            columns, rows = max(columns, column + 1), max(rows, row + 1)
    return frames, columns, rows, cut_off


PLUGIN = SlicingMethod(name="cells", cut=cut_cells, summary="cells of one size, with margin and gutter")

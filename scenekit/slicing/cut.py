"""What cutting a sheet is told, and what it gives."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from scenekit.errors import SliceError
from scenekit.findings import Finding
from scenekit.model.arrays import Pixels

Mask = NDArray[np.bool_]
Box = tuple[int, int, int, int]
Pair = tuple[int, int]
Colour = tuple[int, int, int]

MAX_FRAMES = 1 << 16


@dataclass(frozen=True, slots=True, kw_only=True)
class Background:
    """What stands for nothing on a sheet: alpha 0, key colours, or nothing at all.

    kind      "alpha", "key" or "none"
    colours   the key colours, else ()
    """

    kind: str
    colours: tuple[Colour, ...] = ()

    def as_dict(self) -> dict[str, Any]:
        """Return plain JSON data; colours as rrggbb."""
        names = [f"{r:02x}{g:02x}{b:02x}" for r, g, b in self.colours]
        return {"kind": self.kind, "colour": names[0] if names else None, "colours": names}


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """Cells of one size in columns and rows.

    margin   (x, y) of the first cell's top left
    gutter   empty pixels between neighbours
    """

    cell: Pair
    margin: Pair = (0, 0)
    gutter: Pair = (0, 0)
    columns: int
    rows: int

    def as_dict(self) -> dict[str, Any]:
        """Return plain JSON data."""
        return {
            "cell": list(self.cell),
            "margin": list(self.margin),
            "gutter": list(self.gutter),
            "columns": self.columns,
            "rows": self.rows,
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class CutFrame:
    """One frame found on a sheet.

    box       (x, y, w, h) on the sheet
    content   (x, y, w, h) on the sheet: the tight box of art pixels inside box
    pivot     (x, y) from the box's top left where a box list gives it, else None
    """

    name: str
    box: Box
    content: Box
    pivot: Pair | None = None

    def as_dict(self) -> dict[str, Any]:
        """Return plain JSON data; the pivot only where there is one."""
        data: dict[str, Any] = {"name": self.name, "box": list(self.box), "content": list(self.content)}
        return data if self.pivot is None else {**data, "pivot": list(self.pivot)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Alternative:
    """Another way to read the sheet, less likely than the one taken.

    count    how many frames it gives
    """

    method: str
    grid: Grid | None
    count: int
    confidence: float

    def as_dict(self) -> dict[str, Any]:
        """Return plain JSON data."""
        return {
            "method": self.method,
            "grid": self.grid.as_dict() if self.grid else None,
            "count": self.count,
            "confidence": round(self.confidence, 3),
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """A sheet, cut.

    size_px      (w, h) of the sheet
    confidence   0 to 1; 1 where the user said how to cut
    reason       why it was cut this way, one sentence
    """

    size_px: Pair
    method: str
    background: Background
    grid: Grid | None
    frames: tuple[CutFrame, ...]
    findings: tuple[Finding, ...] = ()
    confidence: float = 1.0
    reason: str
    alternatives: tuple[Alternative, ...] = ()

    def as_dict(self) -> dict[str, Any]:
        """Return plain JSON data as `scenekit slice --json` prints it."""
        return {
            "image": {"width": self.size_px[0], "height": self.size_px[1]},
            "background": self.background.as_dict(),
            "method": self.method,
            "grid": self.grid.as_dict() if self.grid else None,
            "frames": [frame.as_dict() for frame in self.frames],
            "findings": [finding.as_dict() for finding in self.findings],
            "confidence": round(self.confidence, 3),
            "reason": self.reason,
            "alternatives": [alternative.as_dict() for alternative in self.alternatives],
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class GivenBox:
    """A box that the user gives.

    pivot    (x, y) from the box's top left
    """

    box: Box
    name: str | None = None
    pivot: Pair | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SliceOptions:
    """How to cut.

    where      what messages call the sheet
    cell       (w, h) of a cell
    margin     (x, y): empty border left of and above the first cell
    gutter     (x, y): empty pixels between cells
    offset     (x, y): shifts the grid; cells that would begin outside the sheet are skipped
    keys       key colours
    merge_px   islands with at most this many empty pixels between them are one
    least_px   islands with fewer art pixels are left out
    boxes      given boxes
    box_file   a CSV or JSON list of boxes
    count, columns, rows   hints for guessing
    """

    where: str = "sheet"
    cell: Pair | None = None
    margin: Pair = (0, 0)
    gutter: Pair = (0, 0)
    offset: Pair = (0, 0)
    keys: tuple[Colour, ...] = ()
    merge_px: int = 0
    least_px: int = 1
    boxes: tuple[GivenBox, ...] = ()
    box_file: Path | None = None
    count: int | None = None
    columns: int | None = None
    rows: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SlicingMethod:
    """One way to cut a sheet.

    cut       pixels (H, W, 4) uint8 and options to a Cut; raises SliceError
    summary   one line for a list of methods
    """

    name: str
    cut: Callable[[Pixels, SliceOptions], Cut]
    summary: str


def grid_name(row: int, column: int) -> str:
    """Return the name of the frame at a row and column, both from 0."""
    return f"r{row:02d}c{column:02d}"


def check_sheet(pixels: Pixels, options: SliceOptions) -> Pair:
    """Return (w, h) of a sheet.

    raises   SliceError: no pixels; ValueError: not (H, W, 4) uint8
    """
    if pixels.ndim != 3 or pixels.shape[2] != 4 or pixels.dtype != np.uint8:
        raise ValueError(f"pixels must be (H, W, 4) uint8; got {pixels.shape} {pixels.dtype}")
    height, width = pixels.shape[:2]
    if not width or not height:
        raise SliceError(f"{options.where}: {width} x {height} px; both sides must be at least 1")
    return width, height


def finding(level: str, code: str, options: SliceOptions, text: str) -> Finding:
    """Return a finding about the sheet being cut."""
    return Finding(level=level, code=code, where=options.where, text=text)


def check_count(count: int, what: str, options: SliceOptions) -> None:
    """Check how many frames there would be.

    raises   SliceError: over MAX_FRAMES
    """
    if count > MAX_FRAMES:
        raise SliceError(f"{options.where}: {count} {what}; at most {MAX_FRAMES} are cut from one sheet")


def reading_order(boxes: Sequence[Box]) -> list[tuple[int, int, int]]:
    """Put boxes into rows as a reader would, top to bottom, each left to right.

    returns  (row, column, index into boxes) in reading order

    A box joins a row when at least half of the lower of the two heights is shared with the row's mean span.
    """
    order = sorted(range(len(boxes)), key=lambda i: (2 * boxes[i][1] + boxes[i][3], boxes[i], i))
    rows: list[list[int]] = []
    tops = bottoms = 0
    for index in order:
        _, y, _, h = boxes[index]
        if rows:
            count = len(rows[-1])
            shared = min(bottoms, (y + h) * count) - max(tops, y * count)
            if 2 * shared >= min(bottoms - tops, h * count):
                rows[-1].append(index)
                tops, bottoms = tops + y, bottoms + y + h
                continue
        rows.append([index])
        tops, bottoms = y, y + h
    return [
        (row, column, index)
        for row, members in enumerate(rows)
        for column, index in enumerate(sorted(members, key=lambda i: (boxes[i], i)))
    ]

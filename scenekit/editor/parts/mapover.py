"""Painting a map on the scene: its cells over the dimmed picture, strokes, boxes, a mark moved by keys."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.editor.frameart import draw_frame
from scenekit.editor.history import Edit
from scenekit.editor.moving import plain_scene, steered
from scenekit.editor.parts.mapping import EMPTY, Cells, cells_of, repainted
from scenekit.editor.parts.planefields import with_numbers
from scenekit.editor.parts.transitions import view_of
from scenekit.model.scene import Plane, Scene
from scenekit.model.sprites import Sheet
from scenekit.motion.expand import plane_parts
from scenekit.motion.parallax import shown_scroll

WHITE = (255, 255, 255)
STEPS = {"alt+left": (-1, 0), "alt+right": (1, 0), "alt+up": (0, -1), "alt+down": (0, 1)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Sight:
    """Where a map, or one band of it, stands on the window.

    view    the view's box on the window; zoom: px of the window for a pixel
    scroll  pixel of the shown rows at the view's top left corner; tile: (width, height) of a cell
    size    (columns, rows) of cells of the whole map
    rows    rows of px of the map that are shown, first and one after the last
    """

    view: Box
    zoom: int
    scroll: tuple[int, int]
    tile: tuple[int, int]
    size: tuple[int, int]
    wrap: tuple[bool, bool]
    rows: tuple[int, int]

    def cell_at(self, at: tuple[float, float]) -> tuple[int, int] | None:
        """Return the (column, row) at a place of the window; None outside of the map."""
        spans = (self.size[0] * self.tile[0], self.rows[1] - self.rows[0])
        found = []
        for axis, first in ((0, 0), (1, self.rows[0])):
            pixel = int((at[axis] - self.view[axis]) // self.zoom) + self.scroll[axis]
            if self.wrap[axis]:
                pixel %= spans[axis]
            elif not 0 <= pixel < spans[axis]:
                return None
            found.append((pixel + first) // self.tile[axis])
        return found[0], found[1]

    def pieces(self) -> list[Box]:
        """Return the boxes of the window in which the shown rows are in sight, one for each repetition."""
        x, y, w, h = self.view
        high = self.rows[1] - self.rows[0]
        seen = h / self.zoom
        first, last = (
            (self.scroll[1] // high, int((self.scroll[1] + seen - 1) // high)) if self.wrap[1] else (0, 0)
        )
        boxes = (
            (x, y + (n * high - self.scroll[1]) * self.zoom, w, high * self.zoom)
            for n in range(first, last + 1)
        )
        return [box for box in boxes if box[1] < y + h and box[1] + box[3] > y]

    def level_of(self, piece: Box, row: int) -> float:
        """Return where a row of cells begins on the window, in one of the pieces."""
        return piece[1] + (row * self.tile[1] - self.rows[0]) * self.zoom

    def seen_rows(self) -> range:
        """Return the rows of cells of which something is shown."""
        return range(self.rows[0] // self.tile[1], (self.rows[1] - 1) // self.tile[1] + 1)


def sights_of(
    desk: Desk, box: Box, zoom: int, scene: Scene, plane: Plane, sheet: Sheet, cells: Cells
) -> list[Sight]:
    """Return where a map, or each band of it, stands at the tick on show, from back to front."""
    plain = plain_scene(desk) or scene
    tick = desk.session.playing.tick
    steered_scene = steered(desk, plain)
    target = desk.session.target
    left, top = target.view[:2] if target is not None and target.view is not None else (0, 0)
    wide, high = view_of(desk)
    view = (box[0] + left * zoom, box[1] + top * zoom, wide * zoom, high * zoom)
    tile = sheet.frames[0].box[2:]
    size = (len(cells[0]), len(cells))
    found = []
    for part in plane_parts(with_numbers(desk, scene, plane)):
        first, end = part.rows or (0, 32_767)
        rows = (first, min(end, size[1] * tile[1]))
        if rows[0] < rows[1]:
            scroll = shown_scroll(steered_scene, part, tick)
            found.append(
                Sight(
                    view=view,
                    zoom=zoom,
                    scroll=scroll,
                    tile=(tile[0], tile[1]),
                    size=size,
                    wrap=part.wrap,
                    rows=rows,
                )
            )
    return found


def cell_under(sights: Sequence[Sight], at: tuple[float, float]) -> tuple[int, int] | None:
    """Return the cell at a place of the window: that of the nearest band there."""
    cells = (sight.cell_at(at) for sight in reversed(sights))
    return next((cell for cell in cells if cell is not None), None)


def draw_painting(desk: Desk, box: Box, zoom: int, scene: Scene, plane: Plane) -> Edit | None:
    """Draw the map that is painted over the scene, and let it be painted; return the edit of a stroke."""
    ui = desk.ui
    sheet = next((s for s in desk.session.document.sheets if s.name == plane.sheet), None)
    kept = cells_of(desk, plane)
    if sheet is None or kept is None or not sheet.frames:
        return None
    sights = sights_of(desk, box, zoom, scene, plane, sheet, kept)
    if not sights:
        return None
    view = sights[0].view
    felt = ui.press("scene:map", view, "", keyboard=False)
    at = (felt.at[0] + view[0], felt.at[1] + view[1])
    cell = cell_under(sights, at) if felt.hovered or felt.held else None
    edit: Edit | None = None
    if felt.started and cell is not None:
        _begin(desk, kept, cell)
    stroke: dict[str, Any] | None = desk.local.get("map-stroke")
    if stroke is not None:
        if felt.held and cell is not None:
            _go_on(desk, stroke, cell)
        if felt.ended or not felt.held:
            desk.local.pop("map-stroke")
            if stroke["cells"] != kept:
                edit = repainted(desk, plane, stroke["cells"], f"painting {plane.name}")
    edit = _by_keys(desk, plane, kept) or edit
    ui.fill(view, (0, 0, 0), 150)
    for sight in sights:
        _draw_cells(desk, sight, sheet, stroke["cells"] if stroke is not None else kept)
        for place, colour in ((cell, WHITE), (desk.local.get("map-cell"), ui.look.accent)):
            if place is not None:
                _mark(desk, sight, place, colour)
    return edit


def _begin(desk: Desk, kept: Cells, cell: tuple[int, int]) -> None:
    """Begin a stroke or a box, or take up the tile under the pointer."""
    held = desk.ui.backend.held
    desk.local["map-cell"] = cell
    if "ctrl" in held:
        desk.local["map-tile"] = kept[cell[1]][cell[0]]
        return
    cells = [list(row) for row in kept]
    desk.local["map-stroke"] = {
        "cells": cells,
        "base": kept,
        "from": cell,
        "last": cell,
        "box": "shift" in held,
    }


def _go_on(desk: Desk, stroke: dict[str, Any], cell: tuple[int, int]) -> None:
    tile = desk.local.get("map-tile", (0, 0))
    tile = tile if tile[0] >= 0 else EMPTY
    if stroke["box"]:
        stroke["cells"] = [list(row) for row in stroke["base"]]
        (a, b), (c, d) = stroke["from"], cell
        for row in range(min(b, d), max(b, d) + 1):
            for column in range(min(a, c), max(a, c) + 1):
                stroke["cells"][row][column] = tile
    else:
        for column, row in line_between(stroke["last"], cell):
            stroke["cells"][row][column] = tile
    stroke["last"] = desk.local["map-cell"] = cell


def line_between(start: tuple[int, int], end: tuple[int, int]) -> list[tuple[int, int]]:
    """Return the cells from one to another, none left out."""
    steps = max(abs(end[0] - start[0]), abs(end[1] - start[1]), 1)
    return [
        (
            (2 * start[0] * (steps - n) + 2 * end[0] * n + steps) // (2 * steps),
            (2 * start[1] * (steps - n) + 2 * end[1] * n + steps) // (2 * steps),
        )
        for n in range(steps + 1)
    ]


def _by_keys(desk: Desk, plane: Plane, kept: Cells) -> Edit | None:
    """Move the cell's mark, and paint or empty the cell it stands on."""
    backend = desk.ui.backend
    if backend.typing or desk.ask is not None:
        return None
    x, y = desk.local.get("map-cell", (0, 0))
    x, y = min(x, len(kept[0]) - 1), min(y, len(kept) - 1)
    for key, (across, down) in STEPS.items():
        if key in backend.pressed:
            desk.local["map-cell"] = ((x + across) % len(kept[0]), (y + down) % len(kept))
    tile = desk.local.get("map-tile", (0, 0))
    for key, new in (("alt+return", tile if tile[0] >= 0 else EMPTY), ("alt+delete", EMPTY)):
        if key in backend.pressed and kept[y][x] != new:
            cells = [list(row) for row in kept]
            cells[y][x] = new
            return repainted(desk, plane, cells, f"painting {plane.name}")
    return None


def _draw_cells(desk: Desk, sight: Sight, sheet: Sheet, cells: Cells) -> None:
    """The cells in sight over the dimmed picture, with faint lines between them."""
    ui = desk.ui
    x, y, w, h = sight.view
    wide, high = sight.tile[0] * sight.zoom, sight.tile[1] * sight.zoom
    first = sight.scroll[0] // sight.tile[0]
    left = x - (sight.scroll[0] - first * sight.tile[0]) * sight.zoom
    for piece in sight.pieces():
        with ui.backend.clipped(sight.view), ui.backend.clipped(piece):
            for row in sight.seen_rows():
                level = sight.level_of(piece, row)
                if level + high <= y or level >= y + h:
                    continue
                for across in range(int(w // wide) + 2):
                    column = _wrapped(first + across, sight.size[0], sight.wrap[0])
                    if column is None:
                        continue
                    place = (left + across * wide, level, wide, high)
                    number, flip = cells[row][column]
                    if 0 <= number < len(sheet.frames):
                        draw_frame(desk, sheet, sheet.frames[number].name, place, flip)
                    ui.fill((place[0], place[1], wide, 1), WHITE, 60)
                    ui.fill((place[0], place[1], 1, high), WHITE, 60)


def _wrapped(cell: int, size: int, wrap: bool) -> int | None:
    if wrap:
        return cell % size
    return cell if 0 <= cell < size else None


def _mark(desk: Desk, sight: Sight, cell: tuple[int, int], colour: tuple[int, int, int]) -> None:
    """Frame a cell wherever it is in sight."""
    if cell[1] not in sight.seen_rows():
        return
    wide, high = sight.tile[0] * sight.zoom, sight.tile[1] * sight.zoom
    around = sight.size[0] * sight.tile[0]
    at = cell[0] * sight.tile[0] - sight.scroll[0]
    if sight.wrap[0]:
        at %= around
        if at + sight.tile[0] > around and at * sight.zoom > sight.view[2]:
            at -= around
    for piece in sight.pieces():
        with desk.ui.backend.clipped(sight.view), desk.ui.backend.clipped(piece):
            place = (sight.view[0] + at * sight.zoom, sight.level_of(piece, cell[1]))
            desk.ui.frame((place[0], place[1], wide + 1, high + 1), colour, 2)

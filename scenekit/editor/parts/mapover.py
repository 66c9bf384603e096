"""Painting a map on the scene: its cells over the dimmed picture, strokes, boxes, a mark moved by keys."""

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
from scenekit.motion.parallax import camera_at, scroll_at

WHITE = (255, 255, 255)
STEPS = {"alt+left": (-1, 0), "alt+right": (1, 0), "alt+up": (0, -1), "alt+down": (0, 1)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Sight:
    """Where a map stands on the window.

    view    the view's box on the window; zoom: px of the window for a pixel
    scroll  pixel of the map at the view's top left corner; tile: (width, height) of a cell
    """

    view: Box
    zoom: int
    scroll: tuple[int, int]
    tile: tuple[int, int]
    size: tuple[int, int]
    wrap: tuple[bool, bool]

    def cell_at(self, at: tuple[float, float]) -> tuple[int, int] | None:
        """Return the (column, row) at a place of the window; None outside of the map."""
        found = []
        for axis in (0, 1):
            pixel = int((at[axis] - self.view[axis]) // self.zoom) + self.scroll[axis]
            cell = pixel // self.tile[axis]
            if self.wrap[axis]:
                cell %= self.size[axis]
            elif not 0 <= cell < self.size[axis]:
                return None
            found.append(cell)
        return found[0], found[1]


def sight_of(
    desk: Desk, box: Box, zoom: int, scene: Scene, plane: Plane, sheet: Sheet, cells: Cells
) -> Sight:
    """Return where a map stands at the tick on show."""
    plain = plain_scene(desk) or scene
    tick = desk.session.playing.tick
    scroll = scroll_at(with_numbers(desk, scene, plane), camera_at(steered(desk, plain), tick), tick)
    target = desk.session.target
    left, top = target.view[:2] if target is not None and target.view is not None else (0, 0)
    wide, high = view_of(desk)
    view = (box[0] + left * zoom, box[1] + top * zoom, wide * zoom, high * zoom)
    tile = sheet.frames[0].box[2:]
    size = (len(cells[0]), len(cells))
    return Sight(view=view, zoom=zoom, scroll=scroll, tile=(tile[0], tile[1]), size=size, wrap=plane.wrap)


def draw_painting(desk: Desk, box: Box, zoom: int, scene: Scene, plane: Plane) -> Edit | None:
    """Draw the map that is painted over the scene, and let it be painted; return the edit of a stroke."""
    ui = desk.ui
    sheet = next((s for s in desk.session.document.sheets if s.name == plane.sheet), None)
    kept = cells_of(desk, plane)
    if sheet is None or kept is None or not sheet.frames:
        return None
    sight = sight_of(desk, box, zoom, scene, plane, sheet, kept)
    felt = ui.press("scene:map", sight.view, "", keyboard=False)
    at = (felt.at[0] + sight.view[0], felt.at[1] + sight.view[1])
    cell = sight.cell_at(at) if felt.hovered or felt.held else None
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
    ui.fill(sight.view, (0, 0, 0), 150)
    wide, high = sight.tile[0] * sight.zoom, sight.tile[1] * sight.zoom
    first = (sight.scroll[0] // sight.tile[0], sight.scroll[1] // sight.tile[1])
    left = x - (sight.scroll[0] - first[0] * sight.tile[0]) * sight.zoom
    top = y - (sight.scroll[1] - first[1] * sight.tile[1]) * sight.zoom
    with ui.backend.clipped(sight.view):
        for down in range(int(h // high) + 2):
            row = _wrapped(first[1] + down, sight.size[1], sight.wrap[1])
            for across in range(int(w // wide) + 2):
                column = _wrapped(first[0] + across, sight.size[0], sight.wrap[0])
                if row is None or column is None:
                    continue
                place = (left + across * wide, top + down * high, wide, high)
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
    place = []
    for axis in (0, 1):
        at = cell[axis] * sight.tile[axis] - sight.scroll[axis]
        around = sight.size[axis] * sight.tile[axis]
        if sight.wrap[axis]:
            at %= around
            at = (
                at - around
                if at + sight.tile[axis] > around and at * sight.zoom > sight.view[2 + axis]
                else at
            )
        place.append(sight.view[axis] + at * sight.zoom)
    with desk.ui.backend.clipped(sight.view):
        wide, high = sight.tile[0] * sight.zoom, sight.tile[1] * sight.zoom
        desk.ui.frame((place[0], place[1], wide + 1, high + 1), colour, 2)

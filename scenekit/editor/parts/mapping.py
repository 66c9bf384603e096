"""Maps: planes of cut tiles, painted on the scene where they stand, with flips and flags."""

import math

from scenekit.editor import drafts
from scenekit.editor.desk import Desk
from scenekit.editor.form import Form, fresh_name
from scenekit.editor.frameart import draw_frame
from scenekit.editor.history import Edit
from scenekit.editor.parts.turning import draw_turning
from scenekit.errors import SceneKitError
from scenekit.images.art import read_map
from scenekit.model.edits import put_plane, put_scene
from scenekit.model.scene import Plane, Scene
from scenekit.model.sprites import Sheet
from scenekit.model.store import inside

Cells = list[list[tuple[int, int]]]
TILE_PX = 30
MOST_SIDE = 1000
TURNS = ("drawn", "mirrored", "over", "both")
EMPTY = (-1, 0)


def tile_sheets(desk: Desk) -> list[Sheet]:
    """Return the sheets whose frames all have one size, so that a map can be made of them."""
    return [s for s in desk.session.document.sheets if len({frame.box[2:] for frame in s.frames}) == 1]


def cells_of(desk: Desk, plane: Plane) -> Cells | None:
    """Return the cells of a plane's map; None where the file cannot be read."""
    path = inside(desk.session.document.folder, plane.map)

    def read() -> Cells | None:
        try:
            return read_map(path, f"plane {plane.name}")
        except SceneKitError:
            return None

    made: Cells | None = desk.remember(f"cells {plane.map}", read, plane.map, desk.session.files)
    return made


def repainted(desk: Desk, plane: Plane, cells: Cells, label: str) -> Edit:
    """Return the edit that gives a map other cells; every plane of that map shows them.

    raises   ProjectError: the project's folder cannot be written
    """
    document = desk.session.document
    path = drafts.keep(document.folder, plane.map, drafts.map_text(cells))
    desk.session.files_changed()
    return Edit(document=drafts.with_map(document, plane.map, path), label=label)


def new_map(desk: Desk, form: Form, scene: Scene) -> Edit | None:
    """A button that makes an empty map as large as the view, of the tiles of a sheet."""
    sheets = [sheet.name for sheet in tile_sheets(desk)]
    if not sheets:
        return None
    which, make = form.split("tiles of", (1.3, 1))
    now = desk.local.get("map-sheet", sheets[0])
    now = now if now in sheets else sheets[0]
    picked = form.choice("sheet", which, sheets, now, tip="A sheet whose frames all have one size.")
    if picked is not None:
        desk.local["map-sheet"] = picked
    if not form.button("add", make, "Add a map", tip="An empty map in front of the others, to paint on."):
        return None
    from scenekit.editor.parts.transitions import view_of

    document = desk.session.document
    view = view_of(desk)
    tile = document.sheet(now).frames[0].box[2:]
    cells: Cells = [[EMPTY] * math.ceil(view[0] / tile[0]) for _ in range(math.ceil(view[1] / tile[1]))]
    name = fresh_name("map", [plane.name for plane in scene.planes])
    path = drafts.keep(document.folder, f"maps/{scene.name}-{name}.csv", drafts.map_text(cells))
    desk.session.files_changed()
    side = (max(4, tile[0]), max(4, tile[1]))
    desk.session.chosen.plane = desk.session.chosen.part = name
    desk.local["painting"] = name
    made = put_plane(scene, Plane(name=name, map=path, sheet=now, tile=side))
    return Edit(document=put_scene(document, made), label=f"adding map {name}")


def draw_map(desk: Desk, form: Form, plane: Plane) -> Edit | None:
    """Draw what a map is made of, and its tiles while it is painted; return an edit."""
    sheet = next((s for s in desk.session.document.sheets if s.name == plane.sheet), None)
    cells = cells_of(desk, plane)
    if sheet is None or cells is None or not sheet.frames:
        form.note(f"The map {drafts.base_of(plane.map)} cannot be read.", "alarm")
        return None
    painting = desk.local.get("painting") == plane.name
    edit = _size(desk, form, plane, cells)
    turned = draw_turning(form, plane, sheet)
    scene = desk.session.scene
    if turned is not None and scene is not None:
        document = put_scene(desk.session.document, put_plane(scene, turned))
        return Edit(document=document, label=f"turns of {plane.name}")
    box = form.line("map")
    tip = "Paint cells on the scene. Shift fills a box, Ctrl takes up the tile under the pointer."
    if form.button("paint", box, "Done painting" if painting else "Paint on the scene", tip=tip):
        desk.local["painting"] = "" if painting else plane.name
    if not painting:
        return edit
    tile: tuple[int, int] = desk.local.setdefault("map-tile", (0, 0))
    box = form.column.take(form.ui.px(28), form.ui.px(6))
    picked = form.either("turn", box, TURNS, TURNS[tile[1]], tip="How the tile is turned.")
    if picked is not None:
        desk.local["map-tile"] = tile = (tile[0], TURNS.index(picked))
    _tiles(desk, form, sheet, tile)
    number = form.whole(
        "number",
        form.line("number"),
        tile[0],
        -1,
        len(sheet.frames) - 1,
        tip="The frame's number; -1 is empty.",
    )
    if number is not None:
        desk.local["map-tile"] = (number, tile[1])
    flags = sheet.frames[tile[0]].flags if tile[0] >= 0 else ()
    words = (
        f"{sheet.frames[tile[0]].name}: {', '.join(flags) or 'no flags'}" if tile[0] >= 0 else "an empty cell"
    )
    form.note(f"{words}. Alt+arrows move the cell's mark, Alt+Enter paints it.")
    form.column.y += form.ui.px(10)
    return edit


def _size(desk: Desk, form: Form, plane: Plane, cells: Cells) -> Edit | None:
    """How many columns and rows a map has; cells beyond them go."""
    boxes = form.split("cells", (1, 1))
    columns = form.whole(
        "columns", boxes[0], len(cells[0]), 1, MOST_SIDE, unit="across", tip="Columns of cells."
    )
    rows = form.whole("rows", boxes[1], len(cells), 1, MOST_SIDE, unit="down", tip="Rows of cells.")
    if columns is None and rows is None:
        return None
    wide, high = columns or len(cells[0]), rows or len(cells)
    made = [[*row[:wide], *[EMPTY] * (wide - len(row))] for row in cells[:high]]
    made += [[EMPTY] * wide for _ in range(high - len(made))]
    return repainted(desk, plane, made, f"size of map {plane.name}")


def _tiles(desk: Desk, form: Form, sheet: Sheet, tile: tuple[int, int]) -> None:
    """The tiles to choose from, the empty one first."""
    ui, column = desk.ui, form.column
    side = ui.px(TILE_PX)
    each = max(1, int(column.w // side))
    count = len(sheet.frames) + 1
    x, y, w, _ = column.take(min(6, math.ceil(count / each)) * side + 4, ui.px(6))
    area = (x, y, w, min(6, math.ceil(count / each)) * side + 4)
    with ui.backend.region("map-tiles", area, scrolls=True) as scroll:
        for place in range(count):
            left, top = x + place % each * side, y + place // each * side - scroll
            if top + side < y or top > y + area[3]:
                continue
            box = (left, top, side - 2, side - 2)
            number = place - 1
            name = sheet.frames[number].name if number >= 0 else "empty"
            felt = ui.press(f"tile:{number}", box, name)
            ui.fill(box, ui.look.well)
            if number >= 0:
                draw_frame(desk, sheet, name, (left + 1, top + 1, side - 4, side - 4), tile[1])
                if sheet.frames[number].flags:
                    ui.fill((left + side - 8, top, 6, 6), ui.look.ink)
            else:
                ui.dashes(box, ui.look.quiet, 3)
            if number == tile[0] or felt.focused:
                ui.frame((left - 1, top - 1, side, side), ui.look.accent, 2)
            if felt.clicked:
                desk.local["map-tile"] = (number, tile[1])
        ui.backend.extent(y + math.ceil(count / each) * side - scroll + 4)

"""Bands of a plane: rows that scroll by ratios of their own, drawn over its picture and dragged apart."""

from dataclasses import replace
from fractions import Fraction

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.editor.form import Form, parted
from scenekit.editor.history import Edit
from scenekit.editor.moving import plane_pixels
from scenekit.model.edits import put_plane, put_scene
from scenekit.model.planes import Band
from scenekit.model.scene import Plane, Scene

HIGHEST_PX = 150
SHARES = (1, 1, 1.1, 1.1, 0.7)


def draw_bands(desk: Desk, form: Form, scene: Scene, plane: Plane) -> Edit | None:
    """Draw the bands of a plane over its picture and as rows; return an edit."""
    ui, column = desk.ui, form.column
    pixels = plane_pixels(desk, scene, plane)
    height = pixels.shape[0] if pixels is not None else 0
    edit: Edit | None = None
    if plane.bands and pixels is not None:
        edit = _picture(desk, column.take(min(ui.px(HIGHEST_PX), max(40, height)), ui.px(8)), scene, plane)
        places = parted((column.x, column.y, column.w, ui.px(16)), SHARES, 4)
        for word, place in zip(("from row", "up to", "slides by", "drifts"), places, strict=False):
            ui.label(place[0] + 2, column.y + ui.px(6), word, place[2])
        column.y += ui.px(16)
    new: Plane | None = None
    for number, band in enumerate(plane.bands):
        changed = _row(form, number, band)
        if changed is not None:
            bands = [*plane.bands]
            bands[number : number + 1] = changed
            new = replace(plane, bands=tuple(bands))
    first = plane.bands[-1].rows[1] if plane.bands else 0
    room = height - first
    box = column.take(ui.px(28), ui.px(10))
    tip = "Rows of the picture that scroll by a ratio of their own, such as a floor that comes nearer."
    if form.button("band:add", box, "Add a band", tip=tip, kind="quiet", on=room > 0):
        rows = (first + room // 2, height) if not plane.bands else (first, height)
        ratio = plane.bands[-1].ratio if plane.bands else plane.ratio
        band = Band(rows=rows, ratio=(ratio[0] * Fraction(5, 4), ratio[1]))
        new = replace(plane, bands=(*plane.bands, band), wrap=(plane.wrap[0], False))
    if new is None:
        return edit
    document = put_scene(desk.session.document, put_plane(scene, new))
    return Edit(document=document, label=f"bands of {plane.name}")


def _row(form: Form, number: int, band: Band) -> list[Band] | None:
    """One band as fields; return what stands in its place."""
    x, y, w, h = form.column.take(form.ui.px(28), form.ui.px(6))
    places = parted((x, y, w, h), SHARES, 4)
    new: Band | None = None
    for end, word in ((0, "from"), (1, "to")):
        value = form.whole(
            f"band:{number}:{word}", places[end], band.rows[end], 0, 32_767, tip="A row of the picture."
        )
        if value is not None:
            new = replace(band, rows=(value, band.rows[1]) if end == 0 else (band.rows[0], value))
    value_exact = form.exact(
        f"band:{number}:ratio", places[2], band.ratio[0], tip="Pixels it slides for each pixel of the camera."
    )
    if value_exact is not None:
        new = replace(band, ratio=(value_exact, band.ratio[1]))
    value_exact = form.exact(
        f"band:{number}:drift", places[3], band.drift[0], tip="Pixels a tick that it moves by itself."
    )
    if value_exact is not None:
        new = replace(band, drift=(value_exact, band.drift[1]))
    if form.button(f"band:{number}:drop", places[4], "Out", kind="quiet", tip="Take this band out."):
        return []
    return None if new is None else [new]


def _picture(desk: Desk, box: Box, scene: Scene, plane: Plane) -> Edit | None:
    """The plane's picture with a line at every edge of a band; lines are dragged up and down."""
    ui = desk.ui
    pixels = plane_pixels(desk, scene, plane)
    assert pixels is not None
    x, y, w, h = box
    high, wide = pixels.shape[:2]
    scale = h / high
    ui.fill(box, ui.look.well)
    share = min(1.0, w / (wide * scale))
    ui.backend.image(desk.picture(pixels), (x, y, wide * scale * share, h), (0, 0, share, 1))
    edit: Edit | None = None
    for number, band in enumerate(plane.bands):
        for end in (0, 1):
            if end == 1 and number + 1 < len(plane.bands) and plane.bands[number + 1].rows[0] == band.rows[1]:
                continue
            level = y + min(band.rows[end], high) * scale
            edit = _edge(desk, (x, level, w, scale), scene, plane, (number, end), high) or edit
        middle = y + (band.rows[0] + min(band.rows[1], high)) / 2 * scale
        words = f"x {band.ratio[0]}"
        wide_words = ui.width(words, "small") + 10
        ui.fill((x + w - wide_words, middle - ui.px(8), wide_words, ui.px(16)), ui.look.sheet, 220)
        ui.text(x + w - 5, middle, words, "small", anchor="right")
    return edit


def _edge(
    desk: Desk, place: Box, scene: Scene, plane: Plane, which: tuple[int, int], high: int
) -> Edit | None:
    ui = desk.ui
    x, level, w, scale = place
    number, end = which
    ui.fill((x, round(level) - 1, w, 3), ui.look.sheet)
    ui.fill((x, round(level), w, 1), ui.look.ink)
    felt = ui.press(f"band-edge:{number}:{end}", (x, level - 5, w, 10), "Drag to other rows.", keyboard=False)
    if felt.hovered or felt.held:
        ui.pointer = "updown"
    if felt.started:
        desk.local["gesture"] = desk.local.get("gesture", 0) + 1
        desk.local["band-base"] = plane
    base: Plane | None = desk.local.get("band-base")
    if not felt.held or base is None or base.name != plane.name:
        return None
    row = base.bands[number].rows[end] + round(felt.moved[1] / scale)
    bands = moved_edge(base.bands, number, end, row, high)
    if bands == plane.bands:
        return None
    document = put_scene(desk.session.document, put_plane(scene, replace(plane, bands=bands)))
    return Edit(
        document=document, label=f"bands of {plane.name}", gesture=f"drag {desk.local['gesture']}", held=True
    )


def moved_edge(bands: tuple[Band, ...], number: int, end: int, row: int, high: int) -> tuple[Band, ...]:
    """Return bands with one edge at another row; a band that touches it gives way, none vanishes."""
    made = list(bands)
    if end == 0:
        low = bands[number - 1].rows[1] if number else 0
        if number and bands[number - 1].rows[1] == bands[number].rows[0]:
            low = bands[number - 1].rows[0] + 1
            row = max(low, min(row, bands[number].rows[1] - 1))
            made[number - 1] = replace(bands[number - 1], rows=(bands[number - 1].rows[0], row))
        row = max(low, min(row, bands[number].rows[1] - 1))
        made[number] = replace(bands[number], rows=(row, bands[number].rows[1]))
    else:
        top = bands[number + 1].rows[0] if number + 1 < len(bands) else high
        row = max(bands[number].rows[0] + 1, min(row, top))
        made[number] = replace(bands[number], rows=(bands[number].rows[0], row))
    return tuple(made)

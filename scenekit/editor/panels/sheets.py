"""Sheets: bring pictures in, see how they are cut, and put boxes right by hand."""

import re
from dataclasses import replace
from pathlib import Path

from scenekit.editor import cutting
from scenekit.editor.backend import Box
from scenekit.editor.cutting import Cutting
from scenekit.editor.desk import Desk, Lamp, Panel
from scenekit.editor.form import Form
from scenekit.editor.history import Edit
from scenekit.editor.parts.planeart import draw_bank, draw_key
from scenekit.editor.pathdialog import ask_path
from scenekit.editor.sheetboxes import draw_boxes
from scenekit.editor.sheetcut import draw_cutting
from scenekit.editor.ui import Column
from scenekit.model.edits import drop_sheet, put_sheet
from scenekit.model.sprites import Sheet

LIST_WIDTH = 176


def _start(desk: Desk, path: Path) -> None:
    taken = {sheet.name for sheet in desk.session.document.sheets}
    stem = re.sub(r"[^A-Za-z0-9_-]+", "-", path.stem).strip("-_")[:30] or "sheet"
    name = (
        stem
        if stem not in taken
        else next(f"{stem}-{n}" for n in range(2, 999) if f"{stem}-{n}" not in taken)
    )
    desk.local["cutting"] = cutting.begin(path, name)


def _draw(desk: Desk, box: Box) -> Edit | None:
    ui = desk.ui
    dropped = desk.local.pop("dropped", None)
    if dropped is not None:
        _start(desk, Path(dropped))
    if "ctrl+o" in ui.backend.pressed:
        _open(desk)
    wide = ui.px(LIST_WIDTH) if box[2] > ui.px(480) else ui.px(132)
    side: Box = (box[0], box[1], wide, box[3])
    rest: Box = (box[0] + wide + ui.px(14), box[1], box[2] - wide - ui.px(14), box[3])
    now: Cutting | None = desk.local.get("cutting")
    edit = None
    with ui.backend.region("sheets", side, scrolls=True) as scroll:
        ui.fill(side, ui.look.ground)
        column = Column(side[0], side[1] - scroll, wide - ui.px(12))
        edit = _list(desk, column)
        ui.backend.extent(column.y + ui.px(20))
    with ui.backend.region("sheet", rest):
        ui.fill(rest, ui.look.ground)
        made = draw_cutting(desk, rest, now) if now is not None else draw_boxes(desk, rest)
    return edit or made


def _open(desk: Desk) -> None:
    start = desk.local.get("last-folder", desk.session.document.folder.resolve().parent)

    def chosen(path: Path) -> None:
        desk.local["last-folder"] = path.parent
        _start(desk, path)

    ask_path(desk, "Bring in a picture", start, chosen)


def _list(desk: Desk, column: Column) -> Edit | None:
    ui, session = desk.ui, desk.session
    ui.heading(column, "Sheets", str(len(session.document.sheets)))
    for sheet in session.document.sheets:
        place = column.take(ui.px(40))
        chosen = session.sheet is sheet and desk.local.get("cutting") is None
        if ui.row(f"sheet:{sheet.name}", place, chosen=chosen).clicked:
            session.chosen.sheet, session.chosen.frames = sheet.name, ()
            desk.local.pop("cutting", None)
        ui.text(
            place[0] + 12,
            place[1] + ui.px(13),
            sheet.name,
            weight="bold" if chosen else "regular",
            room=place[2] - 16,
        )
        ui.text(place[0] + 12, place[1] + ui.px(29), f"{len(sheet.frames)} frames", "small", ui.look.quiet)
    column.y += ui.px(10)
    if ui.button(
        "sheet:open",
        column.take(ui.px(32), ui.px(8)),
        "Bring in a picture",
        kind="main" if not session.document.sheets else "plain",
        tip="Open a PNG, GIF, BMP, WebP or TIFF, or drop one onto the window. Ctrl+O",
    ):
        _open(desk)
    sheet_now = session.sheet
    if sheet_now is None or desk.local.get("cutting") is not None:
        return None
    column.y += ui.px(12)
    changed_sheet = _art(desk, column, sheet_now)
    if changed_sheet is not None:
        return Edit(
            document=put_sheet(session.document, changed_sheet), label=f"art of sheet {sheet_now.name}"
        )
    credited = _credit(desk, column, sheet_now)
    if credited is not None:
        return credited
    if ui.button(
        "sheet:drop",
        column.take(ui.px(28)),
        "Take the sheet out",
        kind="quiet",
        tip="Its file stays where it is.",
    ):
        return Edit(
            document=drop_sheet(session.document, sheet_now.name), label=f"taking out sheet {sheet_now.name}"
        )
    return None


def _art(desk: Desk, column: Column, sheet: Sheet) -> Sheet | None:
    """Which colour of the sheet is clear, and which pictures it shares palette entries with."""
    ui = desk.ui
    form = Form(ui, column, "sheet")
    ui.heading(column, "Colours")
    ui.label(column.x, column.y + ui.px(8), "key colour")
    column.y += ui.px(16)
    key = draw_key(desk, form, sheet.file, sheet.key, column.take(ui.px(28), ui.px(8)))
    ui.label(column.x, column.y + ui.px(8), "bank")
    column.y += ui.px(16)
    bank = draw_bank(form, column.take(ui.px(28), ui.px(14)), sheet.bank)
    if key is not None:
        return replace(sheet, key=key[0])
    return None if bank is None else replace(sheet, bank=bank)


def _credit(desk: Desk, column: Column, sheet_now: Sheet) -> Edit | None:
    """Who drew the sheet, under which licence, and where it is from."""
    ui, session = desk.ui, desk.session
    ui.heading(column, "Credit")
    for key, hint in (("author", "who drew it"), ("licence", "such as CC0"), ("source", "where it is from")):
        ui.label(column.x, column.y + ui.px(8), key)
        column.y += ui.px(16)
        text = ui.field(
            f"sheet:{key}", column.take(ui.px(28), ui.px(8)), getattr(sheet_now, key), str, hint=hint
        )
        if text is not None:
            changed = _with_credit(sheet_now, key, text)
            return Edit(
                document=put_sheet(session.document, changed), label=f"{key} of sheet {sheet_now.name}"
            )
    return None


def _with_credit(sheet: Sheet, key: str, text: str) -> Sheet:
    if key == "author":
        return replace(sheet, author=text)
    return replace(sheet, licence=text) if key == "licence" else replace(sheet, source=text)


def _lamp(desk: Desk) -> Lamp:
    count = len(desk.session.document.sheets)
    return Lamp(level="good" if count else "empty", word=f"{count} cut" if count else "none yet")


PLUGIN = Panel(name="sheets", title="Sheets", draw=_draw, lamp=_lamp, wide=True)

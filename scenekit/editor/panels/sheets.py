"""Sheets: bring pictures in, see how they are cut, and put boxes right by hand."""

import re
from dataclasses import replace
from pathlib import Path

from scenekit.editor import canvas, cutting
from scenekit.editor.backend import Box
from scenekit.editor.cutting import Cutting
from scenekit.editor.desk import Desk, Lamp, Panel
from scenekit.editor.history import Edit
from scenekit.editor.panels.machine import read_name
from scenekit.editor.pathdialog import ask_path
from scenekit.editor.ui import Column
from scenekit.model.edits import (
    change_frames,
    drop_frames,
    drop_sheet,
    merge_frames,
    put_frames,
    split_frame,
)
from scenekit.model.sprites import Frame, Sheet

LIST_WIDTH = 176
MOST_DASHED = 80


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
        made = _cutting(desk, rest, now) if now is not None else _boxes(desk, rest)
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
    ui.heading(column, "Credit")
    for key, hint in (("author", "who drew it"), ("licence", "such as CC0"), ("source", "where it is from")):
        ui.label(column.x, column.y + ui.px(8), key)
        column.y += ui.px(16)
        text = ui.field(
            f"sheet:{key}", column.take(ui.px(28), ui.px(8)), getattr(sheet_now, key), str, hint=hint
        )
        if text is not None:
            changed = _with_credit(sheet_now, key, text)
            from scenekit.model.edits import put_sheet

            return Edit(
                document=put_sheet(session.document, changed), label=f"{key} of sheet {sheet_now.name}"
            )
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


def _with_credit(sheet: Sheet, key: str, text: str) -> Sheet:
    if key == "author":
        return replace(sheet, author=text)
    return replace(sheet, licence=text) if key == "licence" else replace(sheet, source=text)


def _cutting(desk: Desk, box: Box, now: Cutting) -> Edit | None:
    """Show a picture that is not kept yet: the cut, how sure it is, and other ways as pictures."""
    ui = desk.ui
    x, y, w, h = box
    ui.text(x, y + ui.px(12), f"How {now.path.name} may be cut", "head", weight="bold", room=w)
    if now.error or now.pixels is None or now.cut is None:
        words = now.error or "Looking at the picture."
        ui.text(x, y + ui.px(44), words, colour=ui.look.alarm if now.error else ui.look.quiet, room=w)
        if ui.button("cut:leave", (x, y + ui.px(70), ui.px(110), ui.px(30)), "Leave it", kind="plain"):
            desk.local.pop("cutting", None)
        desk.local["animating"] = not now.done
        return None
    cut = now.cut
    sure = "sure" if cut.confidence > 0.9 else "fairly sure" if cut.confidence > 0.7 else "a guess"
    ui.text(
        x,
        y + ui.px(34),
        f"{len(cut.frames)} frames; {sure} ({cut.confidence * 100:.0f} %): {cut.reason}",
        "small",
        ui.look.quiet,
        room=w,
    )
    foot = ui.px(80)
    thumbs = ui.px(96) if len(now.cuts) > 1 else 0.0
    area: Box = (x, y + ui.px(50), w, h - ui.px(50) - foot - thumbs - ui.px(16))
    with ui.backend.region("cut-canvas", area):
        view, felt = canvas.draw_picture(desk, f"cut {now.name}", area, now.pixels)
        _outlines(desk, view, area, [found.box for found in cut.frames])
        _hint(desk, now, view, felt, area)
    if thumbs:
        _others(desk, now, (x, area[1] + area[3] + ui.px(8), w, thumbs))
    return _keep_row(desk, now, (x, y + h - foot + ui.px(4), w, ui.px(32)))


def _outlines(desk: Desk, view: canvas.View, area: Box, boxes: list[canvas.Whole]) -> None:
    """Draw the boxes that are in sight, dashed in light and dark so that they show on any art."""
    ui = desk.ui
    shown = []
    for box in boxes:
        x, y, w, h = view.to_window(box)
        if x + w >= area[0] and y + h >= area[1] and x <= area[0] + area[2] and y <= area[1] + area[3]:
            shown.append((x, y, w, h))
    for place in shown:
        ui.frame(place, (255, 255, 255))
        if len(shown) <= MOST_DASHED:
            ui.dashes(place, (20, 24, 32))


def _hint(desk: Desk, now: Cutting, view: canvas.View, felt: object, area: Box) -> None:
    """One cell, dragged over the sheet, cuts the whole sheet in cells like it."""
    from scenekit.editor.backend import Press

    assert isinstance(felt, Press)
    assert now.pixels is not None
    ui = desk.ui
    place = (felt.at[0] + area[0], felt.at[1] + area[1])
    if felt.started:
        view.drag = view.to_picture(place)
    if view.drag is None:
        return
    a, b = view.drag, view.to_picture(place)
    size = (now.pixels.shape[1], now.pixels.shape[0])
    left, right = sorted((max(0, min(size[0] - 1, a[0])), max(0, min(size[0] - 1, b[0]))))
    top, bottom = sorted((max(0, min(size[1] - 1, a[1])), max(0, min(size[1] - 1, b[1]))))
    cell = (left, top, right - left + 1, bottom - top + 1)
    ui.frame(view.to_window(cell), ui.look.accent, 2)
    ui.text(place[0] + 14, place[1] - 10, f"{cell[2]} x {cell[3]}", "small", ui.look.ink)
    if felt.ended:
        view.drag = None
        if cell[2] >= 3 and cell[3] >= 3:
            now.cuts = [cutting.cut_like(now.pixels, cell, f"sheet {now.path.name}"), *now.cuts]
            now.shown = 0


def _others(desk: Desk, now: Cutting, box: Box) -> None:
    """The ways to cut as small pictures."""
    ui = desk.ui
    assert now.pixels is not None
    x, y, w, h = box
    wide = min(ui.px(150), (w - 8) / max(1, min(5, len(now.cuts))) - 8)
    for number, cut in enumerate(now.cuts[:5]):
        place: Box = (x + number * (wide + 8), y, wide, h)
        felt = ui.press(f"cut:{number}", place, cut.reason)
        chosen = number == now.shown
        ui.fill(place, ui.look.well)
        size = (now.pixels.shape[1], now.pixels.shape[0])
        scale = min((wide - 8) / size[0], (h - ui.px(26)) / size[1])
        shown: Box = (place[0] + 4, y + 4, max(1.0, round(size[0] * scale)), max(1.0, round(size[1] * scale)))
        ui.backend.image(desk.picture(now.pixels), shown)
        for found in cut.frames[:400]:
            part = (
                shown[0] + found.box[0] * scale,
                shown[1] + found.box[1] * scale,
                found.box[2] * scale,
                found.box[3] * scale,
            )
            ui.frame(part, (255, 255, 255))
        ui.text(
            place[0] + 6,
            y + h - ui.px(10),
            f"{len(cut.frames)} frames",
            "small",
            weight="bold" if chosen else "regular",
            room=wide - 10,
        )
        ui.frame(
            place,
            ui.look.accent if chosen or felt.focused else ui.look.rule,
            2 if chosen or felt.focused else 1,
        )
        if felt.clicked:
            now.shown = number


def _keep_row(desk: Desk, now: Cutting, box: Box) -> Edit | None:
    ui = desk.ui
    x, y, w, h = box
    ui.text(x, y + h / 2, "name", "small", ui.look.quiet)
    name = ui.field("cut:name", (x + ui.px(36), y, ui.px(120), h), now.name, read_name)
    if name is not None:
        now.name = name
    left, room = x + ui.px(166), (w - ui.px(166) - 8) / 2
    for key, hint in (("author", "who drew it"), ("licence", "licence")):
        text = ui.field(f"cut:{key}", (left, y, room, h), getattr(now, key), str, hint=hint)
        if text is not None:
            setattr(now, key, text)
        left += room + 8
    right = x + w
    y += ui.px(40)
    ui.text(
        x,
        y + h / 2,
        "Drag one cell over the sheet to cut it all so.",
        "small",
        ui.look.quiet,
        room=w - ui.px(190),
    )
    if ui.button(
        "cut:keep",
        (right - ui.px(100), y, ui.px(100), h),
        "Keep it",
        kind="main",
        tip="Copy the picture into the project, with these frames.",
    ):
        assert now.cut is not None
        edit = cutting.keep(desk.session.document, now, now.cut)
        desk.session.chosen.sheet, desk.session.chosen.frames = now.name, ()
        desk.session.files_changed()
        desk.local.pop("cutting", None)
        return edit
    if ui.button("cut:leave", (right - ui.px(176), y, ui.px(70), h), "Leave it", kind="quiet"):
        desk.local.pop("cutting", None)
    return None


def _boxes(desk: Desk, box: Box) -> Edit | None:
    """Show a kept sheet with its boxes, to drag, join, part and take away."""
    ui, session = desk.ui, desk.session
    sheet = session.sheet
    x, y, w, h = box
    if sheet is None:
        ui.text(x, y + ui.px(12), "No sheet yet", "head", weight="bold")
        ui.text(
            x,
            y + ui.px(38),
            "Open a picture, or drop one here. You see how it would be cut before it is kept.",
            colour=ui.look.quiet,
            room=w,
        )
        return None
    pixels = desk.sheet_pixels(sheet.name)
    ui.text(x, y + ui.px(12), sheet.name, "head", weight="bold", room=w / 2)
    chosen = [f for f in sheet.frames if f.name in session.chosen.frames]
    words = (
        f"{len(sheet.frames)} frames"
        if not chosen
        else f"{chosen[0].name}: {list(chosen[0].box)}"
        if len(chosen) == 1
        else f"{len(chosen)} chosen"
    )
    ui.text(x + w, y + ui.px(12), words, "small", ui.look.quiet, anchor="right", room=w / 2)
    if pixels is None:
        ui.text(x, y + ui.px(44), "Reading the art.", colour=ui.look.quiet)
        return None
    area: Box = (x, y + ui.px(28), w, h - ui.px(28) - ui.px(42))
    with ui.backend.region("sheet-canvas", area):
        view, felt = canvas.draw_picture(desk, f"sheet {sheet.name}", area, pixels)
        _outlines(desk, view, area, [frame.box for frame in sheet.frames])
        for frame in chosen:
            ui.frame(view.to_window(frame.box), ui.look.accent, 2)
        edit = _drag(desk, sheet, view, felt, area, (pixels.shape[1], pixels.shape[0]))
    return _tools(desk, sheet, chosen, (x, y + h - ui.px(34), w, ui.px(30))) or edit


def _drag(
    desk: Desk, sheet: Sheet, view: canvas.View, felt: object, area: Box, size: tuple[int, int]
) -> Edit | None:
    from scenekit.editor.backend import Press

    assert isinstance(felt, Press)
    session = desk.session
    place = (felt.at[0] + area[0], felt.at[1] + area[1])
    if felt.started:
        hit = next(
            ((f, g) for f in reversed(sheet.frames) if (g := canvas.grip(view.to_window(f.box), place))), None
        )
        if hit is None:
            session.chosen.frames = ()
            view.drag = ("pan", (view.x, view.y))
        else:
            group = session.chosen.frames if hit[0].name in session.chosen.frames else (hit[0].name,)
            more = "shift" in desk.ui.backend.held
            session.chosen.frames = (
                tuple(dict.fromkeys((*session.chosen.frames, hit[0].name))) if more else group
            )
            desk.local["gesture"] = desk.local.get("gesture", 0) + 1
            view.drag = (
                hit[1],
                session.document,
                session.chosen.frames if hit[1] == "body" else (hit[0].name,),
            )
    if view.drag is None or not (felt.held or felt.ended):
        return _arrows(desk, sheet, size)
    if view.drag[0] == "pan":
        view.x, view.y = view.drag[1][0] + felt.moved[0], view.drag[1][1] + felt.moved[1]
    elif felt.held:
        part, base, names = view.drag
        by = (round(felt.moved[0] / view.zoom), round(felt.moved[1] / view.zoom))
        if by != (0, 0) or session.document is not base:
            changed = change_frames(
                base, sheet.name, names, lambda f: replace(f, box=canvas.moved_box(f.box, part, by, size))
            )
            if changed != session.document:
                return Edit(
                    document=changed,
                    label="moving boxes" if part == "body" else "moving an edge",
                    gesture=f"drag {desk.local['gesture']}",
                    held=True,
                )
    if felt.ended:
        view.drag = None
    return None


def _arrows(desk: Desk, sheet: Sheet, size: tuple[int, int]) -> Edit | None:
    by, grows = canvas.arrow_step(desk)
    names = desk.session.chosen.frames
    if by == (0, 0) or not names:
        return None
    part = "right bottom" if grows else "body"
    changed = change_frames(
        desk.session.document,
        sheet.name,
        names,
        lambda f: replace(f, box=canvas.moved_box(f.box, part, by, size)),
    )
    return Edit(document=changed, label="moving boxes", gesture=f"arrows {part}")


def _tools(desk: Desk, sheet: Sheet, chosen: list[Frame], box: Box) -> Edit | None:
    """What can be done with the chosen boxes."""
    ui, session = desk.ui, desk.session
    x, y, w, h = box
    names = [frame.name for frame in chosen]
    one = chosen[0] if len(chosen) == 1 else None
    wide = min(ui.px(112), (w - 32) / 5)
    made: Edit | None = None
    if ui.button(
        "box:join", (x, y, wide, h), "Join", on=len(chosen) > 1, tip="One box around the chosen ones."
    ):
        made = Edit(document=merge_frames(session.document, sheet.name, names), label="joining boxes")
    if ui.button(
        "box:across",
        (x + wide + 8, y, wide, h),
        "Part across",
        on=one is not None and one.box[2] > 1,
        tip="Left and right half.",
    ):
        assert one is not None
        made = Edit(
            document=split_frame(session.document, sheet.name, one.name, 0, one.box[2] // 2),
            label="parting a box",
        )
    if ui.button(
        "box:down",
        (x + 2 * (wide + 8), y, wide, h),
        "Part down",
        on=one is not None and one.box[3] > 1,
        tip="Upper and lower half.",
    ):
        assert one is not None
        made = Edit(
            document=split_frame(session.document, sheet.name, one.name, 1, one.box[3] // 2),
            label="parting a box",
        )
    away = "delete" in ui.backend.pressed and not ui.backend.typing and desk.ask is None
    if ui.button(
        "box:drop", (x + 3 * (wide + 8), y, wide, h), "Take away", on=bool(chosen), tip="Delete"
    ) or (away and chosen):
        made = Edit(document=drop_frames(session.document, sheet.name, names), label="taking boxes away")
        session.chosen.frames = ()
    if ui.button(
        "box:add", (x + 4 * (wide + 8), y, wide, h), "Add", tip="A box in the middle of what you see."
    ):
        made = _added(desk, sheet)
    return made


def _added(desk: Desk, sheet: Sheet) -> Edit:
    taken = {frame.name for frame in sheet.frames}
    name = next(f"box-{n:02d}" for n in range(1, 9999) if f"box-{n:02d}" not in taken)
    pixels = desk.sheet_pixels(sheet.name)
    assert pixels is not None
    side = min(16, pixels.shape[0], pixels.shape[1])
    frame = Frame(name=name, box=(0, 0, side, side), pivot=((side - 1) // 2, side - 1))
    desk.session.chosen.frames = (name,)
    return Edit(
        document=put_frames(desk.session.document, sheet.name, [*sheet.frames, frame]), label="adding a box"
    )


def _lamp(desk: Desk) -> Lamp:
    count = len(desk.session.document.sheets)
    return Lamp(level="good" if count else "empty", word=f"{count} cut" if count else "none yet")


PLUGIN = Panel(name="sheets", title="Sheets", draw=_draw, lamp=_lamp, wide=True)

"""Sheets: a picture that is not kept yet, the cut on show, and other ways to cut it as pictures."""

from scenekit.editor import canvas, cutting
from scenekit.editor.backend import Box, Press
from scenekit.editor.cutting import Cutting
from scenekit.editor.desk import Desk
from scenekit.editor.form import read_name
from scenekit.editor.gridlines import draw_lines, grid_fields
from scenekit.editor.history import Edit
from scenekit.editor.sheetboxes import draw_outlines


def draw_cutting(desk: Desk, box: Box, now: Cutting) -> Edit | None:
    """Show a picture that is not kept yet: the cut, how sure it is, and other ways as pictures."""
    ui = desk.ui
    x, y, w, h = box
    ui.text(x, y + ui.px(12), f"How {now.path.name} may be cut", "head", weight="bold", room=w * 0.6)
    hint = "drag a line, or one cell"
    ui.text(x + w, y + ui.px(12), hint, "small", ui.look.quiet, anchor="right", room=w * 0.38)
    if now.error or now.pixels is None or now.cut is None:
        words = now.error or "Looking at the picture."
        ui.text(x, y + ui.px(44), words, colour=ui.look.alarm if now.error else ui.look.quiet, room=w)
        if ui.button("cut:leave", (x, y + ui.px(70), ui.px(110), ui.px(30)), "Leave it", kind="plain"):
            desk.local.pop("cutting", None)
        desk.local["animating"] = not now.done
        return None
    cut = now.cut
    sure = "sure" if cut.confidence > 0.9 else "fairly sure" if cut.confidence > 0.7 else "a guess"
    words = f"{counted(len(cut.frames))}; {sure} ({cut.confidence * 100:.0f} %): {cut.reason}"
    for number, line in enumerate(ui.lines(words, w, "small")[:2]):
        ui.text(x, y + ui.px(34 + 16 * number), line, "small", ui.look.quiet, room=w)
    foot = ui.px(118)
    thumbs = ui.px(96) if len(now.cuts) > 1 else 0.0
    head = ui.px(64)
    area: Box = (x, y + head, w, h - head - foot - thumbs - ui.px(16))
    with ui.backend.region("cut-canvas", area):
        view, felt = canvas.draw_picture(desk, f"cut {now.name}", area, now.pixels)
        draw_outlines(desk, view, area, [found.box for found in cut.frames])
        if not draw_lines(desk, now, view, felt, area):
            _hint(desk, now, view, felt, area)
    if thumbs:
        _others(desk, now, (x, area[1] + area[3] + ui.px(8), w, thumbs))
    return _keep_row(desk, now, (x, y + h - foot + ui.px(4), w, ui.px(32)))


def _hint(desk: Desk, now: Cutting, view: canvas.View, felt: Press, area: Box) -> None:
    """One cell, dragged over the sheet, cuts the whole sheet in cells like it."""
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
            now.show_own(cutting.cut_like(now.pixels, cell, f"sheet {now.path.name}"))


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
            counted(len(cut.frames)) if wide > ui.px(76) else f"{len(cut.frames)}",
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
    wide = min(ui.px(120), w * 0.28)
    name = ui.field("cut:name", (x + ui.px(36), y, wide, h), now.name, read_name)
    if name is not None:
        now.name = name
    left = x + ui.px(46) + wide
    room = (x + w - left - 8) / 2
    for key, hint in (("author", "who drew it"), ("licence", "licence")):
        text = ui.field(f"cut:{key}", (left, y, room, h), getattr(now, key), str, hint=hint)
        if text is not None:
            setattr(now, key, text)
        left += room + 8
    right = x + w
    y += ui.px(40)
    grid_fields(desk, now, (x, y, w, h))
    y += ui.px(38)
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


def counted(frames: int) -> str:
    """Say how many frames there are."""
    return "1 frame" if frames == 1 else f"{frames} frames"

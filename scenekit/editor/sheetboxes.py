"""Sheets: the boxes of a kept sheet, to drag, join, part and take away."""

from scenekit.editor import canvas
from scenekit.editor.backend import Box
from scenekit.editor.boxdrag import drag_boxes
from scenekit.editor.desk import Desk
from scenekit.editor.following import draw_following
from scenekit.editor.history import Edit
from scenekit.model.frame_edits import drop_frames, merge_frames, put_frames, split_frame
from scenekit.model.sprites import Frame, Sheet

MOST_DASHED = 80


def draw_outlines(desk: Desk, view: canvas.View, area: Box, boxes: list[canvas.Whole]) -> None:
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


def draw_boxes(desk: Desk, box: Box) -> Edit | None:
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
    follows = ui.px(40) if sheet.file in session.changed_pictures else 0
    area: Box = (x, y + ui.px(28), w, h - ui.px(28) - ui.px(42) - follows)
    desk.local["sheet-area"] = area
    with ui.backend.region("sheet-canvas", area):
        view, felt = canvas.draw_picture(desk, f"sheet {sheet.name}", area, pixels)
        draw_outlines(desk, view, area, [frame.box for frame in sheet.frames])
        for frame in chosen:
            ui.frame(view.to_window(frame.box), ui.look.accent, 2)
        edit = drag_boxes(desk, sheet, view, felt, area, (pixels.shape[1], pixels.shape[0]))
    if follows:
        edit = draw_following(desk, sheet, pixels, (x, y + h - ui.px(76), w, ui.px(32))) or edit
    return _tools(desk, sheet, chosen, (x, y + h - ui.px(34), w, ui.px(30))) or edit


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
    for axis, (name, word, tip) in enumerate(
        (("across", "Across", "Left and right half."), ("down", "Down", "Upper and lower half."))
    ):
        place = (x + (axis + 1) * (wide + 8), y, wide, h)
        label = f"Part {word.lower()}" if wide > ui.px(88) else word
        if ui.button(f"box:{name}", place, label, on=one is not None and one.box[2 + axis] > 1, tip=tip):
            assert one is not None
            parted = split_frame(session.document, sheet.name, one.name, axis, one.box[2 + axis] // 2)
            made = Edit(document=parted, label="parting a box")
    away = "delete" in ui.backend.pressed and not ui.backend.typing and desk.ask is None
    if ui.button(
        "box:drop",
        (x + 3 * (wide + 8), y, wide, h),
        "Take away" if wide > ui.px(80) else "Out",
        on=bool(chosen),
        tip="Delete",
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
    view: canvas.View = desk.local[f"view sheet {sheet.name}"]
    x, y, w, h = desk.local["sheet-area"]
    side = min(16, pixels.shape[0], pixels.shape[1])
    left, top = view.to_picture((x + w / 2, y + h / 2))
    left = max(0, min(pixels.shape[1] - side, left - side // 2))
    top = max(0, min(pixels.shape[0] - side, top - side // 2))
    frame = Frame(name=name, box=(left, top, side, side), pivot=((side - 1) // 2, side - 1))
    desk.session.chosen.frames = (name,)
    return Edit(
        document=put_frames(desk.session.document, sheet.name, [*sheet.frames, frame]), label="adding a box"
    )

"""Frames: names, the pivot each stands on, hit boxes, neighbours in outline, and flips."""

from scenekit.editor import canvas
from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk, Lamp, Panel
from scenekit.editor.frameart import draw_frame
from scenekit.editor.history import Edit
from scenekit.editor.parts.alike import like_words, likeness
from scenekit.editor.parts.framefields import NARROW, draw_fields
from scenekit.editor.parts.frameshapes import dragged, draw_neighbours, draw_shapes, framed
from scenekit.editor.ui import Column
from scenekit.model.sprites import Frame, Sheet
from scenekit.model.usage import frames_in_use

LIST_WIDTH = 176
ROW_PX = 44


def _draw(desk: Desk, box: Box) -> Edit | None:
    ui, session = desk.ui, desk.session
    sheet = session.sheet
    wide = ui.px(LIST_WIDTH) if box[2] > ui.px(480) else ui.px(148)
    side: Box = (box[0], box[1], wide, box[3])
    rest: Box = (box[0] + wide + ui.px(14), box[1], box[2] - wide - ui.px(14), box[3])
    if sheet is None or not sheet.frames:
        ui.text(box[0], box[1] + ui.px(12), "No frames yet", "head", weight="bold")
        ui.text(
            box[0],
            box[1] + ui.px(38),
            "Bring in a sheet first; its cut gives the frames.",
            colour=ui.look.quiet,
        )
        return None
    names = [frame.name for frame in sheet.frames]
    if not session.chosen.frames or session.chosen.frames[0] not in names:
        session.chosen.frames = (names[0],)
    with ui.backend.region("frames-head", (side[0], side[1], wide, ui.px(40))):
        picked = ui.choice(
            "frames:sheet",
            (side[0], side[1], wide - ui.px(12), ui.px(30)),
            [s.name for s in session.document.sheets],
            sheet.name,
        )
        if picked:
            session.chosen.sheet, session.chosen.frames = picked, ()
    listed: Box = (side[0], side[1] + ui.px(40), wide, side[3] - ui.px(40))
    with ui.backend.region("frames", listed, scrolls=True) as scroll:
        _list(desk, sheet, listed, scroll)
    frame = next((f for f in sheet.frames if f.name == session.chosen.frames[0]), sheet.frames[0])
    with ui.backend.region("frame", rest):
        ui.fill(rest, ui.look.ground)
        return _frame(desk, sheet, frame, rest)


def _list(desk: Desk, sheet: Sheet, box: Box, scroll: float) -> None:
    """The frames as small pictures; Shift adds to what is chosen."""
    ui, session = desk.ui, desk.session
    row = ui.px(ROW_PX)
    x, y, w, h = box
    document = session.document
    used = desk.remember("frames-in-use", lambda: frames_in_use(document), document)
    like = likeness(desk, sheet)
    for number, frame in enumerate(sheet.frames):
        top = y + number * row - scroll
        if top + row < y or top > y + h:
            continue
        place: Box = (x, top, w - ui.px(12), row)
        felt = ui.row(f"frame:{frame.name}", place, chosen=frame.name in session.chosen.frames)
        side = ui.px(40 if w > ui.px(150) else 30)
        left, room = x + 6 + side + ui.px(8), w - side - ui.px(28)
        draw_frame(desk, sheet, frame.name, (x + 6, top + 3, side, row - 6), trimmed=True)
        ui.text(left, top + row / 2 - ui.px(7), frame.name, room=room)
        words = f"{frame.box[2]} x {frame.box[3]}" + ("" if (sheet.name, frame.name) in used else ", unused")
        if frame.name in like:
            words = f"= {like_words(like[frame.name])}"
        ui.text(left, top + row / 2 + ui.px(9), words, "small", ui.look.quiet, room=room)
        if felt.clicked:
            if "shift" in ui.backend.held and session.chosen.frames:
                names = [f.name for f in sheet.frames]
                a, b = sorted((names.index(session.chosen.frames[0]), number))
                session.chosen.frames = (
                    session.chosen.frames[0],
                    *(n for n in names[a : b + 1] if n != session.chosen.frames[0]),
                )
            else:
                session.chosen.frames = (frame.name,)
    ui.backend.extent(y + len(sheet.frames) * row - scroll + 4)


def _frame(desk: Desk, sheet: Sheet, frame: Frame, box: Box) -> Edit | None:
    """One frame, large, with its pivot and hit box to drag."""
    ui = desk.ui
    x, y, w, h = box
    pixels = desk.sheet_pixels(sheet.name)
    if pixels is None:
        ui.text(x, y + ui.px(12), "Reading the art.", colour=ui.look.quiet)
        return None
    foot = ui.px(212 if w < ui.px(NARROW) else 186)
    area: Box = (x, y, w, h - foot)
    flip = desk.local.get("frame-flip", 0)
    part = desk.remember("frame-part", lambda: framed(pixels, frame, flip), pixels, frame.box, flip)
    with ui.backend.region("frame-canvas", area):
        view, felt = canvas.draw_picture(desk, f"frame {sheet.name} {frame.box[2:]}", area, part)
        draw_neighbours(desk, sheet, frame, pixels, view)
        draw_shapes(desk, frame, view, flip)
        edit = dragged(desk, sheet, frame, view, felt, area, flip)
    column = Column(x, y + h - foot + ui.px(8), w)
    return draw_fields(desk, column, sheet, frame) or edit


def _lamp(desk: Desk) -> Lamp:
    count = sum(len(sheet.frames) for sheet in desk.session.document.sheets)
    return Lamp(level="good" if count else "empty", word=f"{count} named" if count else "none yet")


PLUGIN = Panel(name="frames", title="Frames", draw=_draw, lamp=_lamp, wide=True)

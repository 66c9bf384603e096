"""Frames: names, the peg each stands on, hit boxes, neighbours in outline, and flips."""

import math
import re
from collections.abc import Callable
from dataclasses import replace

import numpy as np

from scenekit.editor import canvas
from scenekit.editor.arithmetic import whole
from scenekit.editor.backend import Box, Press
from scenekit.editor.desk import Desk, Lamp, Panel
from scenekit.editor.form import read_name
from scenekit.editor.frameart import draw_frame
from scenekit.editor.history import Edit
from scenekit.editor.ui import Column
from scenekit.model.arrays import Pixels
from scenekit.model.edits import change_frames, rename_frames
from scenekit.model.sprites import Frame, Sheet

LIST_WIDTH = 176
ROW_PX = 44
MARGIN_PX = 16


def _draw(desk: Desk, box: Box) -> Edit | None:
    ui, session = desk.ui, desk.session
    sheet = session.sheet
    wide = ui.px(LIST_WIDTH) if box[2] > ui.px(480) else ui.px(132)
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
    used = {
        step.frame
        for sprite in session.document.sprites
        for a in sprite.animations
        if a.sheet == sheet.name
        for step in a.steps
    }
    for number, frame in enumerate(sheet.frames):
        top = y + number * row - scroll
        if top + row < y or top > y + h:
            continue
        place: Box = (x, top, w - ui.px(12), row)
        felt = ui.row(f"frame:{frame.name}", place, chosen=frame.name in session.chosen.frames)
        draw_frame(desk, sheet, frame.name, (x + 6, top + 3, ui.px(40), row - 6))
        ui.text(x + ui.px(54), top + row / 2 - ui.px(7), frame.name, room=w - ui.px(72))
        words = f"{frame.box[2]} x {frame.box[3]}" + ("" if frame.name in used else ", unused")
        ui.text(x + ui.px(54), top + row / 2 + ui.px(9), words, "small", ui.look.quiet, room=w - ui.px(72))
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
    """One frame, large, with its peg and hit box to drag."""
    ui = desk.ui
    x, y, w, h = box
    pixels = desk.sheet_pixels(sheet.name)
    if pixels is None:
        ui.text(x, y + ui.px(12), "Reading the art.", colour=ui.look.quiet)
        return None
    foot = ui.px(186)
    area: Box = (x, y, w, h - foot)
    flip = desk.local.get("frame-flip", 0)
    part = desk.remember("frame-part", lambda: _part(pixels, frame, flip), pixels, frame.box, flip)
    with ui.backend.region("frame-canvas", area):
        view, felt = canvas.draw_picture(desk, f"frame {sheet.name} {frame.box[2:]}", area, part)
        _neighbours(desk, sheet, frame, pixels, view)
        _shapes(desk, frame, view, flip)
        edit = _drag(desk, sheet, frame, view, felt, area, flip)
    column = Column(x, y + h - foot + ui.px(8), w)
    return _fields(desk, column, sheet, frame) or edit


def _part(pixels: Pixels, frame: Frame, flip: int) -> Pixels:
    x, y, w, h = frame.box
    part = np.zeros((h + 2 * MARGIN_PX, w + 2 * MARGIN_PX, 4), dtype=np.uint8)
    art = pixels[y : y + h, x : x + w]
    art = art[:, ::-1] if flip & 1 else art
    part[MARGIN_PX:-MARGIN_PX, MARGIN_PX:-MARGIN_PX] = art[::-1] if flip & 2 else art
    return part


def _neighbours(desk: Desk, sheet: Sheet, frame: Frame, pixels: Pixels, view: canvas.View) -> None:
    """Grey outlines of the steps before and after this one, standing on the same peg."""
    sprites = desk.session.document.sprites
    for sprite in sprites:
        for animation in sprite.animations:
            names = [step.frame for step in animation.steps]
            if animation.sheet == sheet.name and frame.name in names and len(names) > 1:
                place = names.index(frame.name)
                for other in {names[place - 1], names[(place + 1) % len(names)]} - {frame.name}:
                    found = sheet.frame(other)
                    if found is not None:
                        _outline(desk, found, frame, pixels, view)
                return


def _outline(desk: Desk, other: Frame, frame: Frame, pixels: Pixels, view: canvas.View) -> None:
    def edges() -> list[tuple[int, int, int, int]]:
        x, y, w, h = other.box
        art = np.pad(pixels[y : y + h, x : x + w, 3] > 0, 1)
        found = []
        for dy, dx, wide, high in ((0, -1, 0, 1), (0, 1, 0, 1), (-1, 0, 1, 0), (1, 0, 1, 0)):
            rim = art[1:-1, 1:-1] & ~art[1 + dy : art.shape[0] - 1 + dy, 1 + dx : art.shape[1] - 1 + dx]
            rows, columns = np.nonzero(rim)
            found += [
                (int(c) + (dx > 0), int(r) + (dy > 0), wide, high) for r, c in zip(rows, columns, strict=True)
            ]
        return found[:4000]

    shift = (frame.pivot[0] - other.pivot[0] + MARGIN_PX, frame.pivot[1] - other.pivot[1] + MARGIN_PX)
    grey = (184, 188, 194)
    for x, y, w, h in desk.remember(f"outline {other.name}", edges, pixels, other.box):
        left, top = view.x + (x + shift[0]) * view.zoom, view.y + (y + shift[1]) * view.zoom
        desk.ui.fill((left, top, max(1, w * view.zoom), max(1, h * view.zoom)), grey)


def _mirrored(frame: Frame, flip: int) -> tuple[tuple[int, int], tuple[int, int, int, int] | None]:
    """Return pivot and hit box as they stand in the flipped frame."""
    _, _, w, h = frame.box
    px, py = frame.pivot
    pivot = (w - 1 - px if flip & 1 else px, h - 1 - py if flip & 2 else py)
    if frame.hit_box is None:
        return pivot, None
    x, y, a, b = frame.hit_box
    return pivot, (w - x - a if flip & 1 else x, h - y - b if flip & 2 else y, a, b)


def _shapes(desk: Desk, frame: Frame, view: canvas.View, flip: int) -> None:
    ui = desk.ui
    pivot, hit = _mirrored(frame, flip)
    whole_box = view.to_window((MARGIN_PX, MARGIN_PX, *frame.box[2:]))
    ui.frame(whole_box, (60, 64, 72))
    if hit is not None:
        place = view.to_window((hit[0] + MARGIN_PX, hit[1] + MARGIN_PX, *hit[2:]))
        ui.frame(place, (255, 255, 255), 2)
        ui.dashes(place, (213, 94, 0), 6)
    peg = view.to_window((pivot[0] + MARGIN_PX, pivot[1] + MARGIN_PX, 1, 1))
    middle, ground = peg[0] + peg[2] / 2, peg[1] + peg[3]
    ui.fill((middle - ui.px(22), ground, ui.px(44), 3), (255, 255, 255))
    ui.fill((middle - ui.px(22), ground + 1, ui.px(44), 1), (0, 0, 0))
    ui.fill((middle - 2, ground - ui.px(26), 4, ui.px(26)), (255, 255, 255))
    ui.fill((middle - 1, ground - ui.px(25), 2, ui.px(25)), (0, 0, 0))
    ui.fill((middle - 5, ground - ui.px(30), 10, 6), (0, 0, 0))
    ui.fill((middle - 4, ground - ui.px(29), 8, 4), (255, 255, 255))


def _drag(
    desk: Desk, sheet: Sheet, frame: Frame, view: canvas.View, felt: Press, area: Box, flip: int
) -> Edit | None:
    place = (felt.at[0] + area[0], felt.at[1] + area[1])
    pivot, hit = _mirrored(frame, flip)
    if felt.started:
        peg = view.to_window((pivot[0] + MARGIN_PX, pivot[1] + MARGIN_PX, 1, 1))
        near = abs(place[0] - peg[0] - peg[2] / 2) < 10 and -34 < place[1] - peg[1] - peg[3] < 8
        part = (
            "peg"
            if near
            else canvas.grip(view.to_window((hit[0] + MARGIN_PX, hit[1] + MARGIN_PX, *hit[2:])), place)
            if hit
            else ""
        )
        desk.local["gesture"] = desk.local.get("gesture", 0) + 1
        view.drag = (part or "pan", frame, (view.x, view.y))
    if view.drag is None or not felt.held:
        view.drag = None if felt.ended else view.drag
        return _arrows(desk, sheet)
    part, start, origin = view.drag
    if part == "pan":
        view.x, view.y = origin[0] + felt.moved[0], origin[1] + felt.moved[1]
        return None
    by = (round(felt.moved[0] / view.zoom), round(felt.moved[1] / view.zoom))
    by = (-by[0] if flip & 1 else by[0], -by[1] if flip & 2 else by[1])
    if part == "peg":
        new = replace(start, pivot=(start.pivot[0] + by[0], start.pivot[1] + by[1]))
    else:
        assert start.hit_box is not None
        if flip & 1:
            part = part.translate({}).replace("left", "?").replace("right", "left").replace("?", "right")
        if flip & 2:
            part = part.replace("top", "?").replace("bottom", "top").replace("?", "bottom")
        new = replace(start, hit_box=canvas.moved_box(start.hit_box, part, by, (start.box[2], start.box[3])))
    if new == frame or start.name != frame.name:
        return None
    changed = change_frames(desk.session.document, sheet.name, [frame.name], lambda _: new)
    return Edit(
        document=changed,
        label="moving the peg" if part == "peg" else "the hit box",
        gesture=f"drag {desk.local['gesture']}",
        held=True,
    )


def _arrows(desk: Desk, sheet: Sheet) -> Edit | None:
    by, _ = canvas.arrow_step(desk)
    if by == (0, 0):
        return None
    changed = change_frames(
        desk.session.document,
        sheet.name,
        desk.session.chosen.frames,
        lambda f: replace(f, pivot=(f.pivot[0] + by[0], f.pivot[1] + by[1])),
    )
    return Edit(document=changed, label="moving the peg", gesture="arrows peg")


def _fields(desk: Desk, column: Column, sheet: Sheet, frame: Frame) -> Edit | None:
    ui, session = desk.ui, desk.session
    document, names = session.document, session.chosen.frames
    row, gap = ui.px(28), ui.px(8)
    x, y, w, h = column.take(row, gap)
    many = len(names) > 1
    ui.text(x, y + h / 2, f"{len(names)} names" if many else "name", colour=ui.look.quiet)
    text = ui.field(
        "frame:name",
        (x + ui.px(70), y, w * 0.42 - ui.px(70), h),
        frame.name,
        read_name,
        tip="With several chosen, they are numbered: walk gives walk-01, walk-02.",
    )
    if text is not None:
        return Edit(
            document=rename_frames(document, sheet.name, numbered(text, names)), label="naming frames"
        )
    picked = ui.segments(
        "frame:flip",
        (x + w * 0.42 + 8, y, w * 0.58 - 8, h),
        ("drawn", "mirrored", "over", "both"),
        ("drawn", "mirrored", "over", "both")[desk.local.get("frame-flip", 0)],
        tip="See it flipped; peg and hit box follow.",
    )
    if picked:
        desk.local["frame-flip"] = ("drawn", "mirrored", "over", "both").index(picked)
    x, y, w, h = column.take(row, gap)
    ui.text(x, y + h / 2, "peg", colour=ui.look.quiet)
    part = (w - ui.px(70)) / 4
    for axis, word in ((0, "across"), (1, "down")):
        at = ui.field(
            f"frame:peg-{word}",
            (x + ui.px(70) + axis * part, y, part - 6, h),
            str(frame.pivot[axis]),
            lambda t: whole(t, -32_767, 32_767),
            unit="px",
            tip=f"The pixel that stands on the sprite's position, {word}.",
        )
        if at is not None:
            return Edit(
                document=change_frames(document, sheet.name, names, _pivot(axis, at)), label="moving the peg"
            )
    x, y, w, h = column.take(row, gap)
    ui.text(x, y + h / 2, "hit box", colour=ui.look.quiet)
    if frame.hit_box is None:
        if ui.button("frame:hit", (x + ui.px(70), y, ui.px(120), h), "Give it one"):
            return Edit(
                document=change_frames(
                    document, sheet.name, names, lambda f: replace(f, hit_box=(0, 0, *f.box[2:]))
                ),
                label="giving hit boxes",
            )
        return None
    for number, word in enumerate(("left", "top", "wide", "high")):
        value = ui.field(
            f"frame:hit-{word}",
            (x + ui.px(70) + number * part, y, part - 6, h),
            str(frame.hit_box[number]),
            _hit_reader(number),
            unit=word,
        )
        if value is not None:
            return Edit(
                document=change_frames(document, sheet.name, names, _hit(number, value)), label="the hit box"
            )
    if ui.button(
        "frame:no-hit", (x + ui.px(70), column.take(row)[1], ui.px(150), row), "Without hit box", kind="quiet"
    ):
        return Edit(
            document=change_frames(document, sheet.name, names, lambda f: replace(f, hit_box=None)),
            label="taking hit boxes away",
        )
    return None


def numbered(text: str, names: tuple[str, ...]) -> dict[str, str]:
    """Return a new name for each old one: the text itself for one, numbered from 01 for several."""
    if len(names) == 1:
        return {names[0]: text}
    digits = max(2, math.floor(math.log10(len(names))) + 1)
    stem = re.sub(r"-?\d+$", "", text) or text
    return {name: f"{stem}-{number:0{digits}d}" for number, name in enumerate(names, 1)}


def _hit_reader(number: int) -> Callable[[str], int]:
    """Return what reads a side of a hit box: places may lie outside, sizes are at least 1."""
    return lambda text: whole(text, 1 if number > 1 else -32_767, 32_767)


def _pivot(axis: int, at: int) -> Callable[[Frame], Frame]:
    return lambda f: replace(f, pivot=(at, f.pivot[1]) if axis == 0 else (f.pivot[0], at))


def _hit(number: int, value: int) -> Callable[[Frame], Frame]:
    def change(frame: Frame) -> Frame:
        box = list(frame.hit_box or (0, 0, *frame.box[2:]))
        box[number] = value
        return replace(frame, hit_box=(box[0], box[1], box[2], box[3]))

    return change


def _lamp(desk: Desk) -> Lamp:
    count = sum(len(sheet.frames) for sheet in desk.session.document.sheets)
    return Lamp(level="good" if count else "empty", word=f"{count} named" if count else "none yet")


PLUGIN = Panel(name="frames", title="Frames", draw=_draw, lamp=_lamp, wide=True)

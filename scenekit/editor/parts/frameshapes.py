"""The pivot, the hit box and the neighbours' outlines of a frame on its canvas, and dragging them."""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from scenekit.editor import canvas
from scenekit.editor.backend import Box, Press
from scenekit.editor.desk import Desk
from scenekit.editor.history import Edit
from scenekit.model.arrays import Pixels
from scenekit.model.frame_edits import change_frames
from scenekit.model.sprites import Frame, Sheet

MARGIN_PX = 16
MOST_EDGES = 2000


def framed(pixels: Pixels, frame: Frame, flip: int) -> Pixels:
    x, y, w, h = frame.box
    part = np.zeros((h + 2 * MARGIN_PX, w + 2 * MARGIN_PX, 4), dtype=np.uint8)
    art = pixels[y : y + h, x : x + w]
    art = art[:, ::-1] if flip & 1 else art
    part[MARGIN_PX:-MARGIN_PX, MARGIN_PX:-MARGIN_PX] = art[::-1] if flip & 2 else art
    return part


def draw_neighbours(desk: Desk, sheet: Sheet, frame: Frame, pixels: Pixels, view: canvas.View) -> None:
    """Grey outlines of the steps before and after this one, standing on the same pivot."""
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
        return outline_of(pixels[y : y + h, x : x + w, 3] > 0)[:MOST_EDGES]

    shift = (frame.pivot[0] - other.pivot[0] + MARGIN_PX, frame.pivot[1] - other.pivot[1] + MARGIN_PX)
    grey = (184, 188, 194)
    for x, y, w, h in desk.remember(f"outline {other.name}", edges, pixels, other.box):
        left, top = view.x + (x + shift[0]) * view.zoom, view.y + (y + shift[1]) * view.zoom
        desk.ui.fill((left, top, max(1, w * view.zoom), max(1, h * view.zoom)), grey)


def outline_of(art: NDArray[np.bool_]) -> list[tuple[int, int, int, int]]:
    """Return the lines (x, y, w, h) between what is art and what is not; one of w and h is 0."""
    found = []
    for down, part in ((False, art), (True, art.T)):
        across = np.pad(part, ((1, 1), (1, 1)))
        edge = across[1:, :] != across[:-1, :]
        change = np.diff(edge.astype(np.int8), axis=1)
        rows, starts = np.nonzero(change == 1)
        ends = np.nonzero(change == -1)[1]
        for row, start, end in zip(rows.tolist(), starts.tolist(), ends.tolist(), strict=True):
            found.append((row, start, 0, end - start) if down else (start, row, end - start, 0))
    return found


def _mirrored(frame: Frame, flip: int) -> tuple[tuple[int, int], tuple[int, int, int, int] | None]:
    """Return pivot and hit box as they stand in the flipped frame."""
    _, _, w, h = frame.box
    px, py = frame.pivot
    pivot = (w - 1 - px if flip & 1 else px, h - 1 - py if flip & 2 else py)
    if frame.hit_box is None:
        return pivot, None
    x, y, a, b = frame.hit_box
    return pivot, (w - x - a if flip & 1 else x, h - y - b if flip & 2 else y, a, b)


def draw_shapes(desk: Desk, frame: Frame, view: canvas.View, flip: int) -> None:
    ui = desk.ui
    pivot, hit = _mirrored(frame, flip)
    whole_box = view.to_window((MARGIN_PX, MARGIN_PX, *frame.box[2:]))
    ui.frame(whole_box, (60, 64, 72))
    if hit is not None:
        place = view.to_window((hit[0] + MARGIN_PX, hit[1] + MARGIN_PX, *hit[2:]))
        ui.frame(place, (255, 255, 255), 2)
        ui.dashes(place, (213, 94, 0), 6)
    mark = view.to_window((pivot[0] + MARGIN_PX, pivot[1] + MARGIN_PX, 1, 1))
    middle, ground = mark[0] + mark[2] / 2, mark[1] + mark[3]
    ui.fill((middle - ui.px(22), ground, ui.px(44), 3), (255, 255, 255))
    ui.fill((middle - ui.px(22), ground + 1, ui.px(44), 1), (0, 0, 0))
    ui.fill((middle - 2, ground - ui.px(26), 4, ui.px(26)), (255, 255, 255))
    ui.fill((middle - 1, ground - ui.px(25), 2, ui.px(25)), (0, 0, 0))
    ui.fill((middle - 5, ground - ui.px(30), 10, 6), (0, 0, 0))
    ui.fill((middle - 4, ground - ui.px(29), 8, 4), (255, 255, 255))


def dragged(
    desk: Desk, sheet: Sheet, frame: Frame, view: canvas.View, felt: Press, area: Box, flip: int
) -> Edit | None:
    place = (felt.at[0] + area[0], felt.at[1] + area[1])
    pivot, hit = _mirrored(frame, flip)
    if felt.started:
        mark = view.to_window((pivot[0] + MARGIN_PX, pivot[1] + MARGIN_PX, 1, 1))
        near = abs(place[0] - mark[0] - mark[2] / 2) < 10 and -34 < place[1] - mark[1] - mark[3] < 8
        part = (
            "pivot"
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
    if part == "pivot":
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
        label="moving the pivot" if part == "pivot" else "the hit box",
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
    return Edit(document=changed, label="moving the pivot", gesture="arrows pivot")

"""Boxes on a sheet, moved one by one or in groups, chosen by a frame drawn around them; their edges snap."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from scenekit.editor import canvas
from scenekit.editor.backend import Box, Press
from scenekit.editor.desk import Desk
from scenekit.editor.history import Edit
from scenekit.model.frame_edits import change_frames
from scenekit.model.project import Project
from scenekit.model.sprites import Sheet

SNAP_PX = 6
"""An edge that comes this near to another's line, in px of the window, takes its place."""

Whole = canvas.Whole
Pair = tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drag:
    """What is dragged: a part of boxes, a frame around boxes to choose, or the view.

    start   pixel or window place where it began
    lines   for each axis the places of edges to snap to, in px of the picture
    """

    part: str
    base: Project
    names: tuple[str, ...] = ()
    start: tuple[float, float] = (0, 0)
    lines: tuple[tuple[int, ...], tuple[int, ...]] = ((), ())


def drag_boxes(
    desk: Desk, sheet: Sheet, view: canvas.View, felt: Press, area: Box, size: Pair
) -> Edit | None:
    """Choose, move and size boxes with the pointer or the keys; return what that changes."""
    place = (felt.at[0] + area[0], felt.at[1] + area[1])
    if felt.started:
        view.drag = _begin(desk, sheet, view, place, size)
    drag = view.drag
    if not isinstance(drag, Drag) or not (felt.held or felt.ended):
        return _keys(desk, sheet, size)
    edit = None
    if drag.part == "pan":
        view.x, view.y = drag.start[0] + felt.moved[0], drag.start[1] + felt.moved[1]
    elif drag.part == "around":
        _around(desk, sheet, view, drag, place)
    elif felt.held:
        edit = _moved(desk, sheet, view, drag, felt, size)
    if felt.ended:
        view.drag = None
    return edit


def _begin(desk: Desk, sheet: Sheet, view: canvas.View, place: tuple[float, float], size: Pair) -> Drag:
    session, held = desk.session, desk.ui.backend.held
    grips = ((f, g) for f in reversed(sheet.frames) if (g := canvas.grip(view.to_window(f.box), place)))
    hit = next(grips, None)
    if hit is None:
        if "shift" in held:
            return Drag(part="around", base=session.document, start=view.to_picture(place))
        session.chosen.frames = ()
        return Drag(part="pan", base=session.document, start=(view.x, view.y))
    frame, part = hit
    if "shift" in held:
        session.chosen.frames = tuple(dict.fromkeys((*session.chosen.frames, frame.name)))
    elif frame.name not in session.chosen.frames:
        session.chosen.frames = (frame.name,)
    desk.local["gesture"] = desk.local.get("gesture", 0) + 1
    names = session.chosen.frames if part == "body" else (frame.name,)
    others = [f.box for f in sheet.frames if f.name not in names]
    return Drag(part=part, base=session.document, names=names, lines=edges_of(others, size))


def _around(desk: Desk, sheet: Sheet, view: canvas.View, drag: Drag, place: tuple[float, float]) -> None:
    """Choose every box that a frame touches."""
    end = view.to_picture(place)
    left, right = sorted((int(drag.start[0]), end[0]))
    top, bottom = sorted((int(drag.start[1]), end[1]))
    desk.ui.frame(view.to_window((left, top, right - left + 1, bottom - top + 1)), desk.ui.look.accent, 1)
    desk.session.chosen.frames = tuple(
        frame.name for frame in sheet.frames if _touches(frame.box, (left, top, right, bottom))
    )


def _touches(box: Whole, frame: Whole) -> bool:
    x, y, w, h = box
    left, top, right, bottom = frame
    return x <= right and x + w > left and y <= bottom and y + h > top


def _moved(desk: Desk, sheet: Sheet, view: canvas.View, drag: Drag, felt: Press, size: Pair) -> Edit | None:
    by = (round(felt.moved[0] / view.zoom), round(felt.moved[1] / view.zoom))
    boxes = [frame.box for frame in drag.base.sheet(sheet.name).frames if frame.name in drag.names]
    if by != (0, 0) and "alt" not in desk.ui.backend.held:
        by = snapped(boxes, drag.part, by, drag.lines, SNAP_PX // view.zoom)
        _guides(desk, view, boxes, drag, by)
    if by == (0, 0) and desk.session.document is drag.base:
        return None
    by = within(boxes, drag.part, by, size)
    changed = change_frames(
        drag.base, sheet.name, drag.names,
        lambda frame: replace(frame, box=canvas.moved_box(frame.box, drag.part, by, size)),
    )  # fmt: skip
    if changed == desk.session.document:
        return None
    label = "moving boxes" if drag.part == "body" else "moving an edge"
    return Edit(document=changed, label=label, gesture=f"drag {desk.local['gesture']}", held=True)


def within(boxes: Sequence[Whole], part: str, by: Pair, size: Pair) -> Pair:
    """Return a move that keeps a whole group on the picture, so that its boxes stay as they stand."""
    if part != "body" or not boxes:
        return by
    moves = []
    for axis in (0, 1):
        low = -min(box[axis] for box in boxes)
        high = size[axis] - max(box[axis] + box[axis + 2] for box in boxes)
        moves.append(max(low, min(high, by[axis])))
    return moves[0], moves[1]


def edges_of(boxes: Iterable[Whole], size: Pair) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Return for each axis where boxes begin and end, and the sides of the picture."""
    found: tuple[set[int], set[int]] = ({0, size[0]}, {0, size[1]})
    for box in boxes:
        for axis in (0, 1):
            found[axis].update((box[axis], box[axis] + box[axis + 2]))
    return tuple(sorted(found[0])), tuple(sorted(found[1]))


def moving_edges(boxes: Sequence[Whole], part: str, axis: int) -> set[int]:
    """Return the places of the edges that a drag moves along an axis."""
    first, last = (("left", "right"), ("top", "bottom"))[axis]
    edges: set[int] = set()
    if part == "body" or first in part:
        edges |= {box[axis] for box in boxes}
    if part == "body" or last in part:
        edges |= {box[axis] + box[axis + 2] for box in boxes}
    return edges


def snapped(
    boxes: Sequence[Whole], part: str, by: Pair, lines: tuple[tuple[int, ...], tuple[int, ...]], reach: int
) -> Pair:
    """Return a move after which the edge nearest to a line, within reach, lies on it; reach is in px."""
    moves = []
    for axis in (0, 1):
        steps = [
            line - edge - by[axis]
            for edge in moving_edges(boxes, part, axis)
            for line in lines[axis]
            if abs(line - edge - by[axis]) <= reach
        ]
        moves.append(by[axis] + min(steps, key=lambda step: (abs(step), step), default=0))
    return moves[0], moves[1]


def _guides(desk: Desk, view: canvas.View, boxes: Sequence[Whole], drag: Drag, by: Pair) -> None:
    """Draw the lines on which edges lie now."""
    for axis in (0, 1):
        on = {edge + by[axis] for edge in moving_edges(boxes, drag.part, axis)} & set(drag.lines[axis])
        for line in sorted(on)[:4]:
            x, y, w, h = view.to_window((line if axis == 0 else 0, line if axis == 1 else 0, 0, 0))
            del w, h
            long: Box = (x, 0, 1, 10_000) if axis == 0 else (0, y, 10_000, 1)
            desk.ui.fill(long, desk.ui.look.accent, 150)


def _keys(desk: Desk, sheet: Sheet, size: Pair) -> Edit | None:
    """Move or size the chosen boxes by arrow keys; choose all."""
    backend = desk.ui.backend
    if "ctrl+a" in backend.pressed and not backend.typing and desk.ask is None:
        desk.session.chosen.frames = tuple(frame.name for frame in sheet.frames)
    by, grows = canvas.arrow_step(desk)
    names = desk.session.chosen.frames
    if by == (0, 0) or not names:
        return None
    part = "right bottom" if grows else "body"
    by = within([frame.box for frame in sheet.frames if frame.name in names], part, by, size)
    changed = change_frames(
        desk.session.document, sheet.name, names,
        lambda frame: replace(frame, box=canvas.moved_box(frame.box, part, by, size)),
    )  # fmt: skip
    return Edit(document=changed, label="moving boxes", gesture=f"arrows {part}")

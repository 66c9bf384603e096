"""A sprite's way drawn on the scene: marks as far apart as its speed, and ends of stretches to drag."""

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from scenekit.editor.backend import Box, Press
from scenekit.editor.desk import Desk
from scenekit.editor.history import Edit
from scenekit.editor.moving import plain_placed, plain_scene, steered
from scenekit.errors import SceneKitError
from scenekit.model.edits import put_placed, put_scene
from scenekit.model.fields import LARGEST_FRACTION_PART
from scenekit.model.paths import Path, Segment, travel
from scenekit.model.scene import Placed, Scene
from scenekit.motion.expand import sample
from scenekit.motion.parallax import shown_scroll
from scenekit.motion.paths import place_at

LONGEST_WAY = 2000
MOST_ENDS = 80
WHITE, BLACK = (255, 255, 255), (0, 0, 0)
Places = list[tuple[int, int]]


def draw_way(desk: Desk, box: Box, zoom: int, scene: Scene, placed: Placed) -> Edit | None:
    """Draw the way of a sprite over the scene; return an edit made by dragging the end of a stretch."""
    plain = plain_scene(desk)
    if plain is None or not placed.path.segments:
        return None
    way = plain_placed(desk, placed)
    marks: Places = desk.remember("way-marks", lambda: marks_of(way, zoom), way.path, way.at, zoom)
    origin = _origin(desk, box, zoom, steered(desk, plain), placed)
    last: tuple[float, float] | None = None
    for x, y in marks:
        point = (origin[0] + x * zoom, origin[1] + y * zoom)
        if last is not None and last != point:
            desk.ui.backend.line(last, point, WHITE)
        desk.ui.fill((point[0] - 1, point[1] - 3, 3, 6), BLACK)
        desk.ui.fill((point[0], point[1] - 2, 1, 4), WHITE)
        last = point
    return _ends(desk, zoom, scene, placed, origin)


def marks_of(placed: Placed, zoom: int) -> Places:
    """Return where a sprite is every ten ticks, or thirty where it is slow."""
    total = min(LONGEST_WAY, placed.path.edges[-1][0])
    ends = [place_at(placed.path, placed.at, moment) for moment in range(0, total + 1, 10)]
    length = sum(abs(a.x - b.x) + abs(a.y - b.y) for a, b in pairwise(ends)) * zoom
    apart = 1 if length / max(1, len(ends)) >= 5 else 3
    return [(end.x, end.y) for end in ends[::apart]]


def _origin(desk: Desk, box: Box, zoom: int, plain: Scene, placed: Placed) -> tuple[float, float]:
    """Return where the plane that carries a sprite begins on the window."""
    tick = desk.session.playing.tick
    across = down = 0
    if placed.moves_with != "screen":
        found = next((p for p in plain.placed if p.name == placed.name), None)
        carrier = found.moves_with if found is not None else placed.moves_with
        plane = plain.planes[plain.plane_number(carrier)]
        across, down = shown_scroll(plain, plane, tick)
        if found is not None:  # a band's rows begin lower than its plane's
            across, down = across + placed.at[0] - found.at[0], down + placed.at[1] - found.at[1]
    view = desk.session.target.view if desk.session.target else None
    left, top = (view[0], view[1]) if view else (0, 0)
    return box[0] + (left - across) * zoom, box[1] + (top - down) * zoom


def ends_of(path: Path) -> list[tuple[int, int]]:
    """Return where each stretch ends, counted from the path's start; fewer where a shape cannot be."""
    found: list[tuple[int, int]] = []
    x = y = 0
    for segment in path.segments[:MOST_ENDS]:
        try:
            parts = sample(segment, "path")
        except SceneKitError:
            return found
        for part in parts:
            x, y = x + travel(part.speed[0], part.ticks), y + travel(part.speed[1], part.ticks)
        found.append((x, y))
    return found


def _ends(desk: Desk, zoom: int, scene: Scene, placed: Placed, origin: tuple[float, float]) -> Edit | None:
    """The ends of stretches as small slanted squares; one that stands is not drawn twice."""
    ui = desk.ui
    ends = desk.remember("way-ends", lambda: ends_of(placed.path), placed.path)
    seen: set[tuple[int, int]] = set()
    edit: Edit | None = None
    for number, end in enumerate(ends):
        if end in seen:
            continue
        seen.add(end)
        x = origin[0] + (placed.at[0] + end[0]) * zoom
        y = origin[1] + (placed.at[1] + end[1]) * zoom
        part = placed.path.segments[number]
        can = part.shape is None or part.shape.kind in ("ease", "drive")
        tip = f"Stretch {number + 1} ends here: drag it. With Shift what follows moves along." if can else ""
        felt = ui.press(f"way-end:{number}", (x - 7, y - 7, 14, 14), tip, keyboard=False)
        size = 6 if felt.hovered or felt.held else 5
        corners = [(x, y - size), (x + size, y), (x, y + size), (x - size, y)]
        ui.backend.polygon(corners, BLACK)
        inner = [(x, y - size + 2), (x + size - 2, y), (x, y + size - 2), (x - size + 2, y)]
        ui.backend.polygon(inner, ui.look.accent if felt.hovered or felt.held else WHITE)
        if can:
            edit = _dragged(desk, zoom, scene, placed, number, felt) or edit
    return edit


def _dragged(desk: Desk, zoom: int, scene: Scene, placed: Placed, number: int, felt: Press) -> Edit | None:
    if felt.hovered or felt.held:
        desk.ui.pointer = "move"
    if felt.started:
        desk.local["gesture"] = desk.local.get("gesture", 0) + 1
        desk.local["way-base"] = placed
    base: Placed | None = desk.local.get("way-base")
    if not felt.held or base is None or base.name != placed.name:
        return None
    by = (round(felt.moved[0] / zoom), round(felt.moved[1] / zoom))
    path = moved_end(base.path, number, by, alone="shift" not in desk.ui.backend.held)
    if path == placed.path:
        return None
    document = put_scene(desk.session.document, put_placed(scene, replace(placed, path=path)))
    return Edit(
        document=document,
        label=f"the way of {placed.name}",
        gesture=f"drag {desk.local['gesture']}",
        held=True,
    )


def moved_end(path: Path, number: int, by: tuple[int, int], *, alone: bool) -> Path:
    """Return a path whose stretch ends elsewhere; alone: the next one that moves makes up for it."""
    segments = list(path.segments)
    segments[number] = _longer(segments[number], by)
    if alone:
        after = next((n for n in range(number + 1, len(segments)) if _moves(segments[n])), None)
        if after is not None:
            segments[after] = _longer(segments[after], (-by[0], -by[1]))
    return replace(path, segments=tuple(segments))


def _moves(segment: Segment) -> bool:
    if segment.shape is not None:
        return segment.shape.kind in ("ease", "drive")
    return any(segment.speed)


def _longer(segment: Segment, by: tuple[int, int]) -> Segment:
    """Return a stretch that goes further by so many pixels in the same time."""
    if segment.shape is not None:
        way = (segment.shape.by[0] + by[0], segment.shape.by[1] + by[1])
        return replace(segment, shape=replace(segment.shape, by=way))
    speeds = [
        speed if not more else _speed(travel(speed, segment.ticks) + more, segment.ticks)
        for speed, more in zip(segment.speed, by, strict=True)
    ]
    return replace(segment, speed=(speeds[0], speeds[1]))


def _speed(way_px: int, ticks: int) -> Fraction:
    """Return the speed that goes so far in so many ticks, as fine as a document holds it."""
    wanted = Fraction(way_px, ticks)
    if abs(wanted.numerator) <= LARGEST_FRACTION_PART:
        return wanted.limit_denominator(LARGEST_FRACTION_PART)
    return wanted.limit_denominator(max(1, LARGEST_FRACTION_PART // (abs(way_px) // ticks + 1)))

"""Draws a scene at a tick from its whole reduced pictures; knows no tiles, tables, plan or dialect."""

import numpy as np

from scenekit.images.reduced import ReducedArt
from scenekit.model.arrays import Indices, Pixels
from scenekit.model.project import Project
from scenekit.model.scene import Plane, Scene, Transition
from scenekit.motion.covers import covered_at, turnover_of
from scenekit.motion.parallax import camera_at, shown_scroll
from scenekit.motion.shown import Shown, sprite_at
from scenekit.tiles.turning import turned_picture


def render_indices(
    project: Project, scene: Scene, art: ReducedArt, size: tuple[int, int], tick: int
) -> Indices:
    """Return the palette entries of a view of (width, height) pixels at a tick, (H, W) uint8."""
    width, height = size
    canvas = np.full((height, width), art.backdrops[scene.name], dtype=np.uint8)
    camera = camera_at(scene, tick)
    for plane in scene.planes:
        picture, cells = art.planes[scene.name, plane.name], art.turning.get((scene.name, plane.name), ())
        if cells and tick:
            picture = turned_picture(picture, plane, project.sheet(plane.sheet), art.sheets, cells, tick)
        _draw_plane(canvas, plane, picture, art.transparent, shown_scroll(scene, plane, tick, camera))
        for placed in scene.placed:
            if placed.over == plane.name:
                _draw_sprite(canvas, project, art, sprite_at(project, scene, placed, tick))
    for transition in scene.transitions:
        _cover(canvas, transition, art.covers[transition.colour], scene.name, tick)
    return canvas


def _cover(canvas: Indices, transition: Transition, entry: int, scene: str, tick: int) -> None:
    """Fill the cells that a transition covers."""
    height, width = canvas.shape
    turns = turnover_of(transition, (width, height), scene)
    first, last = covered_at(transition, turns, tick)
    w, h = transition.cell
    covered = np.zeros(len(turns.order), dtype=bool)
    covered[turns.order[first:last]] = True
    cells = covered.reshape(-1, turns.columns)
    canvas[np.kron(cells, np.ones((h, w), dtype=bool))] = entry


def render(project: Project, scene: Scene, art: ReducedArt, size: tuple[int, int], tick: int) -> Pixels:
    """Return the colours of a view at a tick, (H, W, 3) uint8 as the display shows them."""
    return art.palette_at(scene.name, tick)[render_indices(project, scene, art, size, tick)]


def _draw_plane(
    canvas: Indices,
    plane: Plane,
    picture: Indices,
    transparent: int,
    scroll: tuple[int, int],
) -> None:
    left, top = scroll
    columns, shown_x = _line(left, canvas.shape[1], picture.shape[1], plane.wrap[0])
    rows, shown_y = _line(top, canvas.shape[0], picture.shape[0], plane.wrap[1])
    if not len(columns) or not len(rows):
        return
    part = picture[np.ix_(rows, columns)]
    target = canvas[shown_y, shown_x]
    np.copyto(target, part, where=part != transparent)


def _line(
    start: int, view: int, size: int, wrap: bool
) -> tuple[np.ndarray[tuple[int], np.dtype[np.intp]], slice]:
    """Return the picture's positions along one axis, and the slice of the view that shows them."""
    positions = np.arange(start, start + view)
    if wrap:
        return positions % size, slice(0, view)
    inside = np.flatnonzero((positions >= 0) & (positions < size))
    if not len(inside):
        return inside, slice(0, 0)
    return positions[inside], slice(int(inside[0]), int(inside[-1]) + 1)


def _draw_sprite(canvas: Indices, project: Project, art: ReducedArt, shown: Shown) -> None:
    frame = project.sheet(shown.sheet).frame(shown.frame)
    assert frame is not None
    x, y, w, h = frame.box
    picture = art.sheets[shown.sheet][y : y + h, x : x + w]
    pivot_x, pivot_y = frame.pivot
    if shown.flip & 1:
        picture, pivot_x = picture[:, ::-1], w - 1 - pivot_x
    if shown.flip & 2:
        picture, pivot_y = picture[::-1], h - 1 - pivot_y
    left, top = shown.x - pivot_x, shown.y - pivot_y
    a, b = max(0, -left), max(0, -top)
    c, d = min(w, canvas.shape[1] - left), min(h, canvas.shape[0] - top)
    if a >= c or b >= d:
        return
    part = picture[b:d, a:c]
    target = canvas[top + b : top + d, left + a : left + c]
    np.copyto(target, part, where=part != art.transparent)

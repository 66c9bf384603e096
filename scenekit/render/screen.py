"""Draws the whole screen at a tick: border, view and score panel, from whole pictures."""

import numpy as np

from scenekit.images.reduced import ReducedArt
from scenekit.model.arrays import Indices, Pixels
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.render.scene import render_indices
from scenekit.sprites.lettering import place_text
from scenekit.sprites.panels import ItemPlace, place_items, string_of, values_at

_kept: list[tuple[Project, Scene, ReducedArt, tuple[ItemPlace, ...]]] = []


def render_screen(
    project: Project,
    scene: Scene,
    art: ReducedArt,
    screen: tuple[int, int],
    view: tuple[int, int, int, int],
    tick: int,
) -> Pixels:
    """Return the colours of the screen at a tick, (H, W, 3) uint8 as the display shows them."""
    return art.palette_at(scene.name, tick)[screen_indices(project, scene, art, screen, view, tick)]


def screen_indices(
    project: Project,
    scene: Scene,
    art: ReducedArt,
    screen: tuple[int, int],
    view: tuple[int, int, int, int],
    tick: int,
) -> Indices:
    """Return the palette entries of the screen at a tick, (H, W) uint8."""
    x, y, w, h = view
    inner = render_indices(project, scene, art, (w, h), tick)
    if scene.panel is None and view == (0, 0, *screen):
        return inner
    canvas = np.full((screen[1], screen[0]), art.backdrops[scene.name], dtype=np.uint8)
    if scene.panel is not None:
        a, b, c, d = scene.panel.box
        canvas[b : b + d, a : a + c] = art.covers[scene.panel.colour]
        values = values_at(project, scene, tick)
        for place in _places(project, scene, art):
            _draw_item(canvas, project, art, place, values.get(place.item.value, 0))
    canvas[y : y + h, x : x + w] = inner
    return canvas


def _places(project: Project, scene: Scene, art: ReducedArt) -> tuple[ItemPlace, ...]:
    """Return where the items of a panel stand; the last answer is kept, since every tick asks again."""
    kept = _kept[0] if _kept else None
    if kept is None or kept[0] is not project or kept[1] is not scene or kept[2] is not art:
        kept = (project, scene, art, place_items(project, scene, art.sheets, art.transparent))
        _kept[:] = [kept]
    return kept[3]


def _draw_item(canvas: Indices, project: Project, art: ReducedArt, place: ItemPlace, value: int) -> None:
    item = place.item
    x, y = item.at
    if item.kind == "bar":
        high = next(v.high for v in project.values if v.name == item.value)
        canvas[y : y + item.size[1], x : x + item.size[0] * value // max(1, high)] = art.covers[item.colour]
    elif item.kind == "text" and place.letters is not None:
        for name, left in place_text(place.letters, string_of(project, item), item.name)[0]:
            _draw_frame(canvas, project, art, (place.letters.font.sheet, name), x + left, y)
    elif item.kind == "number" and place.letters is not None:
        _draw_number(canvas, project, art, place, value)
    else:
        lit = value if item.kind == "icons" else item.count
        for number in range(item.count):
            name = item.lit if number < lit else item.dark
            if name:
                _draw_frame(canvas, project, art, (item.sheet, name), x + number * item.step, y)


def _draw_number(canvas: Indices, project: Project, art: ReducedArt, place: ItemPlace, value: int) -> None:
    letters, item = place.letters, place.item
    assert letters is not None
    shown = str(value % 10**item.digits)
    text = shown.zfill(item.digits) if item.zeros else shown.rjust(item.digits)
    for number, digit in enumerate(text):
        if digit != " ":
            x = item.at[0] + number * letters.digit_step - letters.lefts[digit]
            frame = (letters.font.sheet, letters.frames[digit].name)
            _draw_frame(canvas, project, art, frame, x, item.at[1])


def _draw_frame(
    canvas: Indices, project: Project, art: ReducedArt, frame: tuple[str, str], x: int, y: int
) -> None:
    """Draw a frame with its top left corner at a place."""
    found = project.sheet(frame[0]).frame(frame[1])
    assert found is not None
    left, top, w, h = found.box
    picture = art.sheets[frame[0]][top : top + h, left : left + w]
    a, b = max(0, -x), max(0, -y)
    c, d = min(w, canvas.shape[1] - x), min(h, canvas.shape[0] - y)
    if a < c and b < d:
        part = picture[b:d, a:c]
        np.copyto(canvas[y + b : y + d, x + a : x + c], part, where=part != art.transparent)

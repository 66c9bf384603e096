"""A picture seen at any whole zoom: crisp pixels, zoom about the pointer, boxes to take hold of."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from scenekit.editor.backend import Box, Press
from scenekit.editor.desk import Desk
from scenekit.model.arrays import Pixels

ZOOMS = (1, 2, 3, 4, 6, 8, 12, 16, 24, 32)
GRID_FROM = 8
EDGE_PX = 4
Whole = tuple[int, int, int, int]


@dataclass(slots=True)
class View:
    """Where a canvas looks: zoom, and the window place of the picture's top left corner."""

    zoom: int = 0
    x: float = 0
    y: float = 0
    drag: Any = None
    count: int = 0

    def to_picture(self, place: tuple[float, float]) -> tuple[int, int]:
        """Return the pixel at a window place."""
        return int((place[0] - self.x) // self.zoom), int((place[1] - self.y) // self.zoom)

    def to_window(self, box: Sequence[float]) -> Box:
        """Return the window box of a box on the picture."""
        return (
            self.x + box[0] * self.zoom,
            self.y + box[1] * self.zoom,
            box[2] * self.zoom,
            box[3] * self.zoom,
        )


def fit(view: View, size: tuple[int, int], box: Box) -> None:
    """Show all of a picture as large as it fits."""
    room = min((box[2] - 8) / max(1, size[0]), (box[3] - 8) / max(1, size[1]))
    view.zoom = max([zoom for zoom in ZOOMS if zoom <= room], default=1)
    view.x = round(box[0] + max(4, (box[2] - size[0] * view.zoom) / 2))
    view.y = round(box[1] + max(4, (box[3] - size[1] * view.zoom) / 2))


def zoom_about(view: View, place: tuple[float, float], steps: int) -> None:
    """Zoom by steps so that the pixel at a window place stays there."""
    number = max(0, min(len(ZOOMS) - 1, ZOOMS.index(view.zoom) + steps))
    new = ZOOMS[number]
    view.x = round(place[0] - (place[0] - view.x) / view.zoom * new)
    view.y = round(place[1] - (place[1] - view.y) / view.zoom * new)
    view.zoom = new


def draw_picture(desk: Desk, name: str, box: Box, pixels: Pixels) -> tuple[View, Press]:
    """Draw a picture into a box that listens to wheel and keys; return its view and what was pressed."""
    ui = desk.ui
    size = (pixels.shape[1], pixels.shape[0])
    view: View = desk.local.setdefault(f"view {name}", View())
    if not view.zoom or view.count != round(box[2]) * 10_000 + round(box[3]):
        fit(view, size, box)
        view.count = round(box[2]) * 10_000 + round(box[3])
    ui.fill(box, ui.look.well)
    felt = ui.press(f"canvas:{name}", box, "", keyboard=False)
    place = (felt.at[0] + box[0], felt.at[1] + box[1])
    turned = ui.backend.wheel(box)
    if turned:
        zoom_about(view, place, 1 if turned > 0 else -1)
    pressed = ui.backend.pressed if not ui.backend.typing and desk.ask is None else set()
    middle = (box[0] + box[2] / 2, box[1] + box[3] / 2)
    if pressed & {"+", "=", "shift+=", "[+]"}:
        zoom_about(view, middle, 1)
    if pressed & {"-", "[-]"}:
        zoom_about(view, middle, -1)
    shown = view.to_window((0, 0, *size))
    ui.backend.image(
        desk.picture(_check(desk)), shown, (0, 0, size[0] * view.zoom / 512, size[1] * view.zoom / 512)
    ) if max(shown[2:]) <= 512 else ui.fill(shown, (122, 126, 132))
    ui.backend.image(desk.picture(pixels), shown)
    if view.zoom >= GRID_FROM:
        _grid(desk, view, box, size)
    return view, felt


def _check(desk: Desk) -> Pixels:
    def make() -> Pixels:
        rows, columns = np.indices((512, 512)) // 8
        board = np.empty((512, 512, 3), dtype=np.uint8)
        board[:] = (116, 120, 126)
        board[(rows + columns) % 2 == 0] = (128, 132, 138)
        return board

    made: Pixels = desk.remember("check", make)
    return made


def _grid(desk: Desk, view: View, box: Box, size: tuple[int, int]) -> None:
    """Draw faint lines between pixels where they show."""
    x, y, w, h = box
    left, top = view.to_picture((x, y))
    right, bottom = view.to_picture((x + w, y + h))
    for column in range(max(0, left), min(size[0], right + 1) + 1):
        desk.ui.fill(
            (view.x + column * view.zoom, max(y, view.y), 1, min(h, size[1] * view.zoom)), (100, 104, 110), 70
        )
    for row in range(max(0, top), min(size[1], bottom + 1) + 1):
        desk.ui.fill(
            (max(x, view.x), view.y + row * view.zoom, min(w, size[0] * view.zoom), 1), (100, 104, 110), 70
        )


def grip(box: Box, place: tuple[float, float]) -> str:
    """Return what of a window box is under a place: "" nothing, "body", or edges such as "left top"."""
    x, y, w, h = box
    if not (x - EDGE_PX <= place[0] <= x + w + EDGE_PX and y - EDGE_PX <= place[1] <= y + h + EDGE_PX):
        return ""
    thin = min(EDGE_PX, max(1.0, min(w, h) / 4))
    edges = []
    if abs(place[0] - x) <= thin:
        edges.append("left")
    elif abs(place[0] - x - w) <= thin:
        edges.append("right")
    if abs(place[1] - y) <= thin:
        edges.append("top")
    elif abs(place[1] - y - h) <= thin:
        edges.append("bottom")
    if edges:
        return " ".join(edges)
    return "body" if x <= place[0] < x + w and y <= place[1] < y + h else ""


def moved_box(box: Whole, part: str, by: tuple[int, int], size: tuple[int, int]) -> Whole:
    """Return a box moved, or with its edges moved, kept inside a picture and at least one pixel large."""
    x, y, w, h = box
    dx, dy = by
    if part == "body":
        return max(0, min(size[0] - w, x + dx)), max(0, min(size[1] - h, y + dy)), w, h
    left, top, right, bottom = x, y, x + w, y + h
    if "left" in part:
        left = max(0, min(right - 1, left + dx))
    if "right" in part:
        right = max(left + 1, min(size[0], right + dx))
    if "top" in part:
        top = max(0, min(bottom - 1, top + dy))
    if "bottom" in part:
        bottom = max(top + 1, min(size[1], bottom + dy))
    return left, top, right - left, bottom - top


def arrow_step(desk: Desk) -> tuple[tuple[int, int], bool]:
    """Return by how much arrow keys want to move something, and whether they want to change its size."""
    if desk.ui.backend.typing or desk.ask is not None or desk.ui.backend.walking:
        return (0, 0), False
    steps = {"left": (-1, 0), "right": (1, 0), "up": (0, -1), "down": (0, 1)}
    for key, (x, y) in steps.items():
        for prefix, far, size in (("", 1, False), ("shift+", 8, False), ("alt+", 1, True)):
            if prefix + key in desk.ui.backend.pressed:
                return (x * far, y * far), size
    return (0, 0), False

"""Draws into the part of the window that is open: boxes, words, lines and pictures."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

from scenekit.editor.binding import Box, Point, imgui
from scenekit.editor.theme import SIZES, Colour


class Drawing:
    """What is drawn in a frame, in drawing order."""

    fonts: dict[str, Any]
    _list: Any

    def _drawn(self) -> Any:
        """Return where the part that is open now draws."""
        if self._list is None:
            self._list = imgui.get_window_draw_list()
        return self._list

    @contextmanager
    def in_front(self) -> Iterator[None]:
        """Draw in front of everything, wherever the part that is open now ends."""
        kept, self._list = self._list, imgui.get_foreground_draw_list()
        try:
            yield
        finally:
            self._list = kept

    def last_is_visible(self) -> bool:
        """Say whether the last thing that can be pressed or typed in is in sight."""
        return bool(imgui.is_item_visible())

    def fill(self, box: Box, colour: Colour, alpha: int = 255) -> None:
        """Fill a box."""
        x, y, w, h = box
        if w > 0 and h > 0:
            self._drawn().add_rect_filled((x, y), (x + w, y + h), _packed(colour, alpha))

    def draw_text(self, place: Point, text: str, size: str, colour: Colour, weight: str = "regular") -> None:
        """Write one line."""
        imgui.push_font(self.fonts[weight], SIZES[size])
        self._drawn().add_text((round(place[0]), round(place[1])), _packed(colour), text)
        imgui.pop_font()

    def text_size(self, text: str, size: str, weight: str = "regular") -> tuple[float, float]:
        """Return the width and height that a line takes."""
        imgui.push_font(self.fonts[weight], SIZES[size])
        measured = imgui.calc_text_size(text)
        imgui.pop_font()
        return float(measured[0]), float(measured[1])

    def polygon(self, points: Sequence[Point], colour: Colour) -> None:
        """Fill a convex polygon."""
        self._drawn().add_convex_poly_filled(list(points), _packed(colour))

    def line(self, one: Point, two: Point, colour: Colour, width: float = 1.0) -> None:
        """Draw a line."""
        self._drawn().add_line(one, two, _packed(colour), width)

    def image(self, number: int, box: Box, uv: Box = (0, 0, 1, 1), tint: Colour = (255, 255, 255)) -> None:
        """Draw a kept picture, or the part (left, top, right, bottom, each 0 to 1) of it, into a box."""
        x, y, w, h = box
        drawn = self._drawn()
        drawn.add_image(number, (x, y), (x + w, y + h), uv[:2], uv[2:], _packed(tint))

    @contextmanager
    def clipped(self, box: Box) -> Iterator[None]:
        """Draw inside a box only."""
        x, y, w, h = box
        imgui.push_clip_rect((x, y), (x + w, y + h), True)
        try:
            yield
        finally:
            imgui.pop_clip_rect()


def _packed(colour: Colour, alpha: int = 255) -> int:
    return colour[0] | colour[1] << 8 | colour[2] << 16 | alpha << 24

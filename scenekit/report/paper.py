"""A sheet to draw reports on: text, boxes, hatching and the colours that every report shares."""

from collections.abc import Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from scenekit.errors import one_line

if TYPE_CHECKING:
    from PIL.ImageFont import FreeTypeFont, ImageFont

Colour = tuple[int, int, int]

GROUND: Colour = (250, 248, 243)
PANEL: Colour = (255, 255, 255)
INK: Colour = (32, 36, 44)
QUIET: Colour = (98, 102, 110)
RULE: Colour = (214, 210, 200)

ORANGE: Colour = (230, 159, 0)
SKY: Colour = (86, 180, 233)
GREEN: Colour = (0, 158, 115)
YELLOW: Colour = (240, 228, 66)
BLUE: Colour = (0, 114, 178)
VERMILLION: Colour = (213, 94, 0)
PURPLE: Colour = (204, 121, 167)
"""Told apart with every kind of colour blindness.

source   M. Okabe and K. Ito, Color Universal Design, 2008 (values from memory)
"""

OPERATION_COLOURS: dict[str, Colour] = {
    "blit": BLUE,
    "blit-keyed": SKY,
    "blit-flipped": GREEN,
    "fill": ORANGE,
    "run": YELLOW,
    "plot": (250, 212, 140),
    "palette": PURPLE,
    "move": (150, 75, 120),
    "page": (228, 182, 208),
    "logic": (168, 168, 168),
    "sound": (128, 128, 128),
}
SLATE: Colour = (104, 120, 146)
"""For amounts that are of no single operation."""

ALARM = VERMILLION
"""Kept for what does not fit; no operation has it."""

OPERATION_WORDS = {
    "blit": "opaque copy",
    "blit-keyed": "copy with holes",
    "blit-flipped": "mirrored copy",
    "fill": "filled box",
    "run": "runs of one colour",
    "plot": "single pixels",
    "palette": "palette entries",
    "page": "page flip",
    "move": "picture moved",
    "logic": "the game itself",
    "sound": "sound",
    "routines": "steps, look-ups",
}


class Paper:
    """A picture being drawn; sizes and places in px, origin top left."""

    def __init__(self, width_px: int, height_px: int) -> None:
        from PIL import Image, ImageDraw

        self.width_px = width_px
        self.height_px = height_px
        self._image = Image.new("RGB", (width_px, height_px), GROUND)
        self._draw = ImageDraw.Draw(self._image)

    def array(self) -> NDArray[np.uint8]:
        """Return the picture as (H, W, 3) uint8 sRGB."""
        return np.array(self._image, dtype=np.uint8)

    def box(self, box: Sequence[float], fill: Colour | None, edge: Colour | None = None) -> None:
        """Fill and outline a box (x, y, w, h); a box without area is left out."""
        x, y, w, h = (round(value) for value in box)
        if w > 0 and h > 0:
            self._draw.rectangle((x, y, x + w - 1, y + h - 1), fill=fill, outline=edge)

    def hatch(self, box: Sequence[float], colour: Colour, gap_px: int = 6) -> None:
        """Draw slanting lines inside a box (x, y, w, h)."""
        x, y, w, h = (round(value) for value in box)
        for offset in range(-h, w, gap_px):
            low, high = max(offset, 0), min(offset + h, w)
            if low < high:
                ends = ((x + low, y + h - 1 - (low - offset)), (x + high - 1, y + h - (high - offset)))
                self._draw.line(ends, fill=colour)

    def line(self, points: Sequence[tuple[float, float]], colour: Colour, width_px: int = 1) -> None:
        """Draw a line through points."""
        self._draw.line([(round(x), round(y)) for x, y in points], fill=colour, width=width_px)

    def dashes(self, x: float, y: float, w: float, colour: Colour) -> None:
        """Draw a dashed level line of 2 px."""
        for start in range(round(x), round(x + w), 9):
            self.box((start, y - 1, min(5, x + w - start), 2), colour)

    def text(
        self, x: float, y: float, text: str, size_px: int = 14, colour: Colour = INK, anchor: str = "la"
    ) -> None:
        """Write a line of text; the anchor is Pillow's (left, middle or right; ascender, middle ...)."""
        self._draw.text((round(x), round(y)), one_line(text), font=_font(size_px), fill=colour, anchor=anchor)

    def length_px(self, text: str, size_px: int = 14) -> float:
        """Return how long a text will be."""
        return float(self._draw.textlength(one_line(text), font=_font(size_px)))

    def fitted(self, text: str, width_px: float, size_px: int = 14) -> str:
        """Return the text, cut short with dots when it is too long."""
        text = one_line(text[: max(round(width_px), 0)])
        if self.length_px(text, size_px) <= width_px:
            return text
        low, high = 0, len(text)
        while high - low > 1:
            middle = (low + high) // 2
            if self.length_px(text[:middle] + "...", size_px) <= width_px:
                low = middle
            else:
                high = middle
        return text[:low] + "..." if low else ""


@lru_cache(maxsize=8)
def _font(size_px: int) -> "FreeTypeFont | ImageFont":
    from PIL import ImageFont

    return ImageFont.load_default(size_px)


def nice_step(span: float, most: int) -> float:
    """Return the step of 1, 2 or 5 times a power of ten that marks a span at most so often."""
    step = 10.0 ** (np.floor(np.log10(max(span, 1e-9))) - 1)
    for factor in (1, 2, 5, 10, 20, 50, 100):
        if span / (step * factor) <= most:
            return float(step * factor)
    return float(step * 100)


def plain_ms(value: float) -> str:
    """Return a time as people say it."""
    return f"{value:.2f} ms" if value < 100 else f"{value:.0f} ms"


def plain_bytes(value: int) -> str:
    """Return a size as people say it; 1 KB is 1024 bytes."""
    if abs(value) < 10_240:
        return f"{value} bytes"
    if abs(value) < 10_240 * 1024:
        return f"{value / 1024:.0f} KB"
    return f"{value / (1024 * 1024):.1f} MB"

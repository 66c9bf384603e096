"""Words and plain boxes on the window: lines, paragraphs, headings, frames and lamps."""

from dataclasses import dataclass, field

import numpy as np

from scenekit.editor.backend import Backend, Box
from scenekit.editor.shapes import shape_mask
from scenekit.editor.theme import Colour, Theme

MOST_REMEMBERED_WIDTHS = 4000


@dataclass(slots=True)
class Column:
    """A place that moves down the page."""

    x: float
    y: float
    w: float

    def take(self, height: float, gap: float = 0) -> Box:
        """Return a box across the column and move below it."""
        box = (self.x, self.y, self.w, height)
        self.y += height + gap
        return box


@dataclass(slots=True, eq=False)
class Words:
    """What can be written and drawn, at the scale of the window."""

    backend: Backend
    widths: dict[tuple[str, str, str, float], float] = field(default_factory=dict)
    shapes: dict[str, int] = field(default_factory=dict)

    @property
    def look(self) -> Theme:
        """Return the colours."""
        return self.backend.theme

    def px(self, value: float) -> float:
        """Return a length at the scale of the window, in whole px."""
        return float(round(value * self.backend.scale))

    def width(self, text: str, size: str = "body", weight: str = "regular") -> float:
        """Return how wide a line of text is."""
        key = (text, size, weight, self.backend.scale)
        if key not in self.widths:
            if len(self.widths) > MOST_REMEMBERED_WIDTHS:
                self.widths.clear()
            self.widths[key] = self.backend.text_size(text, size, weight)[0]
        return self.widths[key]

    def height(self, size: str) -> float:
        """Return how high a line of text is."""
        key = ("", size, "height", self.backend.scale)
        if key not in self.widths:
            self.widths[key] = self.backend.text_size("X", size)[1]
        return self.widths[key]

    def fitted(self, text: str, room: float, size: str = "body", weight: str = "regular") -> str:
        """Return the text, its end cut off with dots where it is too long."""
        if self.width(text, size, weight) <= room:
            return text
        low, high = 0, len(text)
        while high - low > 1:
            middle = (low + high) // 2
            if self.width(text[:middle].rstrip() + "...", size, weight) <= room:
                low = middle
            else:
                high = middle
        return text[:low].rstrip() + "..." if low else ""

    def text(
        self, x: float, y: float, text: str, size: str = "body", colour: Colour | None = None,
        weight: str = "regular", anchor: str = "left", room: float | None = None,
    ) -> float:  # fmt: skip
        """Write a line whose middle is at y, and return its width; anchor is left, middle or right."""
        if room is not None:
            text = self.fitted(text, room, size, weight)
        wide = self.width(text, size, weight)
        left = x - {"left": 0.0, "middle": wide / 2, "right": wide}[anchor]
        high = self.height(size)
        self.backend.draw_text((left, y - high / 2), text, size, colour or self.look.ink, weight)
        return wide

    def lines(self, text: str, room: float, size: str = "body") -> list[str]:
        """Return words in lines that are no wider than there is room."""
        rest = ""
        lines = []
        for word in text.split():
            longer = f"{rest} {word}".strip()
            if rest and self.width(longer, size) > room:
                lines.append(rest)
                rest = word
            else:
                rest = longer
        return [*lines, rest]

    def paragraph(
        self, column: Column, text: str, size: str = "body", colour: Colour | None = None, line: float = 19
    ) -> None:
        """Write words in lines down a column."""
        height = self.px(line)
        for words in self.lines(text, column.w, size):
            x, y, _, h = column.take(height)
            self.text(x, y + h / 2, words, size, colour, room=column.w)

    def heading(self, column: Column, text: str, note: str = "") -> None:
        """Write a heading with a rule under it."""
        x, y, w, h = column.take(self.px(26), self.px(8))
        wide = self.text(x, y + h / 2 - 1, text, "head", weight="bold")
        if note:
            self.text(x + w, y + h / 2, note, "small", self.look.quiet, anchor="right", room=w - wide - 12)
        self.fill((x, y + h - 1, w, 1), self.look.rule)

    # boxes

    def fill(self, box: Box, colour: Colour, alpha: int = 255) -> None:
        """Fill a box."""
        self.backend.fill(box, colour, alpha)

    def frame(self, box: Box, colour: Colour, width: float = 1) -> None:
        """Draw the edges of a box, inside it."""
        x, y, w, h = box
        for part in (
            (x, y, w, width),
            (x, y + h - width, w, width),
            (x, y, width, h),
            (x + w - width, y, width, h),
        ):
            self.backend.fill(part, colour)

    def dashes(self, box: Box, colour: Colour, along: float = 4) -> None:
        """Draw the edges of a box as dashes."""
        x, y, w, h = box
        along = max(along, w / 24, h / 24)
        for start in np.arange(0, w, along * 2):
            for edge in (y, y + h - 1):
                self.backend.fill((x + start, edge, min(along, w - start), 1), colour)
        for start in np.arange(0, h, along * 2):
            for edge in (x, x + w - 1):
                self.backend.fill((edge, y + start, 1, min(along, h - start)), colour)

    def shape(self, name: str, x: float, y: float, size: float, colour: Colour) -> None:
        """Draw a smooth shape around a middle."""
        key = f"{name}:{round(size)}"
        if key not in self.shapes:
            self.shapes[key] = self.backend.add_mask(shape_mask(name, round(size)))
        side = round(size)
        left, top = round(x - side / 2), round(y - side / 2)
        self.backend.image(self.shapes[key], (left, top, side, side), tint=colour)

    def lamp(self, x: float, y: float, level: str) -> None:
        """Draw a lamp: a shape of its own for each level, so that colour only helps."""
        colours = {"good": self.look.good, "note": self.look.accent, "alarm": self.look.alarm}
        self.shape(level, x, y, self.px(12), colours.get(level, self.look.quiet))

    def label(self, x: float, y: float, text: str, room: float | None = None) -> None:
        """Write the small word above or beside a field."""
        self.text(x, y, text, "small", self.look.quiet, room=room)


def mixed(one: Colour, two: Colour, part: float) -> Colour:
    """Return a colour between two; part 0 is the first."""
    red, green, blue = (round(a + (b - a) * part) for a, b in zip(one, two, strict=True))
    return red, green, blue

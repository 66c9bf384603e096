"""Our own widgets: words, lamps, fields and choices, each with a name that tests and keys can find."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

from scenekit.editor.backend import Backend, Box, Press
from scenekit.editor.theme import Colour, Theme
from scenekit.errors import SceneKitError

LAMPS = ("good", "note", "alarm", "empty", "busy")
MOST_REMEMBERED_WIDTHS = 4000
SHAPE_PX = 26


@dataclass(slots=True)
class Typed:
    """What stands in a text field while it is being typed."""

    text: str = ""
    active: bool = False
    error: str = ""
    shown_for: str = ""


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
class Ui:
    """Widgets of one window.

    marks   the box of everything that can be pressed or was marked, by name, as of the last frame
    """

    backend: Backend
    marks: dict[str, Box] = field(default_factory=dict)
    typed: dict[str, Typed] = field(default_factory=dict)
    widths: dict[tuple[str, str, str, float], float] = field(default_factory=dict)
    shapes: dict[str, int] = field(default_factory=dict)
    focus_next: str = ""
    pointer: str = "arrow"

    @property
    def look(self) -> Theme:
        """Return the colours."""
        return self.backend.theme

    def px(self, value: float) -> float:
        """Return a length at the scale of the window, in whole px."""
        return float(round(value * self.backend.scale))

    def begin(self) -> None:
        """Begin a frame."""
        self.marks.clear()
        self.pointer = "arrow"

    def mark(self, name: str, box: Box) -> None:
        """Remember where something is."""
        self.marks[name] = box

    # words

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

    def paragraph(
        self, column: Column, text: str, size: str = "body", colour: Colour | None = None, line: float = 19
    ) -> None:
        """Write words in lines down a column."""
        rest, height = "", self.px(line)
        lines = []
        for word in text.split():
            longer = f"{rest} {word}".strip()
            if rest and self.width(longer, size) > column.w:
                lines.append(rest)
                rest = word
            else:
                rest = longer
        for words in [*lines, rest]:
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
            self.shapes[key] = self.backend.add_mask(_shape_mask(name, round(size)))
        side = round(size)
        left, top = round(x - side / 2), round(y - side / 2)
        self.backend.image(self.shapes[key], (left, top, side, side), tint=colour)

    def lamp(self, x: float, y: float, level: str) -> None:
        """Draw a lamp: a shape of its own for each level, so that colour only helps."""
        colours = {"good": self.look.good, "note": self.look.accent, "alarm": self.look.alarm}
        self.shape(level, x, y, self.px(12), colours.get(level, self.look.quiet))

    # things to press

    def press(self, name: str, box: Box, tip: str = "", **how: bool) -> Press:
        """Make a box that can be pressed, with words that explain it."""
        self.mark(name, box)
        made = self.backend.press(name, box, **how)
        if tip and (made.hovered or made.focused):
            self.backend.hint(tip, self.px(280))
        return made

    def button(
        self, name: str, box: Box, label: str, *, tip: str = "", kind: str = "plain", on: bool = True
    ) -> bool:
        """Make a word that can be pressed; kind is plain, main or quiet."""
        look = self.look
        x, y, w, h = box
        if not on:
            self.mark(name, box)
            if kind != "quiet":
                self.frame(box, look.rule)
            self.text(
                x + w / 2,
                y + h / 2,
                label,
                colour=_mixed(look.quiet, look.ground, 0.45),
                anchor="middle",
                room=w,
            )
            return False
        felt = self.press(name, box, tip)
        if felt.hovered:
            self.pointer = "hand"
        if kind == "main":
            ground = _mixed(look.accent, look.ink, 0.25) if felt.hovered or felt.held else look.accent
            self.fill(box, ground)
            self.text(
                x + w / 2, y + h / 2, label, colour=look.on_accent, weight="bold", anchor="middle", room=w - 8
            )
        elif kind == "quiet":
            if felt.hovered:
                self.fill(box, look.hover)
            self.text(x + w / 2, y + h / 2, label, anchor="middle", room=w)
            self.fill((x + 6, y + h - 5, w - 12, 1), look.rule if not felt.hovered else look.quiet)
        else:
            self.fill(box, look.hover if felt.hovered else look.sheet)
            self.frame(box, look.quiet if felt.hovered else look.rule)
            self.text(x + w / 2, y + h / 2, label, anchor="middle", room=w - 8)
        if felt.focused:
            self.frame((x - 2, y - 2, w + 4, h + 4), look.accent, 2)
        return felt.clicked

    def field(
        self, name: str, box: Box, value: str, read: Callable[[str], Any], *, tip: str = "", hint: str = "",
        unit: str = "",
    ) -> Any:  # fmt: skip
        """Make a text field; return what `read` makes of the text once it is confirmed or left, else None.

        What `read` refuses stays in the field with the reason under it.
        """
        state = self.typed.setdefault(name, Typed())
        if not state.active and not state.error:
            state.text = value
        elif state.error and state.shown_for != value:
            state.error, state.text = "", value
        x, y, w, h = box
        inner = w - (self.width(unit, "small") + 10 if unit else 0)
        self.fill(box, self.look.sheet)
        self.mark(name, box)
        text, done, active = self.backend.edit_text(
            name, (x, y, inner, h), state.text, hint, self.focus_next == name
        )
        if self.focus_next == name:
            self.focus_next = ""
        if tip:
            self.backend.hint(tip, self.px(280))
        if unit:
            self.text(x + w - 7, y + h / 2, unit, "small", self.look.quiet, anchor="right")
        state.text, state.active = text, active
        line = self.look.alarm if state.error else self.look.accent if active else self.look.quiet
        self.fill(
            (x, y + h - (2 if active or state.error else 1), w, 2 if active or state.error else 1), line
        )
        if state.error:
            wide = min(self.width(state.error, "small") + 12, self.px(420))
            self.fill((x, y + h, wide, self.px(18)), self.look.alarm)
            self.text(x + 6, y + h + self.px(9), state.error, "small", self.look.ground, room=wide - 12)
        if not done or text == value:
            if done:
                state.error = ""
            return None
        try:
            made = read(text)
        except SceneKitError as error:
            state.error, state.shown_for = str(error), value
            return None
        state.error = ""
        return made

    def choice(
        self,
        name: str,
        box: Box,
        options: Sequence[str],
        current: str,
        *,
        tip: str = "",
        hint: str = "none yet",
    ) -> str | None:
        """Make a word that opens a list of others; return the chosen one."""
        look = self.look
        x, y, w, h = box
        felt = self.press(name, box, tip)
        self.fill(box, look.hover if felt.hovered else look.sheet)
        self.fill((x, y + h - 1, w, 1), look.quiet)
        colour = look.ink if current else look.quiet
        self.text(x + 8, y + h / 2, current or hint, colour=colour, room=w - 30)
        self.shape("down", x + w - 13, y + h / 2, self.px(9), look.quiet)
        if felt.focused:
            self.frame((x - 2, y - 2, w + 4, h + 4), look.accent, 2)
        row = self.px(26)
        high = min(row * max(1, len(options)) + 8, self.px(360))
        bottom = self.backend.surface.get_height()
        top = y + h if y + h + high < bottom else max(0, y - high)
        if not self.backend.begin_list(
            f"{name}-list", (x, top, max(w, self.px(120)), high), felt.clicked and bool(options)
        ):
            return None
        picked = None
        for number, option in enumerate(options):
            place = (x + 1, top + 4 + number * row - self.scrolled(), max(w, self.px(120)) - 2, row)
            item = self.press(f"{name}:{option}", place)
            if item.hovered or item.focused:
                self.fill(place, look.hover)
            if option == current:
                self.fill((place[0], place[1] + 5, 3, row - 10), look.accent)
            self.text(place[0] + 10, place[1] + row / 2, option, room=place[2] - 14)
            if item.clicked:
                picked = option
                self.backend.close_dialog()
        self.backend.end_list()
        return picked if picked != current else None

    def scrolled(self) -> float:
        """Return how far the part that is being drawn is scrolled."""
        return self.backend.scroll()

    def segments(
        self, name: str, box: Box, options: Sequence[str], current: str, *, tip: str = ""
    ) -> str | None:
        """Make a few words side by side of which one is chosen."""
        look = self.look
        x, y, w, h = box
        wide = w / len(options)
        picked = None
        for number, option in enumerate(options):
            left = round(x + number * wide)
            place = (left, y, round(x + (number + 1) * wide) - left, h)
            felt = self.press(f"{name}:{option}", place, tip)
            chosen = option == current
            self.fill(place, look.ink if chosen else look.hover if felt.hovered else look.sheet)
            self.text(
                place[0] + place[2] / 2, y + h / 2, option, colour=look.ground if chosen else look.ink,
                anchor="middle", room=place[2] - 6,
            )  # fmt: skip
            if felt.focused:
                self.frame(place, look.accent, 2)
            if felt.clicked and not chosen:
                picked = option
        self.frame(box, look.rule)
        return picked

    def row(self, name: str, box: Box, *, chosen: bool, tip: str = "") -> Press:
        """Make a row of a list; its words are drawn by the caller."""
        felt = self.press(name, box, tip)
        x, y, _, h = box
        if chosen:
            self.fill(box, self.look.hover)
            self.fill((x, y, 3, h), self.look.accent)
        elif felt.hovered:
            self.fill(box, self.look.shade)
        if felt.focused:
            self.frame(box, self.look.accent, 2)
        return felt

    def label(self, x: float, y: float, text: str, room: float | None = None) -> None:
        """Write the small word above or beside a field."""
        self.text(x, y, text, "small", self.look.quiet, room=room)


def _mixed(one: Colour, two: Colour, part: float) -> Colour:
    red, green, blue = (round(a + (b - a) * part) for a, b in zip(one, two, strict=True))
    return red, green, blue


def _shape_mask(name: str, size: int) -> NDArray[np.uint8]:
    """Return a smooth mask of a shape, (size, size) uint8."""
    fine = 8
    steps = (np.arange(size * fine) + 0.5) / (size * fine) * 2 - 1
    x, y = np.meshgrid(steps, steps)
    radius = np.hypot(x, y)
    inside = {
        "good": lambda: radius < 0.86,
        "note": lambda: (y < 0.72) & (abs(x) < (y + 0.95) * 0.56),
        "alarm": lambda: (abs(x) < 0.8) & (abs(y) < 0.8) & ~((abs(x) < 0.16) & (y < 0.28) & (y > -0.6))
        & ~((abs(x) < 0.16) & (y > 0.4) & (y < 0.64)),
        "empty": lambda: (radius < 0.86) & (radius > 0.62),
        "busy": lambda: (abs(y) < 0.22) & (abs((x * 1.5) % 1 - 0.5) < 0.3) & (abs(x) < 1),
        "down": lambda: (abs(y) < 0.75) & (abs(abs(x) - (0.45 - y * 0.75)) < 0.24) & (y < 0.6) & (y > -0.6),
        "play": lambda: (abs(y) < (0.85 - (x + 0.85) * 0.5)) & (x > -0.75),
        "pause": lambda: (abs(y) < 0.8) & (abs(abs(x) - 0.45) < 0.24),
        "right": lambda: (abs(y) < (0.7 - x) * 0.62) & (x > -0.55) & (x < 0.7),
    }[name]()  # fmt: skip
    mask = np.asarray(inside, dtype=float).reshape(size, fine, size, fine).mean(axis=(1, 3)) * 255
    made: NDArray[np.uint8] = np.rint(mask).astype(np.uint8)
    return made

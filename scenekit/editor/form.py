"""Rows of fields down a column: a word at the left, and what is typed or chosen beside it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from scenekit.editor.arithmetic import evaluate, whole
from scenekit.editor.backend import Box
from scenekit.editor.ui import Column, Ui
from scenekit.errors import ProjectError
from scenekit.model.fields import LARGEST_FRACTION_PART, NAME_PATTERN
from scenekit.model.palette import Colour

ROW_PX, GAP_PX, LABEL_PX = 28, 6, 82


@dataclass(slots=True)
class Form:
    """Rows of one column; every row gives what was changed in this frame, or None.

    name   begins the name of every field
    label  width of the words at the left, unscaled px
    """

    ui: Ui
    column: Column
    name: str
    label: int = LABEL_PX

    def line(self, word: str, gap: float = GAP_PX) -> Box:
        """Write a word and return the box beside it."""
        ui = self.ui
        x, y, w, h = self.column.take(ui.px(ROW_PX), ui.px(gap))
        label = ui.px(self.label)
        ui.text(x, y + h / 2, word, colour=ui.look.quiet, room=label - 6)
        return x + label, y, w - label, h

    def split(self, word: str, shares: Sequence[float], gap: float = GAP_PX) -> list[Box]:
        """Write a word and return boxes beside it, by their shares of the room."""
        return parted(self.line(word, gap), shares)

    def whole(
        self, key: str, box: Box, value: int, low: int, high: int, *, unit: str = "", tip: str = "",
        units: dict[str, Fraction] | None = None,
    ) -> int | None:  # fmt: skip
        """A whole number."""
        found: int | None = self.ui.field(
            f"{self.name}:{key}",
            box,
            str(value),
            lambda t: whole(t, low, high, units or {}),
            unit=unit,
            tip=tip,
        )
        return found

    def exact(
        self, key: str, box: Box, value: Fraction, *, unit: str = "", tip: str = "", above: int | None = None
    ) -> Fraction | None:
        """An exact fraction; above: what it must exceed."""

        def read(text: str) -> Fraction:
            made = speed(text)
            if above is not None and made <= above:
                raise ProjectError(f"got {text!r}; must be above {above}")
            return made

        found: Fraction | None = self.ui.field(
            f"{self.name}:{key}", box, str(value), read, unit=unit, tip=tip
        )
        return found

    def text(
        self, key: str, box: Box, value: str, read: Callable[[str], Any], *, hint: str = "", tip: str = ""
    ) -> Any:
        """A text that is read by a function."""
        return self.ui.field(f"{self.name}:{key}", box, value, read, hint=hint, tip=tip)

    def colour(self, key: str, box: Box, value: Colour, *, tip: str = "") -> Colour | None:
        """A colour with a chip before it."""
        ui = self.ui
        x, y, w, h = box
        ui.fill((x, y, ui.px(24), h), value)
        ui.frame((x, y, ui.px(24), h), ui.look.rule)
        rest = (x + ui.px(28), y, w - ui.px(28), h)
        found: Colour | None = ui.field(
            f"{self.name}:{key}", rest, bytes(value).hex(), one_colour, tip=tip or "A colour as rrggbb."
        )
        return found

    def choice(
        self, key: str, box: Box, options: Sequence[str], now: str, *, tip: str = "", hint: str = "none yet"
    ) -> str | None:
        """One of a list of words."""
        return self.ui.choice(f"{self.name}:{key}", box, options, now, tip=tip, hint=hint)

    def either(self, key: str, box: Box, options: Sequence[str], now: str, *, tip: str = "") -> str | None:
        """One of a few words side by side."""
        return self.ui.segments(f"{self.name}:{key}", box, options, now, tip=tip)

    def button(
        self, key: str, box: Box, label: str, *, tip: str = "", kind: str = "plain", on: bool = True
    ) -> bool:
        """A word that can be pressed."""
        return self.ui.button(f"{self.name}:{key}", box, label, tip=tip, kind=kind, on=on)

    def note(self, text: str, level: str = "") -> None:
        """Write a sentence in small words, with a lamp before it where it says how something stands."""
        ui, column = self.ui, self.column
        if not level:
            ui.paragraph(column, text, "small", ui.look.quiet, 17)
            return
        inset = ui.px(18)
        ui.lamp(column.x + ui.px(6), column.y + ui.px(9), level)
        inner = Column(column.x + inset, column.y, column.w - inset)
        ui.paragraph(inner, text, "small", ui.look.alarm if level == "alarm" else ui.look.quiet, 17)
        column.y = inner.y


def parted(box: Box, shares: Sequence[float], gap: float = 6) -> list[Box]:
    """Return boxes side by side, by their shares of the room."""
    x, y, w, h = box
    room = w - gap * (len(shares) - 1)
    total = sum(shares)
    made: list[Box] = []
    for share in shares:
        wide = room * share / total
        made.append((round(x), y, round(x + wide) - round(x), h))
        x += wide + gap
    return made


def speed(text: str) -> Fraction:
    """Return a speed or ratio in pixels.

    raises   ProjectError: no sum, or a fraction too fine for the machine
    """
    value = evaluate(text)
    if max(value.denominator, abs(value.numerator)) > LARGEST_FRACTION_PART:
        raise ProjectError(f"got {text!r}; must be a fraction with parts up to {LARGEST_FRACTION_PART}")
    return value


def read_name(text: str) -> str:
    """Return a name of the document.

    raises   ProjectError: not letters, digits, - and _
    """
    if not NAME_PATTERN.fullmatch(text.strip()):
        raise ProjectError(f"got {text!r}; must be letters, digits, - and _, at most 40 characters")
    return text.strip()


def fresh_name(stem: str, taken: Sequence[str]) -> str:
    """Return a name that nothing has yet: the stem, or the stem with a number."""
    return next(n for n in (stem, *(f"{stem}-{i}" for i in range(2, 2000))) if n not in taken)


def one_colour(text: str) -> Colour:
    """Return a colour from a text such as `2f3a68`.

    raises   ProjectError: anything else
    """
    found = colours_in(text, 1, 1)
    return found[0]


def colours_in(text: str, least: int, most: int, *, differ: bool = False) -> tuple[Colour, ...]:
    """Return colours from a text such as `2f3a68 3d4779`.

    raises   ProjectError: too few or too many, or not colours; equal ones where they must differ
    """
    found: list[Colour] = []
    for word in text.replace(",", " ").replace("#", " ").split():
        try:
            red, green, blue = bytes.fromhex(word)
        except ValueError:
            raise ProjectError(f"got {word[:12]!r}; must be a colour such as 2f3a68") from None
        found.append((red, green, blue))
    if not least <= len(found) <= most:
        allowed = f"{least}" if least == most else f"{least} to {most}"
        raise ProjectError(f"got {len(found)} colours; must be {allowed}")
    if differ and len(set(found)) != len(found):
        raise ProjectError("got a colour twice; all must differ")
    return tuple(found)


def colours_text(colours: Sequence[Colour]) -> str:
    """Return colours as they are typed."""
    return " ".join(bytes(colour).hex() for colour in colours)

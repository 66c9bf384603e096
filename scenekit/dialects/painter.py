"""What tests of drawing are written with: neutral text, and beside it the picture that it must give."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scenekit.dialects.dialect import Dialect
from scenekit.dialects.drafts import Draft
from scenekit.machines.machine import DisplayMode
from scenekit.model.arrays import freeze

COLOURS = ((0, 0, 0), (255, 0, 0), (0, 255, 0), (0, 0, 255))
ART = (
    "0123....1122",
    "3.21.0..2211",
    "..12.3..33..",
    "1.1.2.2.0.0.",
    "....3333....",
    "0110..2332..",
    "1........2.3",
    "32100123.1.2",
)
"""A small picture in numbers of COLOURS, dots are transparent; no mirror image is like another."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Display:
    """What tests of drawing must know of a target.

    flips  flip codes of its keyed copies
    """

    mode: DisplayMode
    transparent: int
    flips: frozenset[int]
    recolours: bool
    pages: int
    image_format: str

    @property
    def size(self) -> tuple[int, int]:
        """Return (width, height) in pixels."""
        return self.mode.width_px, self.mode.height_px

    @property
    def opening(self) -> str:
        """Return the neutral line that opens the screen."""
        width, height = self.size
        return f"{'mode' if self.mode.indexed else 'mode_direct'} {width}, {height}\n"

    @property
    def entries(self) -> tuple[int, ...]:
        """Return an entry for each of COLOURS, the transparent one left out."""
        return tuple(n for n in range(5) if n != self.transparent)[:4]


class Painter:
    """Neutral text and the picture it should give, made side by side.

    filling   boxes are drawn by `fill`; else by rows where the dialect has them, so that a wrong `fill` does
              not spoil the tests of other words; the whole screen is filled, where little can go wrong
    """

    def __init__(self, dialect: Dialect, display: Display, filling: bool = False) -> None:
        self.words, self.display = dialect.words, display
        self.filling = filling or "run" not in dialect.words
        width, height = display.size
        self.picture: NDArray[np.uint8] = np.zeros((height, width, 3), dtype=np.uint8)
        self.lines = [display.opening.strip()]
        self.colours = list(COLOURS)
        if "palette" in dialect.words and display.mode.indexed:
            for number in range(4):
                self.palette(number, COLOURS[number])
        self.say("begin_frame 0")
        self.box(0, 0, 0, width, height)

    def say(self, line: str) -> None:
        """Add a line."""
        self.lines.append(line)

    def palette(self, number: int, colour: tuple[int, int, int]) -> None:
        """Give an entry a colour."""
        self.colours[number] = colour
        red, green, blue = colour
        self.say(f"palette {self.display.entries[number]}, {red}, {green}, {blue}")

    def ink(self, number: int) -> None:
        """Choose a colour."""
        if self.display.mode.indexed:
            self.say(f"ink {self.display.entries[number]}")
        else:
            self.say("ink_rgb " + ", ".join(str(c) for c in COLOURS[number]))

    def box(self, number: int, x: int, y: int, width: int, height: int) -> None:
        """Fill a rectangle."""
        self.ink(number)
        whole = (x, y, width, height) == (0, 0, *self.display.size)
        if self.filling or (whole and "fill" in self.words):
            self.say(f"fill {x}, {y}, {width}, {height}")
        else:
            self.say(f"for i = {y} to {y + height - 1}\nrun {x}, i, {width}\nend")
        self.picture[y : y + height, x : x + width] = self.colours[number]

    def row(self, number: int, x: int, y: int, length: int) -> None:
        """Draw a run."""
        self.ink(number)
        self.say(f"run {x}, {y}, {length}")
        self.picture[y, x : x + length] = self.colours[number]

    def copy(self, part: tuple[int, int, int, int], x: int, y: int, flip: int | None) -> None:
        """Copy a part of the art; flip None copies its transparent pixels too."""
        left, top, width, height = part
        word = "blit" if flip is None else "blit_keyed"
        self.say(
            f"{word} 0, {left}, {top}, {width}, {height}, {x}, {y}" + ("" if flip is None else f", {flip}")
        )
        rows = [row[left : left + width] for row in ART[top : top + height]]
        if flip is not None and flip & 1:
            rows = [row[::-1] for row in rows]
        if flip is not None and flip & 2:
            rows = rows[::-1]
        for down, row in enumerate(rows):
            for across, sign in enumerate(row):
                if sign != ".":
                    self.picture[y + down, x + across] = self.colours[int(sign)]

    def draft(self, word: str, files: tuple[tuple[str, bytes], ...] = ()) -> Draft:
        """Return the test."""
        text = "\n".join([*self.lines, "end_frame 0", "save_screen 0", "say 1"])
        return Draft(word=word, main=text + "\n", said=(1,), screen=freeze(self.picture), files=files)

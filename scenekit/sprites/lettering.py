"""Places of characters: widths, kerning, strings."""

from dataclasses import dataclass

import numpy as np

from scenekit.errors import ProjectError
from scenekit.model.arrays import Indices
from scenekit.model.sprites import Font, Frame, Sheet

DIGITS = "0123456789"


@dataclass(frozen=True, slots=True, kw_only=True)
class Letters:
    """A font measured on its sheet.

    frames   frame of each character
    lefts    columns of each frame that are left out at its left
    widths   pixels each character takes, without spacing
    height   of the tallest frame
    """

    font: Font
    frames: dict[str, Frame]
    lefts: dict[str, int]
    widths: dict[str, int]
    height: int

    @property
    def digit_step(self) -> int:
        """Return how far digits stand apart: all alike, so that numbers do not jump."""
        return max(self.widths[digit] for digit in DIGITS) + self.font.spacing


def measure(font: Font, sheet: Sheet, picture: Indices, transparent: int) -> Letters:
    """Measure a font's characters.

    picture   (H, W) the sheet's palette entries
    """
    frames = dict(zip(font.characters, sheet.frames, strict=False))
    lefts, widths = {}, {}
    for character, frame in frames.items():
        x, y, w, h = frame.box
        drawn = np.flatnonzero((picture[y : y + h, x : x + w] != transparent).any(axis=0))
        narrow = font.proportional and len(drawn) > 0
        lefts[character] = int(drawn[0]) if narrow else 0
        widths[character] = int(drawn[-1]) - int(drawn[0]) + 1 if narrow else w
        if font.proportional and not len(drawn):
            widths[character] = max(1, w // 2)
    height = max(frame.box[3] for frame in frames.values())
    return Letters(font=font, frames=frames, lefts=lefts, widths=widths, height=height)


def place_text(letters: Letters, text: str, where: str) -> tuple[list[tuple[str, int]], int]:
    """Return (frame name, x of the frame's left edge) for each character of a text, and the text's width.

    raises   ProjectError: a character that the font does not have
    """
    kerning = dict(letters.font.kerning)
    placed, x, before = [], 0, ""
    for character in text:
        if character not in letters.frames:
            raise ProjectError(f"{where}: font {letters.font.name} has no character {character!r}")
        x += kerning.get(before + character, 0)
        placed.append((letters.frames[character].name, x - letters.lefts[character]))
        x += letters.widths[character] + letters.font.spacing
        before = character
    return placed, max(0, x - letters.font.spacing)


def check_digits(letters: Letters, where: str) -> None:
    """Refuse a font without all digits for a number."""
    missing = [digit for digit in DIGITS if digit not in letters.frames]
    if missing:
        raise ProjectError(f"{where}: font {letters.font.name} has no digit {', '.join(missing)}")

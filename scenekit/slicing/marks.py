"""Draws boxes and small numbers onto pictures of sheets."""

import numpy as np

from scenekit.model.arrays import Pixels
from scenekit.slicing.cut import Box, Colour

PATTERNS = {
    "solid": (1,),
    "dotted": (1, 0),
    "dashed": (1, 1, 1, 0, 0),
    "dash and dot": (1, 1, 1, 0, 1, 0),
}
"""On and off along a line, in line widths."""

_DIGITS = (
    "### .#. ### ### #.# ### ### ### ### ###",
    "#.# ##. ..# ..# #.# #.. #.. ..# #.# #.#",
    "#.# .#. ### .## ### ### ### .#. ### ###",
    "#.# .#. #.. ..# ..# ..# #.# .#. #.# ..#",
    "### ### ### ### ..# ### ### .#. ### ###",
)
_ROWS = tuple(line.split() for line in _DIGITS)

LIGHT, DARK = (120, 124, 130), (92, 96, 102)
"""The check that shows where a sheet is clear."""


def canvas(pixels: Pixels, scale: int, margin: int = 0) -> Pixels:
    """Return an opaque, writable picture of a sheet, enlarged, over a check, with a margin on every side.

    pixels   (H, W, 4) uint8
    """
    big = np.repeat(np.repeat(pixels, scale, axis=0), scale, axis=1)
    height, width = big.shape[:2]
    rows, columns = np.indices((height + 2 * margin, width + 2 * margin)) // 8
    board = np.empty((*rows.shape, 4), np.uint8)
    board[...] = (*DARK, 255)
    board[(rows + columns) % 2 == 0] = (*LIGHT, 255)
    under = board[margin : margin + height, margin : margin + width]
    alpha = big[..., 3:].astype(np.uint16)
    under[..., :3] = (big[..., :3] * alpha + under[..., :3] * (255 - alpha) + 127) // 255
    return board


def dim(picture: Pixels, box: Box) -> None:
    """Turn a part of a picture to a third of its contrast."""
    x, y, w, h = box
    part = picture[y : y + h, x : x + w, :3]
    part[...] = (part.astype(np.uint16) + 2 * 100) // 3


def draw_box(picture: Pixels, box: Box, colour: Colour, pattern: str = "solid", width: int = 1) -> None:
    """Draw a frame of a line width just outside a box, as far as the picture goes."""
    x, y, w, h = box
    left, top, right, bottom = x - width, y - width, x + w, y + h
    for start in (top, bottom):
        _line(picture, left, start, w + 2 * width, width, colour, pattern)
    for start in (left, right):
        _line(picture.swapaxes(0, 1), top, start, h + 2 * width, width, colour, pattern)


def draw_cross(picture: Pixels, box: Box, colour: Colour) -> None:
    """Draw both diagonals of a box."""
    x, y, w, h = box
    steps = np.arange(max(w, h))
    across, down = steps * w // len(steps), steps * h // len(steps)
    for columns in (across, w - 1 - across):
        _paint(picture, x + columns, y + down, colour)


def draw_number(picture: Pixels, corner: tuple[int, int], number: int, colour: Colour, size: int = 1) -> None:
    """Draw a number in digits of 3 x 5 dots on a black ground, moved so that it lies on the picture."""
    text = str(number)
    dots = np.zeros((7, 4 * len(text) + 1), bool)
    for place, digit in enumerate(text):
        for row in range(5):
            line = _ROWS[row][int(digit)]
            dots[row + 1, 4 * place + 1 : 4 * place + 4] = [letter == "#" for letter in line]
    dots = np.repeat(np.repeat(dots, size, axis=0), size, axis=1)
    height, width = dots.shape
    x = max(0, min(corner[0], picture.shape[1] - width))
    y = max(0, min(corner[1], picture.shape[0] - height))
    part = picture[y : y + height, x : x + width]
    part[...] = (0, 0, 0, 255)
    part[dots[: part.shape[0], : part.shape[1]]] = (*colour, 255)


def _line(
    picture: Pixels, start: int, across: int, length: int, width: int, colour: Colour, pattern: str
) -> None:
    """Draw a horizontal line; its pattern is counted in line widths."""
    on = np.resize(np.repeat(np.array(PATTERNS[pattern], bool), width), length)
    columns = start + np.flatnonzero(on)
    for row in range(across, across + width):
        _paint(picture, columns, np.full(len(columns), row), colour)


def _paint(
    picture: Pixels,
    columns: np.ndarray[tuple[int], np.dtype[np.intp]],
    rows: np.ndarray[tuple[int], np.dtype[np.intp]],
    colour: Colour,
) -> None:
    inside = (columns >= 0) & (columns < picture.shape[1]) & (rows >= 0) & (rows < picture.shape[0])
    picture[rows[inside], columns[inside]] = (*colour, 255)

"""Draws the boxes, numbers and pivots of a cut over its sheet."""

from collections.abc import Sequence
from statistics import median_low

import numpy as np

from scenekit.model.arrays import Pixels
from scenekit.slicing.cut import Box, CutFrame, Pair
from scenekit.slicing.marks import canvas, draw_box, draw_number

LARGEST_SIDE_PX, SMALL_PX = 4096, 1024
ROOM_PX = 32
"""A box is enlarged until its usual side is about so long, so that its number has room."""

LINES = ((0, 114, 178), (213, 94, 0))
"""Colours of neighbouring boxes, by turns, so that touching ones are told apart; most eyes tell these apart
(Okabe and Ito, 2008)."""

LABEL_SHARE = 3
"""A number covers at most a third of its box, or is left out."""

NUMBER = (240, 228, 66)
FOOT, RIM = (255, 255, 255), (0, 0, 0)


def overlay_picture(pixels: Pixels, frames: Sequence[CutFrame], pivots: Sequence[Pair] = ()) -> Pixels:
    """Return the sheet over a check, each box outlined within, numbered, its pivot a small peg.

    pixels   (H, W, 4) uint8
    pivots   (x, y) of each frame from its box's top left, or none
    returns  (H', W', 4) uint8, opaque, small sheets enlarged by a whole factor
    """
    scale = _scale(pixels, frames)
    picture = canvas(pixels, scale)
    for number, frame in enumerate(frames):
        draw_box(picture, _inner(frame.box, scale), LINES[_turn(frame, number)])
    for (x, y), frame in zip(pivots, frames, strict=False):
        _peg(picture, (frame.box[0] + x, frame.box[1] + y), scale)
    for number, frame in enumerate(frames):
        x, y, w, h = (side * scale for side in frame.box)
        size = 2 if min(w, h) >= 2 * ROOM_PX else 1
        wide, high = size * (4 * len(str(number)) + 1), 7 * size
        if w > wide and h > high and LABEL_SHARE * wide * high <= w * h:
            draw_number(picture, (x + 1, y + 1), number, NUMBER, size)
    return picture


def _scale(pixels: Pixels, frames: Sequence[CutFrame]) -> int:
    """Return 4 for small sheets, else what gives numbers room and keeps the picture handy."""
    longest = int(max(pixels.shape[:2]))
    if 4 * longest <= SMALL_PX:
        return 4
    usual = median_low([min(frame.box[2:]) for frame in frames]) if frames else ROOM_PX
    return max(1, min(4, LARGEST_SIDE_PX // longest, -(-ROOM_PX // usual)), min(2, SMALL_PX // longest))


def _turn(frame: CutFrame, number: int) -> int:
    """Return 0 or 1 in the pattern of a chess board where frames stand in a grid, else by turns."""
    name = frame.name
    if name[:1] == "r" and "c" in name and name[1:].replace("c", "", 1).isdigit():
        row, column = name[1:].split("c")
        return (int(row or 0) + int(column or 0)) % 2
    return number % 2


def _inner(box: Box, scale: int) -> Box:
    """Return the box whose outline lies on the rim of a frame's enlarged box, inside it."""
    x, y, w, h = (side * scale for side in box)
    return x + 1, y + 1, max(0, w - 2), max(0, h - 2)


def _peg(picture: Pixels, at: Pair, scale: int) -> None:
    """Draw a short upright line on a short level one, foot on the pivot's lower edge."""
    height, width = picture.shape[:2]
    x, y = at[0] * scale + scale // 2, at[1] * scale + scale - 1
    arm = max(2, scale)
    lines = ((y, x - arm, y + 1, x + arm + 1), (y - arm, x, y + 1, x + 1))
    for rim, colour in ((1, RIM), (0, FOOT)):
        for top, left, bottom, right in lines:
            rows = slice(max(0, top - rim), max(0, min(height, bottom + rim)))
            columns = slice(max(0, left - rim), max(0, min(width, right + rim)))
            picture[rows, columns] = np.array([*colour, 255], np.uint8)

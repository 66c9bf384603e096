"""Draws the boxes and numbers of a cut over its sheet."""

from collections.abc import Sequence

import numpy as np

from scenekit.model.arrays import Pixels
from scenekit.slicing.cut import CutFrame

LARGEST_SIDE_PX = 2048
PAPER = (236, 232, 222)
BOX, CONTENT, TEXT = (0, 90, 181), (220, 50, 32), (20, 20, 20)
"""A pair of blue and red that people of every colour vision tell apart (common practice)."""


def overlay_picture(pixels: Pixels, frames: Sequence[CutFrame]) -> Pixels:
    """Return the sheet on paper with each box outlined, its drawn area marked at the corners and numbered.

    pixels   (H, W, 4) uint8
    returns  (H', W', 3) uint8, small sheets enlarged by a whole factor
    """
    from PIL import Image, ImageDraw

    height, width = pixels.shape[:2]
    scale = max(1, min(4, LARGEST_SIDE_PX // max(width, height)))
    alpha = pixels[..., 3:].astype(np.uint16)
    flat = (pixels[..., :3] * alpha + np.array(PAPER, dtype=np.uint16) * (255 - alpha)) // 255
    image = Image.fromarray(flat.astype(np.uint8)).resize(
        (width * scale, height * scale), Image.Resampling.NEAREST
    )
    draw = ImageDraw.Draw(image)
    for number, frame in enumerate(frames):
        x, y, w, h = (side * scale for side in frame.box)
        draw.rectangle((x, y, x + w - 1, y + h - 1), outline=BOX)
        for corner in _corners(frame, scale):
            draw.line(corner, fill=CONTENT)
        label = str(number)
        left, top, right, bottom = draw.textbbox((x + 2, y + 1), label)
        if right - left + 4 < w and bottom - top + 2 < h:
            draw.rectangle((left - 1, top - 1, right, bottom), fill=PAPER)
            draw.text((x + 2, y + 1), label, fill=TEXT)
    return np.asarray(image)


def _corners(frame: CutFrame, scale: int) -> list[list[tuple[int, int]]]:
    """Return short angles at the corners of the drawn area."""
    x, y, w, h = (side * scale for side in frame.content)
    arm = max(2, min(w, h) // 5)
    right, bottom = x + w - 1, y + h - 1
    return [
        [(x, y + arm), (x, y), (x + arm, y)],
        [(right - arm, y), (right, y), (right, y + arm)],
        [(right, bottom - arm), (right, bottom), (right - arm, bottom)],
        [(x + arm, bottom), (x, bottom), (x, bottom - arm)],
    ]

"""Joins pictures into one strip, so that a folder of frames becomes a sheet."""

import re
from collections.abc import Sequence

import numpy as np

from scenekit.errors import ImageReadError
from scenekit.images.picture import MAX_PIXELS, Picture
from scenekit.model.arrays import Pixels, freeze

WIDEST_PX = 4096


def join_strip(pictures: Sequence[Picture]) -> tuple[Pixels, tuple[tuple[int, int, int, int], ...]]:
    """Return one picture with all pictures in cells of the largest size, and the cell of each.

    Smaller pictures stand at the foot and in the middle of their cell.

    raises   ImageReadError: too large a strip
    """
    height = max(picture.pixels.shape[0] for picture in pictures)
    width = max(picture.pixels.shape[1] for picture in pictures)
    columns = max(1, min(len(pictures), WIDEST_PX // width))
    rows = -(-len(pictures) // columns)
    if rows * height * columns * width > MAX_PIXELS:
        raise ImageReadError(
            f"{pictures[0].name}: {len(pictures)} pictures in cells of {width} x {height} px make a strip of "
            f"more than {MAX_PIXELS} pixels; use fewer or smaller ones"
        )
    strip = np.zeros((rows * height, columns * width, 4), dtype=np.uint8)
    boxes = []
    for number, picture in enumerate(pictures):
        row, column = divmod(number, columns)
        h, w = picture.pixels.shape[:2]
        x, y = column * width + (width - w) // 2, row * height + height - h
        strip[y : y + h, x : x + w] = picture.pixels
        boxes.append((column * width, row * height, width, height))
    return freeze(strip), tuple(boxes)


def frame_names(pictures: Sequence[Picture]) -> tuple[str, ...]:
    """Return a name for each picture that a document allows: its own where it fits, else numbered."""
    names = [re.sub(r"[^A-Za-z0-9_-]", "-", picture.name)[:40].lstrip("-_") for picture in pictures]
    if all(names) and len(set(names)) == len(names):
        return tuple(names)
    return tuple(f"r00c{number:02d}" for number in range(len(pictures)))

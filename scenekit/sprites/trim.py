"""Cuts empty borders off frames, and places pivots and hit boxes in what is left."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scenekit.model.arrays import Pixels

Box = tuple[int, int, int, int]
Pair = tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Trim:
    """A box without its empty borders.

    box      (x, y, w, h) in the coordinates of the box that was trimmed
    offset   (x, y) of the trimmed box's top left from the old one's
    """

    box: Box
    offset: Pair

    def moved(self, pivot: Pair) -> Pair:
        """Return a pivot counted from the trimmed box's top left; it may lie outside."""
        return pivot[0] - self.offset[0], pivot[1] - self.offset[1]

    def moved_box(self, box: Box) -> Box:
        """Return a box inside the frame, such as a hit box, counted from the trimmed box's top left."""
        return (*self.moved(box[:2]), *box[2:])


def content_box(picture: Pixels | NDArray[np.bool_]) -> Box | None:
    """Return the tight box (x, y, w, h) of art, or None where there is none.

    picture   (H, W, 4) uint8, art where alpha is above 0; or (H, W) bool, art where True
    """
    art = picture if picture.ndim == 2 else picture[..., 3] > 0
    rows = np.flatnonzero(art.any(axis=1))
    if rows.size == 0:
        return None
    top, bottom = int(rows[0]), int(rows[-1]) + 1
    columns = np.flatnonzero(art[top:bottom].any(axis=0))
    left, right = int(columns[0]), int(columns[-1]) + 1
    return left, top, right - left, bottom - top


def trim(picture: Pixels | NDArray[np.bool_], box: Box | None = None) -> Trim | None:
    """Cut the empty borders off a box of a picture; None where the box holds no art.

    picture   as for content_box
    box       (x, y, w, h) on the picture; None for all of it
    raises    ValueError: the box leaves the picture
    """
    height, width = picture.shape[:2]
    x, y, w, h = box or (0, 0, width, height)
    if x < 0 or y < 0 or w < 1 or h < 1 or x + w > width or y + h > height:
        raise ValueError(f"box {box} leaves the picture of {width} x {height} px")
    content = content_box(picture[y : y + h, x : x + w])
    if content is None:
        return None
    return Trim(box=(x + content[0], y + content[1], content[2], content[3]), offset=content[:2])


def default_pivot(box: Box, content: Box | None) -> Pair:
    """Return the pivot of a frame that stands: the middle of the lowest line of its content.

    box, content   (x, y, w, h) in one system; without content the box itself counts
    returns        (x, y) from the box's top left; of two middle columns the left one
    """
    x, y, w, h = content or box
    return x - box[0] + (w - 1) // 2, y - box[1] + h - 1


def default_hit_box(box: Box, content: Box | None, shrink: Pair = (0, 0)) -> Box:
    """Return the hit box of a frame: its content, made smaller on every side but never under a pixel.

    box, content   (x, y, w, h) in one system; without content the box itself counts
    shrink         (x, y) pixels taken from the left and right, and from the top and bottom
    returns        (x, y, w, h) from the box's top left
    raises         ValueError: a negative shrink
    """
    if min(shrink) < 0:
        raise ValueError(f"shrink must not be negative; got {shrink}")
    x, y, w, h = content or box
    left, top = min(shrink[0], (w - 1) // 2), min(shrink[1], (h - 1) // 2)
    return x - box[0] + left, y - box[1] + top, w - 2 * left, h - 2 * top

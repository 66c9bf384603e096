"""Places the pivots of an animation's frames on the line its feet stand on."""

from collections import Counter
from collections.abc import Sequence
from statistics import median_low

import numpy as np
from numpy.typing import NDArray

from scenekit.sprites.trim import Box, Pair, content_box, default_pivot

FEET_SHARE = 6
"""The lowest sixth of a figure counts as its feet."""


def foot_line_pivots(
    mask: NDArray[np.bool_], boxes: Sequence[Box], *, shared: bool | None = None
) -> tuple[Pair, ...]:
    """Return a pivot for each frame of one animation, counted from its box's top left.

    Frames of one box size were drawn in cells, so they share a pivot and the drawn movement is kept: x is the
    middle of the feet, y the line most frames stand on.  Other frames get each their own.

    mask     (H, W) bool, True where the sheet holds art
    boxes    (x, y, w, h) on the sheet
    shared   None: shared where all boxes are of one size
    raises   ValueError: shared, but boxes of several sizes
    """
    one_size = len({box[2:] for box in boxes}) <= 1
    if shared and not one_size:
        raise ValueError("frames of several sizes cannot share a pivot")
    contents = [content_box(mask[y : y + h, x : x + w]) for x, y, w, h in boxes]
    own = [
        _foot(mask, box, content) if content else default_pivot((0, 0, box[2], box[3]), None)
        for box, content in zip(boxes, contents, strict=True)
    ]
    drawn = [pivot for pivot, content in zip(own, contents, strict=True) if content]
    if not drawn or not (one_size if shared is None else shared):
        return tuple(own)
    lines = Counter(y for _, y in drawn)
    foot = max(lines, key=lambda y: (lines[y], y))
    standing = [x for x, y in drawn if y == foot]
    return ((median_low(standing), foot),) * len(boxes)


def _foot(mask: NDArray[np.bool_], box: Box, content: Box) -> Pair:
    """Return the middle of the feet, on the lowest line of the content."""
    left, top, width, height = content
    bottom = top + height
    first = bottom - max(1, height // FEET_SHARE)
    feet = mask[box[1] + first : box[1] + bottom, box[0] + left : box[0] + left + width]
    columns = np.flatnonzero(feet.any(axis=0))
    return left + (int(columns[0]) + int(columns[-1])) // 2, bottom - 1

"""Draws what became of frames on a changed sheet: the old sheet first, the new one below or beside it."""

from collections.abc import Sequence

import numpy as np

from scenekit.model.arrays import Pixels
from scenekit.slicing.cut import Box
from scenekit.slicing.marks import canvas, dim, draw_box, draw_cross, draw_number
from scenekit.slicing.reimport import Match

LOOKS = {
    "moved": ((86, 180, 233), "solid"),
    "recoloured": ((230, 159, 0), "dotted"),
    "grown": ((0, 158, 115), "dashed"),
    "redrawn": ((204, 121, 167), "dash and dot"),
    "new": ((240, 228, 66), "solid"),
    "gone": ((213, 94, 0), "dotted"),
}
"""Colour and line of a kind, in the order of drawing; colours most eyes tell apart (Okabe and Ito, 2008)."""

MARGIN_PX = 12
LARGEST_SIDE_PX = 1400


def draw_changes(
    old_pixels: Pixels, new_pixels: Pixels, matches: Sequence[Match], *, scale: int | None = None
) -> Pixels:
    """Return a picture of what changed; equal numbers stand for one frame, equal frames are dimmed.

    old_pixels, new_pixels   (H, W, 4) uint8
    scale                    enlargement, None: up to 4 times, as far as the picture stays handy
    returns                  (H, W, 4) uint8, opaque
    """
    sides = [side for pixels in (old_pixels, new_pixels) for side in pixels.shape[:2]]
    factor = scale or max(1, min(4, LARGEST_SIDE_PX // max(sides)))
    panels = [canvas(pixels, factor, MARGIN_PX) for pixels in (old_pixels, new_pixels)]
    changed = [match for match in matches if match.kind != "same"]
    for match in matches:
        if match.kind == "same":
            for panel, box in zip(panels, (match.old, match.new), strict=True):
                if box is not None:
                    dim(panel, _enlarged(box, factor))
    numbered = sorted(enumerate(changed, 1), key=lambda pair: (list(LOOKS).index(pair[1].kind), pair[0]))
    for draw in (_outline, _label):
        for number, match in numbered:
            for panel, box in zip(panels, (match.old, match.new), strict=True):
                if box is not None:
                    draw(panel, _enlarged(box, factor), match.kind, number, 1 if factor < 3 else 2)
    axis = 0 if panels[0].shape[1] > panels[0].shape[0] else 1
    longest = max(panel.shape[1 - axis] for panel in panels)
    return np.concatenate([_filled(panel, 1 - axis, longest) for panel in panels], axis=axis)


def _outline(panel: Pixels, box: Box, kind: str, number: int, width: int) -> None:
    colour, pattern = LOOKS[kind]
    draw_box(panel, box, colour, pattern, width)
    if kind == "new":
        around = (box[0] - width - 1, box[1] - width - 1, box[2] + 2 * width + 2, box[3] + 2 * width + 2)
        draw_box(panel, around, colour, pattern, 1)
    if kind == "gone":
        draw_cross(panel, box, colour)


def _label(panel: Pixels, box: Box, kind: str, number: int, width: int) -> None:
    draw_number(panel, (box[0] - width, box[1] - width), number, LOOKS[kind][0], width)


def _enlarged(box: Box, factor: int) -> Box:
    x, y, w, h = (side * factor for side in box)
    return x + MARGIN_PX, y + MARGIN_PX, w, h


def _filled(panel: Pixels, axis: int, length: int) -> Pixels:
    """Return a panel filled up to a length with plain dark grey."""
    shape = list(panel.shape)
    shape[axis] = length - shape[axis]
    rest = np.full(shape, 52, np.uint8)
    rest[..., 3] = 255
    return np.concatenate([panel, rest], axis=axis)

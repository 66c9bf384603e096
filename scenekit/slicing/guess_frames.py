"""Find boxes that the artist drew: rectangles filled with a second key colour, or outlined."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from scenekit.slicing.guess_ground import colour_of, commonest, packed_colours

Mask = npt.NDArray[np.bool_]
Pixels = npt.NDArray[np.uint8]
Integers = npt.NDArray[np.int64]

LEAST_SIDE_PX = 4
LEAST_BOXES = 3
RIM_FILLED = 0.95
SIDE_FILLED = 0.5
"""Least share of a filled box's outermost line that is drawn."""
LEAST_AREA = 0.6
"""Share of the art's islands, by the area of their boxes, that must be drawn boxes."""
RIM_ALIKE = 0.35
"""Least share of a box's outline that has the common colour; the art may reach the rest."""
LEAST_ALIKE = 0.7
"""Least share of the boxes that must be so."""
WIDEST_FRAME_PX = 4


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DrawnBoxes:
    """Boxes that are drawn on a sheet.

    boxes    (N, 4) left, top, right, bottom, without the outline
    key      the second key colour, or None for outlines
    others   islands that are no such boxes, so labels and the like
    """

    boxes: Integers
    key: tuple[int, int, int] | None
    others: int


def drawn_boxes(pixels: Pixels, mask: Mask, islands: Integers) -> DrawnBoxes | None:
    """Return the drawn boxes of a sheet; None where there are too few to be a custom of the sheet.

    mask     (H, W) bool, art and drawn boxes
    islands  (N, 4) left, top, right, bottom of the islands of the mask
    """
    sides = islands[:, 2:] - islands[:, :2]
    large = np.flatnonzero(sides.min(axis=1, initial=1 << 30) >= LEAST_SIDE_PX)
    chosen = np.array([index for index in large.tolist() if rim_filled(mask, islands[index])], np.int64)
    if len(chosen) < LEAST_BOXES:
        return None
    outside = ~inside_any(islands, islands[chosen])
    chosen, area = chosen[outside[chosen]], sides.prod(axis=1)
    if len(chosen) < LEAST_BOXES:
        return None
    if area[chosen].sum() < LEAST_AREA * area[outside].sum():
        return None
    packed = packed_colours(pixels)
    rims = [rim(packed, islands[index], 0) for index in chosen]
    colour, _ = commonest(np.concatenate(rims))
    alike = np.array([float(np.mean(line == colour)) for line in rims])
    if colour == 0 or np.mean(alike > RIM_ALIKE) < LEAST_ALIKE:
        return None
    boxes = islands[[index for index, share in zip(chosen, alike, strict=True) if share > RIM_ALIKE]]
    width = frame_width(packed, boxes, colour) if np.median(alike) >= RIM_FILLED else 0
    if width == 0:
        outer = islands[~inside_any(islands, islands)]
        boxes = np.array(
            [without_strays(mask, box) for box in outer if (within(packed, box) == colour).any()]
        )
    others = int(np.count_nonzero(~inside_any(islands, boxes))) - len(boxes)
    if width:
        return DrawnBoxes(boxes=boxes + np.array([width, width, -width, -width]), key=None, others=others)
    return DrawnBoxes(boxes=boxes, key=colour_of(colour), others=others)


def without_strays(mask: Mask, box: Integers) -> Integers:
    """Take off the sides of a filled box that are mostly empty: strays that touch it."""
    left, top, right, bottom = (int(v) for v in box)
    part = mask[top:bottom, left:right]
    rows = np.flatnonzero(part.mean(axis=1) >= SIDE_FILLED)
    columns = np.flatnonzero(part.mean(axis=0) >= SIDE_FILLED)
    if rows.size == 0 or columns.size == 0:
        return box
    return np.array([left + columns[0], top + rows[0], left + columns[-1] + 1, top + rows[-1] + 1], np.int64)


def inside_any(boxes: Integers, others: Integers) -> Mask:
    """Mark the boxes that lie strictly inside one of the others."""
    inside = np.zeros(len(boxes), np.bool_)
    for left, top, right, bottom in others.tolist():
        inside |= (boxes[:, 0] > left) & (boxes[:, 1] > top) & (boxes[:, 2] < right) & (boxes[:, 3] < bottom)
    return inside


def rim(values: npt.NDArray[np.generic], box: Integers, inset: int) -> npt.NDArray[np.generic]:
    """Return the values along the outline of a box that is made smaller by `inset` on every side."""
    left, top, right, bottom = (int(v) for v in box + np.array([inset, inset, -inset, -inset]))
    return np.concatenate(
        [
            values[top, left:right],
            values[bottom - 1, left:right],
            values[top:bottom, left],
            values[top:bottom, right - 1],
        ]
    )


def within(values: npt.NDArray[np.generic], box: Integers) -> npt.NDArray[np.generic]:
    """Return all values inside a box."""
    left, top, right, bottom = (int(v) for v in box)
    return values[top:bottom, left:right]


def rim_filled(mask: Mask, box: Integers) -> bool:
    """Say whether all four sides of a box are drawn."""
    left, top, right, bottom = (int(v) for v in box)
    lines = (
        mask[top, left:right],
        mask[bottom - 1, left:right],
        mask[top:bottom, left],
        mask[top:bottom, right - 1],
    )
    return all(float(line.mean()) >= RIM_FILLED for line in lines)


def frame_width(packed: npt.NDArray[np.uint32], boxes: Integers, colour: int) -> int:
    """Return the width of the outline; 0 where the colour goes on inside as a second background."""
    for inset in range(1, WIDEST_FRAME_PX + 1):
        inner = boxes[(boxes[:, 2:] - boxes[:, :2]).min(axis=1) > 2 * inset + 2]
        if len(inner) == 0:
            return 0
        share = float(np.median([np.mean(rim(packed, box, inset) == colour) for box in inner]))
        if share < 0.25:
            return inset
    return 0

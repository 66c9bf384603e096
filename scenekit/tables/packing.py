"""Places pieces in one picture, and parts pieces into runs."""

from collections.abc import Sequence

import numpy as np

from scenekit.errors import EncodingError
from scenekit.model.arrays import Indices, freeze

LARGEST_SIDE_PX = 4096


def pack(
    pictures: Sequence[Indices], transparent: int, width_px: int = 0
) -> tuple[tuple[tuple[int, int], ...], Indices]:
    """Place pictures on shelves, tallest first, and return their places and the packed picture.

    width_px  of the packed picture; 0 chooses one
    raises   EncodingError: more than a picture of LARGEST_SIDE_PX square holds
    """
    if not pictures:
        return (), freeze(np.full((1, 1), transparent, dtype=np.uint8))
    area = sum(picture.size for picture in pictures)
    widest = max(picture.shape[1] for picture in pictures)
    width = width_px or max(widest, min(LARGEST_SIDE_PX, 1 << max(4, (int(area**0.5) - 1).bit_length())))
    order = sorted(range(len(pictures)), key=lambda n: (-pictures[n].shape[0], -pictures[n].shape[1], n))
    places: list[tuple[int, int]] = [(0, 0)] * len(pictures)
    x = y = shelf = 0
    for number in order:
        h, w = pictures[number].shape
        if x + w > width:
            x, y, shelf = 0, y + shelf, 0
        places[number] = (x, y)
        x, shelf = x + w, max(shelf, h)
    height = y + shelf
    if height > LARGEST_SIDE_PX:
        raise EncodingError(
            f"art: {width} x {height} px packed; at most {LARGEST_SIDE_PX} px high; use fewer frames"
        )
    packed = np.full((height, width), transparent, dtype=np.uint8)
    for (left, top), picture in zip(places, pictures, strict=True):
        packed[top : top + picture.shape[0], left : left + picture.shape[1]] = picture
    return tuple(places), freeze(packed)


def runs_of(picture: Indices, transparent: int) -> list[tuple[int, int, int, int]]:
    """Return the horizontal runs of one colour of a picture as (x, y, length, entry), row by row."""
    padded = np.full((picture.shape[0], picture.shape[1] + 2), -1, dtype=np.int16)
    padded[:, 1:-1] = picture
    starts = padded[:, 1:] != padded[:, :-1]
    ys, edges = np.nonzero(starts)
    runs = []
    for row, left, right in zip(ys[:-1], edges[:-1], edges[1:], strict=True):
        if right > left:
            entry = int(picture[row, left])
            if entry != transparent:
                runs.append((int(left), int(row), int(right - left), entry))
    return runs

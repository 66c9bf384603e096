"""Error diffusion in linear light on whole numbers."""

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.clusters import nearest
from scenekit.colour.fixed_oklab import LINEAR_ONE, bytes_to_linear_fixed, linear_to_fixed

Whole = NDArray[np.int64]

_SPREAD = ((0, 1, 7), (1, -1, 3), (1, 0, 5), (1, 1, 1))
"""Row, column and sixteenths of the error for each neighbour; Floyd and Steinberg 1976."""


def diffuse(
    picture: NDArray[np.uint8],
    flat: NDArray[np.uint8],
    palette: NDArray[np.uint8],
    entries: NDArray[np.int64],
    strength: int,
    open_pixels: NDArray[np.bool_],
) -> NDArray[np.uint8]:
    """Give each open pixel the entry nearest to its colour plus what its neighbours lack.

    Pixels whose column plus twice their row is equal do not depend on each other and are done at once.
    Errors do not cross pixels that are not open.
    picture      (H, W, 4) uint8
    flat         (H, W) uint8, kept where a pixel is not open
    entries      (K,) the entries to choose from
    strength     percent of the error that is passed on
    returns      (H, W) uint8
    """
    height, width = flat.shape
    shown = bytes_to_linear_fixed(palette[entries])
    centres = linear_to_fixed(shown)
    wanted = np.zeros((height + 1, width + 2, 3), dtype=np.int64)
    wanted[:height, 1:-1] = bytes_to_linear_fixed(picture[..., :3])
    out = flat.copy()
    for wave in range(width + 2 * (height - 1)):
        first = max(0, (wave - width + 2) // 2)
        rows = np.arange(first, min(height - 1, wave // 2) + 1)
        columns = wave - 2 * rows
        inside = open_pixels[rows, columns]
        rows, columns = rows[inside], columns[inside]
        if not rows.size:
            continue
        colour = np.clip(wanted[rows, columns + 1], 0, LINEAR_ONE)
        served = nearest(linear_to_fixed(colour), centres)
        out[rows, columns] = entries[served]
        error = (colour - shown[served]) * strength // 100
        for down, across, part in _SPREAD:
            wanted[rows + down, columns + 1 + across] += error * part >> 4
    return out

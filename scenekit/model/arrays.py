"""Read-only arrays for frozen records."""

import numpy as np
from numpy.typing import NDArray

Pixels = NDArray[np.uint8]
"""(H, W, 4) uint8 sRGB with straight alpha."""

Indices = NDArray[np.uint8]
"""(H, W) uint8 palette entries."""


def freeze(array: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """Return a contiguous, read-only copy of an array."""
    copy = np.ascontiguousarray(array).copy()
    copy.flags.writeable = False
    return copy

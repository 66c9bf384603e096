"""Oklab on whole numbers, so that every decision about colours is the same on every machine."""

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.space import LINEAR_OF_BYTE, srgb_to_linear

Whole = NDArray[np.int64]

ONE = 1 << 16
"""Oklab 1.0 as a whole number."""

LINEAR_ONE = 1 << 22
"""Linear light 1.0 as a whole number."""

_TO_LMS: Whole = np.array(
    [[27663715, 35992667, 3452482], [14220603, 45680973, 7207288], [5925878, 18905831, 42277155]]
)
"""Linear sRGB to LMS times 2**26; every row sums to 2**26, so that greys stay neutral."""

_TO_OKLAB: Whole = np.array(
    [[3530837, 13314697, -68318], [33185309, -40745017, 7559708], [434598, 13132730, -13567328]]
)
"""LMS to Oklab times 2**24; the rows sum to 2**24, 0 and 0."""

_FROM_OKLAB: Whole = np.array(
    [[16777216, 6649445, 3620586], [16777216, -1771025, -1071295], [16777216, -1501295, -21667532]]
)
"""Oklab to LMS times 2**24."""

_FROM_LMS: Whole = np.array(
    [[273585500, -221976764, 15500128], [-85123431, 175137851, -22905556], [-281594, -47205624, 114596082]]
)
"""LMS to linear sRGB times 2**26; every row sums to 2**26."""

_LINEAR: Whole = np.floor(LINEAR_OF_BYTE * LINEAR_ONE + 0.5).astype(np.int64)
_BORDERS: Whole = np.floor(srgb_to_linear((np.arange(255) + 0.5) / 255) * LINEAR_ONE + 0.5).astype(np.int64)


def bytes_to_fixed(rgb: NDArray[np.uint8]) -> Whole:
    """Return 8-bit sRGB colours as whole-number Oklab.

    rgb      (..., 3) uint8
    returns  (..., 3) int64, Oklab times 2**16
    source   CSS Color 4 matrices; within 2 units of the exact values
    """
    return linear_to_fixed(bytes_to_linear_fixed(rgb))


def bytes_to_linear_fixed(rgb: NDArray[np.uint8]) -> Whole:
    """Return the linear light of 8-bit sRGB values times LINEAR_ONE."""
    return _LINEAR[np.asarray(rgb, dtype=np.uint8)]


def linear_to_fixed(linear: Whole) -> Whole:
    """Return linear sRGB (..., 3), 0 to LINEAR_ONE, as whole-number Oklab."""
    return (_whole_cube_root(linear @ _TO_LMS.T) @ _TO_OKLAB.T + (1 << 23)) >> 24


def fixed_to_bytes(fixed: Whole) -> NDArray[np.uint8]:
    """Return whole-number Oklab as the nearest 8-bit sRGB, clipped channel by channel.

    fixed    (..., 3) int, Oklab times 2**16
    returns  (..., 3) uint8
    """
    root = (np.asarray(fixed, dtype=np.int64) @ _FROM_OKLAB.T + (1 << 23)) >> 24
    root = np.clip(root, -2 * ONE, 2 * ONE)
    lms = (root * root * root + (1 << 25)) >> 26
    linear = (lms @ _FROM_LMS.T + (1 << 25)) >> 26
    return np.asarray(np.searchsorted(_BORDERS, linear, side="right"), dtype=np.uint8)


def _whole_cube_root(value: Whole) -> Whole:
    """Return the whole number nearest to the cube root of 0 to 2**48."""
    root = np.rint(np.cbrt(value.astype(np.float64))).astype(np.int64)
    eightfold = value * 8
    above, below = 2 * root + 1, 2 * root - 1
    root += above * above * above <= eightfold
    root -= below * below * below > eightfold
    return root

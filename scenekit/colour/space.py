"""Colour spaces: sRGB, linear light, CIE XYZ, Oklab, CIE Lab and u'v', all for white D65."""

from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

Reals = NDArray[np.float64]

SRGB_TO_XYZ: Reals = np.array(
    [
        [506752 / 1228815, 87881 / 245763, 12673 / 70218],
        [87098 / 409605, 175762 / 245763, 12673 / 175545],
        [7918 / 409605, 87881 / 737289, 1001167 / 1053270],
    ]
)
"""Linear sRGB to XYZ; exact fractions of CSS Color 4 (from memory, their white point checked)."""

XYZ_TO_LMS: Reals = np.array(
    [
        [0.8190224379967030, 0.3619062600528904, -0.1288737815209879],
        [0.0329836539323885, 0.9292868615863434, 0.0361446663506424],
        [0.0481771893596242, 0.2642395317527308, 0.6335478284694309],
    ]
)
"""Oklab's first matrix, 64-bit form of CSS Color 4."""

LMS_TO_OKLAB: Reals = np.array(
    [
        [0.2104542683093140, 0.7936177747023054, -0.0040720430116193],
        [1.9779985324311684, -2.4285922420485799, 0.4505937096174110],
        [0.0259040424655478, 0.7827717124575296, -0.8086757549230774],
    ]
)
"""Oklab's second matrix, 64-bit form of CSS Color 4."""

WCAG_TO_XYZ: Reals = np.array(
    [[0.4124564, 0.3575761, 0.1804375], [0.2126729, 0.7151522, 0.0721750], [0.0193339, 0.1191920, 0.9503041]]
)
"""Linear sRGB to XYZ as WCAG 2.2 (understanding 2.3.1) prints it for u'v'."""

WHITE: Reals = SRGB_TO_XYZ.sum(axis=1)
"""XYZ of sRGB white."""

LUMINANCE_WEIGHTS: Reals = np.array([0.2126, 0.7152, 0.0722])
"""Shares of linear red, green and blue in relative luminance; WCAG 2.2."""


def srgb_to_linear(encoded: ArrayLike) -> Reals:
    """Decode sRGB to linear light.

    encoded  (...) in [0, 1]
    source   IEC 61966-2-1; values in tests/reference/srgb_linear_256.csv
    """
    value = np.asarray(encoded, dtype=np.float64)
    power = ((np.maximum(value, 0.0) + 0.055) / 1.055) ** 2.4
    return np.where(value <= 0.04045, value / 12.92, power)


def linear_to_srgb(linear: ArrayLike) -> Reals:
    """Encode linear light as sRGB.

    linear  (...) in [0, 1]
    source  IEC 61966-2-1; values in tests/reference/srgb_linear_256.csv
    """
    value = np.asarray(linear, dtype=np.float64)
    power = 1.055 * np.maximum(value, 0.0) ** (1 / 2.4) - 0.055
    return np.where(value <= 0.0031308, value * 12.92, power)


LINEAR_OF_BYTE: Reals = srgb_to_linear(np.arange(256) / 255)
"""Linear light of every 8-bit sRGB value."""


def bytes_to_linear(rgb: NDArray[np.uint8]) -> Reals:
    """Return the linear light of 8-bit sRGB values of any shape."""
    return LINEAR_OF_BYTE[np.asarray(rgb, dtype=np.uint8)]


def linear_to_bytes(linear: ArrayLike) -> NDArray[np.uint8]:
    """Return linear light as the nearest 8-bit sRGB values, clipped to [0, 255]."""
    encoded = np.clip(linear_to_srgb(linear), 0.0, 1.0)
    return np.floor(encoded * 255 + 0.5).astype(np.uint8)


def bytes_to_oklab(rgb: NDArray[np.uint8]) -> Reals:
    """Return 8-bit sRGB colours as Oklab.

    rgb      (..., 3) uint8
    returns  (..., 3): L in [0, 1], a and b about -0.4 to 0.4
    source   CSS Color 4; values in tests/reference/oklab_values.csv
    """
    return xyz_to_oklab(_times(SRGB_TO_XYZ, bytes_to_linear(rgb)))


def xyz_to_oklab(xyz: ArrayLike) -> Reals:
    """Return XYZ (D65, white at Y = 1) as Oklab; (..., 3) both."""
    lms = np.cbrt(_times(XYZ_TO_LMS, xyz))
    return _times(LMS_TO_OKLAB, lms)


def oklab_to_linear(oklab: ArrayLike) -> Reals:
    """Return Oklab as linear sRGB, not clipped; (..., 3) both."""
    lms = _times(np.linalg.inv(LMS_TO_OKLAB), oklab)
    return _times(np.linalg.inv(SRGB_TO_XYZ), _times(np.linalg.inv(XYZ_TO_LMS), lms**3))


def xyz_to_lab(xyz: ArrayLike) -> Reals:
    """Return XYZ (D65) as CIE L*a*b*; (..., 3) both.

    source  CIE 15, with the exact fractions 216/24389 and 24389/27
    """
    ratio = np.asarray(xyz, dtype=np.float64) / WHITE
    root = np.where(ratio > 216 / 24389, np.cbrt(ratio), (24389 / 27 * ratio + 16) / 116)
    x, y, z = root[..., 0], root[..., 1], root[..., 2]
    return np.stack([116 * y - 16, 500 * (x - y), 200 * (y - z)], axis=-1)


def bytes_to_lab(rgb: NDArray[np.uint8]) -> Reals:
    """Return 8-bit sRGB colours as CIE L*a*b*; (..., 3) both."""
    return xyz_to_lab(_times(SRGB_TO_XYZ, bytes_to_linear(rgb)))


def relative_luminance(rgb: NDArray[np.uint8]) -> Reals:
    """Return the relative luminance of 8-bit sRGB colours.

    rgb      (..., 3) uint8
    returns  (...) in [0, 1]
    source   WCAG 2.2; values in tests/reference/wcag_values.csv
    """
    return np.asarray(bytes_to_linear(rgb) @ LUMINANCE_WEIGHTS)


def contrast_ratio(first: NDArray[np.uint8], second: NDArray[np.uint8]) -> Reals:
    """Return the contrast ratio of two colours, 1 to 21, in either order.

    source  WCAG 2.2; values in tests/reference/wcag_values.csv
    """
    one, two = relative_luminance(first), relative_luminance(second)
    return np.asarray((np.maximum(one, two) + 0.05) / (np.minimum(one, two) + 0.05))


def linear_to_uv(linear: ArrayLike) -> Reals:
    """Return the CIE 1976 u'v' chromaticity of linear sRGB; black has that of white.

    linear   (..., 3)
    returns  (..., 2)
    source   WCAG 2.2, understanding 2.3.1; values in tests/reference/red_flash_values.csv
    """
    xyz = _times(WCAG_TO_XYZ, linear)
    xyz = np.where((xyz <= 0).all(axis=-1, keepdims=True), WCAG_TO_XYZ.sum(axis=1), xyz)
    total = xyz[..., 0] + 15 * xyz[..., 1] + 3 * xyz[..., 2]
    return np.stack([4 * xyz[..., 0] / total, 9 * xyz[..., 1] / total], axis=-1)


def _times(matrix: NDArray[np.floating[Any]], values: ArrayLike) -> Reals:
    """Multiply a 3 x 3 matrix with (..., 3), always in the same order and on one core."""
    given = np.asarray(values, dtype=np.float64)
    out = np.empty(given.shape)
    for row in range(3):
        first, second, third = (given[..., column] * matrix[row, column] for column in range(3))
        out[..., row] = first + second + third
    return out

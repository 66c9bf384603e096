"""Colour difference as people see it: CIEDE2000."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from scenekit.colour.space import bytes_to_lab

Reals = NDArray[np.float64]

_SEVENTH_OF_25 = 25.0**7


def ciede2000(first: ArrayLike, second: ArrayLike) -> Reals:
    """Return the CIEDE2000 difference of CIE L*a*b* colours; about 1 is just visible.

    first, second  (..., 3), broadcast against each other
    returns        (...)
    source         Sharma, Wu, Dalal 2005; values in tests/reference/ciede2000_pairs.csv
    """
    light_1, a_1, b_1 = _channels(first)
    light_2, a_2, b_2 = _channels(second)
    mean_chroma = (np.hypot(a_1, b_1) + np.hypot(a_2, b_2)) / 2
    stretch = 1 + 0.5 * (1 - _seventh_root_share(mean_chroma))
    chroma_1, hue_1 = _polar(a_1 * stretch, b_1)
    chroma_2, hue_2 = _polar(a_2 * stretch, b_2)
    both = chroma_1 * chroma_2
    turn, mean_hue = _hues(hue_1, hue_2, both)
    light, chroma = light_2 - light_1, chroma_2 - chroma_1
    hue = 2 * np.sqrt(both) * np.sin(np.radians(turn) / 2)
    mean_chroma = (chroma_1 + chroma_2) / 2
    around = ((light_1 + light_2) / 2 - 50) ** 2
    light /= 1 + 0.015 * around / np.sqrt(20 + around)
    chroma /= 1 + 0.045 * mean_chroma
    hue /= 1 + 0.015 * mean_chroma * _hue_weight(mean_hue)
    swing = 30 * np.exp(-(((mean_hue - 275) / 25) ** 2))
    rotation = -2 * _seventh_root_share(mean_chroma) * np.sin(np.radians(2 * swing))
    square = light**2 + chroma**2 + hue**2 + rotation * chroma * hue
    return np.asarray(np.sqrt(np.maximum(square, 0.0)))


def byte_difference(first: NDArray[np.uint8], second: NDArray[np.uint8]) -> Reals:
    """Return the CIEDE2000 difference of 8-bit sRGB colours; (..., 3) in, (...) out."""
    return ciede2000(bytes_to_lab(first), bytes_to_lab(second))


def _channels(lab: ArrayLike) -> tuple[Reals, Reals, Reals]:
    values = np.asarray(lab, dtype=np.float64)
    return values[..., 0], values[..., 1], values[..., 2]


def _seventh_root_share(chroma: Reals) -> Reals:
    square = chroma * chroma
    seventh = square * square * square * chroma
    return np.sqrt(seventh / (seventh + _SEVENTH_OF_25))


def _polar(a: Reals, b: Reals) -> tuple[Reals, Reals]:
    return np.hypot(a, b), np.degrees(np.arctan2(b, a)) % 360


def _hues(hue_1: Reals, hue_2: Reals, both: Reals) -> tuple[Reals, Reals]:
    """Return difference and mean of two hues; a difference of 180 within 1e-9 counts as 180."""
    apart = hue_2 - hue_1
    near = np.abs(apart) <= 180 + 1e-9
    turn = np.where(near, apart, apart - 360 * np.sign(apart))
    total = hue_1 + hue_2
    mean = np.where(near, total / 2, np.where(total < 360, (total + 360) / 2, (total - 360) / 2))
    grey = both == 0
    return np.where(grey, 0.0, turn), np.where(grey, total, mean)


def _hue_weight(mean_hue: Reals) -> Reals:
    return np.asarray(
        1
        - 0.17 * np.cos(np.radians(mean_hue - 30))
        + 0.24 * np.cos(np.radians(2 * mean_hue))
        + 0.32 * np.cos(np.radians(3 * mean_hue + 6))
        - 0.20 * np.cos(np.radians(4 * mean_hue - 63))
    )

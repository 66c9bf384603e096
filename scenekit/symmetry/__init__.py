"""Flips and quarter turns of pictures, equal up to them."""

from scenekit.symmetry.flips import (
    ALL_FLIPS,
    ALL_TURNS,
    FLIP_NAMES,
    HV,
    NONE,
    TURN_NAMES,
    H,
    V,
    canonical,
    combine,
    find_equal,
    flip_code,
    flip_picture,
    invert,
    is_closed,
    turn_picture,
)

__all__ = [
    "ALL_FLIPS",
    "ALL_TURNS",
    "FLIP_NAMES",
    "HV",
    "NONE",
    "TURN_NAMES",
    "H",
    "V",
    "canonical",
    "combine",
    "find_equal",
    "flip_code",
    "flip_picture",
    "invert",
    "is_closed",
    "turn_picture",
]

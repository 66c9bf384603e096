"""Colours of pictures counted: which ones, and how often."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.clusters import middles
from scenekit.colour.depth import OPAQUE_ALPHA
from scenekit.colour.fixed_oklab import bytes_to_fixed
from scenekit.errors import PaletteError

Pixels = NDArray[np.uint8]
Packed = NDArray[np.uint32]
Whole = NDArray[np.int64]
Mask = NDArray[np.bool_]

OPAQUE_WORD = OPAQUE_ALPHA << 24
"""Least number of a pixel that is drawn, as `pixel_words` makes it."""

_FEW_COLOURS = 16384
"""Up to so many different colours a choice looks at each; above, at means of close ones."""


def pack(rgb: NDArray[np.uint8]) -> Packed:
    """Return colours (..., 3) uint8 as numbers 0xRRGGBB."""
    wide = rgb.astype(np.uint32)
    return np.asarray((wide[..., 0] << 16) | (wide[..., 1] << 8) | wide[..., 2], dtype=np.uint32)


def unpack(packed: Packed) -> NDArray[np.uint8]:
    """Return numbers 0xRRGGBB as colours (..., 3) uint8."""
    return np.stack([packed >> 16, packed >> 8, packed], axis=-1).astype(np.uint8)


def pixel_words(picture: Pixels) -> Packed:
    """Return each pixel of (H, W, 4) as a number 0xAABBGGRR, flat."""
    return np.ascontiguousarray(picture).view("<u4").ravel()


def swapped(words: Packed) -> Packed:
    """Exchange red and blue: 0xAABBGGRR becomes 0xRRGGBB, and 0xRRGGBB becomes 0xBBGGRR."""
    return np.asarray(((words & 0xFF) << 16) | (words & 0xFF00) | ((words >> 16) & 0xFF), dtype=np.uint32)


def tally(picture: Pixels, index: int, seen: Mask | None = None) -> tuple[Packed, Whole]:
    """Return the different opaque colours of a picture, rising, and how often each is there.

    picture  (H, W, 4) uint8
    index    its number, for the message
    seen     (H, W) of the pixels that count; None for all
    raises   PaletteError: another kind of array
    """
    if picture.ndim != 3 or picture.shape[2] != 4 or picture.dtype != np.uint8:
        raise PaletteError(
            f"palette: picture {index} is {picture.dtype} {picture.shape}; allowed uint8 (H, W, 4)"
        )
    words = pixel_words(picture) if seen is None else pixel_words(picture)[seen.ravel()]
    packed = np.sort(swapped(words[words >= OPAQUE_WORD]))
    if not packed.size:
        return packed, np.zeros(0, dtype=np.int64)
    starts = np.flatnonzero(np.concatenate([[True], packed[1:] != packed[:-1]]))
    return packed[starts], np.diff(np.append(starts, packed.size))


def merge(tallies: Sequence[tuple[Packed, Whole]], shares: Sequence[int]) -> tuple[Packed, Whole]:
    """Return the different colours of all pictures, rising, and their weighted counts."""
    if not tallies:
        return np.zeros(0, dtype=np.uint32), np.zeros(0, dtype=np.int64)
    if len(tallies) == 1:
        return tallies[0][0], tallies[0][1] * shares[0]
    colours = np.unique(np.concatenate([colours for colours, _ in tallies]))
    mass = np.zeros(len(colours), dtype=np.int64)
    for (own, counts), share in zip(tallies, shares, strict=True):
        mass[np.searchsorted(colours, own)] += counts * share
    return colours, mass


def tally_seen(pictures: Sequence[Pixels], seen: Sequence[Mask | None] | None) -> list[tuple[Packed, Whole]]:
    """Return the tally of what is seen of each picture; of all of them where nothing is."""
    parts = [None] * len(pictures) if seen is None else seen
    found = [tally(picture, n, part) for n, (picture, part) in enumerate(zip(pictures, parts, strict=True))]
    if seen is None or any(colours.size for colours, _ in found):
        return found
    return tally_seen(pictures, None)


def binned(colours: Packed, mass: Whole) -> tuple[Whole, Whole]:
    """Return fewer points for the choice: colours that agree in 6 bits a channel become their mean."""
    points = bytes_to_fixed(unpack(colours))
    if len(colours) <= _FEW_COLOURS:
        return points, mass
    bins = ((colours >> 6) & 0x3F000) | ((colours >> 4) & 0xFC0) | ((colours >> 2) & 0x3F)
    _, where = np.unique(bins, return_inverse=True)
    count = int(where.max()) + 1
    weights = np.bincount(where, mass, count).astype(np.int64)
    return middles(points, mass, where, np.zeros((count, 3), dtype=np.int64)), weights

"""Dither: two entries side by side for a colour that the palette does not have."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.clusters import nearest, squared_distance
from scenekit.colour.depth import OPAQUE_ALPHA
from scenekit.colour.diffusion import diffuse
from scenekit.colour.fixed_oklab import bytes_to_fixed, bytes_to_linear_fixed, linear_to_fixed
from scenekit.colour.histogram import Mask, Packed, Pixels, pack, tally, unpack
from scenekit.colour.quantise import Reduction, count_entries
from scenekit.errors import PaletteError

Indices = NDArray[np.uint8]
Whole = NDArray[np.int64]

KINDS = ("none", "ordered", "diffusion")

MATRIX_SIZE_PX = 8
"""The ordered pattern repeats after so many pixels: tiles of 8, 16, 24 ... pixels stay equal."""

_REACHES = (1, 2, 4)
"""How far beyond the colour the second entry is looked for, in halves of the distance to the first."""

_GRAIN = 32
"""How much more the mix counts than the difference of its two parts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dither:
    """How to dither.

    kind              "none"; "ordered": depends only on a pixel's colour and its place from the picture's
                      top left corner, so what does not change between frames stays still and equal tiles
                      of a multiple of 8 pixels stay equal; "diffusion": finer, but restless when animated
    strength_percent  0 to 100
    raises            PaletteError: another kind or strength
    """

    kind: str = "ordered"
    strength_percent: int = 100

    def __post_init__(self) -> None:
        if self.kind not in KINDS:
            raise PaletteError(f"dither: kind {self.kind!r}; allowed {', '.join(KINDS)}")
        if not 0 <= self.strength_percent <= 100:
            raise PaletteError(f"dither: strength {self.strength_percent!r} %; allowed 0 to 100")


def dither_reduction(
    pictures: Sequence[Pixels],
    reduction: Reduction,
    dither: Dither,
    seen: Sequence[Mask | None] | None = None,
) -> Reduction:
    """Return the reduction with its pictures dithered; palette and errors of the choice stay.

    Only pixels on open entries change: transparent pixels and reserved entries stay as they are. The
    mean error stays that of flat colours, as dither trades it for the mean over an area.
    pictures  those that were reduced, in the same order
    seen      (H, W) of the pixels of each that count
    """
    if dither.kind == "none" or not dither.strength_percent:
        return reduction
    indices = tuple(
        dithered(picture, flat, reduction.palette, reduction.open_entries, dither)
        for picture, flat in zip(pictures, reduction.indices, strict=True)
    )
    counts = count_entries(indices, seen, len(reduction.palette))
    return replace(reduction, indices=indices, counts=counts, exact=False)


def dithered(
    picture: Pixels, flat: Indices, palette: NDArray[np.uint8], entries: Sequence[int], dither: Dither
) -> Indices:
    """Return a picture's entries with dither.

    picture  (H, W, 4) uint8 sRGB
    flat     (H, W) uint8, its entries without dither
    palette  (N, 3) uint8 sRGB
    entries  those that may be exchanged for each other
    returns  (H, W) uint8, read-only
    """
    open_pixels = (picture[..., 3] >= OPAQUE_ALPHA) & np.isin(flat, np.array(entries, dtype=np.uint8))
    if dither.kind == "none" or len(entries) < 2 or not open_pixels.any():
        out = flat.copy()
    elif dither.kind == "ordered":
        out = _ordered(picture, flat, palette, np.array(entries), dither.strength_percent, open_pixels)
    else:
        out = diffuse(picture, flat, palette, np.array(entries), dither.strength_percent, open_pixels)
    out.flags.writeable = False
    return out


def threshold_matrix() -> Whole:
    """Return the 8 x 8 ordered matrix, each number of 0 to 63 once.

    source  Bayer 1973, by its recursion
    """
    matrix = np.zeros((1, 1), dtype=np.int64)
    while len(matrix) < MATRIX_SIZE_PX:
        matrix = np.block([[4 * matrix, 4 * matrix + 2], [4 * matrix + 3, 4 * matrix + 1]])
    return matrix


def _ordered(
    picture: Pixels,
    flat: Indices,
    palette: NDArray[np.uint8],
    entries: NDArray[np.int64],
    strength: int,
    open_pixels: NDArray[np.bool_],
) -> Indices:
    masked = picture.copy()
    masked[~open_pixels, 3] = 0
    colours, _ = tally(masked, 0)
    darker, lighter, share = mixes(colours, palette, entries, strength)
    where = np.searchsorted(colours, pack(picture[open_pixels]))
    rows, columns = np.nonzero(open_pixels)
    steps = threshold_matrix()[rows % MATRIX_SIZE_PX, columns % MATRIX_SIZE_PX]
    out = flat.copy()
    out[open_pixels] = np.where(2 * steps + 1 < share[where], lighter[where], darker[where])
    return out


def mixes(
    colours: Packed, palette: NDArray[np.uint8], entries: NDArray[np.int64], strength: int
) -> tuple[NDArray[np.uint8], NDArray[np.uint8], Whole]:
    """Return, for each colour, two entries and how much of the second mixes to it best in linear light.

    The first is the nearest entry. The other lies across the colour from it: of the entries nearest to
    mirror images of the first, the one whose mix is nearest to the colour and whose grain is finest.
    colours  (N,) packed
    returns  darker entry, lighter entry, share of the lighter in 128ths
    """
    rgb = unpack(colours)
    points, centres = bytes_to_fixed(rgb), bytes_to_fixed(palette[entries])
    light, shown = bytes_to_linear_fixed(rgb), bytes_to_linear_fixed(palette[entries])
    one = nearest(points, centres)
    best, share = one.copy(), np.zeros(len(one), dtype=np.int64)
    least = squared_distance(points, centres[one]) * _GRAIN
    for reach in _REACHES:
        two = nearest(points + (points - centres[one]) * (reach * strength) // 200, centres)
        part = _share(light, shown[one], shown[two])
        mixed = linear_to_fixed((shown[one] * (128 - part[:, None]) + shown[two] * part[:, None]) >> 7)
        loss = squared_distance(points, mixed) * _GRAIN + squared_distance(centres[one], centres[two])
        better = loss < least
        best, share = np.where(better, two, best), np.where(better, part, share)
        least = np.minimum(loss, least)
    order = np.lexsort((np.arange(len(entries)), centres[:, 0]))
    rank = np.empty(len(entries), dtype=np.int64)
    rank[order] = np.arange(len(entries))
    swap = rank[one] > rank[best]
    darker, lighter = np.where(swap, best, one), np.where(swap, one, best)
    both = entries[darker].astype(np.uint8), entries[lighter].astype(np.uint8)
    return *both, np.where(swap, 128 - share, share)


def _share(light: Whole, one: Whole, two: Whole) -> Whole:
    """Return how much of `two` brings `one` nearest to a colour, in 128ths."""
    span, way = (two - one) >> 10, (light - one) >> 10
    length = np.maximum((span * span).sum(axis=1), 1)
    return np.asarray(np.clip(((span * way).sum(axis=1) * 256 // length + 1) // 2, 0, 128))

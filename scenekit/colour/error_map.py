"""Where reduction hurts: error by pixel as a picture, and which pictures suffer."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.depth import OPAQUE_ALPHA
from scenekit.colour.difference import byte_difference
from scenekit.colour.histogram import Pixels, pack
from scenekit.colour.quantise import Reduction
from scenekit.findings import Finding

Reals = NDArray[np.float64]

PLAIN_DIFFERENCE = 5.0
"""Mean CIEDE2000 above which a picture suffers: a difference that is seen at a glance (common practice)."""

_MAP_STOPS = ((0.0, (20, 24, 32)), (2.3, (40, 110, 130)), (5.0, (235, 200, 90)), (15.0, (240, 240, 240)))
"""Difference and colour: below 2.3 hardly seen, from 5 on plain; lightness rises throughout."""


def pixel_errors(picture: Pixels, palette: NDArray[np.uint8], indices: NDArray[np.uint8]) -> Reals:
    """Return the CIEDE2000 difference of each opaque pixel, 0 elsewhere.

    picture  (H, W, 4) uint8 sRGB
    palette  (N, 3) uint8 sRGB
    indices  (H, W) uint8
    returns  (H, W)
    """
    opaque = picture[..., 3] >= OPAQUE_ALPHA
    out = np.zeros(indices.shape)
    pairs = pack(picture[opaque][:, :3]).astype(np.uint64) << np.uint64(8) | indices[opaque]
    values, where = np.unique(pairs, return_inverse=True)
    own = np.stack([values >> np.uint64(shift) for shift in (24, 16, 8)], axis=-1).astype(np.uint8)
    shown = palette[(values & np.uint64(255)).astype(np.intp)]
    out[opaque] = byte_difference(own, shown)[where]
    return out


def error_map(picture: Pixels, palette: NDArray[np.uint8], indices: NDArray[np.uint8]) -> Pixels:
    """Return a picture of the errors: dark where they are hardly seen, light where they are plain.

    returns  (H, W, 4) uint8, transparent where the picture is
    """
    shades = error_colours(pixel_errors(picture, palette, indices))
    alpha = np.where(picture[..., 3] >= OPAQUE_ALPHA, 255, 0).astype(np.uint8)
    return np.concatenate([shades, alpha[..., None]], axis=-1)


def error_colours(errors: Reals) -> NDArray[np.uint8]:
    """Return the colour that stands for each difference in a map of errors.

    errors   (...) CIEDE2000
    returns  (..., 3) uint8 sRGB
    """
    stops = [difference for difference, _ in _MAP_STOPS]
    channels = [
        np.interp(np.round(errors, 6), stops, [colour[channel] for _, colour in _MAP_STOPS])
        for channel in range(3)
    ]
    return np.stack([np.floor(part + 0.5) for part in channels], axis=-1).astype(np.uint8)


def suffering(
    names: Sequence[str], reduction: Reduction, *, limit: float = PLAIN_DIFFERENCE
) -> tuple[Finding, ...]:
    """Return a note for each picture whose mean error is above a limit, the worst first.

    names  what the pictures are, such as "plane hills"
    """
    worst = sorted(zip(names, reduction.mean_error, strict=True), key=lambda pair: (-pair[1], pair[0]))
    return tuple(
        Finding(
            level="note",
            code="colour-loss",
            where=name,
            text=(
                f"mean colour error {error:.1f} (CIEDE2000); above {limit:g} it is seen at a glance; "
                "give the picture more weight or a bank of its own, use fewer colours in it, or dither it"
            ),
        )
        for name, error in worst
        if error > limit
    )

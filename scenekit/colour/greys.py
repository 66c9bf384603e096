"""Greys that take on a colour when the channels of a depth have different steps."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.depth import OPAQUE_ALPHA, Depth
from scenekit.colour.histogram import Pixels
from scenekit.colour.space import bytes_to_lab
from scenekit.findings import Finding

Bytes = NDArray[np.uint8]


def neutral_greys(depth: Depth) -> tuple[int, ...]:
    """Return the 8-bit values that a depth shows as exact greys, rising.

    source  values of 5-6-5 in tests/reference/grey_565.csv
    """
    shown = depth.round_trip(_all_greys())
    return tuple(sorted({int(red) for red, green, blue in shown.tolist() if red == green == blue}))


def nearest_neutral(depth: Depth, grey: int) -> int:
    """Return the exact grey of a depth that is nearest to a grey; ties take the darker."""
    return min(neutral_greys(depth), key=lambda value: (abs(value - grey), value))


def tint(depth: Depth, greys: Bytes) -> NDArray[np.float64]:
    """Return the chroma (CIE L*a*b*) that greys take on; 0 for exact ones.

    greys  (...) uint8
    """
    lab = bytes_to_lab(depth.round_trip(np.repeat(np.asarray(greys, np.uint8)[..., None], 3, axis=-1)))
    return np.asarray(np.hypot(lab[..., 1], lab[..., 2]))


def tinted_greys(names: Sequence[str], pictures: Sequence[Pixels], depth: Depth) -> tuple[Finding, ...]:
    """Return a note for each picture with greys that the depth tints, and the exact greys nearest to them.

    pictures  each (H, W, 4) uint8 sRGB
    """
    exact = set(neutral_greys(depth))
    moved = {int(grey): tuple(shown) for grey, shown in enumerate(depth.round_trip(_all_greys()).tolist())}
    findings = []
    for name, picture in zip(names, pictures, strict=True):
        opaque = picture[picture[..., 3] >= OPAQUE_ALPHA]
        grey = opaque[(opaque[:, 0] == opaque[:, 1]) & (opaque[:, 1] == opaque[:, 2]), 0]
        counts = np.bincount(grey, minlength=256)
        tinted = [value for value in np.flatnonzero(counts).tolist() if len(set(moved[value])) > 1]
        if not tinted:
            continue
        worst = max(
            tinted, key=lambda value: (round(float(tint(depth, np.array(value))), 6), counts[value], -value)
        )
        offers = sorted({nearest_neutral(depth, value) for value in tinted})
        text = (
            f"{len(tinted)} of its greys take on colour in {depth.name}, such as {(worst,) * 3} shown as "
            f"{moved[worst]}; exact greys near them are {', '.join(map(str, offers))} (of {len(exact)})"
        )
        findings.append(Finding(level="note", code="grey-tinted", where=name, text=text))
    return tuple(findings)


def _all_greys() -> Bytes:
    return np.repeat(np.arange(256, dtype=np.uint8)[:, None], 3, axis=1)

"""Rank the explanations of a sheet."""

from math import log2

import numpy as np
import numpy.typing as npt

from scenekit.slicing.cut import SliceOptions
from scenekit.slicing.guess_grid import Hints
from scenekit.slicing.guess_ground import Ground, grounds
from scenekit.slicing.guess_halves import SURPRISE_BITS, smaller_cells
from scenekit.slicing.guess_several import several_sheets
from scenekit.slicing.guess_sheet import PACKED_BITS, Reading, sheet_readings

Pixels = npt.NDArray[np.uint8]

REGION_PX = 1 << 20
REGION_DEPTH = 2
HINTED_PRICE_BITS = 12.0
"""The surprise of smaller cells in some lines of a sheet whose cell size the user gave."""


def readings(pixels: Pixels, options: SliceOptions) -> list[Reading]:
    """Rank the explanations of a sheet, best first."""
    out: list[Reading] = []
    strict = bool(options.columns or options.rows or options.merge_px)
    for ground in grounds(pixels, options.keys):
        if not ground.mask.any():
            continue
        found = sheet_readings(pixels, ground, hints_of(options), options.merge_px)
        out += found
        if strict or not found or ground.kind == "none" or ground.mask.size > REGION_PX:
            continue
        whole = max(found, key=lambda reading: (obedience(reading, options), reading.bits))
        smaller = smaller_cells(whole, HINTED_PRICE_BITS if options.cell else SURPRISE_BITS)
        out += [smaller] if smaller is not None else []
        if options.cell:
            continue
        if whole.grid is not None or whole.bits <= PACKED_BITS:
            several = several_sheets(pixels, ground, whole, REGION_DEPTH)
            out += [several] if several is not None else []
    if not out and (pixels[..., 3] > 0).any():
        out = [one_frame(pixels)]
    out.sort(key=lambda reading: (-round(obedience(reading, options), 6), -round(reading.bits, 6)))
    return out


def one_frame(pixels: Pixels) -> Reading:
    """Return the explanation of a picture as one frame."""
    height, width = pixels.shape[:2]
    none = np.zeros(width, np.bool_), np.zeros(height, np.bool_)
    ground = Ground(kind="none", keys=(), mask=pixels[..., 3] > 0, bits=0.0, columns=none[0], rows=none[1])
    return Reading(
        method="islands",
        boxes=np.array([[0, 0, width, height]], np.int64),
        grid=None,
        ground=ground,
        bits=-3.0,
        reason="nothing shows where to cut; the picture is one frame",
    )


def obedience(reading: Reading, options: SliceOptions) -> float:
    """Return how well a reading keeps to the hints: hints go before evidence."""
    score = 0.0
    if options.cell or options.columns or options.rows:
        score += reading.method != "islands"
    if options.merge_px:
        score += reading.distance == options.merge_px
    if options.count:
        score -= abs(log2(max(len(reading.boxes), 1) / options.count))
    return score


def hints_of(options: SliceOptions) -> Hints:
    """Return what the options say about the grid."""
    width, height = options.cell or (0, 0)
    return Hints(width=width, height=height, columns=options.columns or 0, rows=options.rows or 0)

"""Explain a sheet as several that someone put side by side."""

import numpy as np
import numpy.typing as npt

from scenekit.slicing.guess_axis import Axis
from scenekit.slicing.guess_grid import NO_HINTS, GridReading, Hints, grids
from scenekit.slicing.guess_ground import Ground
from scenekit.slicing.guess_regions import part_of, split_places
from scenekit.slicing.guess_sheet import NO_BOXES, Reading, grid_reading

Pixels = npt.NDArray[np.uint8]

PART_BITS = 18.0
LEAST_PART_BITS = 8.0


def several_sheets(pixels: Pixels, ground: Ground, whole: Reading, depth: int) -> Reading | None:
    """Return the explanation of a sheet as several grids side by side; None where that is no better."""
    best: tuple[float, int, int, list[GridReading]] | None = None
    for axis, place in split_places(pixels, ground):
        grids_found, gain, same = [], -PART_BITS, 0.0
        for start, end in ((0, place), (place, ground.mask.shape[1 - axis])):
            picture, part = part_of(pixels, ground, axis, start, end)
            own = best_grid(picture, part, NO_HINTS)
            if own is None or own.bits < LEAST_PART_BITS:
                break
            grids_found.append(own)
            gain += own.bits
            same += bits_as(whole, picture, part)
        gain -= loss_of(whole, grids_found, same)
        if len(grids_found) < 2 or gain <= 0 or (best is not None and gain <= best[0]):
            continue
        if not alike(grids_found[0], grids_found[1]):
            best = (gain, axis, place, grids_found)
    if best is None:
        return None
    gain, axis, place, grids_found = best
    parts = []
    for grid, (start, end) in zip(
        grids_found, ((0, place), (place, ground.mask.shape[1 - axis])), strict=True
    ):
        picture, part = part_of(pixels, ground, axis, start, end)
        reading = grid_reading(grid, part, NO_BOXES)
        deeper = several_sheets(picture, part, reading, depth - 1) if depth > 1 else None
        parts.append(deeper or reading)
    shift = np.array([place, 0, 0, 0] if axis == 0 else [0, place, 0, 0], np.int64)
    return Reading(
        method="regions",
        boxes=np.concatenate([parts[0].boxes, parts[1].boxes + shift]),
        grid=None,
        ground=ground,
        bits=max(whole.bits, 0.0) + gain,
        reason=f"{parts[0].reason}; from {'x' if axis == 0 else 'y'} {place} on {parts[1].reason}",
    )


def best_grid(pixels: Pixels, ground: Ground, hints: Hints) -> GridReading | None:
    """Return the best grid of a part, if it has any art."""
    ranked = grids(pixels, ground, hints) if ground.mask.any() else []
    return ranked[0] if ranked else None


def bits_as(whole: Reading, pixels: Pixels, ground: Ground) -> float:
    """Return what a part is worth when it is read as the whole is."""
    if whole.grid is None:
        return 0.0
    columns, rows = whole.grid.columns, whole.grid.rows
    height, width = ground.mask.shape
    hints = Hints(
        width=columns.cell if columns.cell < width else 0, height=rows.cell if rows.cell < height else 0
    )
    same = best_grid(pixels, ground, hints)
    return max(same.bits, 0.0) if same else 0.0


def loss_of(whole: Reading, parts: list[GridReading], same: float) -> float:
    """Return what the explanation as one sheet is worth against that as parts.

    same   what the parts are worth, each cut as the whole is; where a part has a raster of its own this
           counts no further than the whole is explained, since it may be out of step with the whole
    """
    grid = whole.grid
    ruled = bool(whole.ground.columns.any() or whole.ground.rows.any())  # lines painted over the whole sheet
    if (
        grid is None
        or ruled
        or all(
            in_step(one, two)
            for part in parts
            for one, two in ((grid.columns, part.columns), (grid.rows, part.rows))
        )
    ):
        return same
    return min(same, max(whole.bits, 0.0))


def in_step(one: Axis, two: Axis) -> bool:
    """Say whether the cells of one axis are a whole number of those of the other."""
    low, high = sorted((one.period, two.period))
    return one.count < 2 or two.count < 2 or high % low == 0


def alike(one: GridReading, two: GridReading) -> bool:
    """Say whether two parts are read in the same way, so that they are one sheet."""
    return all(
        a.count < 2 or b.count < 2 or a.period == b.period or a.cell == b.cell
        for a, b in ((one.columns, two.columns), (one.rows, two.rows))
    )

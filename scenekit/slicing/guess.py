"""Cut a sheet without being told how: rank readings of it and give the best, with its runners-up."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from scenekit.slicing.guess_grid import GridReading, grids
from scenekit.slicing.guess_ground import Ground, grounds
from scenekit.slicing.guess_islands import islands, joinings

Pixels = npt.NDArray[np.uint8]
Integers = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Reading:
    """One explanation of a sheet.

    boxes  (N, 4) x, y, width, height
    bits   evidence minus surprise
    """

    method: str
    boxes: Integers
    grid: GridReading | None
    ground: Ground
    bits: float
    reason: str


def readings(pixels: Pixels) -> list[Reading]:
    """Rank the explanations of a sheet, best first."""
    out = []
    for ground in grounds(pixels):
        if not ground.mask.any():
            continue
        for grid in grids(pixels, ground.mask)[:4]:
            if grid.columns.count * grid.rows.count > 1:
                out.append(grid_reading(grid, ground))
        if ground.kind != "none":
            boxes, _ = islands(ground.mask)
            for rank, (spread, distance, joined) in enumerate(joinings(boxes)[:3]):
                out.append(
                    Reading(
                        method="islands",
                        boxes=np.concatenate([joined[:, :2], joined[:, 2:] - joined[:, :2]], axis=1),
                        grid=None,
                        ground=ground,
                        bits=-rank - ground.bits,
                        reason=f"{ground.words()}; {len(joined)} islands joined over {max(distance, 0)} px",
                    )
                )
    out.sort(key=lambda reading: -round(reading.bits, 6))
    return out


def grid_reading(grid: GridReading, ground: Ground) -> Reading:
    """Turn a grid into an explanation with a box for every cell that holds art."""
    filled = np.argwhere(grid.contents[..., 2] > 0)
    x = grid.columns.starts()[filled[:, 1]]
    y = grid.rows.starts()[filled[:, 0]]
    height, width = ground.mask.shape
    sides = np.minimum(x + grid.columns.cell, width) - x, np.minimum(y + grid.rows.cell, height) - y
    return Reading(
        method="cells",
        boxes=np.stack([x, y, *sides], axis=1),
        grid=grid,
        ground=ground,
        bits=grid.bits - ground.bits,
        reason=f"{ground.words()}; cells of {grid.columns.cell} x {grid.rows.cell} px",
    )

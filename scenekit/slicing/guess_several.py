"""Explain a sheet as several that someone put side by side."""

from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from scenekit.slicing.guess_axis import Axis
from scenekit.slicing.guess_grid import NO_HINTS, GridReading, Hints, grids
from scenekit.slicing.guess_ground import Ground
from scenekit.slicing.guess_regions import part_of, split_places
from scenekit.slicing.guess_sheet import Reading, grid_reading, sheet_readings
from scenekit.slicing.runs import island_boxes

Pixels = npt.NDArray[np.uint8]

PART_BITS = 18.0
LEAST_PART_BITS = 8.0
MIXED_BITS = 30.0
"""The surprise of two parts of which one is no grid."""
MIXED_MOST_BITS = 8.0
"""Such a reading is hardly surer than that of the part which is no grid."""
LEAST_OWN_BITS = 6.0
"""So much better than by the whole's cells two parts must be read by their own."""
LOOK_PX = 1 << 16
"""What looking at a part costs besides its pixels."""
MOST_LOOKED_PX = 12 << 20
"""Pixels of parts of one sheet that are read at most, which bounds the time."""


@dataclass(slots=True)
class Looks:
    """The best grids of parts of a sheet, each sought once, as long as there is work left.

    left    pixels that may still be read; a part counts its own and `LOOK_PX`
    corner  x, y of the sheet that is parted now on the whole one
    """

    left: int = MOST_LOOKED_PX
    corner: tuple[int, int] = (0, 0)
    known: dict[tuple[int, int, tuple[int, ...], Hints], GridReading | None] = field(default_factory=dict)

    def best(
        self, pixels: Pixels, ground: Ground, place: tuple[int, int], hints: Hints = NO_HINTS
    ) -> GridReading | None:
        """Return the best grid of the part at a place (x, y), if it has any art."""
        key = (self.corner[0] + place[0], self.corner[1] + place[1], ground.mask.shape, hints)
        if key not in self.known:
            self.left -= ground.mask.size + LOOK_PX
            ranked = grids(pixels, ground, hints) if ground.mask.any() else []
            self.known[key] = ranked[0] if ranked else None
        return self.known[key]

    def within(self, place: tuple[int, int]) -> "Looks":
        """Return the looks at a part with half of the work that is left; what is found stays known to all."""
        corner = (self.corner[0] + place[0], self.corner[1] + place[1])
        return Looks(left=self.left // 2, corner=corner, known=self.known)


def several_sheets(
    pixels: Pixels, ground: Ground, whole: Reading, depth: int, looks: Looks | None = None
) -> Reading | None:
    """Return the explanation of a sheet as several, at least one a grid; None where that is no better."""
    looks = looks or Looks()
    enough = looks.left // 2 if depth > 1 else 0
    best: tuple[float, int, int, list[GridReading | None]] | None = None
    places = split_places(pixels, ground)
    for axis, place in places:  # grows while it is gone through
        if looks.left <= enough:
            break
        starts = [(0, 0), (place, 0) if axis == 0 else (0, place)]
        stretches = [part_of(pixels, ground, axis, *ends) for ends in ends_of(ground, axis, place)]
        if not all(part.mask.any() for _, part in stretches):
            continue
        owns = [looks.best(*each, start) for each, start in zip(stretches, starts, strict=True)]
        parts_found = [own if own is not None and own.bits >= LEAST_PART_BITS else None for own in owns]
        grids_found = [own for own in parts_found if own is not None]
        gain = sum(own.bits for own in grids_found) - (PART_BITS if len(grids_found) == 2 else MIXED_BITS)
        if gain <= (best[0] if best is not None else 0.0):
            continue
        same, kept = 0.0, True
        for (picture, part), start in zip(stretches, starts, strict=True):
            bits, going_on = bits_as(whole, picture, part, start, looks)
            same, kept = same + bits, kept and going_on
        own_bits = gain + PART_BITS - same
        gain -= loss_of(whole, grids_found, same, kept)
        if min(gain, own_bits - LEAST_OWN_BITS) <= 0 or (best is not None and gain <= best[0]):
            continue
        if len(grids_found) < 2 or not alike(whole, grids_found[0], grids_found[1], axis, place):
            best = (gain, axis, place, parts_found)
            places += [
                further for further in cell_further(ground, axis, place, parts_found) if further not in places
            ]
    return None if best is None else joined(pixels, ground, whole, depth, looks, *best)


def cell_further(
    ground: Ground, axis: int, place: int, found: list[GridReading | None]
) -> list[tuple[int, int]]:
    """Return the place at which the only grid of two parts has one cell more, if no art runs across it."""
    out = []
    mask = ground.mask if axis == 0 else ground.mask.T
    if None in found:
        for grid, way in zip(found, (1, -1), strict=True):
            if grid is not None:
                further = place + way * (grid.columns, grid.rows)[axis].period
                if 1 < further < mask.shape[1] and not (mask[:, further - 1] & mask[:, further]).any():
                    out.append((axis, further))
    return out


def joined(
    pixels: Pixels,
    ground: Ground,
    whole: Reading,
    depth: int,
    looks: Looks,
    gain: float,
    axis: int,
    place: int,
    found: list[GridReading | None],
) -> Reading | None:
    """Return the explanation of a sheet by two parts, each looked at once more; None where it is no better.

    gain    bits by which the parts are better than the whole
    found   the parts' grids; None where a part has none
    """
    parts, gain = [], gain + strays_bits(whole)
    for grid, ends in zip(found, ends_of(ground, axis, place), strict=True):
        start = (ends[0], 0) if axis == 0 else (0, ends[0])
        picture, part = part_of(pixels, ground, axis, *ends)
        if grid is None:
            parts.append(max(sheet_readings(picture, part, NO_HINTS), key=lambda reading: reading.bits))
            continue
        reading = grid_reading(grid, part, island_boxes(part.mask)[0])
        gain -= strays_bits(reading)
        deeper = several_sheets(picture, part, reading, depth - 1, looks.within(start)) if depth > 1 else None
        parts.append(deeper or reading)
    if gain <= 0:
        return None
    if None in found:
        gain = min(gain, MIXED_MOST_BITS)
    shift = np.array([place, 0, 0, 0] if axis == 0 else [0, place, 0, 0], np.int64)
    return Reading(
        method="regions",
        boxes=np.concatenate([parts[0].boxes, parts[1].boxes + shift]),
        grid=None,
        ground=ground,
        bits=max(whole.bits, 0.0) + gain,
        reason=f"{parts[0].reason}; from {'x' if axis == 0 else 'y'} {place} on {parts[1].reason}",
    )


def ends_of(ground: Ground, axis: int, place: int) -> tuple[tuple[int, int], tuple[int, int]]:
    """Return where the two parts of a sheet begin and end along an axis."""
    return (0, place), (place, ground.mask.shape[1 - axis])


def strays_bits(reading: Reading) -> float:
    """Return what a reading lost because islands that would fit into cells lie across their lines."""
    return reading.grid.bits - reading.ground.bits - reading.bits if reading.grid else 0.0


def bits_as(
    whole: Reading, pixels: Pixels, ground: Ground, corner: tuple[int, int], looks: Looks
) -> tuple[float, bool]:
    """Return what a part is worth when cut as the whole is, and whether its cells then lie on the whole's.

    corner   x, y of the part on the whole
    """
    if whole.grid is None:
        return 0.0, False
    columns, rows = whole.grid.columns, whole.grid.rows
    height, width = ground.mask.shape
    hints = Hints(
        width=columns.cell if columns.cell < width else 0, height=rows.cell if rows.cell < height else 0
    )
    same = looks.best(pixels, ground, corner, hints)
    if same is None:
        return 0.0, False
    kept = all(
        two.count < 2 or (place + two.margin - one.margin) % one.period == 0
        for place, one, two in zip(corner, (columns, rows), (same.columns, same.rows), strict=True)
    )
    return max(same.bits, 0.0), kept


def loss_of(whole: Reading, parts: list[GridReading], same: float, kept: bool) -> float:
    """Return what the explanation as one sheet is worth against that as parts.

    same   what the parts are worth, each cut as the whole is; where a part has a raster of its own this
           counts no further than the whole is explained, since it may be out of step with the whole
    kept   the parts' cells then lie on those of the whole, so that they are not out of step
    """
    grid = whole.grid
    ruled = bool(whole.ground.columns.any() or whole.ground.rows.any())  # lines painted over the whole sheet
    if (
        grid is None
        or ruled
        or kept
        or all(
            in_step(one, two)
            for part in parts
            for one, two in ((grid.columns, part.columns), (grid.rows, part.rows))
        )
    ):
        return same
    return min(same, max(grid.bits, 0.0))


def in_step(one: Axis, two: Axis) -> bool:
    """Say whether the cells of one axis are a whole number of those of the other."""
    low, high = sorted((one.period, two.period))
    return one.count < 2 or two.count < 2 or high % low == 0


def alike(whole: Reading, one: GridReading, two: GridReading, axis: int, place: int) -> bool:
    """Say whether two parts are read in the same way, so that they are one sheet.

    Cells of one size that begin anew in the second part are another sheet's, unless the whole has such cells.

    axis, place   where the second part begins
    """
    grid = whole.grid
    for along, (a, b) in enumerate(((one.columns, two.columns), (one.rows, two.rows))):
        if a.count < 2 or b.count < 2 or (a.cell == b.cell and a.period != b.period):
            continue
        own = grid is not None and (grid.columns, grid.rows)[along].period == a.period
        shift = (place if along == axis else 0) + b.margin - a.margin
        if a.period != b.period or (shift % a.period and not own):
            return False
    return True

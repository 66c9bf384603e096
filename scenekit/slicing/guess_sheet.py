"""Explain a sheet, or a part of one, as one grid, as drawn boxes, as shelves or as islands."""

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from scenekit.slicing.guess_axis import tempered
from scenekit.slicing.guess_doubled import doubled_edges
from scenekit.slicing.guess_frames import drawn_boxes
from scenekit.slicing.guess_grid import GridReading, Hints, grids
from scenekit.slicing.guess_ground import Ground
from scenekit.slicing.guess_islands import joinings, tangled
from scenekit.slicing.guess_packed import packed_boxes
from scenekit.slicing.guess_shelves import find_shelves
from scenekit.slicing.runs import island_boxes

Pixels = npt.NDArray[np.uint8]
Integers = npt.NDArray[np.int64]

KEPT_GRIDS = 6
STRADDLE_BITS = 4.0
LEAST_STRADDLE_PX = 2
DRAWN_BITS = 6.0
PACKED_BITS = 1.0
CLEAR_BITS = 60.0
CLEAR_BROKEN = 0.02
LARGE_PX = 1 << 22
NO_BOXES = np.zeros((0, 4), np.int64)


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
    distance: int = -1


def sheet_readings(pixels: Pixels, ground: Ground, hints: Hints, merge_px: int = 0) -> list[Reading]:
    """Return the explanations that take a sheet for one, with one reading of its background."""
    ranked = grids(pixels, ground, hints)[:KEPT_GRIDS]
    clear = bool(ranked) and ranked[0].bits > CLEAR_BITS and ranked[0].broken < CLEAR_BROKEN
    clear = clear and not merge_px
    skipped = ground.kind == "none" or (clear and ground.mask.size > LARGE_PX)
    found = NO_BOXES if skipped else island_boxes(ground.mask)[0]
    out = [grid_reading(grid, ground, found) for grid in ranked if grid.columns.count * grid.rows.count > 1]
    if len(found):
        out += island_readings(pixels, ground, found, merge_px, clear)
    return out


def island_readings(
    pixels: Pixels, ground: Ground, found: Integers, merge_px: int, clear: bool
) -> list[Reading]:
    """Return the explanations by drawn boxes and by islands of art."""
    out = []
    drawn = drawn_boxes(pixels, ground.mask, found)
    if drawn is not None:
        keys = (*ground.keys, drawn.key) if drawn.key else ground.keys
        kind = "filled with a second key colour" if drawn.key else "outlined"
        beside = f", {drawn.others} labels or strays left out" if drawn.others else ""
        out.append(
            Reading(
                method="islands",
                boxes=widths(drawn.boxes),
                grid=None,
                ground=replace(ground, kind="key" if keys else ground.kind, keys=keys),
                bits=DRAWN_BITS * len(drawn.boxes) - ground.bits,
                reason=f"{ground.words()}; {len(drawn.boxes)} boxes {kind}{beside}",
            )
        )
    return out if clear else out + loose_readings(pixels, ground, found, merge_px)


def loose_readings(pixels: Pixels, ground: Ground, found: Integers, merge_px: int) -> list[Reading]:
    """Return the explanations by shelves, repeated edges, tight packing, and islands at several distances."""
    out = []
    shelves = find_shelves(ground.mask) if not merge_px else None
    if shelves is not None:
        words = f"{len(shelves.boxes)} sprites on shelves by their height, {shelves.gutter} px apart"
        out.append(boxed(ground, shelves.boxes, tempered(shelves.hanging), words))
    doubled = doubled_edges(pixels, ground.mask) if not merge_px else None
    if doubled is not None:
        words = (
            f"{len(doubled.boxes)} sprites, {doubled.ringed} of them with their edges repeated around them"
        )
        out.append(boxed(ground, doubled.boxes, tempered(doubled.ringed), words))
    ranked = joinings(found, merge_px)
    if tangled(found, ranked):
        packed = packed_boxes(ground.mask, pixels[..., 3].astype(np.float32) / 255)
        if packed is not None:
            words = f"{len(packed)} sprites packed so tightly that they touch"
            out.append(boxed(ground, packed, PACKED_BITS, words))
    for rank, (_, distance, joined) in enumerate(ranked[:3]):
        words = f"{len(joined)} islands of art, parts up to {max(distance, 0)} px apart joined"
        bits = -rank - (3.0 if len(joined) == 1 else 0.0)
        out.append(replace(boxed(ground, joined, bits, words), distance=distance))
    return out


def boxed(ground: Ground, boxes: Integers, bits: float, words: str) -> Reading:
    """Return the explanation by boxes (left, top, right, bottom) of no grid."""
    return Reading(
        method="islands",
        boxes=widths(boxes),
        grid=None,
        ground=ground,
        bits=bits - ground.bits,
        reason=f"{ground.words()}; {words}",
    )


def straddling(grid: GridReading, found: Integers) -> int:
    """Return how many islands would fit into a cell, yet lie across the line between two."""
    sides = found[:, 2:] - found[:, :2]
    across = np.zeros(len(found), np.bool_)
    fits = (sides > LEAST_STRADDLE_PX).all(axis=1)
    for axis, index in ((grid.columns, 0), (grid.rows, 1)):
        fits &= sides[:, index] <= axis.cell
        if axis.count > 1:
            first, last = found[:, index] - axis.margin, found[:, index + 2] - 1 - axis.margin
            across |= first // axis.period != last // axis.period
    return int(np.count_nonzero(fits & across))


def widths(boxes: Integers) -> Integers:
    """Turn left, top, right, bottom into x, y, width, height."""
    return np.concatenate([boxes[:, :2], boxes[:, 2:] - boxes[:, :2]], axis=1)


def grid_reading(grid: GridReading, ground: Ground, found: Integers) -> Reading:
    """Turn a grid into an explanation with a box for every cell that holds art."""
    contents = grid.contents[grid.contents[..., 2] > 0]
    x, y = grid.columns.start_of(contents[:, 0]), grid.rows.start_of(contents[:, 1])
    height, width = ground.mask.shape
    right, bottom = np.minimum(x + grid.columns.cell, width), np.minimum(y + grid.rows.cell, height)
    x, y = np.maximum(x, 0), np.maximum(y, 0)
    return Reading(
        method="cells",
        boxes=np.stack([x, y, right - x, bottom - y], axis=1),
        grid=grid,
        ground=ground,
        bits=grid.bits - ground.bits - STRADDLE_BITS * tempered(straddling(grid, found)),
        reason=f"{ground.words()}; cells of {grid.columns.cell} x {grid.rows.cell} px, "
        f"art stays within {1 - grid.broken:.0%} of them",
    )

"""Rank the explanations of a sheet."""

from dataclasses import dataclass, replace
from math import log2

import numpy as np
import numpy.typing as npt

from scenekit.slicing.cut import SliceOptions
from scenekit.slicing.guess_axis import tempered
from scenekit.slicing.guess_frames import drawn_boxes
from scenekit.slicing.guess_grid import NO_HINTS, GridReading, Hints, grids
from scenekit.slicing.guess_ground import Ground, grounds
from scenekit.slicing.guess_islands import joinings, tangled
from scenekit.slicing.guess_packed import packed_boxes
from scenekit.slicing.guess_regions import part_of, split_places
from scenekit.slicing.runs import island_boxes

Pixels = npt.NDArray[np.uint8]
Integers = npt.NDArray[np.int64]

KEPT_GRIDS = 6
STRADDLE_BITS = 4.0
LEAST_STRADDLE_PX = 2
DRAWN_BITS = 6.0
CLEAR_BITS = 60.0
CLEAR_BROKEN = 0.02
LARGE_PX = 1 << 22
REGION_PX = 1 << 20
REGION_DEPTH = 2
PART_BITS = 18.0
LEAST_PART_BITS = 8.0
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


def readings(pixels: Pixels, options: SliceOptions) -> list[Reading]:
    """Rank the explanations of a sheet, best first."""
    out: list[Reading] = []
    hinted = bool(options.cell or options.columns or options.rows or options.merge_px)
    for ground in grounds(pixels, options.keys):
        if not ground.mask.any():
            continue
        found = ground_readings(pixels, ground, options)
        out += found
        if hinted or not found or ground.kind == "none" or ground.mask.size > REGION_PX:
            continue
        whole = max(found, key=lambda reading: reading.bits)
        if whole.grid is not None or whole.bits <= 0:
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


def ground_readings(pixels: Pixels, ground: Ground, options: SliceOptions) -> list[Reading]:
    """Return the explanations that take a sheet for one, with one reading of its background."""
    ranked = grids(pixels, ground, hints_of(options))[:KEPT_GRIDS]
    clear = bool(ranked) and ranked[0].bits > CLEAR_BITS and ranked[0].broken < CLEAR_BROKEN
    clear = clear and not options.merge_px
    skipped = ground.kind == "none" or (clear and ground.mask.size > LARGE_PX)
    found = NO_BOXES if skipped else island_boxes(ground.mask)[0]
    out = [grid_reading(grid, ground, found) for grid in ranked if grid.columns.count * grid.rows.count > 1]
    if len(found):
        out += island_readings(pixels, ground, found, options.merge_px, clear)
    return out


def obedience(reading: Reading, options: SliceOptions) -> float:
    """Return how well a reading keeps to the hints: hints go before evidence."""
    score = 0.0
    if options.cell or options.columns or options.rows:
        score += reading.grid is not None
    if options.merge_px:
        score += reading.distance == options.merge_px
    if options.count:
        score -= abs(log2(max(len(reading.boxes), 1) / options.count))
    return score


def hints_of(options: SliceOptions) -> Hints:
    """Return what the options say about the grid."""
    width, height = options.cell or (0, 0)
    return Hints(width=width, height=height, columns=options.columns or 0, rows=options.rows or 0)


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
    if clear:
        return out
    ranked = joinings(found, merge_px)
    if tangled(found, ranked):
        packed = packed_boxes(ground.mask, pixels[..., 3].astype(np.float32) / 255)
        if packed is not None:
            out.append(
                Reading(
                    method="islands",
                    boxes=widths(packed),
                    grid=None,
                    ground=ground,
                    bits=1.0 - ground.bits,
                    reason=f"{ground.words()}; {len(packed)} sprites packed so tightly that they touch",
                )
            )
    for rank, (_, distance, joined) in enumerate(ranked[:3]):
        out.append(
            Reading(
                method="islands",
                boxes=widths(joined),
                grid=None,
                ground=ground,
                bits=-rank - ground.bits - (3.0 if len(joined) == 1 else 0.0),
                reason=f"{ground.words()}; {len(joined)} islands of art, "
                f"parts up to {max(distance, 0)} px apart joined",
                distance=distance,
            )
        )
    return out


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


OFFERED = 4
"""Most runners-up."""


def several_sheets(pixels: Pixels, ground: Ground, whole: Reading, depth: int) -> Reading | None:
    """Return the explanation of a sheet as several grids side by side; None where that is no better."""
    best: tuple[float, int, int, list[Reading]] | None = None
    for axis, place in split_places(pixels, ground):
        parts, gain = [], -PART_BITS
        for start, end in ((0, place), (place, ground.mask.shape[1 - axis])):
            picture, part = part_of(pixels, ground, axis, start, end)
            own = best_grid(picture, part, NO_HINTS)
            if own is None or own.bits < LEAST_PART_BITS:
                break
            parts.append(grid_reading(own, part, NO_BOXES))
            gain += own.bits - bits_as(whole, picture, part)
        if (
            len(parts) == 2
            and gain > 0
            and not alike(parts[0], parts[1])
            and (best is None or gain > best[0])
        ):
            best = (gain, axis, place, parts)
    if best is None:
        return None
    gain, axis, place, parts = best
    if depth > 1:
        for index, (start, end) in enumerate(((0, place), (place, ground.mask.shape[1 - axis]))):
            picture, part = part_of(pixels, ground, axis, start, end)
            deeper = several_sheets(picture, part, parts[index], depth - 1)
            parts[index] = deeper or parts[index]
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


def alike(one: Reading, two: Reading) -> bool:
    """Say whether two parts are read in the same way, so that they are one sheet."""
    if one.grid is None or two.grid is None:
        return one.grid is two.grid
    return all(
        a.count < 2 or b.count < 2 or a.period == b.period or a.cell == b.cell
        for a, b in ((one.grid.columns, two.grid.columns), (one.grid.rows, two.grid.rows))
    )

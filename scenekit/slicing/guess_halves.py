"""Find rows or columns of a grid that hold two or more smaller cells in each of its cells."""

from dataclasses import replace

import numpy as np
import numpy.typing as npt

from scenekit.slicing.guess_axis import Axis
from scenekit.slicing.guess_repeats import repeat_bits
from scenekit.slicing.guess_sheet import Reading

Mask = npt.NDArray[np.bool_]
Integers = npt.NDArray[np.int64]

LEAST_BITS = 12.0
"""So much better must the smaller cells explain where the art of a line of cells comes again."""
SURPRISE_BITS = 6.0
PARTS = (2, 3, 4)
LEAST_CELL_PX = 8


def smaller_cells(reading: Reading, price_bits: float = SURPRISE_BITS) -> Reading | None:
    """Return a grid's reading with some lines of cells cut smaller; None where art nowhere asks for it.

    Art that comes again half a cell further on, time after time, is a smaller picture's.

    price_bits   the surprise that there are such lines
    """
    grid = reading.grid
    if grid is None or not len(reading.ground.repeats):
        return None
    boxes, gain, words = reading.boxes, -price_bits, []
    for axis, (along, across) in enumerate(((grid.columns, grid.rows), (grid.rows, grid.columns))):
        for place in across.starts().tolist():
            parts, bits = parts_of(reading, along, axis, (place, place + across.cell))
            if parts > 1:
                boxes = cut_smaller(boxes, reading.ground.mask, axis, (place, place + across.cell), parts)
                gain += bits
                words.append(f"{'y' if axis == 0 else 'x'} {place} cells of {along.cell // parts} px")
    if not words:
        return None
    return replace(
        reading,
        method="regions",
        boxes=boxes,
        grid=None,
        bits=reading.bits + gain,
        reason=f"{reading.reason}; from {', '.join(words)}",
    )


def parts_of(reading: Reading, along: Axis, axis: int, ends: tuple[int, int]) -> tuple[int, float]:
    """Return into how many parts a line of cells is cut by its repeated art, and the bits that speak for it.

    axis   0 for a row of cells, which is cut along x
    ends   where the line of cells begins and ends on the other axis
    """
    repeats = reading.ground.repeats
    other = repeats[:, 1 - axis :: 2]
    inside = repeats[((other >= ends[0]) & (other < ends[1])).all(axis=1)]
    distances = inside[:, 2 + axis] - inside[:, axis]
    bits = repeat_bits(distances, reading.ground.mask.shape[1 - axis])
    best, most = 1, LEAST_BITS
    for parts in PARTS:
        size = along.period // parts
        fits = along.gutter == 0 and along.period % parts == 0 and size >= LEAST_CELL_PX
        if fits and along.period < bits.size and bits[size] - bits[along.period] > most:
            best, most = parts, float(bits[size] - bits[along.period])
    return best, most


def cut_smaller(boxes: Integers, mask: Mask, axis: int, ends: tuple[int, int], parts: int) -> Integers:
    """Return boxes with those of one line of cells cut into parts; parts without art are left out."""
    out = []
    for box in boxes.tolist():
        if not ends[0] <= box[1 - axis] < ends[1]:
            out.append(box)
            continue
        size = box[2 + axis] // parts
        for part in range(parts):
            smaller = list(box)
            smaller[axis] += part * size
            smaller[2 + axis] = size
            x, y, width, height = smaller
            if mask[y : y + height, x : x + width].any():
                out.append(smaller)
    return np.array(out, np.int64).reshape(-1, 4)

"""Cut a sheet without being told how: the best of several readings, with its runners-up."""

import numpy as np
import numpy.typing as npt

from scenekit.slicing.art import content_box
from scenekit.slicing.cut import (
    Alternative,
    Background,
    Box,
    Cut,
    CutFrame,
    Grid,
    SliceOptions,
    SlicingMethod,
    check_count,
    check_sheet,
    finding,
    grid_name,
    reading_order,
)
from scenekit.slicing.guess_rank import readings
from scenekit.slicing.guess_sheet import Reading

Pixels = npt.NDArray[np.uint8]

OFFERED = 4
"""Most runners-up."""
LOOKED_AT = 12
"""Readings among which runners-up are sought."""
SCALE_BITS = 6.0
"""So many bits double the odds once; chosen so that 0.9 is right 19 times in 20 on sheets of the bench."""
AGREED_BITS = 12.0
"""What it is worth that another method finds the same frames."""
HINTED_BITS = 12.0


def cut_guess(pixels: Pixels, options: SliceOptions) -> Cut:
    """Cut a sheet by its likeliest explanation; hints in the options go before evidence.

    raises   SliceError: no pixels, too many frames
    """
    size = check_sheet(pixels, options)
    ranked = readings(pixels, options)
    if not ranked:
        return Cut(
            size_px=size,
            method="islands",
            background=Background(kind="alpha"),
            grid=None,
            frames=(),
            findings=(finding("warning", "nothing-drawn", options, "no art on the sheet"),),
            confidence=0.0,
            reason="nothing is drawn",
        )
    best = ranked[0]
    check_count(len(best.boxes), "frames", options)
    compared = others_of(ranked)
    frames = {reading: frames_of(reading) for reading in [*ranked[:LOOKED_AT], *compared]}
    taken = frames[best]
    shares = [agreement(taken, frames[reading]) for reading in compared]
    sure = confidence(best, compared, shares, options)
    return Cut(
        size_px=size,
        method=best.method,
        background=Background(kind=best.ground.kind, colours=best.ground.keys),
        grid=grid_of(best),
        frames=taken,
        confidence=sure,
        reason=best.reason,
        alternatives=runners_up(ranked[:LOOKED_AT], frames, sure),
    )


def others_of(ranked: list[Reading]) -> list[Reading]:
    """Return the readings that the best is compared with: the next ones, and the next by another method."""
    other = [reading for reading in ranked[1 + OFFERED :] if reading.method != ranked[0].method]
    return [*ranked[1 : 1 + OFFERED], *other[:1]]


def runners_up(
    ranked: list[Reading], frames: dict[Reading, tuple[CutFrame, ...]], sure: float
) -> tuple[Alternative, ...]:
    """Return the next readings that give other frames than those before; they share the belief left."""
    seen = [frozenset(frame.content for frame in frames[ranked[0]])]
    found: list[tuple[Reading, int]] = []
    for reading in ranked[1:]:
        contents = frozenset(frame.content for frame in frames[reading])
        if contents in seen:
            continue
        seen.append(contents)
        found.append((reading, len(frames[reading])))
        if len(found) == OFFERED:
            break
    odds = [2.0 ** (max(reading.bits - ranked[0].bits, -60.0) / SCALE_BITS) for reading, _ in found]
    return tuple(
        Alternative(
            method=reading.method,
            grid=grid_of(reading),
            count=count,
            confidence=round(min(sure, (1 - sure) * min(odd, 1.0) / max(sum(odds), 1.0)), 3),
        )
        for (reading, count), odd in zip(found, odds, strict=True)
    )


def confidence(best: Reading, others: list[Reading], shares: list[float], options: SliceOptions) -> float:
    """Return how sure the best reading is, from its bits, its lead and what other methods agree on.

    shares   how far each of the others finds the same frames
    """
    rivals = [other.bits for other, share in zip(others, shares, strict=True) if share < 1]
    lead = best.bits - max(rivals, default=best.bits - 2 * AGREED_BITS)
    agreed = max(
        (share for other, share in zip(others, shares, strict=True) if other.method != best.method),
        default=0.0,
    )
    bits = min(best.bits, lead) + AGREED_BITS * agreed
    if options.cell or options.count or options.columns or options.rows or options.keys or options.merge_px:
        bits += HINTED_BITS
    odds: float = 2.0 ** (max(min(bits, 60.0), -60.0) / SCALE_BITS)
    return round(odds / (1 + odds), 3)


def agreement(one: tuple[CutFrame, ...], two: tuple[CutFrame, ...]) -> float:
    """Return which share of the contents two cuts have in common."""
    contents = {frame.content for frame in one}
    others = {frame.content for frame in two}
    return len(contents & others) / max(len(contents | others), 1)


def grid_of(reading: Reading) -> Grid | None:
    """Return the grid of a reading, if it has one."""
    if reading.grid is None:
        return None
    columns, rows = reading.grid.columns, reading.grid.rows
    return Grid(
        cell=(columns.cell, rows.cell),
        margin=(columns.margin, rows.margin),
        gutter=(columns.gutter, rows.gutter),
        columns=columns.count,
        rows=rows.count,
    )


def frames_of(reading: Reading) -> tuple[CutFrame, ...]:
    """Name the frames of a reading by their cells, or in reading order."""
    boxes = [(x, y, w, h) for x, y, w, h in reading.boxes.tolist()]
    contents = contents_of(reading, boxes)
    if reading.grid is None:
        places = reading_order(boxes)
    else:
        columns, rows = reading.grid.columns, reading.grid.rows
        places = sorted(
            ((y - rows.margin) // rows.period, (x - columns.margin) // columns.period, index)
            for index, (x, y, _, _) in enumerate(boxes)
        )
    frames = []
    for row, column, index in places:
        content = contents[index]
        if content is not None:
            frames.append(CutFrame(name=grid_name(row, column), box=boxes[index], content=content))
    return tuple(frames)


def contents_of(reading: Reading, boxes: list[Box]) -> list[Box | None]:
    """Return the tight boxes of the art in the boxes of a reading; a grid has looked for most of them."""
    mask = reading.ground.mask
    if reading.grid is None:
        return [content_box(mask, box) for box in boxes]
    known = reading.grid.contents[reading.grid.contents[..., 2] > 0].tolist()
    return [
        (left, top, right - left, bottom - top)
        if x <= left and y <= top and right <= x + w and bottom <= y + h
        else content_box(mask, (x, y, w, h))
        for (left, top, right, bottom), (x, y, w, h) in zip(known, boxes, strict=True)
    ]


PLUGIN = SlicingMethod(name="guess", cut=cut_guess, summary="finds out by itself how a sheet is cut")

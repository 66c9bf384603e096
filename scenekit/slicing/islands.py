"""Cuts a sheet into islands: art pixels that touch at a side or corner."""

import numpy as np

from scenekit.errors import SliceError
from scenekit.model.arrays import Pixels
from scenekit.slicing.art import art_mask, background, background_findings
from scenekit.slicing.cut import (
    Box,
    Cut,
    CutFrame,
    Mask,
    SliceOptions,
    SlicingMethod,
    check_count,
    check_sheet,
    finding,
    grid_name,
    reading_order,
)
from scenekit.slicing.runs import island_boxes

MAX_MERGE_PX = 1024


def cut_islands(pixels: Pixels, options: SliceOptions) -> Cut:
    """Cut a sheet into islands, in reading order.

    raises   SliceError: a negative or huge merge distance, too many islands
    """
    width, height = check_sheet(pixels, options)
    if not 0 <= options.merge_px <= MAX_MERGE_PX:
        raise SliceError(
            f"{options.where}: merge distance {options.merge_px} px; allowed: 0 to {MAX_MERGE_PX}"
        )
    ground = background(pixels, options.keys)
    boxes, small = find_islands(art_mask(pixels, options.keys), options)
    findings = background_findings(ground, pixels, options)
    if small:
        text = f"{small} islands have fewer than {options.least_px} pixels and are left out"
        findings.append(finding("note", "small-islands", options, text))
    if not boxes:
        findings.append(finding("warning", "nothing-drawn", options, "no island on the sheet"))
    frames = tuple(
        CutFrame(name=grid_name(row, column), box=boxes[index], content=boxes[index])
        for row, column, index in reading_order(boxes)
    )
    near = f" with up to {options.merge_px} empty px between their parts" if options.merge_px else ""
    return Cut(
        size_px=(width, height),
        method="islands",
        background=ground,
        grid=None,
        frames=frames,
        findings=tuple(findings),
        reason=f"islands of touching pixels{near}, as asked",
    )


def find_islands(mask: Mask, options: SliceOptions) -> tuple[list[Box], int]:
    """Return tight boxes of 8-connected islands in the order of first pixels, and how many were too small.

    mask     (H, W) bool
    raises   SliceError: more islands than can be cut
    """
    found, areas = island_boxes(mask, spread(mask, options.merge_px) if options.merge_px else None)
    check_count(len(found), "islands", options)
    kept = found[areas >= options.least_px]
    boxes = [(x, y, right - x, bottom - y) for x, y, right, bottom in kept.tolist()]
    return boxes, len(found) - len(kept)


def spread(mask: Mask, distance: int) -> Mask:
    """Return a mask spread right and down by a distance, so that pixels with that gap or less touch."""
    wide = mask
    for axis in (0, 1):
        reach = 0
        while reach < distance:
            step = min(reach + 1, distance - reach)
            moved = wide.copy()
            view, source = np.moveaxis(moved, axis, 0), np.moveaxis(wide, axis, 0)
            view[step:] |= source[:-step]
            wide = moved
            reach += step
    return wide


PLUGIN = SlicingMethod(
    name="islands",
    cut=cut_islands,
    summary="islands of touching pixels, with a merge distance for loose parts",
)

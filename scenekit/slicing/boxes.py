"""Cuts a sheet along boxes that the user gives, in the call or in a CSV or JSON list."""

from collections.abc import Sequence

from scenekit.errors import SliceError
from scenekit.model.arrays import Pixels
from scenekit.slicing.art import art_mask, background, background_findings, content_box
from scenekit.slicing.boxlist import MAX_NAME_LETTERS, read_box_file
from scenekit.slicing.cut import (
    Cut,
    CutFrame,
    GivenBox,
    Pair,
    SliceOptions,
    SlicingMethod,
    check_count,
    check_sheet,
    finding,
    grid_name,
    reading_order,
)


def cut_boxes(pixels: Pixels, options: SliceOptions) -> Cut:
    """Cut a sheet along given boxes, in their order; boxes without art are left out and named in a finding.

    raises   SliceError: no boxes, boxes outside the sheet, doubled names, a bad list
    """
    size = check_sheet(pixels, options)
    given = _given(options, size)
    ground = background(pixels, options.keys)
    mask = art_mask(pixels, options.keys)
    frames, empty = [], []
    for box, name in zip(given, _names(given, options), strict=True):
        content = content_box(mask, box.box)
        if content is None:
            empty.append(name)
        else:
            frames.append(CutFrame(name=name, box=box.box, content=content, pivot=box.pivot))
    findings = background_findings(ground, pixels, options)
    if empty:
        shown = ", ".join(empty[:8]) + (" ..." if len(empty) > 8 else "")
        text = f"{len(empty)} boxes hold no art and are left out: {shown}"
        findings.append(finding("warning", "empty-boxes", options, text))
    return Cut(
        size_px=size,
        method="boxes",
        background=ground,
        grid=None,
        frames=tuple(frames),
        findings=tuple(findings),
        reason="boxes as given",
    )


def _given(options: SliceOptions, size: Pair) -> tuple[GivenBox, ...]:
    if options.boxes and options.box_file is not None:
        raise SliceError(f"{options.where}: boxes are given twice, in the call and in {options.box_file}")
    given: Sequence[tuple[str, GivenBox]]
    if options.box_file is not None:
        given = read_box_file(options.box_file)
    else:
        given = [(f"box {number}", box) for number, box in enumerate(options.boxes, 1)]
    if not given:
        raise SliceError(f"{options.where}: no boxes given")
    check_count(len(given), "boxes", options)
    for place, box in given:
        _check_box(f"{options.where}: {place}", box, size)
    return tuple(box for _, box in given)


def _check_box(where: str, given: GivenBox, size: Pair) -> None:
    x, y, w, h = given.box
    if w < 1 or h < 1:
        raise SliceError(f"{where}: {w} x {h} px; both sides must be at least 1")
    if x < 0 or y < 0 or x + w > size[0] or y + h > size[1]:
        raise SliceError(f"{where}: box {x},{y} {w}x{h} leaves the sheet of {size[0]} x {size[1]} px")
    name = given.name
    if name is not None and not (0 < len(name) <= MAX_NAME_LETTERS and name.isprintable()):
        raise SliceError(f"{where}: name {name!r}; allowed: 1 to {MAX_NAME_LETTERS} printable letters")


def _names(given: tuple[GivenBox, ...], options: SliceOptions) -> list[str]:
    """Return a name for each box: its own, else one by its row and column among all."""
    names = [box.name or "" for box in given]
    taken = set()
    for name in filter(None, names):
        if name in taken:
            raise SliceError(f"{options.where}: two boxes are named {name!r}")
        taken.add(name)
    for row, column, index in reading_order([box.box for box in given]):
        if not names[index]:
            names[index] = grid_name(row, column)
            if names[index] in taken:
                raise SliceError(
                    f"{options.where}: box {index + 1} would be named {names[index]!r} as another is"
                )
    return names


PLUGIN = SlicingMethod(name="boxes", cut=cut_boxes, summary="boxes given, or listed in a CSV or JSON file")

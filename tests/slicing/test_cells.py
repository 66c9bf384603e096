"""Cutting into cells, against a cutter that walks the sheet in plain steps."""

import numpy as np
import pytest

from scenekit.errors import SliceError
from scenekit.slicing.cells import cut_cells
from scenekit.slicing.cut import Grid, SliceOptions


def clear(width, height):
    return np.zeros((height, width, 4), np.uint8)


def dots(width, height, spots):
    pixels = clear(width, height)
    for x, y in spots:
        pixels[y, x] = 255
    return pixels


def test_cells_with_margin_and_gutter():
    pixels = dots(35, 18, [(2, 3), (5, 7), (19, 16)])
    cut = cut_cells(pixels, SliceOptions(cell=(16, 16), margin=(1, 1), gutter=(1, 0)))
    assert [(f.name, f.box, f.content) for f in cut.frames] == [
        ("r00c00", (1, 1, 16, 16), (2, 3, 4, 5)),
        ("r00c01", (18, 1, 16, 16), (19, 16, 1, 1)),
    ]
    assert cut.grid == Grid(cell=(16, 16), margin=(1, 1), gutter=(1, 0), columns=2, rows=1)
    assert cut.confidence == 1.0
    assert cut.background.kind == "alpha"


def test_empty_cells_are_left_out_and_the_others_keep_their_names():
    cut = cut_cells(dots(24, 16, [(20, 12), (9, 1)]), SliceOptions(cell=(8, 8)))
    assert [frame.name for frame in cut.frames] == ["r00c01", "r01c02"]
    assert (cut.grid.columns, cut.grid.rows) == (3, 2)


def test_cells_cut_off_by_the_edge_are_kept_where_they_hold_art():
    bare = cut_cells(dots(20, 8, [(1, 1)]), SliceOptions(cell=(8, 8)))
    assert (bare.grid.columns, len(bare.frames), bare.findings) == (2, 1, ())
    drawn = cut_cells(dots(20, 8, [(18, 7)]), SliceOptions(cell=(8, 8)))
    assert [(f.name, f.box) for f in drawn.frames] == [("r00c02", (16, 0, 4, 8))]
    assert drawn.grid.columns == 3
    assert [finding.code for finding in drawn.findings] == ["cells-cut-off"]


@pytest.mark.parametrize(("offset", "first"), [((3, 2), (4, 3)), ((-3, -1), (7, 0)), ((-9, -9), (1, 1))])
def test_offset_shifts_the_grid(offset, first):
    cut = cut_cells(
        dots(40, 40, [(0, 0)]), SliceOptions(cell=(8, 8), margin=(1, 1), gutter=(1, 1), offset=offset)
    )
    assert cut.grid.margin == first


def test_key_colour():
    pixels = np.full((8, 16, 4), 255, np.uint8)
    pixels[2, 3, :3] = 0
    cut = cut_cells(pixels, SliceOptions(cell=(8, 8), keys=((255, 255, 255),)))
    assert [frame.content for frame in cut.frames] == [(3, 2, 1, 1)]
    assert cut.background.as_dict()["colour"] == "ffffff"


def test_no_background_and_missing_keys_are_reported():
    opaque = np.full((8, 16, 4), 255, np.uint8)
    cut = cut_cells(opaque, SliceOptions(cell=(8, 8)))
    assert [finding.code for finding in cut.findings] == ["no-background"]
    missing = cut_cells(opaque, SliceOptions(cell=(8, 8), keys=((1, 2, 3),)))
    assert [finding.code for finding in missing.findings] == ["key-missing"]
    empty = cut_cells(clear(8, 8), SliceOptions(cell=(8, 8)))
    assert [finding.code for finding in empty.findings] == ["nothing-drawn"]


def plain(pixels, cell, margin, gutter):
    """Walk the sheet in steps and look at each pixel of each cell."""
    height, width = pixels.shape[:2]
    found = []
    for row, y in enumerate(range(margin[1], height, cell[1] + gutter[1])):
        for column, x in enumerate(range(margin[0], width, cell[0] + gutter[0])):
            w, h = min(cell[0], width - x), min(cell[1], height - y)
            if pixels[y : y + h, x : x + w, 3].any():
                found.append((f"r{row:02d}c{column:02d}", (x, y, w, h)))
    return found


def test_random_grids_agree_with_the_plain_walk():
    draw = np.random.default_rng(4)
    for _ in range(300):
        width, height = (int(v) for v in draw.integers(6, 60, 2))
        pixels = clear(width, height)
        pixels[draw.random((height, width)) < 0.05] = 255
        cell = (int(draw.integers(1, width + 1)), int(draw.integers(1, height + 1)))
        margin = (int(draw.integers(0, min(5, width))), int(draw.integers(0, min(5, height))))
        gutter = (int(draw.integers(0, 4)), int(draw.integers(0, 4)))
        cut = cut_cells(pixels, SliceOptions(cell=cell, margin=margin, gutter=gutter))
        assert [(f.name, f.box) for f in cut.frames] == plain(pixels, cell, margin, gutter)


@pytest.mark.parametrize(
    ("options", "message"),
    [
        ({}, "no cell size"),
        ({"cell": (0, 8)}, "cell 0 px wide"),
        ({"cell": (8, -8)}, "cell -8 px high"),
        ({"cell": (17, 8)}, "cell 17 px wide; the sheet has only 16"),
        ({"cell": (8, 9)}, "cell 9 px high"),
        ({"cell": (8, 8), "gutter": (-1, 0)}, "neither may be negative"),
        ({"cell": (8, 8), "margin": (0, -1)}, "neither may be negative"),
        ({"cell": (8, 8), "margin": (16, 0)}, "first cell begins at 16 px"),
        ({"cell": (8, 8), "offset": (10**12, 0)}, "first cell begins at"),
    ],
)
def test_cells_that_cannot_be(options, message):
    with pytest.raises(SliceError, match=message) as caught:
        cut_cells(clear(16, 8), SliceOptions(where="sheet hero", **options))
    assert str(caught.value).startswith("sheet hero: ")


def test_too_many_cells():
    with pytest.raises(SliceError, match="at most 65536"):
        cut_cells(clear(400, 400), SliceOptions(cell=(1, 1)))

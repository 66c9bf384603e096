"""Grids of earlier cuts, counted by hand."""

import numpy as np
import pytest

from scenekit.model.sprites import Frame, Sheet
from scenekit.sheets.recut import likest, moved_grid, options_like_before
from scenekit.slicing import cut_sheet
from scenekit.slicing.cut import SliceOptions


def sheet(*boxes: tuple[int, int, int, int]) -> Sheet:
    frames = tuple(Frame(name=f"f{n}", box=box, pivot=(0, 0)) for n, box in enumerate(boxes))
    return Sheet(name="s", file="s.png", frames=frames)


@pytest.mark.parametrize(
    ("boxes", "margin", "gutter"),
    [
        ([(0, 0, 16, 16), (16, 0, 16, 16), (0, 16, 16, 16)], (0, 0), (0, 0)),
        ([(1, 2, 16, 16), (18, 2, 16, 16), (1, 20, 16, 16)], (1, 2), (1, 2)),
        ([(0, 0, 16, 16), (32, 0, 16, 16)], (0, 0), (0, 0)),
        ([(20, 0, 16, 16)], (4, 0), (0, 0)),
    ],
)
def test_the_grid_of_an_earlier_cut(boxes, margin, gutter) -> None:
    found = options_like_before(sheet(*boxes), SliceOptions())
    assert found is not None
    assert (found.cell, found.margin, found.gutter) == ((16, 16), margin, gutter)


@pytest.mark.parametrize("boxes", [[(0, 0, 16, 16), (16, 0, 12, 16)], [(0, 0, 16, 16), (9, 0, 16, 16)]])
def test_frames_in_no_grid(boxes) -> None:
    assert options_like_before(sheet(*boxes), SliceOptions()) is None


@pytest.mark.parametrize("move", [(0, 0), (5, 0), (0, 3), (11, 14)])
def test_the_grid_follows_a_canvas_that_grew(move) -> None:
    random = np.random.default_rng(8)
    old = np.zeros((32, 64, 4), dtype=np.uint8)
    boxes = [(x, y, 16, 16) for y in (0, 16) for x in (0, 16, 32, 48)]
    for x, y, _, _ in boxes:
        old[y + 4 : y + 15, x + 3 : x + 12] = (*random.integers(0, 255, 3), 255)
        old[y + 6, x + 5] = 0
    new = np.zeros((32 + move[1], 64 + move[0], 4), dtype=np.uint8)
    new[move[1] :, move[0] :] = old
    known = sheet(*boxes)
    like = options_like_before(known, SliceOptions())
    assert like is not None
    moved = moved_grid(like, old, new)
    assert moved.margin == move
    cuts = [cut_sheet(new, options, method="cells") for options in (like, moved)]
    kept = likest(known, old, new, cuts)
    assert [frame.box for frame in kept.frames] == [
        (x + move[0], y + move[1], 16, 16) for x, y, _, _ in boxes
    ]

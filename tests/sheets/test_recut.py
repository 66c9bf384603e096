"""Grids of earlier cuts, counted by hand."""

import pytest

from scenekit.model.sprites import Frame, Sheet
from scenekit.sheets.recut import options_like_before
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

"""Planes cut into cells: sizes by hand, and every pixel in exactly one cell."""

import numpy as np
import pytest

from scenekit.tiles.planes import cut_plane

CLEAR = 9


def picture(width, height):
    return (np.arange(width * height, dtype=np.int64) % 8).astype(np.uint8).reshape(height, width)


@pytest.mark.parametrize(
    ("size", "tile", "cells", "last"),
    [
        ((16, 12), (4, 4), (4, 3), (4, 4)),
        ((17, 13), (4, 4), (5, 4), (1, 1)),
        ((10, 12), (4, 12), (3, 1), (2, 12)),
        ((3, 2), (8, 8), (1, 1), (3, 2)),
        ((1, 1), (4, 4), (1, 1), (1, 1)),
    ],
)
def test_columns_rows_and_the_narrow_last_ones(size, tile, cells, last):
    cut = cut_plane(picture(*size), tile, CLEAR)
    assert (cut.width_px, cut.height_px) == size
    assert (cut.columns, cut.rows) == cells
    assert (cut.last_w_px, cut.last_h_px) == last
    assert len(cut.cells) == cells[0] * cells[1]


def test_cells_put_side_by_side_are_the_picture():
    whole = picture(23, 17)
    cut = cut_plane(whole, (5, 4), CLEAR)
    rows = [np.hstack(cut.cells[n * cut.columns : (n + 1) * cut.columns]) for n in range(cut.rows)]
    assert np.array_equal(np.vstack(rows), whole)


def test_a_cell_without_a_drawn_pixel_is_none():
    whole = picture(8, 4)
    whole[:, :4] = CLEAR
    assert cut_plane(whole, (4, 4), CLEAR).cells[0] is None
    whole[3, 3] = 0
    assert cut_plane(whole, (4, 4), CLEAR).cells[0] is not None

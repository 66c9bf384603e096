"""Art that comes again as evidence for the size of cells, on sheets drawn by code."""

import numpy as np
import pytest
from numpy.typing import NDArray

from scenekit.slicing.cut import SliceOptions
from scenekit.slicing.guess import cut_guess
from scenekit.slicing.guess_repeats import repeat_bits, repeated_art

Pixels = NDArray[np.uint8]


def numbers(pixels: Pixels) -> NDArray[np.uint32]:
    """Give each pixel one number."""
    return np.ascontiguousarray(pixels).view(np.uint32)[..., 0]


def test_squares_that_come_again_are_paired_in_reading_order() -> None:
    rng = np.random.default_rng(1)
    sheet = rng.integers(1, 255, (20, 60, 4)).astype(np.uint8)
    sheet[5:13, 30:40] = sheet[2:10, 4:14]
    found = repeated_art(numbers(sheet), sheet[..., 3] > 0)
    want = sorted((4 + dx, 2 + dy, 30 + dx, 5 + dy) for dx in range(7) for dy in range(5))
    assert sorted(map(tuple, found.tolist())) == want


def test_squares_of_one_colour_are_not_paired() -> None:
    sheet = np.full((12, 40, 4), 200, np.uint8)
    assert not len(repeated_art(numbers(sheet), sheet[..., 3] > 0))


def test_the_period_and_its_parts_explain_distances_but_not_its_multiples() -> None:
    bits = repeat_bits(np.array([48] * 300 + [96] * 40 + [7] * 10), 240)
    assert bits[48] > 10
    assert bits[24] == bits[48]
    assert bits[96] == bits[47] == 0
    assert repeat_bits(np.array([48] * 7), 240).max() == 0


def tile(rng: np.random.Generator, size: int) -> Pixels:
    """Draw an opaque tile: a ground colour with grains."""
    picture = np.full((size, size, 4), 255, np.uint8)
    picture[..., :3] = rng.integers(40, 200, 3) + rng.integers(-6, 7, (size, size, 1))
    return picture


def tiles(rng: np.random.Generator, cell: int, columns: int, rows: int) -> Pixels:
    """Draw touching tiles: in turn new ones and a common one with another mark."""
    sheet = np.zeros((rows * cell, columns * cell, 4), np.uint8)
    base = tile(rng, cell)
    for row in range(rows):
        for column in range(columns):
            picture = base.copy() if (row + column) % 2 else tile(rng, cell)
            x, y = rng.integers(0, cell - 4, 2)
            picture[y : y + 4, x : x + 4, :3] = 250
            sheet[row * cell : (row + 1) * cell, column * cell : (column + 1) * cell] = picture
    return sheet


def row_of_half_cells() -> Pixels:
    """Draw rows of tiles of 32 px, the fourth with 20 of 16 px."""
    rng = np.random.default_rng(4)
    sheet = np.zeros((5 * 32, 10 * 32, 4), np.uint8)
    sheet[: 3 * 32] = tiles(rng, 32, 10, 3)
    sheet[4 * 32 :] = tiles(rng, 32, 10, 1)
    base = tile(rng, 16)
    for column in range(20):
        small = base.copy()
        small[2:5, column % 9 : column % 9 + 3, :3] = 250
        sheet[96:112, column * 16 : column * 16 + 16] = small
    return sheet


@pytest.mark.parametrize("cell", [None, (32, 32)])
def test_a_row_of_half_cells_in_a_grid_is_cut_by_its_own(cell: tuple[int, int] | None) -> None:
    cut = cut_guess(row_of_half_cells(), SliceOptions(cell=cell))
    found = {frame.content for frame in cut.frames}
    assert {(column * 16, 96, 16, 16) for column in range(20)} <= found
    assert {(column * 32, row * 32, 32, 32) for column in range(10) for row in (0, 1, 2, 4)} <= found
    assert len(found) == 60
    assert len({frame.name for frame in cut.frames}) == 60


def test_a_given_number_of_columns_is_kept_although_a_row_has_half_cells() -> None:
    cut = cut_guess(row_of_half_cells(), SliceOptions(columns=10, rows=5))
    assert cut.grid is not None
    assert (cut.grid.columns, cut.grid.rows) == (10, 5)

"""Sprites of several parts, trimmed and laid on shelves by falling height, drawn here."""

import numpy as np
import pytest

from scenekit.slicing.cut import SliceOptions
from scenekit.slicing.guess import cut_guess
from scenekit.slicing.guess_shelves import find_shelves, lines_between, widest_first

WIDTH = 300
GUTTER = 1


def scattered(random, wide, high):
    """Draw a post and a spray of sparks that reach all four sides of a box with empty columns within."""
    art = np.zeros((high, wide), bool)
    art[:, 0] = True
    art[0:3, 0:4] = art[high - 3 : high, wide - 4 : wide] = True
    art[high // 2 : high // 2 + 3, wide // 2 : wide // 2 + 3] = True
    for _ in range(3):
        x, y = int(random.integers(6, wide - 9)), int(random.integers(4, high - 6))
        art[y : y + 2, x : x + 2] = True
    return art


def shelves_sheet(seed):
    """Lay 24 sprites on shelves, the highest first; return the mask and the boxes."""
    random = np.random.default_rng(seed)
    arts = [scattered(random, int(random.integers(24, 50)), 60 - 2 * number) for number in range(24)]
    mask = np.zeros((400, WIDTH), bool)
    boxes = []
    x = y = high = 0
    for art in arts:
        if x + art.shape[1] > WIDTH:
            x, y, high = 0, y + high + GUTTER, 0
        high = max(high, art.shape[0])
        mask[y : y + art.shape[0], x : x + art.shape[1]] = art
        boxes.append((x, y, x + art.shape[1], y + art.shape[0]))
        x += art.shape[1] + GUTTER
    return mask[: y + high], boxes


@pytest.mark.parametrize("seed", [0, 1])
@pytest.mark.parametrize("way", ["as drawn", "mirrored", "upside down", "turned"])
def test_shelves_are_read_in_any_orientation(seed, way):
    mask, boxes = shelves_sheet(seed)
    height, width = mask.shape
    if way == "mirrored":
        mask, boxes = mask[:, ::-1], [(width - c, b, width - a, d) for a, b, c, d in boxes]
    elif way == "upside down":
        mask, boxes = mask[::-1], [(a, height - d, c, height - b) for a, b, c, d in boxes]
    elif way == "turned":
        mask, boxes = mask.T, [(b, a, d, c) for a, b, c, d in boxes]
    found = find_shelves(np.ascontiguousarray(mask))
    assert found is not None
    right = len({tuple(box) for box in found.boxes.tolist()} & set(boxes))
    assert right >= 0.9 * len(boxes)
    assert found.gutter == GUTTER


def test_the_guess_takes_shelves_before_loose_islands():
    mask, boxes = shelves_sheet(2)
    pixels = np.zeros((*mask.shape, 4), np.uint8)
    pixels[mask] = (200, 120, 40, 255)
    cut = cut_guess(pixels, SliceOptions())
    assert "on shelves" in cut.reason
    assert abs(len(cut.frames) - len(boxes)) <= 1


def test_cells_of_one_size_are_no_shelves():
    mask = np.zeros((64, 64), bool)
    for row in range(4):
        for column in range(4):
            mask[row * 16 : row * 16 + 15, column * 16 : column * 16 + 15] = True
    assert find_shelves(mask) is None
    assert find_shelves(np.zeros((20, 20), bool)) is None


def posts(*places):
    """Draw a shelf of 20 px with posts that reach its top and its foot; one column each."""
    shelf = np.zeros((20, max(places) + 1), bool)
    shelf[:, list(places)] = True
    return shelf


def stretch(*ends):
    """Return boxes of one height by their first columns and exclusive ends."""
    return np.array([(start, 0, end, 20) for start, end in ends], np.int64)


def test_of_sprites_of_one_height_the_wide_ones_come_first():
    wide = posts(*range(9), *range(10, 13), *range(14, 17))
    assert lines_between(wide, 0, 17, 20, 1) == [(9, 10), (13, 14)]
    assert widest_first(wide, stretch((0, 9), (10, 17)), 1).tolist() == stretch((0, 13), (14, 17)).tolist()
    rising = posts(*range(4), *range(5, 9), *range(10, 19))
    assert widest_first(rising, stretch((0, 4), (5, 19)), 1).tolist() == stretch((0, 9), (10, 19)).tolist()


def test_lines_between_sprites_leave_their_heights_and_tops():
    shelf = posts(*range(5), *range(6, 9), *range(10, 15))
    shelf[:3, 6:9] = False
    assert lines_between(shelf, 0, 15, 20, 1) == [(5, 6), (9, 10)]
    shelf[:, 10:15] = False
    shelf[3:12, 10:15] = True
    assert lines_between(shelf, 0, 15, 20, 1) == []
    assert lines_between(shelf, 0, 15, 20, 2) == []


def test_sprites_of_other_heights_are_left_alone():
    shelf = posts(*range(9), *range(10, 13), *range(14, 17))
    boxes = np.array([(0, 0, 9, 20), (10, 0, 17, 18)], np.int64)
    assert widest_first(shelf, boxes, 1).tolist() == boxes.tolist()

"""Animations found on sheets drawn here: a growing glow, a walker in rows, things side by side."""

import numpy as np
import pytest

from scenekit.slicing import cut_sheet
from scenekit.slicing.cut import SliceOptions
from scenekit.slicing.grouping import group_frames

CELL = 20
RED, BLUE, GOLD = (200, 40, 30, 255), (40, 60, 200, 255), (230, 190, 60, 255)


def glow(step):
    """Draw a glow that grows round a spark, and leans over while it does."""
    y, x = np.mgrid[:CELL, :CELL]
    far = (x - 10) ** 2 + (y - 10) ** 2
    art = np.zeros((CELL, CELL, 4), np.uint8)
    art[far <= (1 + step * 8 / 24) ** 2] = RED
    art[far + (x - y) * step // 4 <= (1 + step * 5 / 24) ** 2] = GOLD
    art[10, 10] = BLUE
    return art


def walker(step, colour=RED):
    """Draw a figure that steps on the spot, leaning to the right."""
    art = np.zeros((CELL, CELL, 4), np.uint8)
    art[2:7, 7:12] = colour
    art[7:14, 6:13] = BLUE
    art[4, 11:14] = GOLD
    art[14:19, 6 + step % 4] = GOLD
    art[14:19, 12 - step % 4] = GOLD
    return art


def sheet(cells, columns):
    rows = max(cells) // columns + 1
    pixels = np.zeros((rows * CELL, columns * CELL, 4), np.uint8)
    for number, art in cells.items():
        row, column = divmod(number, columns)
        pixels[row * CELL : (row + 1) * CELL, column * CELL : (column + 1) * CELL] = art
    return pixels


def groups(cells, columns):
    pixels = sheet(cells, columns)
    cut = cut_sheet(pixels, SliceOptions(cell=(CELL, CELL)), method="cells")
    return group_frames(pixels, cut)


def named(found):
    return {group.name: len(group.frames) for group in found}


def test_rows_of_one_figure_are_animations_of_their_own():
    cells = {number: walker(number % 4) for number in range(12)}
    assert named(groups(cells, 4)) == {"row00": 4, "row01": 4, "row02": 4}


def test_one_long_animation_over_several_rows_is_one():
    cells = {number: glow(number) for number in range(24)}
    (group,) = groups(cells, 8)
    assert (group.name, group.frames) == ("row00", tuple(range(24)))
    assert group.reason == "rows that go on in each other"


def test_a_gap_splits_a_row():
    cells = {number: walker(number % 4) for number in range(4)}
    cells |= {number: walker(number % 4) for number in range(6, 10)}
    first, second = groups(cells, 10)
    assert (first.name, second.name) == ("row00-0", "row00-1")
    assert (len(first.frames), len(second.frames)) == (4, 4)
    assert "gap" in second.reason


def test_other_colours_split_a_row():
    cells = {number: walker(number % 4) for number in range(4)}
    green = (20, 160, 60, 255)
    for number in range(4, 8):
        art = np.zeros((CELL, CELL, 4), np.uint8)
        art[4:16, 3 + number - 4 : 15 + number - 4] = green
        cells[number] = art
    assert named(groups(cells, 8)) == {"row00-0": 4, "row00-1": 4}


def test_things_unlike_each_other_stay_together_as_singles():
    draw = np.random.default_rng(3)
    cells = {}
    for number in range(6):
        art = np.zeros((CELL, CELL, 4), np.uint8)
        art[3:17, 3:17] = (*draw.integers(0, 256, 3), 255)
        cells[number] = art
    (group,) = groups(cells, 6)
    assert (group.alike, len(group.frames)) == (False, 6)
    assert "unlike" in group.reason


@pytest.mark.parametrize(("flip", "code"), [(np.fliplr, 1), (np.flipud, 2), (lambda a: a[::-1, ::-1], 3)])
def test_a_mirrored_row_says_which_it_mirrors(flip, code):
    cells = {number: walker(number) for number in range(4)}
    cells |= {number + 4: flip(walker(number)) for number in range(4)}
    first, second = groups(cells, 4)
    assert (first.mirrors, first.flip) == ("", 0)
    assert (second.mirrors, second.flip) == ("row00", code)


def test_frames_of_islands_are_grouped_by_rows_too():
    cells = {number: walker(number % 4) for number in range(8)}
    pixels = sheet(cells, 4)
    cut = cut_sheet(pixels, SliceOptions(merge_px=1), method="islands")
    found = group_frames(pixels, cut)
    assert [len(group.frames) for group in found] == [4, 4]


def test_every_frame_is_in_one_group():
    draw = np.random.default_rng(9)
    cells = {int(n): glow(int(n) % 24) for n in draw.choice(60, 40, replace=False)}
    found = groups(cells, 10)
    assert sorted(index for group in found for index in group.frames) == list(range(40))
    assert len({group.name for group in found}) == len(found)


def test_no_frames_no_groups():
    pixels = np.zeros((CELL, CELL, 4), np.uint8)
    cut = cut_sheet(pixels, SliceOptions(cell=(CELL, CELL)), method="cells")
    assert group_frames(pixels, cut) == ()


def test_a_frame_alone_in_its_row_is_an_animation_of_one_step():
    cells = {number: walker(number % 4) for number in range(4)} | {4: walker(0, GOLD)}
    found = groups(cells, 4)
    assert named(found) == {"row00": 4, "row01": 1}
    assert found[1].alike
    assert "alone in its row" in found[1].reason


def test_a_column_of_single_frames_is_read_as_a_row():
    (group,) = groups({number: walker(number % 4) for number in range(4)}, 1)
    assert group.alike
    assert group.frames == (0, 1, 2, 3)

"""Pictures of what changed: marks where they belong, numbers that can be read, equal frames dimmed."""

import numpy as np
import pytest

from scenekit.slicing.changes import LOOKS, MARGIN_PX, draw_changes
from scenekit.slicing.marks import PATTERNS, canvas, draw_box, draw_number
from scenekit.slicing.reimport import KINDS, Match


def has(picture, colour):
    return bool((picture[..., :3] == colour).all(axis=2).any())


def plain(width=40, height=20):
    return np.full((height, width, 4), 255, np.uint8)


def test_every_kind_but_same_has_a_look_of_its_own():
    assert set(LOOKS) == set(KINDS) - {"same"}
    assert len(set(LOOKS.values())) == len(LOOKS)


@pytest.mark.parametrize("kind", LOOKS)
def test_a_change_is_marked_on_the_sheets_that_show_it(kind):
    old = None if kind == "new" else (4, 4, 8, 8)
    new = None if kind == "gone" else (20, 4, 8, 8)
    match = Match(name="a", kind=kind, old=old, new=new)
    picture = draw_changes(plain(), plain(), [match], scale=1)
    assert picture.shape == (2 * (20 + 2 * MARGIN_PX), 40 + 2 * MARGIN_PX, 4)
    assert (picture[..., 3] == 255).all()
    half = picture.shape[0] // 2
    colour = LOOKS[kind][0]
    assert has(picture[:half], colour) == (old is not None)
    assert has(picture[half:], colour) == (new is not None)


def test_sheets_higher_than_wide_stand_side_by_side():
    picture = draw_changes(plain(10, 40), plain(10, 60), [], scale=2)
    assert picture.shape == (120 + 2 * MARGIN_PX, 2 * (20 + 2 * MARGIN_PX), 4)


def test_equal_frames_are_dimmed_and_others_are_not():
    same = Match(name="a", kind="same", old=(0, 0, 20, 20), new=(0, 0, 20, 20))
    picture = draw_changes(plain(), plain(), [same], scale=1)
    assert picture[MARGIN_PX + 5, MARGIN_PX + 5, 0] < 160
    assert picture[MARGIN_PX + 5, MARGIN_PX + 25, 0] == 255


def test_sheets_are_not_written_to():
    sheet = plain()
    draw_changes(sheet, sheet, [Match(name="a", kind="moved", old=(0, 0, 9, 9), new=(9, 9, 9, 9))])
    assert (sheet == 255).all()


@pytest.mark.parametrize("pattern", PATTERNS)
def test_lines_stay_outside_the_box_and_on_the_picture(pattern):
    picture = plain(12, 12)
    draw_box(picture, (3, 3, 6, 6), (1, 2, 3), pattern)
    assert (picture[3:9, 3:9] == 255).all()
    assert has(picture, (1, 2, 3))
    draw_box(picture, (-4, -4, 40, 40), (5, 6, 7), pattern)
    draw_box(picture, (-5, 2, 6, 30), (5, 6, 7), pattern, 2)


def test_numbers_are_legible_dots():
    picture = plain(20, 9)
    draw_number(picture, (0, 0), 17, (255, 255, 0))
    lit = (picture[..., :3] == (255, 255, 0)).all(axis=2)
    rows = ["".join("#" if dot else "." for dot in row[:9]) for row in lit[:7]]
    assert rows == [
        ".........",
        "..#..###.",
        ".##....#.",
        "..#...#..",
        "..#...#..",
        ".###..#..",
        ".........",
    ]
    draw_number(picture, (500, 500), 8, (255, 0, 0))
    assert has(picture, (255, 0, 0))
    draw_number(plain(2, 2), (0, 0), 123, (9, 9, 9))


def test_clear_parts_show_a_check():
    board = canvas(np.zeros((16, 16, 4), np.uint8), 1)
    assert len(np.unique(board.reshape(-1, 4), axis=0)) == 2
    half = np.full((8, 8, 4), 200, np.uint8)
    half[..., 3] = 128
    mixed = canvas(half, 1)
    assert ((mixed[..., 0] > 120) & (mixed[..., 0] < 200)).all()

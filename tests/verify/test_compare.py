"""Screens are compared exactly, and a picture shows where they differ."""

import numpy as np

from scenekit.verify.compare import GAP_PX, compare_screen, difference_picture


def grey(height=6, width=9, value=100):
    return np.full((height, width, 3), value, dtype=np.uint8)


def test_equal_screens():
    result = compare_screen(4, grey(), grey())
    assert (result.tick, result.pixels, result.different, result.box) == (4, 54, 0, None)


def test_one_channel_of_one_pixel_is_a_difference():
    got = grey()
    got[2, 5, 1] += 1
    result = compare_screen(0, grey(), got)
    assert (result.different, result.box) == (1, (5, 2, 1, 1))


def test_the_box_holds_all_differences():
    got = grey()
    got[1, 2] = 0
    got[4, 7] = 0
    result = compare_screen(0, grey(), got)
    assert (result.different, result.box) == (2, (2, 1, 6, 4))


def test_another_size_differs_everywhere():
    result = compare_screen(0, grey(), grey(5, 9))
    assert (result.different, result.box) == (54, (0, 0, 9, 6))


def test_the_picture_shows_wanted_got_and_where():
    wanted, got = grey(), grey()
    got[2, 5] = (1, 2, 3)
    picture = difference_picture(wanted, got)
    assert picture.shape == (6, 3 * 9 + 2 * GAP_PX, 3)
    assert np.array_equal(picture[:, :9], wanted)
    assert np.array_equal(picture[:, 9 + GAP_PX : 18 + GAP_PX], got)
    marked = picture[:, 18 + 2 * GAP_PX :]
    assert (marked[2, 5] == 255).all()
    assert (marked == 255).all(axis=-1).sum() == 1
    assert (marked[2, 4] == 0).all()


def test_the_picture_of_another_size():
    picture = difference_picture(grey(), grey(4, 5))
    assert picture.shape == (6, 9 + 5 + 9 + 2 * GAP_PX, 3)

"""Pivots on the foot line."""

import numpy as np
import pytest

from scenekit.sprites.pivots import foot_line_pivots


def sheet(*figures, cell=(16, 20)):
    """Put figures (foot row, left foot, right foot) into cells side by side."""
    mask = np.zeros((cell[1], cell[0] * len(figures)), bool)
    boxes = []
    for number, (foot, left, right) in enumerate(figures):
        x = number * cell[0]
        mask[2 : foot - 3, x + 4 : x + 12] = True
        mask[foot - 3 : foot + 1, [x + left, x + right]] = True
        boxes.append((x, 0, *cell))
    return mask, boxes


def test_frames_in_cells_share_the_line_most_of_them_stand_on():
    mask, boxes = sheet((18, 5, 9), (18, 6, 10), (12, 1, 3), (18, 5, 11))
    assert foot_line_pivots(mask, boxes) == ((8, 18),) * 4


def test_a_pole_to_one_side_does_not_pull_the_pivot():
    mask, boxes = sheet((18, 5, 9))
    mask[4, 10:16] = True
    assert foot_line_pivots(mask, boxes) == ((7, 18),)


def test_of_two_lines_as_common_the_lower_counts():
    mask, boxes = sheet((15, 5, 9), (18, 6, 8))
    assert foot_line_pivots(mask, boxes) == ((7, 18), (7, 18))


def test_tight_frames_get_each_their_own():
    mask, boxes = sheet((18, 5, 9), (12, 6, 11))
    tight = [(4, 2, 8, 17), (16 + 4, 2, 8, 11)]
    assert foot_line_pivots(mask, tight) == ((3, 16), (4, 10))
    assert foot_line_pivots(mask, boxes, shared=False) == ((7, 18), (8, 12))


def test_frames_without_art():
    assert foot_line_pivots(np.zeros((20, 32), bool), [(0, 0, 16, 20)]) == ((7, 19),)
    assert foot_line_pivots(np.zeros((20, 32), bool), []) == ()
    mask, boxes = sheet((18, 5, 9), (18, 5, 9))
    mask[:, :16] = False
    assert foot_line_pivots(mask, boxes) == ((7, 18), (7, 18))


def test_sizes_that_differ_cannot_share():
    with pytest.raises(ValueError, match="several sizes"):
        foot_line_pivots(np.zeros((20, 32), bool), [(0, 0, 16, 20), (0, 0, 8, 8)], shared=True)

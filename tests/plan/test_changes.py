"""Boxes of a picture that are drawn anew."""

import random

import numpy as np
import pytest

from scenekit.plan.changes import MOST_BOXES, Boxes, Seen, changes, edges, meet, plane_box

VIEW = (40, 24)


def seen(x: int, y: int, w: int, h: int, look: int = 0) -> Seen:
    return Seen(box=(x, y, w, h), piece=0, flip=0, look=look)


def test_a_picture_that_moves_right_shows_new_columns() -> None:
    """Moved by 3 px to the right and 2 up: 3 columns on the right, 2 rows at the top."""
    found = changes(VIEW, (3, -2), ())
    assert not found.whole
    assert found.boxes == ((37, 0, 3, 24), (0, 0, 40, 2))
    assert edges(VIEW, (-4, 5)) == [(0, 0, 4, 24), (0, 19, 40, 5)]


def test_a_sprite_that_stands_in_the_world_moves_along() -> None:
    assert changes(VIEW, (3, 0), [(seen(20, 5, 6, 6), seen(17, 5, 6, 6))]).boxes == ((37, 0, 3, 24),)
    other = changes(VIEW, (3, 0), [(seen(20, 5, 6, 6), seen(17, 5, 6, 6, look=4))])
    assert other.boxes == ((37, 0, 3, 24), (17, 5, 6, 6))


def test_old_and_new_place_are_one_box_where_that_is_no_larger() -> None:
    assert changes(VIEW, (0, 0), [(seen(10, 5, 6, 6), seen(12, 5, 6, 6))]).boxes == ((10, 5, 8, 6),)
    far = changes(VIEW, (0, 0), [(seen(1, 1, 3, 3), seen(30, 18, 3, 3))])
    assert set(far.boxes) == {(1, 1, 3, 3), (30, 18, 3, 3)}


def test_everything_is_drawn_when_planes_part_or_too_much_changed() -> None:
    assert changes(VIEW, None, ()).whole
    assert changes(VIEW, (40, 0), ()).whole
    assert changes(VIEW, (31, 0), ()).whole
    many = [(seen(x, y, 1, 1), seen(x + 2, y, 1, 1)) for x in range(0, 36, 6) for y in range(0, 24, 4)]
    assert len(many) * 2 > MOST_BOXES
    assert changes(VIEW, (0, 0), many).whole


def test_planes_that_move_apart_are_drawn_where_they_were_and_are() -> None:
    """A hill of 10 x 6 px at 4, 8 of its picture, scrolled on by 3 px to 5: its rows, 3 px wider."""
    once, repeats = (False, False), (True, False)
    assert plane_box(VIEW, (4, 8, 10, 6), once, (5, 0), (3, 0)) == (-1, 8, 13, 6)
    assert plane_box(VIEW, (4, 8, 10, 6), once, (5, 0), (-3, 2)) == (-4, 8, 13, 8)
    assert plane_box(VIEW, (4, 8, 10, 6), repeats, (5, 2), (3, -1)) == (0, 5, 40, 7)
    found = changes(VIEW, (0, 0), (), [(0, 4, 40, 7)])
    assert (found.boxes, found.apart, found.whole) == (((0, 4, 40, 7),), True, False)
    assert changes(VIEW, (0, 0), (), [(0, 4, 40, 19)]).whole


@pytest.mark.parametrize("seed", range(200))
def test_boxes_cover_all_that_was_added(seed: int) -> None:
    chosen = random.Random(seed)
    boxes, wanted = Boxes(VIEW), np.zeros((VIEW[1], VIEW[0]), dtype=bool)
    for _ in range(chosen.randint(0, 12)):
        x, y = chosen.randint(-9, 45), chosen.randint(-9, 28)
        w, h = chosen.randint(0, 14), chosen.randint(0, 14)
        boxes.add((x, y, w, h))
        wanted[max(0, y) : max(0, y + h), max(0, x) : max(0, x + w)] = True
    got = np.zeros_like(wanted)
    for x, y, w, h in boxes.found:
        assert 0 <= x < x + w <= VIEW[0]
        assert 0 <= y < y + h <= VIEW[1]
        got[y : y + h, x : x + w] = True
    assert not np.any(wanted & ~got)
    assert not boxes.full
    for a, b in zip(boxes.found, boxes.found[1:], strict=False):
        assert a != b
        assert meet(a, b) == bool(
            np.any(_mask(a) & _mask(b)),
        )


def _mask(box: tuple[int, int, int, int]) -> np.ndarray:
    mask = np.zeros((VIEW[1], VIEW[0]), dtype=bool)
    mask[box[1] : box[1] + box[3], box[0] : box[0] + box[2]] = True
    return mask

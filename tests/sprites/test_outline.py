"""Outlines as spans, against masks looked at pixel by pixel."""

from itertools import pairwise

import numpy as np
import pytest

from scenekit.sprites.outline import outline, touch
from scenekit.symmetry.flips import flip_picture

ART = np.array([[c == "#" for c in line] for line in ["..#..", ".#.#.", ".....", "#...."]])


def filled(spans):
    """Return the mask that spans cover."""
    mask = np.zeros((len(spans.spans), spans.width), bool)
    for row, (left, length) in enumerate(spans.spans):
        mask[row, left : left + length] = True
    return mask


def masks(count, share=0.15):
    draw = np.random.default_rng(5)
    return [draw.random((draw.integers(1, 9), draw.integers(1, 11))) < share for _ in range(count)]


def test_spans_run_from_first_to_last_pixel():
    found = outline(ART)
    assert found.spans == ((2, 1), (1, 3), (0, 0), (0, 1))
    assert found.filled == 1
    assert [found.covers(x, 1) for x in range(5)] == [False, True, True, True, False]
    assert not found.covers(0, 4)
    assert not found.covers(0, -1)


@pytest.mark.parametrize("flip", [0, 1, 2, 3])
def test_flipped_outlines_are_outlines_of_flipped_masks(flip):
    for mask in [ART, *masks(50)]:
        assert outline(mask).flipped(flip) == outline(np.ascontiguousarray(flip_picture(mask, flip)))


def test_spans_hold_all_art_and_nothing_beyond_it():
    for mask in masks(100):
        found = outline(mask)
        whole = filled(found)
        assert (whole | mask == whole).all()
        assert found.filled == (whole & ~mask).sum()
        for row, (left, length) in enumerate(found.spans):
            assert not length or (mask[row, left] and mask[row, left + length - 1])


def test_touching_agrees_with_painting_both():
    pieces = masks(40, 0.3)
    answers = set()
    for first, second in pairwise(pieces):
        for y in range(-9, 10, 2):
            for x in range(-11, 12, 2):
                canvas = np.zeros((40, 50), int)
                for mask, (left, top) in (
                    (filled(outline(first)), (15, 15)),
                    (filled(outline(second)), (15 + x, 15 + y)),
                ):
                    canvas[top : top + mask.shape[0], left : left + mask.shape[1]] += mask
                answer = touch(outline(first), outline(second), (x, y))
                assert answer == (canvas == 2).any()
                answers.add(answer)
    assert answers == {True, False}

"""Trimming, pivots and hit boxes."""

import numpy as np
import pytest
from PIL import Image

from scenekit.sprites import trim


def picture(width, height, *boxes):
    pixels = np.zeros((height, width, 4), np.uint8)
    for x, y, w, h in boxes:
        pixels[y : y + h, x : x + w] = (9, 8, 7, 1)
    return pixels


def test_content_box_is_pillows_alpha_bounding_box():
    # source: PIL.Image.Image.getbbox, "bounding box of the non-zero regions", an outside implementation
    draw = np.random.default_rng(12)
    for _ in range(200):
        mask = draw.random((13, 17)) < 0.02
        image = Image.fromarray(mask.astype(np.uint8) * 255)
        box = image.getbbox()
        expected = None if box is None else (box[0], box[1], box[2] - box[0], box[3] - box[1])
        assert trim.content_box(mask) == expected
        pixels = np.zeros((13, 17, 4), np.uint8)
        pixels[..., 3] = mask
        assert trim.content_box(pixels) == expected


def test_trim_keeps_where_things_were():
    pixels = picture(40, 30, (20, 5, 6, 9))
    cut = trim.trim(pixels, (16, 0, 16, 16))
    assert cut == trim.Trim(box=(20, 5, 6, 9), offset=(4, 5))
    assert cut.moved((8, 15)) == (4, 10)
    assert cut.moved((0, 0)) == (-4, -5)
    assert cut.moved_box((5, 6, 3, 3)) == (1, 1, 3, 3)
    assert trim.trim(pixels).box == (20, 5, 6, 9)
    assert trim.trim(pixels, (0, 0, 16, 16)) is None


@pytest.mark.parametrize("box", [(-1, 0, 4, 4), (0, 0, 0, 4), (37, 0, 4, 4), (0, 27, 4, 4)])
def test_boxes_off_the_picture(box):
    with pytest.raises(ValueError, match="leaves the picture"):
        trim.trim(picture(40, 30), box)


@pytest.mark.parametrize(
    ("content", "pivot"),
    [
        ((2, 3, 5, 6), (4, 8)),
        ((2, 3, 4, 6), (3, 8)),
        ((0, 0, 1, 1), (0, 0)),
        (None, (7, 15)),
    ],
)
def test_default_pivot_is_the_middle_of_the_foot_line(content, pivot):
    moved = None if content is None else (content[0] + 100, content[1] + 50, *content[2:])
    assert trim.default_pivot((100, 50, 16, 16), moved) == pivot


def test_hit_box_shrinks_and_never_vanishes():
    assert trim.default_hit_box((10, 10, 16, 16), (12, 13, 8, 9)) == (2, 3, 8, 9)
    assert trim.default_hit_box((10, 10, 16, 16), (12, 13, 8, 9), (1, 2)) == (3, 5, 6, 5)
    assert trim.default_hit_box((10, 10, 16, 16), (12, 13, 8, 9), (99, 99)) == (5, 7, 2, 1)
    assert trim.default_hit_box((10, 10, 16, 16), None) == (0, 0, 16, 16)
    with pytest.raises(ValueError, match="negative"):
        trim.default_hit_box((0, 0, 4, 4), None, (-1, 0))

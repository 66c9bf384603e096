"""Backgrounds, art and content boxes."""

import numpy as np

from scenekit.slicing import art
from scenekit.slicing.cut import Background

KEY = (255, 0, 255)


def sheet(height=4, width=6, colour=(1, 2, 3, 255)):
    pixels = np.zeros((height, width, 4), np.uint8)
    pixels[:] = colour
    return pixels


def test_background():
    opaque = sheet()
    assert art.background(opaque) == Background(kind="none")
    assert art.background(opaque, (KEY,)) == Background(kind="key", colours=(KEY,))
    keyed = sheet()
    keyed[0, 0, :3] = KEY
    assert art.background(keyed, (KEY, (9, 9, 9))) == Background(kind="key", colours=(KEY,))
    clear = sheet()
    clear[0, 0] = 0
    assert art.background(clear) == Background(kind="alpha")
    assert art.background(clear, (KEY,)) == Background(kind="alpha")
    assert art.background(sheet(colour=(1, 2, 3, 1))) == Background(kind="none")


def test_art_is_alpha_above_zero_and_no_opaque_key():
    pixels = sheet(1, 4, (0, 0, 0, 0))
    pixels[0, 1] = (5, 5, 5, 1)
    pixels[0, 2] = (*KEY, 255)
    pixels[0, 3] = (*KEY, 254)
    assert art.art_mask(pixels, (KEY,)).tolist() == [[False, True, False, True]]
    assert art.art_mask(pixels[:, ::-1], (KEY,)).tolist() == [[True, False, True, False]]


def test_content_box_against_all_pixels_looked_at_singly():
    draw = np.random.default_rng(8)
    for _ in range(200):
        mask = draw.random((9, 11)) < 0.05
        x, y = (int(v) for v in draw.integers(0, 6, 2))
        box = (x, y, int(draw.integers(1, 12 - x)), int(draw.integers(1, 10 - y)))
        spots = [(i, j) for j in range(y, y + box[3]) for i in range(x, x + box[2]) if mask[j, i]]
        expected = None
        if spots:
            left, top = min(i for i, _ in spots), min(j for _, j in spots)
            expected = (
                left,
                top,
                max(i for i, _ in spots) + 1 - left,
                max(j for _, j in spots) + 1 - top,
            )
        assert art.content_box(mask, box) == expected

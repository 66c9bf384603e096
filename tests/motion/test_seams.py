"""Seams of wrapping pictures, on pictures made so that the answer is known."""

import numpy as np
import pytest

from scenekit.motion.seams import MARK, check_seam, quieter_trims, seam_picture


def waves(width: int, period: float, height: int = 8) -> np.ndarray:
    level = np.round(127 + 100 * np.sin(2 * np.pi * np.arange(width) / period)).astype(np.uint8)
    picture = np.full((height, width, 4), 255, dtype=np.uint8)
    picture[..., :3] = level[None, :, None]
    return picture


def test_whole_waves_have_no_seam_and_cut_ones_have() -> None:
    assert not check_seam(waves(128, 32)).visible
    cut = check_seam(waves(136, 32))
    assert cut.visible
    assert cut.figure > 4


def test_up_and_down_is_the_same_turned() -> None:
    picture = waves(136, 32)
    turned = picture.swapaxes(0, 1)
    assert check_seam(turned, axis=1) == check_seam(picture, axis=0)
    assert not check_seam(turned, axis=0).visible


def test_trimming_to_whole_waves_is_offered() -> None:
    trims = quieter_trims(waves(136, 32))
    assert trims
    assert [trim.lines for trim in trims] == sorted(trim.lines for trim in trims)
    best = trims[-1]
    assert 6 <= best.lines <= 10
    assert not best.seam.visible
    assert best.seam == check_seam(waves(136 - best.lines, 32)) or best.seam.step < 5
    assert quieter_trims(waves(128, 32, height=1)[:, :1]) == ()


def test_colour_under_no_alpha_does_not_count() -> None:
    picture = waves(136, 32)
    picture[..., 3] = 0
    assert check_seam(picture).step == 0


def test_hard_art_is_judged_in_its_own_terms() -> None:
    """Stripes of two pixels step as hard inside as at the edge, so no seam stands out."""
    picture = np.full((8, 64, 4), 255, dtype=np.uint8)
    picture[:, ::4, :3] = 0
    picture[:, 1::4, :3] = 0
    assert not check_seam(picture).visible


@pytest.mark.parametrize("axis", [0, 1])
def test_picture_shows_the_seam_in_its_middle(axis: int) -> None:
    picture = waves(100, 25, height=60)
    shown = seam_picture(picture, axis)
    assert shown.shape == picture.shape
    assert not shown.flags.writeable
    if axis == 0:
        assert tuple(shown[0, 50]) == MARK
        assert np.array_equal(shown[30, 51], picture[30, 1])
        assert np.array_equal(shown[30, 49], picture[30, 99])
    else:
        assert tuple(shown[30, 0]) == MARK
        assert np.array_equal(shown[31, 50], picture[1, 50])


def test_smallest_pictures() -> None:
    for shape in ((1, 1), (1, 2), (2, 1)):
        picture = np.zeros((*shape, 4), dtype=np.uint8)
        assert check_seam(picture).step == 0
        assert seam_picture(picture).shape == (*shape, 4)
        assert quieter_trims(picture) == ()


def test_half_transparent_edge_counts_half() -> None:
    """Edge lines 200 and 0 at full alpha differ by 200; at alpha 128 by 100 (200 x 128 / 255 = 100.4)."""
    picture = np.zeros((4, 20, 4), dtype=np.uint8)
    picture[..., 3] = 255
    picture[:, 0, :3] = 200
    assert check_seam(picture).step == 150  # three channels of 200, alpha equal
    picture[..., 3] = 128
    assert check_seam(picture).step == 75


def test_usual_step_is_that_of_nine_lines_in_ten() -> None:
    """Nineteen steps of 40 in three of four channels and one of 160: the usual one is 30, the seam 150."""
    picture = np.zeros((4, 21, 4), dtype=np.uint8)
    picture[..., 3] = 255
    picture[:, 1::2, :3] = 40
    picture[:, 20, :3] = 200
    seam = check_seam(picture)
    assert (seam.usual, seam.step, seam.figure, seam.visible) == (30, 150, 5, True)

"""Dither: what it must leave alone, what stays still, and how near the mean comes."""

import numpy as np
import pytest

from scenekit.colour.clusters import nearest
from scenekit.colour.depth import parse
from scenekit.colour.dither import Dither, dither_reduction, dithered, threshold_matrix
from scenekit.colour.fixed_oklab import LINEAR_ONE, bytes_to_linear_fixed, linear_to_fixed
from scenekit.colour.quantise import reduce_pictures
from scenekit.colour.space import bytes_to_linear
from scenekit.errors import PaletteError

TRUE = parse("8-8-8")
KINDS = ("ordered", "diffusion")


def sky(height: int = 64, width: int = 96) -> np.ndarray:
    y, x = np.mgrid[:height, :width]
    channels = 40 + x * 160 // width, 30 + y * 120 // height, 90 + (x + y) * 60 // (height + width)
    return np.dstack([*channels, np.full_like(x, 255)]).astype(np.uint8)


def test_matrix_is_bayers():
    # the 4 x 4 matrix as in Bayer 1973 (from memory)
    four = [[0, 8, 2, 10], [12, 4, 14, 6], [3, 11, 1, 9], [15, 7, 13, 5]]
    assert (threshold_matrix()[:4, :4] // 4 == np.array(four)).all()
    assert sorted(threshold_matrix().ravel().tolist()) == list(range(64))


@pytest.mark.parametrize("kind", KINDS)
def test_the_mean_comes_nearer(kind):
    art = sky()
    flat = reduce_pictures([art], entries=12, depth=TRUE)
    mixed = dither_reduction([art], flat, Dither(kind=kind))

    def blocks(rgb: np.ndarray) -> np.ndarray:
        return bytes_to_linear(rgb).reshape(8, 8, 12, 8, 3).mean(axis=(1, 3))

    wanted = blocks(art[..., :3])
    errors = [np.abs(blocks(part.palette[part.indices[0]]) - wanted).mean() for part in (flat, mixed)]
    assert errors[1] < errors[0] * 0.7
    assert sum(mixed.counts) == art.shape[0] * art.shape[1]
    assert (mixed.palette == flat.palette).all()


@pytest.mark.parametrize("kind", KINDS)
def test_transparent_and_locked_pixels_stay(kind):
    art = sky()
    art[10:20, 10:30, 3] = 0
    art[30:40, 30:50, :3] = (1, 2, 3)
    flat = reduce_pictures([art], entries=8, depth=TRUE, transparent=2, locked={7: (1, 2, 3)})
    mixed = dither_reduction([art], flat, Dither(kind=kind)).indices[0]
    for entry in (2, 7):
        assert ((mixed == entry) == (flat.indices[0] == entry)).all()
    assert (mixed != flat.indices[0]).any()


@pytest.mark.parametrize("kind", KINDS)
def test_colours_of_the_palette_stay_whole(kind):
    art = np.random.default_rng(1).integers(0, 256, (7, 4), dtype=np.uint8)[
        np.random.default_rng(2).integers(0, 7, (20, 20))
    ]
    art[..., 3] = 255
    flat = reduce_pictures([art], entries=8, depth=TRUE)
    assert (dither_reduction([art], flat, Dither(kind=kind)).indices[0] == flat.indices[0]).all()


def test_ordered_stays_still_under_animation_and_tile_sharing():
    art = sky()
    later = art.copy()
    later[20:30, 40:50, :3] = (250, 240, 10)
    flat = reduce_pictures([art, later], entries=10, depth=TRUE)
    one, two = dither_reduction([art, later], flat, Dither(kind="ordered")).indices
    changed = (art != later).any(axis=2)
    assert (one[~changed] == two[~changed]).all()
    tile = sky(16, 16)
    wall = np.tile(tile, (3, 4, 1))
    both = reduce_pictures([tile, wall], entries=6, depth=TRUE)
    small, large = dither_reduction([tile, wall], both, Dither(kind="ordered")).indices
    assert (np.tile(small, (3, 4)) == large).all()


@pytest.mark.parametrize("kind", KINDS)
def test_no_strength_is_flat(kind):
    art = sky()
    flat = reduce_pictures([art], entries=8, depth=TRUE)
    assert dither_reduction([art], flat, Dither(kind=kind, strength_percent=0)) is flat
    assert dither_reduction([art], flat, Dither(kind="none")) is flat
    half = dither_reduction([art], flat, Dither(kind=kind, strength_percent=40)).indices[0]
    full = dither_reduction([art], flat, Dither(kind=kind)).indices[0]
    moved = [(part != flat.indices[0]).sum() for part in (half, full)]
    assert 0 < moved[0] < moved[1]


def test_diffusion_agrees_with_a_plain_scan():
    rng = np.random.default_rng(3)
    art = np.dstack(
        [rng.integers(0, 256, (9, 13, 3), dtype=np.uint8), rng.integers(0, 256, (9, 13), np.uint8)]
    )
    flat = reduce_pictures([art], entries=6, depth=TRUE)
    got = dithered(art, flat.indices[0], flat.palette, flat.open_entries, Dither(kind="diffusion"))
    entries = np.array(flat.open_entries)
    shown = bytes_to_linear_fixed(flat.palette)
    wanted = bytes_to_linear_fixed(art[..., :3])
    plain = flat.indices[0].copy()
    for y in range(9):
        for x in range(13):
            if art[y, x, 3] < 128:
                continue
            colour = np.clip(wanted[y, x], 0, LINEAR_ONE)
            entry = entries[nearest(linear_to_fixed(colour[None]), linear_to_fixed(shown[entries]))[0]]
            plain[y, x] = entry
            error = colour - shown[entry]
            for down, across, part in ((0, 1, 7), (1, -1, 3), (1, 0, 5), (1, 1, 1)):
                if y + down < 9 and 0 <= x + across < 13:
                    wanted[y + down, x + across] += error * part >> 4
    assert (got == plain).all()


def test_one_open_entry_and_empty_pictures():
    art = np.zeros((3, 3, 4), dtype=np.uint8)
    flat = reduce_pictures([art], entries=2, depth=TRUE)
    for kind in KINDS:
        assert (dither_reduction([art], flat, Dither(kind=kind)).indices[0] == 0).all()


@pytest.mark.parametrize("options", [{"kind": "wavy"}, {"strength_percent": 101}, {"strength_percent": -1}])
def test_impossible_dither_is_refused(options):
    with pytest.raises(PaletteError, match="dither"):
        Dither(**options)

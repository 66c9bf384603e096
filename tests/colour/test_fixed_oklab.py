"""Whole-number Oklab against the exact one, and its constants against their origin."""

import numpy as np

from scenekit.colour import fixed_oklab, space


def test_near_the_exact_values():
    grid = np.arange(0, 256, 5, dtype=np.uint8)
    rgb = np.stack(np.meshgrid(grid, grid, grid, indexing="ij"), axis=-1).reshape(-1, 3)
    fixed = fixed_oklab.bytes_to_fixed(rgb)
    assert fixed.dtype == np.int64
    assert np.abs(fixed - space.bytes_to_oklab(rgb) * fixed_oklab.ONE).max() < 3
    back = fixed_oklab.fixed_to_bytes(fixed)
    apart = np.abs(back.astype(int) - rgb)
    assert apart.max() <= 1
    assert (apart > 0).any(axis=1).mean() < 0.001


def test_greys_stay_neutral():
    grey = np.repeat(np.arange(256, dtype=np.uint8)[:, None], 3, axis=1)
    fixed = fixed_oklab.bytes_to_fixed(grey)
    assert (fixed[:, 1:] == 0).all()
    assert fixed[255, 0] == fixed_oklab.ONE
    assert (fixed_oklab.fixed_to_bytes(fixed) == grey).all()


def test_out_of_range_is_clipped():
    wild = np.array([[1 << 20, 0, 0], [-(1 << 20), 0, 0], [1 << 15, 1 << 16, -(1 << 16)]])
    assert fixed_oklab.fixed_to_bytes(wild)[:2].tolist() == [[255] * 3, [0] * 3]


def test_constants_come_from_the_published_matrices():
    to_lms = space.XYZ_TO_LMS @ space.SRGB_TO_XYZ
    for whole, real, scale in (
        (fixed_oklab._TO_LMS, to_lms, 2**26),
        (fixed_oklab._FROM_LMS, np.linalg.inv(to_lms), 2**26),
        (fixed_oklab._TO_OKLAB, space.LMS_TO_OKLAB, 2**24),
        (fixed_oklab._FROM_OKLAB, np.linalg.inv(space.LMS_TO_OKLAB), 2**24),
    ):
        assert np.abs(whole - real * scale).max() <= 1
    assert fixed_oklab._TO_LMS.sum(axis=1).tolist() == [2**26] * 3
    assert fixed_oklab._TO_OKLAB.sum(axis=1).tolist() == [2**24, 0, 0]


def test_table_values_are_far_from_rounding_borders():
    # a last-digit difference of a power function elsewhere cannot change a whole number
    borders = space.srgb_to_linear((np.arange(255) + 0.5) / 255)
    for table in (space.LINEAR_OF_BYTE, borders):
        part = (table * fixed_oklab.LINEAR_ONE) % 1
        assert np.abs(part - 0.5).min() > 1e-6


def test_cube_roots_are_nearest():
    values = np.concatenate([np.arange(2000), np.arange(1, 65537, 97) ** 3 // 3, [2**48]])
    roots = fixed_oklab._whole_cube_root(values)
    for value, root in zip(values.tolist(), roots.tolist(), strict=True):
        assert (2 * root - 1) ** 3 <= 8 * value < (2 * root + 1) ** 3 or value == root == 0

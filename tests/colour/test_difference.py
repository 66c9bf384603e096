"""CIEDE2000 against the published pairs."""

import numpy as np
import pytest

from scenekit.colour.difference import byte_difference, ciede2000


def test_published_pairs(reference):
    rows = reference("ciede2000_pairs")
    assert len(rows) == 34
    first = np.array([[float(row[key]) for key in ("L1", "a1", "b1")] for row in rows])
    second = np.array([[float(row[key]) for key in ("L2", "a2", "b2")] for row in rows])
    wanted = np.array([float(row["dE00_published"]) for row in rows])
    assert ciede2000(first, second) == pytest.approx(wanted, abs=1e-4)
    assert ciede2000(second, first) == pytest.approx(wanted, abs=1e-4)
    exact = np.array([float(row["dE00_exact_formula"]) for row in rows])
    assert ciede2000(first, second) == pytest.approx(exact, abs=1e-8)


def test_shapes_broadcast():
    palette = np.zeros((5, 3), dtype=np.uint8)
    picture = np.full((2, 3, 1, 3), 255, dtype=np.uint8)
    assert byte_difference(picture, palette).shape == (2, 3, 5)
    assert byte_difference(picture, palette) == pytest.approx(100, abs=1e-6)


def test_equal_colours_do_not_differ():
    rgb = np.random.default_rng(2).integers(0, 256, (200, 3), dtype=np.uint8)
    assert (byte_difference(rgb, rgb) == 0).all()

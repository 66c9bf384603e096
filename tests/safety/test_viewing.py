"""The 10 degree field against WCAG's own figures."""

import numpy as np
import pytest

from scenekit.errors import MachineError
from scenekit.safety.viewing import Field, Viewing, field_of, largest_share

INCH_MM = 25.4


def test_unknown_size_is_wcags_usual_screen():
    # WCAG 2.2: 341 x 256 pixels at 1024 x 768; a quarter is 21 824 pixels
    field = field_of(1024, 768)
    assert (field.width_px, field.height_px, field.limit_px) == (341, 256, 21824)


@pytest.mark.parametrize(
    ("diagonal_inch", "width_px", "height_px", "distance_inch", "wide", "high", "limit"),
    [
        # WCAG 2.2, understanding 2.3.1: distance x 0.1745 and x 0.1309; computed
        (17, 1024, 768, 26, 341.674, 256.255, 21888.9),
        (24, 1920, 1080, 28, 448.560, 336.420, 37726.1),
    ],
)
def test_known_displays(diagonal_inch, width_px, height_px, distance_inch, wide, high, limit):
    scale = diagonal_inch * INCH_MM / np.hypot(width_px, height_px)
    viewing = Viewing(
        width_mm=width_px * scale, height_mm=height_px * scale, distance_mm=distance_inch * INCH_MM
    )
    field = field_of(width_px, height_px, viewing)
    # those figures take 7.5 degrees for the height: three quarters of the width
    assert field.width_px == pytest.approx(wide, abs=0.2)
    assert field.height_px == pytest.approx(high, abs=0.2)
    assert field.limit_px == pytest.approx(limit, rel=1e-3)


def test_the_fullest_place_is_found():
    rng = np.random.default_rng(3)
    for _ in range(20):
        flashing = rng.random((30, 40)) < 0.2
        field = Field(width_px=9, height_px=7)
        area, box = largest_share(flashing, field)
        plain = max(flashing[y : y + 7, x : x + 9].sum() for y in range(24) for x in range(32))
        assert area == plain
        x, y, width, height = box
        assert flashing[y : y + height, x : x + width].sum() == area
        assert width <= 9
        assert height <= 7


def test_a_field_larger_than_the_picture_takes_all_of_it():
    flashing = np.zeros((4, 5), dtype=bool)
    flashing[1, 2] = flashing[3, 4] = True
    assert largest_share(flashing, Field(width_px=100, height_px=100)) == (2, (2, 1, 3, 3))
    assert largest_share(np.zeros((4, 5), dtype=bool), Field(width_px=2, height_px=2)) == (0, (0, 0, 0, 0))


@pytest.mark.parametrize("value", [0, -1, float("nan"), float("inf")])
def test_impossible_sizes_are_refused(value):
    with pytest.raises(MachineError, match="distance_mm"):
        Viewing(width_mm=300, height_mm=200, distance_mm=value)

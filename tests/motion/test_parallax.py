"""Scroll positions: floor of ratio times camera and of drift times ticks, whatever the way there."""

import random
from fractions import Fraction
from math import floor

import pytest

from scenekit.model.scene import Camera, Path, Plane, Scene, Segment
from scenekit.motion.parallax import camera_at, remainder, scroll_at


def plane(ratio=(1, 1), drift=(0, 0), offset=(0, 0)):
    pairs = [(Fraction(a), Fraction(b)) for a, b in (ratio, drift)]
    return Plane(name="p", picture="p.png", ratio=pairs[0], drift=pairs[1], offset=offset)


@pytest.mark.parametrize(
    ("ratio", "camera", "scroll"),
    [
        ("1/2", 5, 2),
        ("1/2", -5, -3),
        ("-1/2", 5, -3),
        ("3/2", 3, 4),
        ("0", 99, 0),
        ("1/16", -1, -1),
        ("1", 7, 7),
    ],
)
def test_a_ratio_is_rounded_down(ratio, camera, scroll):
    assert scroll_at(plane(ratio=(ratio, ratio)), (camera, camera), 0) == (scroll, scroll)


def test_drift_and_ratio_are_rounded_apart_and_the_offset_taken_off():
    """1/2 of 1 and 1/2 of 1 are 0 each, not 1 together."""
    moving = plane(ratio=("1/2", 0), drift=("1/2", "-1/3"), offset=(10, -4))
    assert scroll_at(moving, (1, 0), 1) == (0 + 0 - 10, 0 - 1 + 4)
    assert scroll_at(moving, (2, 0), 4) == (1 + 2 - 10, -2 + 4)


@pytest.mark.parametrize("seed", range(10))
def test_an_integer_accumulator_never_drifts_from_the_fraction(seed):
    """Small camera moves, forward and back, with an error term of whole numbers, end where the product is."""
    chosen = random.Random(seed)
    ratio = Fraction(chosen.randint(-40, 40), chosen.randint(1, 30))
    camera = chosen.randint(-99, 99)
    scroll, part = floor(ratio * camera), remainder(ratio, camera)
    for _ in range(2000):
        move = chosen.randint(-7, 7)
        camera += move
        part += ratio.numerator * move
        while part < 0:
            part, scroll = part + ratio.denominator, scroll - 1
        while part >= ratio.denominator:
            part, scroll = part - ratio.denominator, scroll + 1
        assert scroll == floor(ratio * camera)
        assert part == remainder(ratio, camera)
        assert scroll_at(plane(ratio=(ratio, 0)), (camera, 0), 0) == (scroll, 0)


def test_the_camera_follows_its_path():
    route = Path(segments=(Segment(ticks=3, speed=(Fraction(2), Fraction(-1, 2))),))
    scene = Scene(
        name="s", ticks=9, ticks_per_update=1, missed="slow", backdrop=(0, 0, 0),
        camera=Camera(start=(10, 20), path=route), planes=(plane(),), placed=(), events=(),
    )  # fmt: skip
    assert [camera_at(scene, tick) for tick in range(5)] == [(10, 20), (12, 19), (14, 19), (16, 18), (16, 18)]

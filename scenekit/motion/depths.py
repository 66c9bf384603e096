"""Scroll ratios from depths: what a camera with a pinhole sees of planes behind one another."""

from fractions import Fraction


def image_speed(focal_px: Fraction, camera_speed: Fraction, depth: Fraction) -> Fraction:
    """Return the speed in px/s of things at a depth while the camera moves sideways.

    camera_speed and depth share a unit of length, one per second
    raises   ValueError: depth not above 0
    source   pinhole relation, textbook; values in tests/reference/parallax.csv
    """
    if depth <= 0:
        raise ValueError(f"depth must be above 0; got {depth}")
    return focal_px * camera_speed / depth


def ratio_from_depth(reference_depth: Fraction, depth: Fraction) -> Fraction:
    """Return the scroll ratio of a plane at a depth when the plane at the reference depth has ratio 1.

    Nearer planes get more than 1.
    raises   ValueError: a depth not above 0
    """
    if reference_depth <= 0 or depth <= 0:
        raise ValueError(f"depths must be above 0; got {reference_depth} and {depth}")
    return reference_depth / depth

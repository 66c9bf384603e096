"""Colour spaces against published values."""

import math

import numpy as np
import pytest

from scenekit.colour import space


def colour(text: str) -> np.ndarray:
    text = text.lstrip("#")
    text = "".join(letter * 2 for letter in text) if len(text) == 3 else text
    return np.frombuffer(bytes.fromhex(text), dtype=np.uint8)


def test_srgb_table(reference):
    rows = reference("srgb_linear_256")
    assert len(rows) == 256
    for row in rows:
        code = int(row["code8"])
        assert space.LINEAR_OF_BYTE[code] == pytest.approx(float(row["linear"]), abs=1e-12)
        assert space.linear_to_bytes(float(row["linear"])) == int(row["enc_of_linear_roundtrip8"]) == code


def test_srgb_knee():
    # IEC 61966-2-1, computed
    assert space.srgb_to_linear(0.04045) == pytest.approx(0.00313080495356037, abs=1e-16)
    assert space.linear_to_srgb(0.0031308) == pytest.approx(0.040449936, abs=1e-15)
    assert space.linear_to_srgb(0.18) == pytest.approx(0.461356129500442, abs=1e-14)


def test_oklab_table(reference):
    for row in reference("oklab_values"):
        got = space.bytes_to_oklab(colour(row["srgb"]))
        for value, axis in zip(got, "Lab", strict=True):
            assert value == pytest.approx(float(row[f"{axis}_css4"]), abs=1e-9)
            assert value == pytest.approx(float(row[f"{axis}_orig"]), abs=3e-6)


@pytest.mark.parametrize(
    ("xyz", "oklab"),
    [
        # the author's table of 2020, three decimals; white there is rounded
        ((0.950, 1.000, 1.089), (1.000, 0.000, 0.000)),
        ((1, 0, 0), (0.450, 1.236, -0.019)),
        ((0, 1, 0), (0.922, -0.671, 0.263)),
        ((0, 0, 1), (0.153, -1.415, -0.449)),
    ],
)
def test_oklab_of_xyz(xyz, oklab):
    assert space.xyz_to_oklab(xyz) == pytest.approx(np.array(oklab), abs=2e-3)


def test_oklab_web_platform_pairs():
    # web-platform-tests, css-color oklab-001 and oklab-007
    assert space.bytes_to_oklab(colour("008000")) == pytest.approx(
        np.array([0.51975, -0.1403, 0.10768]), abs=6e-6
    )
    shown = space.linear_to_srgb(space.oklab_to_linear([0.55, 0, -0.2])) * 100
    assert shown == pytest.approx(np.array([27.888, 38.072, 89.414]), abs=2e-3)


def test_oklab_goes_back():
    rgb = np.random.default_rng(5).integers(0, 256, (500, 3), dtype=np.uint8)
    assert (space.linear_to_bytes(space.oklab_to_linear(space.bytes_to_oklab(rgb))) == rgb).all()


def test_luminance_and_contrast(reference):
    for row in reference("wcag_values"):
        front, back = colour(row["fg"]), colour(row["bg"])
        assert space.relative_luminance(front) == pytest.approx(float(row["L_fg"]), abs=1e-9)
        ratio = float(space.contrast_ratio(front, back))
        assert ratio == pytest.approx(float(row["contrast_ratio"]), abs=1e-7)
        assert space.contrast_ratio(back, front) == ratio
        if row["published"]:
            digits = len(row["published"].partition(".")[2])
            assert math.floor(ratio * 10**digits) / 10**digits == float(row["published"])


def test_chromaticity(reference):
    for row in reference("red_flash_values"):
        rgb = colour(row["colour"].split()[-1])
        got = space.linear_to_uv(space.bytes_to_linear(rgb))
        assert got == pytest.approx(np.array([float(row["u_prime"]), float(row["v_prime"])]), abs=1e-6)


def test_black_has_the_chromaticity_of_white():
    assert (space.linear_to_uv(np.zeros(3)) == space.linear_to_uv(np.ones(3))).all()


def test_lab_of_white_grey_and_red():
    # white: 100, 0, 0 by definition; red: 53.2408, 80.0925, 67.2032 (from memory)
    assert space.bytes_to_lab(colour("fff")) == pytest.approx(np.array([100, 0, 0]), abs=1e-9)
    assert space.bytes_to_lab(colour("808080"))[1:] == pytest.approx(np.zeros(2), abs=1e-9)
    assert space.bytes_to_lab(colour("f00")) == pytest.approx(np.array([53.2408, 80.0925, 67.2032]), abs=0.02)

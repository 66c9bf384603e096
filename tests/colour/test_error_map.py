"""Error maps against the plain difference."""

import numpy as np
import pytest

from scenekit.colour.depth import parse
from scenekit.colour.difference import byte_difference
from scenekit.colour.error_map import error_map, pixel_errors, suffering
from scenekit.colour.quantise import reduce_pictures


def art(seed: int, spread: int) -> np.ndarray:
    rng = np.random.default_rng(seed)
    rgb = rng.integers(0, spread, (12, 17, 3), dtype=np.uint8)
    return np.dstack([rgb, rng.integers(0, 256, (12, 17), dtype=np.uint8)])


def test_errors_by_pixel():
    picture = art(1, 250)
    got = reduce_pictures([picture], entries=8, depth=parse("5-5-5"))
    errors = pixel_errors(picture, got.palette, got.indices[0])
    opaque = picture[..., 3] >= 128
    shown = got.palette[got.indices[0]]
    assert errors[opaque] == pytest.approx(byte_difference(picture[..., :3], shown)[opaque], abs=1e-9)
    assert (errors[~opaque] == 0).all()
    assert got.mean_error[0] == pytest.approx(errors[opaque].mean(), abs=1e-6)


def test_map_gets_lighter_with_the_error():
    picture = art(2, 250)
    got = reduce_pictures([picture], entries=4, depth=parse("8-8-8"))
    shown = error_map(picture, got.palette, got.indices[0])
    errors = pixel_errors(picture, got.palette, got.indices[0])
    assert shown.shape == picture.shape
    assert ((shown[..., 3] == 255) == (picture[..., 3] >= 128)).all()
    order = np.argsort(errors.ravel())
    light = shown.reshape(-1, 4)[order, :3].astype(int) @ [2, 7, 1]
    assert (np.diff(light) >= 0).all()
    assert tuple(shown[np.unravel_index(errors.argmax(), errors.shape)][:3]) == (240, 240, 240)


def test_pictures_that_suffer_are_named_worst_first():
    pictures = [art(3, 20), art(4, 250), art(5, 120)]
    got = reduce_pictures(pictures, entries=4, depth=parse("8-8-8"), weights=[20, 1, 1])
    names = ["plane sky", "sprite gull", "plane quay"]
    findings = suffering(names, got)
    assert [finding.where for finding in findings] == ["sprite gull", "plane quay"]
    assert {finding.level for finding in findings} == {"note"}
    assert f"{got.mean_error[1]:.1f}" in findings[0].text
    assert suffering(names, got, limit=100) == ()

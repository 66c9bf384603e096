"""What every slicing method owes: listed, tight contents inside boxes, unique names, equal answers."""

from importlib import import_module

import numpy as np
import pytest

from scenekit import slicing
from scenekit.errors import SliceError
from scenekit.registry import iterate_modules
from scenekit.slicing.cut import GivenBox, SliceOptions, SlicingMethod

METHODS = slicing.slicing_methods()
BOXES = (GivenBox(box=(0, 0, 16, 16)), GivenBox(box=(16, 0, 16, 16), name="second"))


def options_for(method, **more):
    return SliceOptions(cell=None if method == "islands" else (16, 16), boxes=BOXES, **more)


def sheets():
    draw = np.random.default_rng(6)
    for share in (0.002, 0.02, 0.3, 1.0):
        pixels = np.zeros((48, 64, 4), np.uint8)
        art = draw.random((48, 64)) < share
        pixels[art] = [200, 100, 50, 255]
        pixels[2:14, 3:12] = [9, 8, 7, 255]
        yield pixels


def test_every_module_with_a_plugin_is_listed():
    modules = iterate_modules("scenekit.slicing")
    having = {name for name in modules if hasattr(import_module(f"scenekit.slicing.{name}"), "PLUGIN")}
    assert having == set(slicing.MODULES)
    assert all(isinstance(method, SlicingMethod) and method.name == name for name, method in METHODS.items())


@pytest.mark.parametrize("name", METHODS)
def test_frames_are_tight_named_once_and_on_the_sheet(name):
    for pixels in sheets():
        cut = METHODS[name].cut(pixels, options_for(name))
        assert cut.size_px == (64, 48)
        assert cut.method in METHODS
        assert 0 <= cut.confidence <= 1
        assert cut.reason
        names = [frame.name for frame in cut.frames]
        assert len(set(names)) == len(names)
        for frame in cut.frames:
            x, y, w, h = frame.box
            cx, cy, cw, ch = frame.content
            assert 0 <= x <= cx < cx + cw <= x + w <= 64
            assert 0 <= y <= cy < cy + ch <= y + h <= 48
            part = pixels[cy : cy + ch, cx : cx + cw, 3]
            assert part[0].any()
            assert part[-1].any()
            assert part[:, 0].any()
            assert part[:, -1].any()


@pytest.mark.parametrize("name", METHODS)
def test_the_same_sheet_is_cut_the_same_and_never_written_to(name):
    for pixels in sheets():
        pixels.flags.writeable = False
        first, second = (METHODS[name].cut(pixels, options_for(name)) for _ in range(2))
        assert first.as_dict() == second.as_dict()
        strided = np.zeros((48, 128, 4), np.uint8)[:, ::2]
        strided[:] = pixels
        assert METHODS[name].cut(strided, options_for(name)).as_dict() == first.as_dict()


@pytest.mark.parametrize("name", METHODS)
def test_a_sheet_without_pixels_is_refused(name):
    with pytest.raises(SliceError, match="at least 1"):
        METHODS[name].cut(np.zeros((0, 4, 4), np.uint8), options_for(name))


@pytest.mark.parametrize("name", METHODS)
def test_summaries_are_one_line(name):
    assert METHODS[name].summary
    assert "\n" not in METHODS[name].summary

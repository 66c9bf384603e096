"""Depths against the published expansion tables and check words."""

import numpy as np
import pytest

from scenekit.colour.depth import Depth, expanded_levels, nearest_levels, parse, replicated_levels
from scenekit.errors import PaletteError

EVERY_GREY = np.repeat(np.arange(256, dtype=np.uint8)[:, None], 3, axis=1)


def test_expansion_equals_the_reference(reference):
    rows = reference("bit_expand")
    assert len(rows) == 254
    for row in rows:
        bits, value = int(row["bits"]), int(row["value"])
        assert expanded_levels(bits)[value] == int(row["round_255_over_max"])
        assert replicated_levels(bits)[value] == int(row["replicate8"])


def test_png_check_value():
    # PNG specification, sample depth scaling: 5-bit 27 becomes 222
    assert expanded_levels(5)[27] == 222
    assert replicated_levels(5)[27] == 222


@pytest.mark.parametrize("bits", range(1, 9))
def test_levels_are_nearest_and_round_trip(bits):
    shown = expanded_levels(bits).astype(int)
    apart = np.abs(shown[nearest_levels(bits)] - np.arange(256))
    assert (apart == np.abs(shown[None, :] - np.arange(256)[:, None]).min(axis=1)).all()
    assert (nearest_levels(bits)[shown] == np.arange(1 << bits)).all()


@pytest.mark.parametrize(
    ("text", "colour", "word"),
    [
        # Linux drm_fourcc.h layouts
        ("5-6-5", (255, 0, 0), 0xF800),
        ("5-6-5", (0, 255, 0), 0x07E0),
        ("5-6-5", (0, 0, 255), 0x001F),
        ("5-6-5", (132, 130, 132), 0x8410),
        ("5-5-5", (255, 0, 0), 0x7C00),
        ("5-5-5", (0, 255, 0), 0x03E0),
        ("4-4-4", (255, 0, 0), 0xF00),
        ("3-3-2", (255, 0, 0), 0xE0),
        ("3-3-2", (0, 255, 0), 0x1C),
        ("3-3-2", (0, 0, 255), 0x03),
        ("8-8-8", (1, 2, 3), 0x010203),
    ],
)
def test_words(text, colour, word):
    assert int(parse(text).words(np.array(colour, dtype=np.uint8))) == word


def test_round_trip_settles_and_expands_its_levels():
    for text in ("8-8-8", "5-6-5", "5-5-5", "4-4-4", "3-3-2", "dac-1", "dac-6"):
        depth = parse(text)
        once = depth.round_trip(EVERY_GREY)
        assert once.dtype == np.uint8
        assert (depth.round_trip(once) == once).all()
        assert (depth.expand(depth.levels(EVERY_GREY)) == once).all()
        assert tuple(once[0]) == (0, 0, 0)
        assert tuple(once[255]) == (255, 255, 255)


def test_round_trip_leaves_its_argument_alone():
    rgb = np.array([[1, 2, 3]], dtype=np.uint8)
    out = parse("8-8-8").round_trip(rgb)
    out[0, 0] = 9
    assert rgb[0, 0] == 1


def test_names():
    assert parse("dac-6") == Depth(red_bits=6, green_bits=6, blue_bits=6)
    assert parse(" 5-6-5 ").name == "5-6-5"
    assert parse("3-3-2").colours == 256


@pytest.mark.parametrize(
    "text", ["", "5-6", "5-6-9", "0-1-1", "dac-0", "dac-9", "dac-", "5--5", "a-b-c", "²-2-2"]
)
def test_bad_names_are_refused(text):
    with pytest.raises(PaletteError, match="colour depth"):
        parse(text)


def test_levels_too_high_are_refused():
    with pytest.raises(PaletteError, match="above"):
        parse("3-3-2").expand(np.array([0, 0, 4], dtype=np.uint8))

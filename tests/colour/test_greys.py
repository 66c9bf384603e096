"""Greys of uneven depths against the computed table."""

import numpy as np
import pytest

from scenekit.colour.depth import parse, replicated_levels
from scenekit.colour.greys import nearest_neutral, neutral_greys, tint, tinted_greys
from scenekit.colour.space import bytes_to_lab


def test_table_of_5_6_5(reference):
    depth = parse("5-6-5")
    rows = reference("grey_565")
    assert len(rows) == 448
    for row in rows:
        levels = np.array([int(row[key]) for key in ("r5", "g6", "b5")], dtype=np.uint8)
        wanted = [int(row[key]) for key in ("r8", "g8", "b8")]
        if row["expand_rule"] == "round":
            assert depth.expand(levels).tolist() == wanted
            assert int(depth.words(depth.expand(levels))) == int(row["word"], 16)
        elif row["expand_rule"] == "replicate":
            made = [
                int(replicated_levels(bits)[level]) for bits, level in zip((5, 6, 5), levels, strict=True)
            ]
            assert made == wanted
        assert (len(set(wanted)) == 1) == (row["neutral"] == "1")
        lab = bytes_to_lab(np.array(wanted, dtype=np.uint8))
        assert lab[0] == pytest.approx(float(row["L"]), abs=1e-3)
        assert np.hypot(lab[1], lab[2]) == pytest.approx(float(row["Cab"]), abs=0.02)


def test_neutral_greys():
    # the eight neutral pairs of 5-6-5 with rounding; 3-3-2 has black and white only
    assert neutral_greys(parse("5-6-5")) == (0, 8, 16, 49, 206, 239, 247, 255)
    assert neutral_greys(parse("3-3-2")) == (0, 255)
    assert len(neutral_greys(parse("4-4-4"))) == 16
    assert len(neutral_greys(parse("5-5-5"))) == 32
    assert nearest_neutral(parse("5-6-5"), 60) == 49
    assert nearest_neutral(parse("5-6-5"), 12) == 8


def test_tint_is_zero_for_neutral_greys_only():
    depth = parse("5-6-5")
    shown = tint(depth, np.arange(256, dtype=np.uint8))
    exact = [value for value in range(256) if shown[value] < 1e-9]
    assert set(neutral_greys(depth)) <= set(exact)
    assert shown.max() > 3


def test_tinted_greys_are_named_with_a_way_out():
    art = np.full((2, 3, 4), 255, dtype=np.uint8)
    art[0, :2, :3] = 45
    art[1, 0] = (90, 90, 90, 0)
    (finding,) = tinted_greys(["plane quay", "plane sky"], [art, art[:, 2:]], parse("5-6-5"))
    assert (finding.level, finding.where) == ("note", "plane quay")
    assert "1 of its greys" in finding.text
    assert "(45, 45, 45)" in finding.text
    assert "49" in finding.text
    assert tinted_greys(["a"], [art], parse("5-5-5")) == ()

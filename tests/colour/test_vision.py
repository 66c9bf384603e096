"""Colour blindness: fixed points, known confusions, and the findings."""

import numpy as np
import pytest

from scenekit.colour.difference import byte_difference
from scenekit.colour.vision import KINDS, as_seen, must_differ
from scenekit.errors import UnknownNameError


@pytest.mark.parametrize("kind", KINDS)
def test_greys_stay(kind):
    # every row of the published matrices sums to 1 within 1e-6
    grey = np.repeat(np.arange(256, dtype=np.uint8)[:, None], 3, axis=1)
    assert (as_seen(grey, kind) == grey).all()


def test_known_confusions():
    # common practice: red and green of like lightness are confused without red or green cones,
    # not without blue cones
    red, green = np.array([[190, 80, 60], [120, 125, 40]], dtype=np.uint8)
    apart = {kind: float(byte_difference(as_seen(red, kind), as_seen(green, kind))) for kind in KINDS}
    full = float(byte_difference(red, green))
    assert min(apart["protan"], apart["deutan"]) < full / 2
    assert apart["deutan"] < apart["tritan"]


def test_primary_colours_by_hand():
    # linear red (1, 0, 0) takes the first column of the matrix; sRGB of 0.152286, 0.114503 and 0
    assert as_seen(np.array([255, 0, 0], dtype=np.uint8), "protan").tolist() == [109, 95, 0]
    # linear blue (0, 0, 1): -0.178779, 0.147602, 0.303900
    assert as_seen(np.array([0, 0, 255], dtype=np.uint8), "tritan").tolist() == [0, 107, 150]


def test_must_differ():
    palette = np.array([[0, 0, 0], [190, 80, 60], [120, 125, 40], [255, 255, 255]], dtype=np.uint8)
    (finding,) = must_differ(palette, [(1, 2, 3)], where="target board", least=25)
    assert finding.level == "warning"
    assert finding.where == "target board"
    assert "entries 1 and 2" in finding.text
    assert "lack green cones" in finding.text
    assert "full colour vision" not in finding.text
    assert must_differ(palette, [(0, 3), (1, 3)]) == ()
    (same,) = must_differ(np.zeros((2, 3), dtype=np.uint8), [(0, 1), (1, 0)])
    assert "full colour vision" in same.text


def test_unknown_names_are_refused():
    with pytest.raises(UnknownNameError, match="protan"):
        as_seen(np.zeros(3, dtype=np.uint8), "proton")
    with pytest.raises(UnknownNameError, match="'4'"):
        must_differ(np.zeros((4, 3), dtype=np.uint8), [(1, 4)])

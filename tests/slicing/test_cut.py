"""Backgrounds, content boxes, reading order and the printed contract."""

import json

import numpy as np
import pytest

from scenekit.errors import SliceError
from scenekit.findings import Finding
from scenekit.slicing import cut, cut_sheet
from scenekit.slicing.cut import Alternative, Background, Cut, CutFrame, Grid, SliceOptions

KEY = (255, 0, 255)


def sheet(height=4, width=6, colour=(1, 2, 3, 255)):
    pixels = np.zeros((height, width, 4), np.uint8)
    pixels[:] = colour
    return pixels


def test_background():
    opaque = sheet()
    assert cut.background(opaque) == Background(kind="none")
    assert cut.background(opaque, (KEY,)) == Background(kind="key", colours=(KEY,))
    keyed = sheet()
    keyed[0, 0, :3] = KEY
    assert cut.background(keyed, (KEY, (9, 9, 9))) == Background(kind="key", colours=(KEY,))
    clear = sheet()
    clear[0, 0] = 0
    assert cut.background(clear) == Background(kind="alpha")
    assert cut.background(clear, (KEY,)) == Background(kind="alpha")
    assert cut.background(sheet(colour=(1, 2, 3, 1))) == Background(kind="none")


def test_art_is_alpha_above_zero_and_no_opaque_key():
    pixels = sheet(1, 4, (0, 0, 0, 0))
    pixels[0, 1] = (5, 5, 5, 1)
    pixels[0, 2] = (*KEY, 255)
    pixels[0, 3] = (*KEY, 254)
    assert cut.art_mask(pixels, (KEY,)).tolist() == [[False, True, False, True]]
    assert cut.art_mask(pixels[:, ::-1], (KEY,)).tolist() == [[True, False, True, False]]


def test_content_box_against_all_pixels_looked_at_singly():
    draw = np.random.default_rng(8)
    for _ in range(200):
        mask = draw.random((9, 11)) < 0.05
        x, y = (int(v) for v in draw.integers(0, 6, 2))
        box = (x, y, int(draw.integers(1, 12 - x)), int(draw.integers(1, 10 - y)))
        spots = [(i, j) for j in range(y, y + box[3]) for i in range(x, x + box[2]) if mask[j, i]]
        expected = None
        if spots:
            left, top = min(i for i, _ in spots), min(j for _, j in spots)
            expected = (
                left,
                top,
                max(i for i, _ in spots) + 1 - left,
                max(j for _, j in spots) + 1 - top,
            )
        assert cut.content_box(mask, box) == expected


def test_reading_order_keeps_rows_of_uneven_frames():
    boxes = [(40, 3, 8, 20), (0, 0, 8, 24), (20, 8, 8, 14), (3, 40, 8, 8), (20, 36, 8, 16)]
    assert cut.reading_order(boxes) == [(0, 0, 1), (0, 1, 2), (0, 2, 0), (1, 0, 3), (1, 1, 4)]
    assert cut.reading_order([]) == []


def test_reading_order_gives_every_box_one_place():
    draw = np.random.default_rng(1)
    boxes = [tuple(int(v) for v in row) for row in draw.integers(1, 50, (300, 4))]
    order = cut.reading_order(boxes)
    assert sorted(index for _, _, index in order) == list(range(300))
    places = [(row, column) for row, column, _ in order]
    assert places == sorted(set(places))


def test_names_of_wide_grids():
    assert cut.grid_name(2, 3) == "r02c03"
    assert cut.grid_name(123, 0) == "r123c00"


def test_the_printed_contract():
    answer = Cut(
        size_px=(34, 18),
        method="cells",
        background=Background(kind="key", colours=(KEY,)),
        grid=Grid(cell=(16, 16), margin=(1, 1), gutter=(0, 2), columns=2, rows=1),
        frames=(
            CutFrame(name="r00c00", box=(1, 1, 16, 16), content=(2, 3, 4, 5)),
            CutFrame(name="r00c01", box=(17, 1, 16, 16), content=(17, 1, 16, 16), pivot=(8, 15)),
        ),
        findings=(Finding(level="note", code="a", where="b", text="c"),),
        confidence=0.98765,
        reason="because",
        alternatives=(Alternative(method="islands", grid=None, count=7, confidence=0.1),),
    )
    assert json.loads(json.dumps(answer.as_dict())) == {
        "image": {"width": 34, "height": 18},
        "background": {"kind": "key", "colour": "ff00ff", "colours": ["ff00ff"]},
        "method": "cells",
        "grid": {"cell": [16, 16], "margin": [1, 1], "gutter": [0, 2], "columns": 2, "rows": 1},
        "frames": [
            {"name": "r00c00", "box": [1, 1, 16, 16], "content": [2, 3, 4, 5]},
            {
                "name": "r00c01",
                "box": [17, 1, 16, 16],
                "content": [17, 1, 16, 16],
                "pivot": [8, 15],
            },
        ],
        "findings": [{"level": "note", "code": "a", "where": "b", "text": "c"}],
        "confidence": 0.988,
        "reason": "because",
        "alternatives": [{"method": "islands", "grid": None, "count": 7, "confidence": 0.1}],
    }


def test_sheets_without_pixels_and_wrong_arrays():
    with pytest.raises(SliceError, match="0 x 5 px"):
        cut.check_sheet(np.zeros((5, 0, 4), np.uint8), SliceOptions())
    with pytest.raises(ValueError, match="uint8"):
        cut.check_sheet(np.zeros((5, 5, 3), np.uint8), SliceOptions())


def test_the_options_choose_the_method():
    pixels = sheet(8, 8, (0, 0, 0, 0))
    pixels[1:3, 1:3] = 255
    assert cut_sheet(pixels, SliceOptions(cell=(4, 4)), method="cells").method == "cells"
    boxed = SliceOptions(boxes=(cut.GivenBox(box=(0, 0, 4, 4)),))
    assert cut_sheet(pixels, boxed).method == "boxes"
    assert cut_sheet(pixels, SliceOptions(), method="islands").method == "islands"

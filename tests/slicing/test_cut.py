"""Reading order and the printed contract."""

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

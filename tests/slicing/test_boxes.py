"""Given boxes, in the call and in lists with every kind of fault."""

import json

import numpy as np
import pytest

from scenekit.errors import SliceError
from scenekit.slicing.boxes import cut_boxes
from scenekit.slicing.cut import GivenBox, SliceOptions


@pytest.fixture
def pixels():
    picture = np.zeros((20, 40, 4), np.uint8)
    picture[2:18, 2:14] = 255
    picture[5:9, 20:36] = 255
    return picture


def given(tmp_path, text, name="list.csv"):
    path = tmp_path / name
    path.write_text(text, encoding="utf-8", newline="")
    return SliceOptions(where="sheet hero", box_file=path)


def test_boxes_of_the_call(pixels):
    boxes = (
        GivenBox(box=(18, 0, 20, 20), name="hat"),
        GivenBox(box=(0, 0, 16, 20), pivot=(8, 19)),
    )
    cut = cut_boxes(pixels, SliceOptions(boxes=boxes))
    assert [(f.name, f.box, f.content, f.pivot) for f in cut.frames] == [
        ("hat", (18, 0, 20, 20), (20, 5, 16, 4), None),
        ("r00c00", (0, 0, 16, 20), (2, 2, 12, 16), (8, 19)),
    ]
    assert cut.confidence == 1.0


def test_csv(pixels, tmp_path):
    text = '\ufeffw, h,x,y,name,pivot_x,pivot_y\r\n16,20,0,0,body,8,19\r\n\r\n20,20,18,0,"hat, tall",,\r\n'
    cut = cut_boxes(pixels, given(tmp_path, text))
    assert [(f.name, f.box, f.pivot) for f in cut.frames] == [
        ("body", (0, 0, 16, 20), (8, 19)),
        ("hat, tall", (18, 0, 20, 20), None),
    ]


def test_json(pixels, tmp_path):
    boxes = [
        {"name": "body", "x": 0, "y": 0, "w": 16, "h": 20, "pivot_x": 8, "pivot_y": 19},
        {"x": 18, "y": 0, "w": 20, "h": 20},
    ]
    cut = cut_boxes(pixels, given(tmp_path, json.dumps({"boxes": boxes}), "list.json"))
    assert [(f.name, f.box, f.pivot) for f in cut.frames] == [
        ("body", (0, 0, 16, 20), (8, 19)),
        ("r00c01", (18, 0, 20, 20), None),
    ]


def test_empty_boxes_are_named_in_a_finding(pixels):
    boxes = (GivenBox(box=(0, 0, 16, 20), name="body"), GivenBox(box=(37, 0, 3, 3), name="gap"))
    cut = cut_boxes(pixels, SliceOptions(boxes=boxes))
    assert [frame.name for frame in cut.frames] == ["body"]
    assert "gap" in cut.findings[0].text


BAD_CSV = [
    ("", "column x is missing"),
    ("x,y,w\n1,2,3\n", "column h is missing"),
    ("x,y,w,h\n", "no boxes given"),
    ("x,y,w,h,colour\n0,0,1,1,red\n", "unknown name 'colour'"),
    ("x,y,w,heigth\n", "unknown name 'heigth'"),
    ("x,y,w,h,pivotx\n0,0,1,1,1\n", "did you mean 'pivot_x'"),
    ("x,y,w,h,x\n0,0,1,1,1\n", "column x comes twice"),
    ("x,y,w,h,pivot_x\n0,0,1,1,1\n", "together or not at all"),
    ("x,y,w,h\n0,0,8,8\n0,zero,8,8\n", "list.csv row 3 column y: 'zero'; a whole number"),
    ("x,y,w,h\n0,0,8,1.5\n", "row 2 column h: '1.5'"),
    ("x,y,w,h\n0,0,8,\n", "row 2 column h: nothing"),
    ("x,y,w,h\n0,0,8\n", "row 2: 3 values; the first line names 4"),
    ("x,y,w,h\n0,0,8,8,9\n", "row 2: 5 values"),
    ("x,y,w,h\n0,0,0,8\n", "row 2: 0 x 8 px"),
    ("x,y,w,h\n0,0,8,-8\n", "row 2: 8 x -8 px"),
    ("x,y,w,h\n33,0,8,8\n", r"row 2: box 33,0 8x8 leaves the sheet of 40 x 20 px"),
    ("x,y,w,h\n-1,0,8,8\n", "leaves the sheet"),
    ("x,y,w,h\n99999999999,0,8,8\n", "row 2 column x: '99999999999'"),
    ("x,y,w,h\n999999999,0,8,8\n", "row 2 column x: 999999999; allowed"),
    ("x,y,w,h,name\n0,0,8,8,a\n8,0,8,8,a\n", "two boxes are named 'a'"),
    ("x,y,w,h,name\n0,0,8,8,r00c01\n8,0,8,8,\n", "would be named 'r00c01'"),
    (f"x,y,w,h,name\n0,0,8,8,{'a' * 65}\n", "1 to 64 printable letters"),
    ('x,y,w,h,name\n0,0,8,8,"a\nb"\n', "printable letters"),
    ('x,y,w,h,name\n0,0,8,8,"a', "not CSV"),
    ("x,y,w,h,pivot_x,pivot_y\n0,0,8,8,4,\n", "row 2 column pivot_y: nothing"),
    ("x,y,w,h\n" + "0,0,1,1\n" * 65537, "more than 65536 boxes"),
]


@pytest.mark.parametrize(("text", "message"), BAD_CSV, ids=[str(i) for i in range(len(BAD_CSV))])
def test_bad_csv_gives_one_line(pixels, tmp_path, text, message):
    with pytest.raises(SliceError, match=message) as caught:
        cut_boxes(pixels, given(tmp_path, text))
    assert "\n" not in str(caught.value)


BAD_JSON = [
    ("", "not JSON"),
    ("[1", "not JSON"),
    ("[" * 100_000, "not JSON"),
    ("[]", "list of boxes is needed"),
    ('{"boxes": {}}', "list of boxes is needed"),
    ('{"boxes": [], "more": 1}', "and nothing else"),
    ('{"boxes": []}', "no boxes given"),
    ('{"boxes": [3]}', "box 1: an object is needed"),
    ('{"boxes": [{"x": 0, "y": 0, "w": 8}]}', "box 1: column h is missing"),
    ('{"boxes": [{"x": 0, "y": 0, "w": 8, "h": true}]}', "box 1 column h: True"),
    ('{"boxes": [{"x": 0, "y": 0, "w": 8, "h": 8.0}]}', "box 1 column h: 8.0"),
    ('{"boxes": [{"x": 0, "y": 0, "w": 8, "h": NaN}]}', "box 1 column h: nan"),
    ('{"boxes": [{"x": 0, "y": 0, "w": 8, "h": 8, "name": 5}]}', "column name: '5'"),
    ('{"boxes": [{"x": 0, "y": 0, "w": 8, "h": 8, "name": "a\\nb"}]}', "printable letters"),
]


@pytest.mark.parametrize(("text", "message"), BAD_JSON, ids=[str(i) for i in range(len(BAD_JSON))])
def test_bad_json_gives_one_line(pixels, tmp_path, text, message):
    with pytest.raises(SliceError, match=message) as caught:
        cut_boxes(pixels, given(tmp_path, text, "list.json"))
    assert "\n" not in str(caught.value)


def test_other_files(pixels, tmp_path):
    with pytest.raises(SliceError, match=r"ends in \.csv or \.json"):
        cut_boxes(pixels, given(tmp_path, "", "list.txt"))
    (tmp_path / "bad.csv").write_bytes(b"x,y,w,h\n\xff\xfe")
    with pytest.raises(SliceError, match="not UTF-8"):
        cut_boxes(pixels, SliceOptions(box_file=tmp_path / "bad.csv"))
    for path in (tmp_path, tmp_path / "none.csv"):
        with pytest.raises(SliceError, match="no such file"):
            cut_boxes(pixels, SliceOptions(box_file=path))


def test_boxes_given_twice_or_not_at_all(pixels, tmp_path):
    with pytest.raises(SliceError, match="given twice"):
        cut_boxes(pixels, SliceOptions(boxes=(GivenBox(box=(0, 0, 1, 1)),), box_file=tmp_path / "a.csv"))
    with pytest.raises(SliceError, match="no boxes given"):
        cut_boxes(pixels, SliceOptions())

"""Sheets whose packer repeated every sprite's edges around it, drawn by code."""

import numpy as np
import pytest
from numpy.typing import NDArray

from scenekit.slicing import guess_doubled
from scenekit.slicing.cut import SliceOptions
from scenekit.slicing.guess import cut_guess
from scenekit.slicing.guess_doubled import Mask, Piece, doubled_edges, lacks_corners, seam_lines

Pixels = NDArray[np.uint8]
Box = tuple[int, int, int, int]


def plate(rng: np.random.Generator, width: int, height: int) -> Pixels:
    """Draw a plate as for a button: a border, a shaded face and a mark on it."""
    picture = np.full((height, width, 4), 255, np.uint8)
    colour = rng.integers(30, 200, 3)
    picture[..., :3] = colour
    shade = np.arange(height - 2)[:, None, None] * 20 // height
    picture[1:-1, 1:-1, :3] = colour + 30 + shade
    x, y = rng.integers(2, max(3, width - 5)), rng.integers(2, max(3, height - 5))
    picture[y : y + 3, x : x + 2, :3] = 255 - colour
    return picture


def doubled_sheet(seed: int, rows: int, ring: bool = True) -> tuple[Pixels, list[Box]]:
    """Lay plates on shelves, each with its outermost pixels once more around it, but for the corners."""
    rng = np.random.default_rng(seed)
    sheet = np.zeros((rows * 34 + 2, 220, 4), np.uint8)
    boxes: list[Box] = []
    y = 2
    for _ in range(rows):
        x, lowest = 2, y
        while True:
            w, h = int(rng.integers(8, 50)), int(rng.integers(8, 31))
            if x + w + 1 > 220:
                break
            art = plate(rng, w, h)
            sheet[y : y + h, x : x + w] = art
            if ring:
                sheet[y - 1, x : x + w], sheet[y + h, x : x + w] = art[0], art[-1]
                sheet[y : y + h, x - 1], sheet[y : y + h, x + w] = art[:, 0], art[:, -1]
            boxes.append((x, y, w, h))
            x, lowest = x + w + 2, max(lowest, y + h)
        y = lowest + 2
    return sheet[:y], boxes


def test_sprites_are_cut_without_their_repeated_edges() -> None:
    for seed in range(4):
        sheet, boxes = doubled_sheet(seed, 5)
        cut = cut_guess(sheet, SliceOptions())
        right = {frame.box for frame in cut.frames} & set(boxes)
        assert len(right) >= 0.75 * len(boxes), seed
        assert "edges repeated around them" in cut.reason


def test_sheets_without_repeated_edges_are_not_read_so() -> None:
    for seed in range(4):
        sheet, _ = doubled_sheet(seed, 5, ring=False)
        assert doubled_edges(sheet, sheet[..., 3] > 0) is None


def test_plain_shapes_of_one_colour_show_no_repeated_edges() -> None:
    rng = np.random.default_rng(2)
    sheet = np.zeros((120, 240, 4), np.uint8)
    for row in range(4):
        for column in range(8):
            w, h = rng.integers(10, 27, 2)
            part = sheet[row * 30 : row * 30 + int(h), column * 30 : column * 30 + int(w)]
            part[...] = (*rng.integers(40, 220, 3), 255)
    assert doubled_edges(sheet, sheet[..., 3] > 0) is None


def test_enlarged_pixels_are_no_repeated_edges() -> None:
    rng = np.random.default_rng(3)
    small = np.zeros((40, 60, 4), np.uint8)
    small[4:36, 4:56] = rng.integers(1, 255, (32, 52, 4))
    large = small.repeat(2, axis=0).repeat(2, axis=1)
    found = doubled_edges(large, large[..., 3] > 0)
    cut = cut_guess(large, SliceOptions())
    assert found is None or "edges repeated" not in cut.reason


def test_thousands_of_like_dots_are_given_up_early(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = np.zeros((1024, 1024, 4), np.uint8)
    for part in (sheet[::8, ::8], sheet[1::8, ::8], sheet[::8, 1::8], sheet[1::8, 1::8]):
        part[...] = 255
    looked = []

    def counted(steps: Pixels, mask: Mask, piece: Piece, axis: int) -> NDArray[np.float64]:
        looked.append(piece.area_px)
        return seam_lines(steps, mask, piece, axis)

    monkeypatch.setattr(guess_doubled, "seam_lines", counted)
    assert doubled_edges(sheet, sheet[..., 3] > 0) is None
    assert len(looked) > 64
    assert sum(looked) <= 2 * guess_doubled.MOST_LOOKED * 1024 * 1024
    assert len(looked) < 1000  # else two for each of 128 x 128 dots and more


def test_sprites_cut_off_at_the_side_of_the_picture_lose_no_columns_there() -> None:
    asked = right = 0
    for seed in range(6):
        sheet, boxes = doubled_sheet(seed, 8)
        end = sheet.shape[1] - 24
        found = doubled_edges(sheet[:, :end], sheet[:, :end, 3] > 0)
        assert found is not None
        cut = [(x, y, end, y + h) for x, y, w, h in boxes if x + 3 < end < x + w - 2]
        asked += len(cut)
        right += len({tuple(box) for box in found.boxes.tolist()} & set(cut))
    assert asked > 20
    assert right >= 0.8 * asked


def test_a_line_that_was_cut_off_lacks_one_corner_only() -> None:
    line = np.array([False, True, True, True, False])
    assert lacks_corners(line)
    assert not lacks_corners(line[:-1])
    assert lacks_corners(line[:-1], (False, True))
    assert not lacks_corners(line[1:-1], (True, True))
    assert not lacks_corners(np.array([False, True, False, True]), (False, True))

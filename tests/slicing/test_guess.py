"""The automatic cutter on sheets drawn by code, with the traits of real ones."""

import numpy as np
import pytest
from numpy.typing import NDArray

from scenekit.slicing.art import content_box
from scenekit.slicing.cut import Cut, SliceOptions
from scenekit.slicing.guess import cut_guess

Box = tuple[int, int, int, int]
Pixels = NDArray[np.uint8]


def sprite(rng: np.random.Generator, width: int, height: int, parts: int = 1) -> Pixels:
    """Draw an outlined blob that touches all four sides of its picture; a second part may float above."""
    picture = np.zeros((height, width, 4), np.uint8)
    y, x = np.mgrid[0:height, 0:width]
    body = max(3, height - (height // 4 if parts > 1 else 0))
    shape = np.zeros((height, width), bool)
    for _ in range(int(rng.integers(2, 5))):
        cx, cy = rng.uniform(0.25, 0.75) * width, height - body + rng.uniform(0.3, 0.7) * body
        rx, ry = rng.uniform(0.2, 0.4) * width, rng.uniform(0.2, 0.4) * body
        shape |= ((x - cx) / rx) ** 2 + ((y - cy) / ry) ** 2 <= 1
    cx, cy = width // 2, height - body // 2 - 1
    shape[cy, :] = True
    shape[height - body :, cx] = True
    if parts > 1:
        gap = max(1, height // 16)
        shape[: height - body] = False
        shape[: max(1, height - body - gap), cx : cx + max(2, width // 6)] = True
    colour = rng.integers(40, 230, 3)
    shade = (y * 40 // max(1, height))[..., None] + rng.integers(-12, 13, (height, width, 1))
    picture[..., :3] = np.clip(colour + shade, 1, 254)
    inner = shape.copy()
    inner[1:] &= shape[:-1]
    inner[:-1] &= shape[1:]
    inner[:, 1:] &= shape[:, :-1]
    inner[:, :-1] &= shape[:, 1:]
    picture[shape & ~inner, :3] = colour // 4
    picture[..., 3] = np.where(shape, 255, 0)
    picture[~shape] = 0
    return picture


def tile(rng: np.random.Generator, width: int, height: int) -> Pixels:
    """Draw an opaque tile: a ground colour, grains, a patch, and often a darker rim."""
    picture = np.empty((height, width, 4), np.uint8)
    colour = rng.integers(40, 216, 3)
    picture[..., :3] = np.clip(colour + rng.integers(-14, 15, (height, width, 1)), 0, 255)
    picture[..., 3] = 255
    y, x = np.mgrid[0:height, 0:width]
    patch = ((x - width * rng.uniform(0.2, 0.8)) / (width * 0.3)) ** 2 + (
        (y - height * 0.5) / (height * 0.3)
    ) ** 2 <= 1
    picture[patch, :3] = rng.integers(40, 216, 3)
    return picture


def put(sheet: Pixels, picture: Pixels, x: int, y: int) -> Box:
    """Lay a picture on a sheet."""
    height, width = picture.shape[:2]
    part = sheet[y : y + height, x : x + width]
    part[picture[..., 3] > 0] = picture[picture[..., 3] > 0]
    return x, y, width, height


def grid_sheet(
    seed: int,
    cell: tuple[int, int],
    shape: tuple[int, int],
    gutter: int = 0,
    margin: int = 0,
    fill: float = 0.8,
    parts: int = 1,
    pad: tuple[int, int] = (0, 0),
) -> tuple[Pixels, list[Box]]:
    """Draw sprites of various sizes that stand in the cells of a grid, some touching their cells' sides."""
    rng = np.random.default_rng(seed)
    columns, rows = shape
    width = 2 * margin + columns * cell[0] + (columns - 1) * gutter + pad[0]
    height = 2 * margin + rows * cell[1] + (rows - 1) * gutter + pad[1]
    sheet = np.zeros((height, width, 4), np.uint8)
    boxes = []
    for row in range(rows):
        for column in range(columns):
            w = max(3, int(cell[0] * rng.uniform(fill * 0.7, min(1.0, fill * 1.2))))
            h = max(3, int(cell[1] * rng.uniform(fill * 0.7, min(1.0, fill * 1.2))))
            x = margin + column * (cell[0] + gutter) + (cell[0] - w) // 2
            y = margin + row * (cell[1] + gutter) + cell[1] - h
            boxes.append(put(sheet, sprite(rng, w, h, parts), x, y))
    return sheet, boxes


def tile_sheet(seed: int, cell: tuple[int, int], shape: tuple[int, int]) -> tuple[Pixels, list[Box]]:
    """Draw touching opaque tiles."""
    rng = np.random.default_rng(seed)
    sheet = np.zeros((shape[1] * cell[1], shape[0] * cell[0], 4), np.uint8)
    boxes = [
        put(sheet, tile(rng, *cell), column * cell[0], row * cell[1])
        for row in range(shape[1])
        for column in range(shape[0])
    ]
    return sheet, boxes


def shelf_sheet(
    seed: int,
    count: int,
    sizes: tuple[int, int],
    gap: int,
    width: int,
    parts: int = 1,
    solid: bool = False,
) -> tuple[Pixels, list[Box]]:
    """Draw sprites of many sizes on shelves, as packers do."""
    rng = np.random.default_rng(seed)
    wanted = sorted(
        [(int(rng.integers(*sizes)), int(rng.integers(*sizes))) for _ in range(count)],
        key=lambda s: (-s[1], s[0]),
    )
    places, x, y, shelf = [], 0, 0, 0
    for w, h in wanted:
        if x + w > width:
            x, y, shelf = 0, y + shelf + gap, 0
        places.append((x, y, w, h))
        x, shelf = x + w + gap, max(shelf, h)
    sheet = np.zeros((y + shelf, width, 4), np.uint8)
    boxes = []
    for x, y, w, h in places:
        picture = tile(rng, w, h) if solid else sprite(rng, w, h, parts)
        boxes.append(put(sheet, picture, x, y))
    return sheet, boxes


def boxed_sheet(seed: int, count: int) -> tuple[Pixels, list[Box]]:
    """Draw sprites in boxes of a second key colour on white, with printed numbers beside the boxes."""
    rng = np.random.default_rng(seed)
    sheet = np.full((40 + 70 * (-(-count // 6)), 420, 4), 255, np.uint8)
    boxes = []
    for index in range(count):
        w, h = int(rng.integers(16, 50)), int(rng.integers(12, 40))
        x, y = 12 + index % 6 * 66, 20 + index // 6 * 70
        sheet[y : y + h, x : x + w] = (0, 0, 255, 255)
        put(sheet, sprite(rng, w - 4, h - 4, 2), x + 2, y + 2)
        boxes.append((x, y, w, h))
        for digit in range(2):
            dx = x + digit * 5
            sheet[y - 9 : y - 3, dx : dx + 3] = (0, 0, 0, 255)
            sheet[y - 8 : y - 6, dx + 1] = (255, 255, 255, 255)
    return sheet, boxes


def glyph_boxes_sheet(seed: int, count: int) -> tuple[Pixels, list[Box]]:
    """Draw tight glyphs in small boxes of a second key colour, some very narrow, in two parts."""
    rng = np.random.default_rng(seed)
    sheet = np.full((10 + 16 * (-(-count // 20)), 300, 4), 255, np.uint8)
    boxes = []
    for index in range(count):
        w, h = int(rng.integers(2, 9)), int(rng.integers(6, 11))
        x, y = 8 + index % 20 * 14, 8 + index // 20 * 16
        sheet[y : y + h, x : x + w] = (0, 0, 255, 255)
        sheet[y : y + 1, x : x + w] = (30, 30, 30, 255)
        sheet[y + 3 : y + h, x : x + 1] = (30, 30, 30, 255)
        if index % 3 == 0:
            sheet[y + 2 : y + h, x + w - 1 : x + w] = (30, 30, 30, 255)
        boxes.append((x, y, w, h))
    return sheet, boxes


def framed_sheet(seed: int, count: int) -> tuple[Pixels, list[Box]]:
    """Draw sprites within outlined frames of various sizes."""
    rng = np.random.default_rng(seed)
    sheet = np.zeros((20 + 60 * (-(-count // 5)), 330, 4), np.uint8)
    boxes = []
    for index in range(count):
        w, h = int(rng.integers(20, 54)), int(rng.integers(18, 48))
        x, y = 6 + index % 5 * 63, 8 + index // 5 * 60
        sheet[y - 1 : y + h + 1, x - 1 : x + w + 1] = (0, 160, 90, 255)
        sheet[y : y + h, x : x + w] = 0
        put(sheet, sprite(rng, w - 4, h - 4, 2), x + 2, y + 2)
        boxes.append((x, y, w, h))
    return sheet, boxes


def strips_sheet(seed: int) -> tuple[Pixels, list[Box]]:
    """Draw rows of animations, each row with its own cell size."""
    rng = np.random.default_rng(seed)
    rows = [((24, 32), 8), ((40, 28), 5), ((16, 16), 12), ((32, 48), 6)]
    sheet = np.zeros((sum(cell[1] for cell, _ in rows), 256, 4), np.uint8)
    boxes, y = [], 0
    for (w, h), count in rows:
        for index in range(count):
            sw, sh = int(w * rng.uniform(0.6, 0.95)), int(h * rng.uniform(0.7, 1.0))
            boxes.append(put(sheet, sprite(rng, sw, sh), index * w + (w - sw) // 2, y + h - sh))
        y += h
    return sheet, boxes


def diamond_sheet(seed: int, cell: tuple[int, int], shape: tuple[int, int]) -> tuple[Pixels, list[Box]]:
    """Draw isometric diamonds that touch at their points."""
    rng = np.random.default_rng(seed)
    w, h = cell
    y, x = np.mgrid[0:h, 0:w]
    inside = np.abs(x + 0.5 - w / 2) / (w / 2) + np.abs(y + 0.5 - h / 2) / (h / 2) <= 1
    sheet = np.zeros((shape[1] * h, shape[0] * w, 4), np.uint8)
    boxes = []
    for row in range(shape[1]):
        for column in range(shape[0]):
            picture = tile(rng, w, h)
            picture[~inside] = 0
            boxes.append(put(sheet, picture, column * w, row * h))
    return sheet, boxes


def hexagon_sheet(seed: int, cell: tuple[int, int], columns: int) -> tuple[Pixels, list[Box]]:
    """Draw a strip of hexagons on a black key colour."""
    rng = np.random.default_rng(seed)
    w, h = cell
    y, x = np.mgrid[0:h, 0:w]
    inset = np.abs(y + 0.5 - h / 2) / (h / 2) * w / 4
    inside = (x + 0.5 >= inset) & (x + 0.5 <= w - inset)
    sheet = np.zeros((h, columns * w, 4), np.uint8)
    sheet[..., 3] = 255
    boxes = []
    for column in range(columns):
        picture = tile(rng, w, h)
        picture[..., :3] = np.maximum(picture[..., :3], 1)
        picture[~inside] = (0, 0, 0, 255)
        boxes.append(put(sheet, picture, column * w, 0))
    return sheet, boxes


def turning_sheet(
    seed: int, cell: int, shape: tuple[int, int], size: float = 0.8
) -> tuple[Pixels, list[Box]]:
    """Draw one long thing that turns from cell to cell, in the middle of each."""
    rng = np.random.default_rng(seed)
    y, x = np.mgrid[0:cell, 0:cell] - (cell - 1) / 2
    sheet = np.zeros((shape[1] * cell, shape[0] * cell, 4), np.uint8)
    boxes, count = [], shape[0] * shape[1]
    colour = rng.integers(40, 216, 3)
    for index in range(count):
        angle = 2 * np.pi * index / count
        along, across = x * np.cos(angle) + y * np.sin(angle), y * np.cos(angle) - x * np.sin(angle)
        inside = (along / (cell * size / 2)) ** 2 + (across / (cell * size / 5)) ** 2 <= 1
        inside |= (np.abs(along - cell * size / 4) < cell / 16) & (np.abs(across) < cell * size / 3)
        picture = np.zeros((cell, cell, 4), np.uint8)
        picture[inside] = (*colour, 255)
        picture[..., :3] = np.clip(picture[..., :3] + rng.integers(0, 20, (cell, cell, 1)), 0, 255)
        picture[~inside] = 0
        boxes.append(put(sheet, picture, index % shape[0] * cell, index // shape[0] * cell))
    return sheet, boxes


def walking_sheet(
    seed: int, cell: int, shape: tuple[int, int], size: float = 0.7
) -> tuple[Pixels, list[Box]]:
    """Draw one figure in steps of an animation: same place, legs and arms move."""
    rng = np.random.default_rng(seed)
    body = sprite(rng, max(4, int(cell * size * 0.5)), max(4, int(cell * size * 0.6)))
    sheet = np.zeros((shape[1] * cell, shape[0] * cell, 4), np.uint8)
    boxes = []
    for row in range(shape[1]):
        for column in range(shape[0]):
            picture = np.zeros((cell, cell, 4), np.uint8)
            top, left = cell - int(cell * size), (cell - body.shape[1]) // 2 + int(rng.integers(-1, 2))
            put(picture, body, left, top)
            for leg in range(2):
                reach = int(rng.integers(0, max(2, cell // 5)))
                x = cell // 2 + (reach if leg else -reach)
                picture[top + body.shape[0] - 1 : cell - 1, x : x + max(1, cell // 12)] = (60, 40, 30, 255)
            boxes.append(put(sheet, picture, column * cell, row * cell))
    return sheet, boxes


def digits_sheet(seed: int, cell: tuple[int, int]) -> tuple[Pixels, list[Box]]:
    """Draw ten glyphs of bars, a pixel apart, as a font strip."""
    rng = np.random.default_rng(seed)
    w, h = cell
    sheet = np.zeros((h, 10 * w, 4), np.uint8)
    colour = (*(int(v) for v in rng.integers(60, 250, 3)), 255)
    boxes = []
    for index in range(10):
        picture = np.zeros((h, w, 4), np.uint8)
        thick = max(1, w // 5)
        bars = rng.permutation(7) < 5
        x0, x1, mid = 0, w - 1 - thick, h // 2
        for on, place in zip(
            bars,
            (
                (slice(0, thick), slice(0, w - 1)),
                (slice(mid, mid + thick), slice(0, w - 1)),
                (slice(h - 1 - thick, h - 1), slice(0, w - 1)),
                (slice(0, mid), slice(x0, x0 + thick)),
                (slice(mid, h - 1), slice(x0, x0 + thick)),
                (slice(0, mid), slice(x1, x1 + thick)),
                (slice(mid, h - 1), slice(x1, x1 + thick)),
            ),
            strict=True,
        ):
            if on or index == 8:
                picture[place] = colour
        boxes.append(put(sheet, picture, index * w, 0))
    return sheet, boxes


def on_colour(sheet: Pixels, colour: tuple[int, int, int]) -> Pixels:
    """Lay a sheet on one opaque colour."""
    out = sheet.copy()
    out[sheet[..., 3] == 0] = (*colour, 255)
    return out


def tuple_crop(made: tuple[Pixels, list[Box]], right: int) -> tuple[Pixels, list[Box]]:
    """Take columns off the right of a sheet."""
    return np.ascontiguousarray(made[0][:, :-right]), made[1]


def f_one(cut: Cut, sheet: Pixels, boxes: list[Box], keys: tuple[tuple[int, int, int], ...] = ()) -> float:
    """Return the F1 of exact content boxes."""
    art = sheet[..., 3] > 0
    for key in keys:
        art &= (sheet[..., :3] != key).any(-1)
    want = {content_box(art, box) for box in boxes} - {None}
    got = [content for content in (content_box(art, frame.box) for frame in cut.frames) if content]
    return 2 * len(want & set(got)) / (len(want) + len(got))


SHEETS = {
    "cells of 32": lambda s: grid_sheet(s, (32, 32), (8, 4)),
    "cells of 24 x 40": lambda s: grid_sheet(s, (24, 40), (10, 3)),
    "small cells": lambda s: grid_sheet(s, (8, 8), (12, 6), fill=0.85),
    "margin 1 gutter 2": lambda s: grid_sheet(s, (16, 16), (14, 8), gutter=2, margin=1, fill=1.0),
    "parts in cells": lambda s: grid_sheet(s, (32, 32), (8, 4), parts=2),
    "padded at the right": lambda s: grid_sheet(s, (20, 32), (5, 1), pad=(28, 0)),
    "strip": lambda s: grid_sheet(s, (48, 48), (6, 1)),
    "touching tiles": lambda s: tile_sheet(s, (16, 16), (12, 8)),
    "large touching tiles": lambda s: tile_sheet(s, (32, 32), (8, 5)),
    "packed, gap 2": lambda s: shelf_sheet(s, 60, (10, 40), 2, 320),
    "packed, gap 1": lambda s: shelf_sheet(s, 80, (8, 30), 1, 256),
    "packed like sizes": lambda s: shelf_sheet(s, 90, (24, 34), 2, 400),
    "packed parts": lambda s: shelf_sheet(s, 40, (20, 50), 6, 400, parts=2),
    "packed solid": lambda s: shelf_sheet(s, 50, (10, 50), 2, 300, solid=True),
    "few sprites": lambda s: shelf_sheet(s, 9, (12, 60), 5, 160),
    "boxes of a second key": lambda s: boxed_sheet(s, 20),
    "many boxes of a second key": lambda s: boxed_sheet(s, 150),
    "glyphs in boxes": lambda s: glyph_boxes_sheet(s, 70),
    "outlined frames": lambda s: framed_sheet(s, 18),
    "several grids": strips_sheet,
    "diamonds": lambda s: diamond_sheet(s, (64, 32), (6, 4)),
    "turning": lambda s: turning_sheet(s, 40, (4, 4)),
    "turning, small": lambda s: turning_sheet(s, 16, (4, 4), 1.0),
    "turning, large": lambda s: turning_sheet(s, 96, (8, 3), 0.98),
    "walking": lambda s: walking_sheet(s, 32, (16, 1)),
    "walking rows": lambda s: walking_sheet(s, 32, (15, 2)),
    "walking, wide": lambda s: walking_sheet(s, 48, (5, 14), 0.9),
    "digits": lambda s: digits_sheet(s, (10, 16)),
    "two tiny cells": lambda s: grid_sheet(s, (3, 3), (2, 1), fill=1.0),
    "does not divide": lambda s: tuple_crop(grid_sheet(s, (94, 63), (6, 1), fill=0.9), 1),
    "hexagons": lambda s: hexagon_sheet(s, (60, 50), 9),
}
KEYS = {
    "many boxes of a second key": ((255, 255, 255), (0, 0, 255)),
    "glyphs in boxes": ((255, 255, 255), (0, 0, 255)),
    "boxes of a second key": ((255, 255, 255), (0, 0, 255)),
    "hexagons": ((0, 0, 0),),
}


@pytest.mark.parametrize("seed", [0, 1])
@pytest.mark.parametrize("name", sorted(SHEETS))
def test_sheets_are_cut_without_hints(name: str, seed: int) -> None:
    sheet, boxes = SHEETS[name](seed)
    cut = cut_guess(sheet, SliceOptions())
    assert f_one(cut, sheet, boxes, KEYS.get(name, ())) >= 0.95
    assert 0 <= cut.confidence <= 1
    assert cut.reason


@pytest.mark.parametrize(
    ("name", "grid"),
    [
        ("cells of 32", ((32, 32), (0, 0), (0, 0))),
        ("cells of 24 x 40", ((24, 40), (0, 0), (0, 0))),
        ("margin 1 gutter 2", ((16, 16), (1, 1), (2, 2))),
        ("padded at the right", ((20, 32), (0, 0), (0, 0))),
        ("touching tiles", ((16, 16), (0, 0), (0, 0))),
        ("turning, small", ((16, 16), (0, 0), (0, 0))),
        ("digits", ((10, 16), (0, 0), (0, 0))),
        ("hexagons", ((60, 50), (0, 0), (0, 0))),
    ],
)
def test_grids_are_exact(name: str, grid: tuple[tuple[int, int], ...]) -> None:
    found = cut_guess(SHEETS[name](3)[0], SliceOptions()).grid
    assert found is not None
    assert (found.cell, found.margin, found.gutter) == grid


@pytest.mark.parametrize("name", ["cells of 32", "packed, gap 2", "walking rows", "diamonds"])
@pytest.mark.parametrize("change", ["turned", "mirrored", "on magenta", "on black"])
def test_changed_sheets_are_cut_as_well(name: str, change: str) -> None:
    sheet, boxes = SHEETS[name](5)
    keys: tuple[tuple[int, int, int], ...] = ()
    width = sheet.shape[1]
    if change == "turned":
        sheet = np.ascontiguousarray(sheet.swapaxes(0, 1))
        boxes = [(y, x, h, w) for x, y, w, h in boxes]
    elif change == "mirrored":
        sheet = np.ascontiguousarray(sheet[:, ::-1])
        boxes = [(width - x - w, y, w, h) for x, y, w, h in boxes]
    else:
        keys = ((255, 0, 255),) if change == "on magenta" else ((0, 0, 0),)
        sheet = on_colour(sheet, keys[0])
    assert f_one(cut_guess(sheet, SliceOptions()), sheet, boxes, keys) >= 0.95


def test_painted_gutters_are_left_out_of_the_cells() -> None:
    sheet, _ = tile_sheet(2, (16, 16), (10, 6))
    framed = np.empty((6 * 17 + 1, 10 * 17 + 1, 4), np.uint8)
    framed[:] = (200, 40, 120, 255)
    for row in range(6):
        for column in range(10):
            framed[1 + row * 17 : 17 + row * 17, 1 + column * 17 : 17 + column * 17] = sheet[
                row * 16 : row * 16 + 16, column * 16 : column * 16 + 16
            ]
    cut = cut_guess(framed, SliceOptions())
    assert cut.grid is not None
    assert (cut.grid.cell, cut.grid.margin, cut.grid.gutter) == ((16, 16), (1, 1), (1, 1))
    assert len(cut.frames) == 60


def test_a_second_key_colour_is_named() -> None:
    cut = cut_guess(boxed_sheet(4, 12)[0], SliceOptions())
    assert cut.background.colours == ((255, 255, 255), (0, 0, 255))
    assert "labels" in cut.reason


def test_two_grids_side_by_side() -> None:
    one, first = grid_sheet(1, (32, 32), (8, 6), fill=0.95)
    two, second = grid_sheet(2, (24, 24), (8, 8), fill=0.95)
    sheet = np.concatenate([one, two], axis=1)
    boxes = [*first, *((x + one.shape[1], y, w, h) for x, y, w, h in second)]
    assert f_one(cut_guess(sheet, SliceOptions()), sheet, boxes) >= 0.95


def test_hints_go_before_evidence() -> None:
    sheet, _ = grid_sheet(1, (32, 32), (8, 4))
    by_cell = cut_guess(sheet, SliceOptions(cell=(64, 32)))
    assert by_cell.grid is not None
    assert by_cell.grid.cell == (64, 32)
    by_columns = cut_guess(sheet, SliceOptions(columns=4))
    assert by_columns.grid is not None
    assert by_columns.grid.columns == 4
    keyed = on_colour(sheet, (0, 0, 0))
    assert cut_guess(keyed, SliceOptions(keys=((0, 0, 0),))).background.colours == ((0, 0, 0),)
    parts, boxes = shelf_sheet(3, 20, (20, 50), 9, 300, parts=2)
    assert f_one(cut_guess(parts, SliceOptions(merge_px=4)), parts, boxes) == 1.0


def test_runners_up_are_offered_in_order() -> None:
    cut = cut_guess(grid_sheet(1, (32, 32), (4, 2))[0], SliceOptions())
    assert cut.alternatives
    assert all(other.confidence <= cut.confidence for other in cut.alternatives)
    assert all(other.count > 0 for other in cut.alternatives)


@pytest.mark.parametrize("size", [(1, 1), (1, 9), (9, 1), (2, 2), (3, 6), (7, 200)])
@pytest.mark.parametrize("alpha", [0, 255])
def test_tiny_and_empty_pictures_do_not_fail(size: tuple[int, int], alpha: int) -> None:
    sheet = np.zeros((*size, 4), np.uint8)
    sheet[..., 3] = alpha
    assert (len(cut_guess(sheet, SliceOptions()).frames) > 0) == (alpha > 0)


def test_noise_gives_no_confident_answer() -> None:
    rng = np.random.default_rng(0)
    sheet = rng.integers(0, 256, (97, 131, 4)).astype(np.uint8)
    sheet[..., 3] = 255
    assert cut_guess(sheet, SliceOptions()).confidence < 0.9


def test_guess_is_the_same_every_time() -> None:
    sheet, _ = shelf_sheet(1, 40, (8, 30), 1, 200)
    assert cut_guess(sheet, SliceOptions()) == cut_guess(sheet, SliceOptions())


def test_strays_below_a_filled_box_are_left_out() -> None:
    sheet, boxes = boxed_sheet(4, 20)
    x, y, width, height = boxes[7]
    marked = sheet.copy()
    marked[y + height, x + width // 2] = (224, 244, 252, 255)
    cut = cut_guess(marked, SliceOptions())
    assert (x, y, width, height) in {frame.box for frame in cut.frames}


def test_a_figure_of_one_size_makes_no_gutter() -> None:
    sheet = np.zeros((40, 6 * 90, 4), np.uint8)
    for number in range(6):
        sheet[20:, number * 90 : number * 90 + 88] = (70, 90, 60, 255)
        sheet[2 * number : 20, number * 90 + 30 : number * 90 + 50] = (200, 160, 40, 255)
    grid = cut_guess(sheet, SliceOptions()).grid
    assert grid is not None
    assert (grid.cell[0], grid.gutter[0]) == (90, 0)

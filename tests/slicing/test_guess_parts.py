"""What guessing weighs: places of the first line, parts of a sheet, backgrounds. Sheets are drawn by code."""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from scenekit.slicing.guess_axis import Axis, axis_candidates
from scenekit.slicing.guess_grid import GridReading, grids
from scenekit.slicing.guess_ground import Ground, grounds
from scenekit.slicing.guess_prior import aspect_bits
from scenekit.slicing.guess_several import LOOK_PX, MOST_LOOKED_PX, Looks, alike, cell_further, several_sheets
from scenekit.slicing.guess_sheet import Reading

Pixels = NDArray[np.uint8]
PERIOD = 24


def cropped_strip() -> Pixels:
    """Draw cells with a slit near their right sides, which looks like the line between cells; take 3 px off.

    The true line is crossed in every third cell.
    """
    rng = np.random.default_rng(5)
    sheet = np.zeros((PERIOD, 8 * PERIOD, 4), np.uint8)
    for column in range(8):
        left = column * PERIOD
        sheet[2:22, left + 1 : left + 20, :3] = rng.integers(90, 110, (20, 19, 3))
        sheet[2:22, left + 1 : left + 20, 3] = 255
        sheet[4:20, left + 21 : left + 23] = (90, 120, 60, 255)
        if column % 3 == 1:
            sheet[10:14, left + 22 : left + 26] = (92, 122, 62, 255)
    return np.ascontiguousarray(sheet[:, 3:])


def test_the_second_best_place_of_the_first_line_is_offered_as_well() -> None:
    sheet = cropped_strip()
    found = axis_candidates(
        sheet, sheet[..., 3] > 0, np.zeros(sheet.shape[1], np.bool_), np.zeros(0, np.int64)
    )
    phases = {axis.margin % PERIOD for axis in found if axis.period == PERIOD}
    assert PERIOD - 3 in phases
    assert len(phases) > 2


def test_grids_of_the_same_measures_are_offered_once() -> None:
    sheet = cropped_strip()
    found = grids(sheet, grounds(sheet)[0])
    assert len({reading.measures for reading in found}) == len(found)
    assert [reading.bits for reading in found] == sorted((r.bits for r in found), reverse=True)


def row_of(cell: int, count: int, margin: int = 0) -> GridReading:
    """Return a grid of one row."""
    axis = Axis(cell=cell, gutter=0, margin=margin, count=count, evidence=0.0, bits=0.0)
    return GridReading(
        columns=axis,
        rows=replace(axis, margin=0, count=1),
        contents=np.zeros((1, count, 4), np.int64),
        alignment=0.0,
        broken=0.0,
        bits=10.0,
    )


def whole_of(grid: GridReading | None) -> Reading:
    """Return a reading of a whole sheet."""
    clear = np.zeros(1, np.bool_)
    ground = Ground(kind="alpha", keys=(), mask=clear[None], bits=0.0, columns=clear, rows=clear)
    return Reading(
        method="cells", boxes=np.zeros((0, 4), np.int64), grid=grid, ground=ground, bits=1.0, reason=""
    )


def test_cells_of_one_size_that_begin_anew_are_another_sheet() -> None:
    none = whole_of(None)
    assert alike(none, row_of(20, 6), row_of(20, 6), 0, 120)
    assert not alike(none, row_of(20, 6), row_of(20, 6), 0, 128)
    assert alike(none, row_of(20, 6), row_of(20, 6, margin=12), 0, 128)
    assert alike(whole_of(row_of(20, 12)), row_of(20, 6), row_of(20, 6), 0, 128)
    assert not alike(none, row_of(20, 6), row_of(24, 5), 0, 120)


def test_a_colour_all_around_and_over_most_of_the_sheet_is_the_background() -> None:
    full = np.full((60, 60, 4), 255, np.uint8)
    full[..., :3] = np.random.default_rng(1).integers(20, 250, (60, 60, 3))
    framed = full.copy()
    framed[:20, :, :3] = framed[40:, :, :3] = framed[:, :20, :3] = framed[:, 40:, :3] = 0
    bits = {name: grounds(sheet)[-1].bits for name, sheet in (("full", full), ("framed", framed))}
    assert [ground.kind for ground in grounds(framed)] == ["key", "none"]
    assert bits["framed"] > bits["full"] + 10


def test_a_grid_beside_sprites_without_one_is_cut_on_its_own() -> None:
    rng = np.random.default_rng(8)
    sheet = np.zeros((120, 560, 4), np.uint8)
    want = set()
    for x, y in ((20 * column, 20 * row) for column in range(15) for row in range(6)):
        sheet[y : y + 20, x : x + 20, :3] = rng.integers(60, 200, 3) + rng.integers(-9, 10, (20, 20, 1))
        sheet[y : y + 20, x : x + 20, 3] = 255
        want.add((x, y, 20, 20))
    shapes = ((307, 3, 61, 47), (371, 9, 97, 71), (313, 57, 51, 61), (471, 20, 67, 95))
    for left, top, width, height in shapes:
        y, x = np.mgrid[0:height, 0:width]
        shape = ((2 * x + 1) / width - 1) ** 2 + ((2 * y + 1) / height - 1) ** 2 <= 1
        sheet[top : top + height, left : left + width][shape] = (*rng.integers(60, 200, 3), 255)
        want.add((left, top, width, height))
    found = several_sheets(sheet, grounds(sheet)[0], whole_of(None), 1)
    assert found is not None
    assert {tuple(box) for box in found.boxes.tolist()} == want
    assert found.bits < 10


def test_a_part_with_one_cell_more_is_tried_where_no_art_runs_across() -> None:
    mask = np.ones((10, 200), np.bool_)
    mask[:, 119] = False
    clear = np.zeros(200, np.bool_)
    ground = Ground(kind="alpha", keys=(), mask=mask, bits=0.0, columns=clear, rows=clear[:10])
    assert cell_further(ground, 0, 100, [row_of(20, 5), None]) == [(0, 120)]
    assert cell_further(ground, 0, 80, [row_of(20, 4), None]) == []
    assert cell_further(ground, 0, 140, [None, row_of(20, 3)]) == [(0, 120)]
    assert cell_further(ground, 0, 100, [row_of(20, 5), row_of(20, 5)]) == []


def crowded(size: int) -> Pixels:
    """Draw a sheet of small blocks of many widths, which may be parted at very many lines."""
    rng = np.random.default_rng(3)
    sheet = np.zeros((size, size, 4), np.uint8)
    for y in range(0, size - 20, 20):
        x = 0
        while x < size - 24:
            wide = int(rng.choice((7, 11, 15, 19)))
            sheet[y + 1 : y + 15, x : x + wide, :3] = rng.integers(40, 220, 3)
            sheet[y + 1 : y + 15, x : x + wide, 3] = 255
            x += wide + 1
    return sheet


def test_the_work_on_parts_of_a_sheet_is_bounded() -> None:
    for size in (60, 500):
        sheet, looks = crowded(size), Looks()
        several_sheets(sheet, grounds(sheet)[0], whole_of(None), 3, looks)
        read = [shape[0] * shape[1] + LOOK_PX for _, _, shape, _ in looks.known]
        assert sum(read) <= MOST_LOOKED_PX + 4 * (size * size + LOOK_PX)
        assert len(read) <= MOST_LOOKED_PX // LOOK_PX + 4


def test_a_part_is_read_once() -> None:
    sheet = crowded(60)
    ground, looks = grounds(sheet)[0], Looks()
    first = looks.best(sheet, ground, (0, 0))
    left = looks.left
    assert looks.best(sheet, ground, (0, 0)) is first
    assert looks.left == left
    assert looks.within((5, 0)).best(sheet, ground, (-5, 0)) is first


def strip_of(rng: np.random.Generator, count: int, width: int, height: int) -> Pixels:
    """Draw figures of one kind side by side, each with its own small changes."""
    sheet = np.zeros((height, count * width, 4), np.uint8)
    for column in range(count):
        part = sheet[:, column * width : (column + 1) * width]
        part[3 : height - 2, 2 : width - 2, :3] = rng.integers(90, 110, (height - 5, width - 4, 3))
        part[3 : height - 2, 2 : width - 2, 3] = 255
    return sheet


def test_of_cells_nothing_else_tells_apart_those_of_common_shape_are_likelier() -> None:
    assert aspect_bits(16, 16) == 0
    assert aspect_bits(16, 32) == aspect_bits(32, 16) == aspect_bits(48, 24)
    assert aspect_bits(15, 36) > aspect_bits(15, 20) > 0
    strip = strip_of(np.random.default_rng(3), 9, 20, 40)
    best = grids(strip, grounds(strip)[0])[0]
    assert (best.columns.cell, best.rows.cell) == (20, 40)  # what is seen goes before shape

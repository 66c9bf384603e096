"""Sheets: grid lines dragged and typed, boxes that snap and move in groups, frames that follow their art."""

from pathlib import Path

import numpy as np
import pygame
import pytest
from PIL import Image

from scenekit.editor.boxdrag import edges_of, snapped, within
from scenekit.editor.gridlines import Line, dragged, lines_of, read_pair
from scenekit.errors import ProjectError
from scenekit.slicing.cut import Grid

GRID = Grid(cell=(12, 16), margin=(4, 2), gutter=(2, 3), columns=4, rows=2)


def sheet_picture(
    path: Path, cell: tuple[int, int], margin: tuple[int, int], gutter: tuple[int, int]
) -> None:
    """Draw a sheet of 4 x 2 full cells of different colours."""
    size = [margin[a] + (4, 2)[a] * (cell[a] + gutter[a]) for a in (0, 1)]
    pixels = np.zeros((size[1], size[0], 4), dtype=np.uint8)
    for number in range(8):
        x = margin[0] + number % 4 * (cell[0] + gutter[0])
        y = margin[1] + number // 4 * (cell[1] + gutter[1])
        pixels[y : y + cell[1], x : x + cell[0]] = (40 + 20 * number, 90, 200 - 20 * number, 255)
    Image.fromarray(pixels).save(path)


def test_lines_stand_where_cells_begin_and_end():
    found = {(line.axis, line.kind): line.at for line in lines_of(GRID)}
    assert found == {
        (0, "margin"): 4, (0, "cell"): 16, (0, "gutter"): 30,
        (1, "margin"): 2, (1, "cell"): 18, (1, "gutter"): 37,
    }  # fmt: skip


@pytest.mark.parametrize("line", lines_of(GRID))
def test_a_dragged_line_changes_its_own_number_only(line: Line):
    moved = dragged(GRID, line, line.at + 3)
    old = {"margin": GRID.margin, "cell": GRID.cell, "gutter": GRID.gutter}
    new = {"margin": moved.margin, "cell": moved.cell, "gutter": moved.gutter}
    for kind in old:
        for axis in (0, 1):
            more = 3 if (axis, kind) == (line.axis, line.kind) else 0
            assert new[kind][axis] == old[kind][axis] + more
    assert {(n.axis, n.kind): n.at for n in lines_of(moved)}[line.axis, line.kind] == line.at + 3


def test_pairs_are_read():
    assert read_pair("12, 8*2", 1) == (12, 16)
    assert read_pair("12x16", 1) == (12, 16)
    assert read_pair("4", 0) == (4, 4)
    with pytest.raises(ProjectError):
        read_pair("0, 4", 1)
    with pytest.raises(ProjectError):
        read_pair("1, 2, 3", 1)


def test_the_nearest_edge_within_reach_snaps():
    lines = edges_of([(40, 0, 10, 10)], (100, 50))
    assert lines == ((0, 40, 50, 100), (0, 10, 50))
    assert snapped([(10, 20, 8, 8)], "body", (21, 0), lines, 2) == (22, 0)
    assert snapped([(10, 20, 8, 8)], "body", (18, 0), lines, 2) == (18, 0)
    assert snapped([(10, 20, 8, 8)], "right", (20, 0), lines, 2) == (22, 0)
    assert snapped([(10, 20, 8, 8)], "left", (20, 0), lines, 2) == (20, 0)


def test_a_group_stops_at_the_picture_as_one():
    boxes = [(2, 2, 4, 4), (90, 2, 8, 4)]
    assert within(boxes, "body", (-9, 0), (100, 50)) == (-2, 0)
    assert within(boxes, "body", (9, 60), (100, 50)) == (2, 44)


def brought_in(hand, picture: Path):
    desk = hand.window.desk
    desk.session.station = "sheets"
    hand.frame(2)
    hand.post(pygame.DROPFILE, file=str(picture))
    hand.frame(3)
    for _ in range(400):
        if "cutting" in desk.local and desk.local["cutting"].done:
            break
        pygame.time.wait(20)
        hand.frame(1)
    hand.frame(2)
    return desk.local["cutting"]


def test_lines_are_dragged_on_a_sheet(hand, tmp_path: Path):
    sheet_picture(tmp_path / "tiles.png", (12, 16), (4, 2), (2, 3))
    now = brought_in(hand, tmp_path / "tiles.png")
    hand.type("cut:cell", "10, 16")
    hand.type("cut:margin", "4, 2")
    hand.type("cut:gutter", "2, 3")
    assert now.cut.grid.cell == (10, 16)
    view = hand.window.desk.local[f"view cut {now.name}"]
    _x, y, _w, h = hand.window.desk.ui.marks[f"canvas:cut {now.name}"]
    spot = (view.x + 14 * view.zoom, y + h - 6)
    hand.drag_points(spot, (spot[0] + 2 * view.zoom, spot[1]))
    assert now.cut.grid.cell == (12, 16)
    assert now.cut.grid.gutter == (2, 3)
    boxes = [frame.box for frame in now.cut.frames]
    assert boxes == [(4 + n % 4 * 14, 2 + n // 4 * 19, 12, 16) for n in range(8)]
    assert len([cut for cut in now.cuts if cut is now.cut]) == 1
    assert now.line is None


def kept_sheet(hand, tmp_path: Path, **grid):
    sheet_picture(tmp_path / "tiles.png", (12, 16), (4, 2), (2, 3))
    now = brought_in(hand, tmp_path / "tiles.png")
    hand.type("cut:cell", "12, 16")
    hand.type("cut:margin", "4, 2")
    hand.type("cut:gutter", "2, 3")
    hand.click("cut:keep")
    desk = hand.window.desk
    hand.frame(2)
    desk.session.products.wait()
    hand.frame(4)
    return desk, desk.session.document.sheet(now.name)


def window_place(desk, sheet, pixel: tuple[float, float]) -> tuple[float, float]:
    view = desk.local[f"view sheet {sheet.name}"]
    return view.x + pixel[0] * view.zoom, view.y + pixel[1] * view.zoom


@pytest.fixture
def clean(hand):
    yield
    folder = hand.window.desk.session.document.folder
    (folder / "sheets" / "tiles.png").unlink(missing_ok=True)


def test_boxes_are_chosen_around_and_moved_in_a_group(hand, tmp_path: Path, clean):
    desk, sheet = kept_sheet(hand, tmp_path)
    hand.post(pygame.KEYDOWN, key=pygame.K_LSHIFT, mod=pygame.KMOD_SHIFT, unicode="")
    hand.frame(2)
    start, end = window_place(desk, sheet, (1, 0.5)), window_place(desk, sheet, (20, 10))
    hand.drag_points(start, end)
    hand.post(pygame.KEYUP, key=pygame.K_LSHIFT, mod=0)
    hand.frame(2)
    assert desk.session.chosen.frames == tuple(frame.name for frame in sheet.frames[:2])
    before = desk.session.history.place
    start = window_place(desk, sheet, (10, 10))
    zoom = desk.local[f"view sheet {sheet.name}"].zoom
    hand.drag_points(start, (start[0], start[1] + 3 * zoom))
    moved = desk.session.document.sheet(sheet.name)
    assert [f.box for f in moved.frames[:2]] == [(4, 5, 12, 16), (18, 5, 12, 16)]
    assert moved.frames[2:] == sheet.frames[2:]
    assert desk.session.history.place == before + 1
    hand.key(pygame.K_a, pygame.KMOD_CTRL)
    assert len(desk.session.chosen.frames) == 8


def test_a_box_is_added_where_one_looks(hand, tmp_path: Path, clean):
    desk, sheet = kept_sheet(hand, tmp_path)
    view = desk.local[f"view sheet {sheet.name}"]
    x, y, w, h = desk.local["sheet-area"]
    middle = view.to_picture((x + w / 2, y + h / 2))
    hand.click("box:add")
    left, top, wide, high = desk.session.document.sheet(sheet.name).frames[-1].box
    assert left <= middle[0] <= left + wide
    assert top <= middle[1] <= top + high


def test_frames_follow_a_picture_that_others_changed(hand, tmp_path: Path, clean):
    desk, sheet = kept_sheet(hand, tmp_path)
    session = desk.session
    path = session.document.folder / sheet.file
    sheet_picture(path, (12, 16), (9, 7), (2, 3))
    session.files_changed()
    hand.frame(2)
    session.products.wait()
    hand.frame(4)
    assert sheet.file in session.changed_pictures
    assert sheet.file in session.notice.text
    hand.click("follow:do")
    hand.frame(2)
    got = session.document.sheet(sheet.name)
    assert [f.name for f in got.frames] == [f.name for f in sheet.frames]
    assert [f.box for f in got.frames] == [(9 + n % 4 * 14, 7 + n // 4 * 19, 12, 16) for n in range(8)]
    assert session.history.undo_label == f"frames of {sheet.name} following their art"
    assert sheet.file not in session.changed_pictures
    assert "follow:do" not in desk.ui.marks

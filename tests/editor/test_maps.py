"""Maps in the window: made, painted on the scene, resized, taken back, saved."""

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import numpy as np
import pygame
import pytest
from PIL import Image

from scenekit.cli.main import outcome
from scenekit.editor import drafts
from scenekit.editor.history import Edit
from scenekit.editor.parts.mapover import line_between
from scenekit.model.edits import put_plane, put_scene
from scenekit.model.planes import Band, Turn
from scenekit.model.scene import Camera


def tiles(path: Path) -> None:
    """Draw four tiles of 16 x 16 pixels, none of them the mirror of itself."""
    picture = np.zeros((16, 64, 4), dtype=np.uint8)
    picture[..., 3] = 255
    for n in range(4):
        picture[:, n * 16 : n * 16 + 16, :3] = (40 * n + 30, 90, 160 - 30 * n)
        picture[2:6, n * 16 + 1 : n * 16 + 9, :3] = (250, 220, 40 * n)
    Image.fromarray(picture).save(path)


@pytest.fixture
def mapped(tmp_path, monkeypatch, opener):
    """Return a window on a small project with a sheet of tiles and one plane."""
    monkeypatch.setenv("SDL_VIDEODRIVER", "dummy")
    folder = tmp_path / "game"
    Image.fromarray(np.full((200, 320, 3), 60, dtype=np.uint8)).save(tmp_path / "back.png")
    tiles(tmp_path / "tiles.png")
    for words in (
        ["new", folder],
        [
            "slice",
            tmp_path / "tiles.png",
            "--cell",
            "16x16",
            "--into",
            folder,
            "--author",
            "A",
            "--licence",
            "CC0",
        ],
        ["add", "plane", folder, tmp_path / "back.png"],
    ):
        assert outcome([str(word) for word in words]) == 0
    made = opener(folder, tmp_path, (1280, 1400))
    made.window.desk.session.station = "planes"
    made.frame(4)
    yield made
    made.window.backend.close()


def settle(hand) -> None:
    hand.frame(3)
    hand.window.desk.session.products.wait()
    hand.frame(3)


def cell_spot(hand, column: int, row: int) -> tuple[float, float]:
    x, y, w, _ = hand.window.desk.ui.marks["scene"]
    zoom = w / 320
    return x + (column * 16 + 8) * zoom, y + (row * 16 + 8) * zoom


def cells(hand) -> list[list[str]]:
    session = hand.window.desk.session
    plane = next(plane for plane in session.scene.planes if plane.map)
    text = (session.document.folder / plane.map).read_text()
    return [line.split(",") for line in text.splitlines()]


def test_a_map_is_made_painted_taken_back_and_saved(mapped):
    session, desk = mapped.window.desk.session, mapped.window.desk
    mapped.click("map:add")
    assert [len(cells(mapped)), len(cells(mapped)[0])] == [13, 20]
    settle(mapped)
    mapped.click("tile:2")
    mapped.click("map:turn:mirrored")
    steps = session.history.place
    mapped.drag_points(cell_spot(mapped, 3, 5), cell_spot(mapped, 7, 5))
    assert session.history.place == steps + 1
    assert cells(mapped)[5][2:9] == ["-1", "2h", "2h", "2h", "2h", "2h", "-1"]
    settle(mapped)
    assert desk.product.error == ""
    session.undo()
    mapped.frame(2)
    assert cells(mapped)[5][3] == "-1"
    session.redo()
    mapped.frame(2)
    assert cells(mapped)[5][3] == "2h"
    assert not (session.document.folder / "maps").exists()
    assert session.save()
    plane = session.scene.planes[-1]
    assert plane.map == f"maps/{session.scene.name}-map.csv"
    saved = (session.document.folder / plane.map).read_bytes()
    assert b"-1,2h,2h,2h,2h,2h,-1" in saved
    assert outcome(["check", str(session.document.folder)]) == 0
    mapped.drag_points(cell_spot(mapped, 0, 0), cell_spot(mapped, 0, 0))
    assert session.dirty
    assert (session.document.folder / plane.map).read_bytes() == saved
    session.undo()
    session.undo()
    mapped.frame(2)
    assert cells(mapped)[5][3] == "-1"
    session.redo()
    assert not session.dirty


def test_after_two_saves_every_older_state_still_comes_back(mapped):
    session = mapped.window.desk.session
    mapped.click("map:add")
    settle(mapped)
    for column in range(3):
        mapped.drag_points(cell_spot(mapped, column, 2), cell_spot(mapped, column, 2))
        assert session.save()
    for left in (3, 2, 1, 0):
        assert [cell == "0" for cell in cells(mapped)[2][:3]] == [n < left for n in range(3)]
        session.undo()
        mapped.frame(2)


def test_boxes_keys_and_the_tile_under_the_pointer(mapped):
    desk = mapped.window.desk
    mapped.click("map:add")
    settle(mapped)
    mapped.click("tile:1")
    mapped.post(pygame.KEYDOWN, key=pygame.K_LSHIFT, mod=pygame.KMOD_SHIFT, unicode="")
    mapped.frame(2)
    mapped.drag_points(cell_spot(mapped, 1, 1), cell_spot(mapped, 3, 2))
    mapped.post(pygame.KEYUP, key=pygame.K_LSHIFT, mod=0)
    mapped.frame(2)
    assert [row[:5] for row in cells(mapped)[1:3]] == [["-1", "1", "1", "1", "-1"]] * 2
    mapped.key(pygame.K_RIGHT, pygame.KMOD_ALT)
    mapped.click("tile:3")
    mapped.key(pygame.K_RETURN, pygame.KMOD_ALT)
    assert cells(mapped)[2][4] == "3"
    mapped.type("map:columns", "22")
    mapped.type("map:rows", "12")
    assert [len(cells(mapped)), len(cells(mapped)[0])] == [12, 22]
    assert desk.session.notice is None or desk.session.notice.level != "alarm"


def test_tiles_of_a_map_take_turns(mapped):
    session = mapped.window.desk.session
    mapped.click("map:add")
    settle(mapped)
    mapped.click("map:turn-add")
    assert session.scene.planes[-1].turns == (Turn(frames=("r00c00", "r00c01"), ticks=12),)
    mapped.type("map:turn-0:frames", "r00c01 r00c02 r00c03")
    mapped.type("map:turn-0:ticks", "2*4")
    assert session.scene.planes[-1].turns == (Turn(frames=("r00c01", "r00c02", "r00c03"), ticks=8),)
    settle(mapped)
    assert session.products.now.error == ""
    assert session.save()
    mapped.click("map:turn-0:drop")
    assert session.scene.planes[-1].turns == ()


def test_a_map_with_bands_is_painted_where_each_band_stands(mapped):
    session, desk = mapped.window.desk.session, mapped.window.desk
    mapped.click("map:add")
    mapped.type("map:columns", "60")
    plane = session.scene.planes[-1]
    bands = (
        Band(rows=(0, 40), ratio=(Fraction(1, 2), Fraction(1))),
        Band(rows=(40, 208), ratio=(Fraction(2), Fraction(1))),
    )
    camera = Camera(start=(64, 0))
    changed = replace(
        put_plane(session.scene, replace(plane, bands=bands, wrap=(True, False))), camera=camera
    )
    assert session.apply(Edit(document=put_scene(session.document, changed), label="bands"))
    settle(mapped)
    mapped.click("tile:2")
    mapped.drag_points(cell_spot(mapped, 3, 1), cell_spot(mapped, 3, 1))
    settle(mapped)
    mapped.drag_points(cell_spot(mapped, 3, 5), cell_spot(mapped, 3, 5))
    settle(mapped)
    assert [n for n, cell in enumerate(cells(mapped)[1]) if cell == "2"] == [3 + 32 // 16]
    assert [n for n, cell in enumerate(cells(mapped)[5]) if cell == "2"] == [3 + 128 // 16]
    mapped.drag_points(cell_spot(mapped, 9, 2), cell_spot(mapped, 9, 2))
    settle(mapped)
    assert cells(mapped)[2].index("2") == 9 + 128 // 16  # its middle is row 40, the first of the second band
    mapped.click("map:paint")
    mapped.post(pygame.MOUSEMOTION, pos=(5, 790), rel=(0, 0), buttons=(0, 0, 0))
    settle(mapped)
    tile = desk.product.art.sheets["tiles"][:, 32:48, :3]
    x, y, w, h = (round(value) for value in desk.preview_box)
    picture = pygame.surfarray.array3d(mapped.window.backend.surface).swapaxes(0, 1)[y : y + h, x : x + w]
    zoom = w // 320
    for column, row in ((3, 1), (3, 5)):
        part = picture[
            row * 16 * zoom : (row + 1) * 16 * zoom : zoom,
            column * 16 * zoom : (column + 1) * 16 * zoom : zoom,
        ]
        bright = part[..., 0] > 200
        assert np.array_equal(bright, tile[..., 0] > 200)


def test_no_cell_of_a_quick_stroke_is_left_out():
    assert line_between((0, 0), (3, 0)) == [(0, 0), (1, 0), (2, 0), (3, 0)]
    assert line_between((2, 5), (2, 5)) == [(2, 5), (2, 5)]
    cells = line_between((0, 0), (4, 2))
    assert cells[0] == (0, 0)
    assert cells[-1] == (4, 2)
    assert all(abs(a[0] - b[0]) <= 1 and abs(a[1] - b[1]) <= 1 for a, b in pairwise(cells))


def test_drafts_know_the_place_of_their_map(tmp_path: Path):
    text = drafts.map_text([[(3, 0), (-1, 0)], [(0, 2), (5, 3)]])
    assert text == "3,-1\n0v,5hv\n"
    path = drafts.keep(tmp_path, "maps/quay.csv", text)
    assert drafts.is_draft(path)
    assert drafts.base_of(path) == "maps/quay.csv"
    assert drafts.keep(tmp_path, path, text) == path
    drafts.forget(tmp_path)
    assert list(tmp_path.iterdir()) == []

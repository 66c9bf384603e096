"""The Planes station: ratios from depth and speed, bands, simpler ratios, loops in words, steering."""

from dataclasses import replace
from fractions import Fraction

import numpy as np
import pygame
import pytest

from scenekit.editor.history import Edit
from scenekit.editor.parts.bands import moved_edge
from scenekit.editor.parts.loops import step_words
from scenekit.model.edits import put_plane, put_scene
from scenekit.model.planes import Band
from scenekit.model.scene_text import scene_text
from scenekit.motion.expand import expand_project
from scenekit.render.screen import render_screen


@pytest.fixture
def planes(hand):
    """Return the hand at the Planes station with the hills chosen, in a window high enough for all of it."""
    backend = hand.window.backend
    backend.surface = pygame.display.set_mode((1280, 2400))
    backend.painter.surface = backend.surface
    session = hand.window.desk.session
    session.station, session.chosen.plane = "planes", "hills"
    hand.frame(4)
    yield hand
    backend.surface = pygame.display.set_mode((1280, 800))
    backend.painter.surface = backend.surface


def shown(hand) -> np.ndarray:
    x, y, w, h = (round(value) for value in hand.window.desk.preview_box)
    picture = pygame.surfarray.array3d(hand.window.backend.surface).swapaxes(0, 1)[y : y + h, x : x + w]
    zoom = w // 320
    return picture[::zoom, ::zoom]


def reference(hand, tick: int) -> np.ndarray:
    session, look = hand.window.desk.session, hand.window.desk.product.look
    project = expand_project(session.document)
    view = session.target.view or (0, 0, 320, 200)
    return render_screen(project, project.scene(session.scene.name), look, (320, 200), view, tick)


def settle(hand) -> None:
    hand.frame(3)
    hand.window.desk.session.products.wait()
    hand.post(pygame.MOUSEMOTION, pos=(5, 790), rel=(0, 0), buttons=(0, 0, 0))
    hand.frame(3)


def empty(hand, name: str) -> None:
    hand.click(name)
    hand.key(pygame.K_a, pygame.KMOD_CTRL)
    hand.key(pygame.K_BACKSPACE)
    hand.key(pygame.K_RETURN)
    hand.frame(2)


def test_a_ratio_from_depth_and_from_speed(planes):
    session = planes.window.desk.session
    planes.click("plane:way:depth")
    assert session.scene.planes[1].depth == 6
    assert "depth = 6" in scene_text(session.scene)
    planes.type("plane:depth", "12/2")
    planes.type("plane:depth", "4")
    settle(planes)
    session.playing.go(200, 740)
    planes.frame(2)
    assert planes.window.desk.product.error == ""
    assert np.array_equal(shown(planes), reference(planes, 200))
    planes.click("plane:way:speed")
    assert session.scene.planes[1].pace == Fraction(1, 4)
    planes.click("plane:way:ratio")
    assert session.scene.planes[1].ratio == (Fraction(1, 4), Fraction(1))


def test_a_plane_is_held_for_some_ticks(planes):
    session = planes.window.desk.session
    assert "plane:cadence-first" not in planes.window.desk.ui.marks
    planes.type("plane:cadence", "4")
    planes.type("plane:cadence-first", "3")
    assert session.scene.planes[1].cadence == (4, 3)
    settle(planes)
    for tick in (201, 202, 203):
        session.playing.go(tick, 740)
        planes.frame(2)
        assert np.array_equal(shown(planes), reference(planes, tick))
    assert "Held for 4 ticks" in step_words(session.scene.planes[1], Fraction(3, 2))
    planes.type("plane:cadence", "2")
    assert session.scene.planes[1].cadence == (2, 1)
    planes.type("plane:cadence", "0")
    assert session.scene.planes[1].cadence == (2, 1)


def test_bands_are_added_dragged_drawn_and_taken_out(planes):
    session, desk = planes.window.desk.session, planes.window.desk
    planes.click("plane:band:add")
    settle(planes)
    plane = session.scene.planes[1]
    assert len(plane.bands) == 1
    assert not plane.wrap[1]
    high = plane.bands[0].rows[1]
    planes.type("plane:band:0:ratio", "1/2")
    start = planes.spot("band-edge:0:0")
    steps = session.history.place
    planes.drag_points(start, (start[0], start[1] - 6))
    assert session.history.place == steps + 1
    assert session.scene.planes[1].bands[0].rows[0] < plane.bands[0].rows[0]
    assert session.scene.planes[1].bands[0].rows[1] == high
    settle(planes)
    session.playing.go(240, 740)
    planes.frame(2)
    assert desk.product.error == ""
    assert np.array_equal(shown(planes), reference(planes, 240))
    planes.click("plane:band:0:drop")
    assert session.scene.planes[1].bands == ()


def test_edges_of_bands_push_each_other_and_none_vanishes():
    ratio = (Fraction(1), Fraction(1))
    bands = (Band(rows=(10, 20), ratio=ratio), Band(rows=(20, 30), ratio=ratio))
    assert [b.rows for b in moved_edge(bands, 1, 0, 15, 40)] == [(10, 15), (15, 30)]
    assert [b.rows for b in moved_edge(bands, 1, 0, 2, 40)] == [(10, 11), (11, 30)]
    assert [b.rows for b in moved_edge(bands, 1, 0, 99, 40)] == [(10, 29), (29, 30)]
    assert [b.rows for b in moved_edge(bands, 1, 1, 99, 40)] == [(10, 20), (20, 40)]
    assert [b.rows for b in moved_edge(bands, 0, 0, -5, 40)] == [(0, 20), (20, 30)]


def test_judder_in_words(planes):
    plane = replace(planes.window.desk.session.scene.planes[1], ratio=(Fraction(2, 5), Fraction(1)))
    words = step_words(plane, Fraction(1))
    assert "0 0 1 0 1" in words  # floor(2t/5): 0 0 0 1 1 2, differences by hand
    assert "0.80 px" in words
    assert "evenly, 2 px" in step_words(replace(plane, ratio=(Fraction(2), Fraction(1))), Fraction(1))


def test_a_simpler_ratio_is_taken_with_one_press(planes):
    session = planes.window.desk.session
    odd = replace(session.scene.planes[1], ratio=(Fraction(17, 101), Fraction(1)))
    session.apply(Edit(document=put_scene(session.document, put_plane(session.scene, odd)), label="odd"))
    settle(planes)
    assert "plane:simpler:0" in planes.window.desk.ui.marks
    planes.click("plane:simpler:0")
    ratio = session.scene.planes[1].ratio[0]
    assert ratio.denominator <= 16
    assert abs(ratio - Fraction(17, 101)) <= Fraction(17, 404)


def test_the_camera_is_steered_by_arrow_keys(planes):
    session, desk = planes.window.desk.session, planes.window.desk
    session.playing.go(0, 740)
    planes.key(pygame.K_e, pygame.KMOD_CTRL)
    assert desk.local["steer"] == (0, 0)
    planes.post(pygame.KEYDOWN, key=pygame.K_RIGHT, mod=0, unicode="")
    planes.frame(31)
    planes.post(pygame.KEYUP, key=pygame.K_RIGHT, mod=0)
    planes.frame(2)
    hz = float(desk.product.mode.timing.refresh_hz)
    x, y = desk.local["steer"]
    assert y == 0
    assert abs(x - 31 / 60 * hz) <= 4
    assert session.history.place == 0
    planes.key(pygame.K_e, pygame.KMOD_CTRL)
    assert "steer" not in desk.local
    planes.key(pygame.K_e, pygame.KMOD_CTRL)
    session.station = "machine"
    planes.frame(2)
    assert "steer" not in desk.local


def test_scenes_are_added_named_and_taken_out(planes):
    session = planes.window.desk.session
    planes.type("scenes:backdrop", "203040")
    assert session.scene.backdrop == (0x20, 0x30, 0x40)
    settle(planes)
    planes.click("scenes:more")
    assert [scene.name for scene in session.document.scenes] == ["quay", "pier", "scene-2"]
    assert session.scene.name == "scene-2"
    planes.type("scenes:name", "yard")
    assert session.scene.name == "yard"
    settle(planes)
    planes.click("scenes:less")
    assert [scene.name for scene in session.document.scenes] == ["quay", "pier"]


def test_key_colour_rows_tiles_and_bank_of_a_plane(planes):
    session, desk = planes.window.desk.session, planes.window.desk
    settle(planes)
    high = desk.product.art.planes["quay", "hills"].shape[0]
    planes.type("plane:row-first", "8+2")
    planes.type("plane:row-end", f"{high}-5")
    assert session.scene.planes[1].rows == (10, high - 5)
    settle(planes)
    assert desk.product.art.planes["quay", "hills"].shape[0] == high - 15
    assert np.array_equal(shown(planes), reference(planes, session.playing.tick))
    planes.type("plane:row-end", f"{high + 1}")
    assert session.scene.planes[1].rows == (10, high - 5)
    planes.key(pygame.K_ESCAPE)
    planes.click("plane:row-all")
    assert session.scene.planes[1].rows is None
    planes.type("plane:tile-wide", "8*4")
    planes.type("plane:tile-high", "8")
    planes.type("plane:bank", "far")
    hills = session.scene.planes[1]
    assert (hills.tile, hills.bank) == ((32, 8), "far")
    empty(planes, "plane:bank")
    assert session.scene.planes[1].bank == ""
    assert 'bank = "far"' not in scene_text(session.scene)


def test_a_key_colour_makes_pixels_of_a_plane_clear(planes):
    session, desk = planes.window.desk.session, planes.window.desk
    settle(planes)
    session.chosen.plane = "sky"
    planes.frame(3)
    before = desk.product.art.planes["quay", "sky"]
    planes.click("plane:corner")
    key = session.scene.planes[0].key
    assert key == tuple(int(part) for part in before[0, 0, :3])
    settle(planes)
    after = desk.product.art.planes["quay", "sky"]
    cleared = (before[..., :3] == key).all(axis=2) & (before[..., 3] == 255)
    assert cleared.any()
    assert np.array_equal(after[..., 3] == 0, cleared | (before[..., 3] == 0))
    empty(planes, "plane:key")
    assert session.scene.planes[0].key is None

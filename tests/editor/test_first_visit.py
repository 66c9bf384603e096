"""The first-run tour, the page of keys, and reduced motion."""

import json

import numpy as np
import pygame
import pytest

from scenekit.editor.dialogs import TOUR
from scenekit.editor.keys import KEYS
from scenekit.editor.session import open_session
from scenekit.editor.settings import Settings
from scenekit.editor.window import Window


@pytest.fixture
def newcomer(copied_demo, tmp_path, monkeypatch, opener):
    """Return the hand in a window that nobody has seen the tour of, and where its settings are kept."""
    monkeypatch.setenv("SDL_VIDEODRIVER", "dummy")
    made = opener(copied_demo, tmp_path, (1024, 600))
    made.window.backend.close()
    kept = tmp_path / "kept" / "window.json"
    made.window = Window(open_session(copied_demo), (1024, 600), Settings(), kept)
    made.frame(4)
    yield made, kept
    made.window.backend.close()


def picture(hand, name: str) -> np.ndarray:
    x, y, w, h = (round(value) for value in hand.window.desk.ui.marks[name])
    screen = pygame.surfarray.array3d(hand.window.backend.surface).swapaxes(0, 1)
    return screen[y : y + h, x : x + w].copy()


def test_the_tour_is_walked_once(newcomer):
    hand, kept = newcomer
    desk = hand.window.desk
    for number, (spot, _) in enumerate(TOUR):
        assert desk.ask is not None
        assert desk.ask[0] == "tour"
        assert desk.ask[1].get("at", 0) == number
        assert spot == "" or spot in desk.local["tour-spots"]
        x, y, w, h = desk.ui.marks["answer:next"]
        assert x >= 0
        assert y >= 0
        assert x + w <= 1024
        assert y + h <= 600
        hand.click("answer:next")
        hand.frame(2)
    assert desk.ask is None
    assert json.loads(kept.read_text())["toured"] is True
    hand.click("foot:tour")
    assert desk.ask[0] == "tour"
    hand.key(pygame.K_ESCAPE)
    assert desk.ask is None


def test_escape_leaves_the_tour_for_good(newcomer):
    hand, kept = newcomer
    hand.key(pygame.K_ESCAPE)
    hand.frame(2)
    assert hand.window.desk.ask is None
    assert json.loads(kept.read_text())["toured"] is True


def test_the_page_of_keys_fits_a_small_window(newcomer):
    hand, _ = newcomer
    hand.key(pygame.K_ESCAPE)
    hand.key(pygame.K_F1)
    desk = hand.window.desk
    assert desk.ask[0] == "keys"
    _, y, _, h = desk.ui.marks["answer:done"]
    assert y + h <= 580
    _, top, _, last = desk.ui.marks["keys:last"]
    assert top + last <= y
    assert len(KEYS) >= 20
    hand.click("answer:done")
    assert desk.ask is None


@pytest.mark.parametrize(("station", "part"), [("motion", "facing:right"), ("colours", "cycle:water:ring")])
def test_reduced_motion_keeps_all_but_the_scene_still(hand, station, part):
    desk = hand.window.desk
    desk.session.station = station
    surface = pygame.display.set_mode((1280, 2000))
    hand.window.backend.surface = hand.window.backend.painter.surface = surface
    hand.window.backend.painter.forget()
    for still in (False, True):
        desk.settings.still = still
        seen, scenes = [], []
        for tick in (0, 7, 31, 55, 200):
            desk.session.playing.go(tick, 740)
            desk.session.playing.plays = True
            hand.post(pygame.MOUSEMOTION, pos=(5, 1990), rel=(0, 0), buttons=(0, 0, 0))
            hand.frame(2, 1e-6)
            seen.append(picture(hand, part))
            scenes.append(picture(hand, "scene"))
        desk.session.playing.plays = False
        assert any(not np.array_equal(seen[0], other) for other in seen[1:]) is not still
        assert any(not np.array_equal(scenes[0], other) for other in scenes[1:])
    desk.settings.still = False
    surface = pygame.display.set_mode((1280, 800))
    hand.window.backend.surface = hand.window.backend.painter.surface = surface

"""The Frames station: flags, frames that are equal up to flips; the Machine station's names and views."""

import numpy as np
import pygame

from scenekit.editor.parts.alike import alike
from scenekit.model.project_text import project_text
from scenekit.model.sprites import Frame


def test_frames_that_repeat_others_are_found_with_their_flip():
    picture = np.zeros((4, 20, 4), dtype=np.uint8)
    picture[0, 0] = picture[0, 7] = picture[3, 8] = (9, 9, 9, 255)
    picture[0, 12] = (9, 9, 8, 255)
    picture[3, 4:8, :3] = 77  # colours under no alpha do not count
    frames = [Frame(name=f"f{n}", box=(n * 4, 0, 4, 4), pivot=(0, 0)) for n in range(5)]
    assert alike(picture, frames) == {"f1": ("f0", 1), "f2": ("f0", 2)}


def test_flags_are_given_to_every_chosen_frame(hand):
    session = hand.window.desk.session
    session.station, session.chosen.sheet = "frames", "gull"
    names = [frame.name for frame in session.document.sheet("gull").frames]
    session.chosen.frames = tuple(names)
    hand.frame(4)
    hand.type("frame:flags", "solid, ladder")
    assert all(frame.flags == ("solid", "ladder") for frame in session.document.sheet("gull").frames)
    assert 'flags = ["solid", "ladder"]' in project_text(session.document)
    assert session.history.place == 1


def test_a_target_is_named_and_given_a_view(hand):
    session = hand.window.desk.session
    backend = hand.window.backend
    backend.surface = pygame.display.set_mode((1280, 1200))
    backend.painter.surface = backend.surface
    session.station = "machine"
    hand.frame(4)
    hand.type("target:name", "main")
    assert session.target.name == "main"
    hand.type("target:view-down", "200-176")
    hand.type("target:view-high", "176")
    assert session.target.view == (0, 24, 320, 176)
    hand.type("target:view-down", "0")
    hand.type("target:view-high", "200")
    assert session.target.view is None
    hand.click("target:drop")
    assert "main" not in [target.name for target in session.document.targets]
    backend.surface = pygame.display.set_mode((1280, 800))
    backend.painter.surface = backend.surface

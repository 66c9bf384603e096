"""The Frames station: flags, frames that are equal up to flips; the Machine station's names and views."""

import numpy as np
import pygame

from scenekit.editor.frameart import drawn_areas, shrunk
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


def test_small_pictures_leave_out_what_no_frame_of_a_size_draws_in():
    pixels = np.zeros((20, 30, 4), dtype=np.uint8)
    pixels[8:18, 3:5, 3] = 255
    pixels[10:16, 17:19, 3] = 255
    frames = tuple(
        Frame(name=name, box=box, pivot=(0, 0))
        for name, box in (("a", (0, 0, 10, 20)), ("b", (10, 0, 10, 20)), ("empty", (20, 0, 10, 10)))
    )
    assert drawn_areas(frames, pixels) == {(10, 20): (3, 8, 6, 10), (10, 10): (0, 0, 10, 10)}


def test_small_pictures_are_means_that_clear_pixels_do_not_darken():
    part = np.zeros((2, 4, 4), dtype=np.uint8)
    part[:, :2] = (200, 100, 40, 255)
    part[0, 2] = (80, 160, 240, 255)
    small = shrunk(part, (2, 1))
    assert small[0, 0].tolist() == [200, 100, 40, 255]
    assert abs(small[0, 1].astype(int) - (80, 160, 240, 64)).max() <= 2, "a quarter of it is drawn"


def test_letters_of_a_font_are_not_unused(hand):
    desk = hand.window.desk
    desk.session.station, desk.session.chosen.sheet = "frames", "small"
    desk.session.products.wait()
    hand.frame(6)
    used = desk.local["frames-in-use"][1]
    assert {name for sheet, name in used if sheet == "small"} == {
        frame.name for frame in desk.session.document.sheet("small").frames
    }
    assert ("items", "key") not in used

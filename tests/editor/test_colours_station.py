"""The Colours station: events, transitions, reserved entries, palettes, the scene seen another way."""

from pathlib import Path

import numpy as np
import pygame
import pytest

from scenekit.colour.dac import Ladder, shown_picture
from scenekit.colour.vision import as_seen
from scenekit.editor.parts.rules import read_groups
from scenekit.editor.parts.seen import SCALE, error_art, resistors_of
from scenekit.errors import ProjectError
from scenekit.model.project_text import project_text
from scenekit.model.scene_text import scene_text


@pytest.fixture
def colours(hand):
    """Return the hand at the Colours station in a window high enough for all of it."""
    backend, desk = hand.window.backend, hand.window.desk
    backend.surface = pygame.display.set_mode((1280, 2400))
    backend.painter.surface = backend.surface
    desk.session.station = "colours"
    desk.session.playing.go(120, 740)
    for key in ("event", "transition", "entry", "seen-way", "seen-ladder"):
        desk.local.pop(key, None)
    hand.frame(4)
    yield hand
    backend.surface = pygame.display.set_mode((1280, 800))
    backend.painter.surface = backend.surface


def settle(hand) -> None:
    hand.frame(3)
    hand.window.desk.session.products.wait()
    hand.frame(3)


def pixels(hand, name: str) -> np.ndarray:
    x, y, w, h = (round(value) for value in hand.window.desk.ui.marks[name])
    return pygame.surfarray.array3d(hand.window.backend.surface).swapaxes(0, 1)[y : y + h, x : x + w]


def test_a_fade_is_added_changed_and_taken_out(colours):
    session = colours.window.desk.session
    colours.click("event:fade")
    fade = session.scene.events[-1]
    assert (fade.name, fade.tick, fade.steps, fade.colours, fade.to) == ("fade", 120, 16, (), ((0, 0, 0),))
    settle(colours)
    colours.type("event:each", "0.1 s")
    colours.type("event:to", "102030")
    colours.click("event:mix:oklab")
    colours.click("event:back:and back")
    colours.type("event:name", "night")
    text = scene_text(session.scene)
    assert '[[events]]\nname = "night"\ntick = 120\nsteps = 16\nticks_per_step = 7\n' in text
    assert 'to = ["102030"]\nmix = "oklab"\nback = true\n' in text
    settle(colours)
    assert colours.window.desk.product.error == ""
    steps = session.history.place
    colours.click("event:drop")
    assert [event.name for event in session.scene.events] == ["dusk"]
    for _ in range(steps + 1):
        session.undo()
    assert not session.dirty


def test_a_time_of_day_takes_colours_of_the_rearmost_plane(colours):
    session = colours.window.desk.session
    colours.click("event:dusk")
    dusk = session.scene.events[-1]
    art = colours.window.desk.product.art.planes["quay", session.scene.planes[0].name]
    painted = {tuple(int(v) for v in colour) for colour in art[art[..., 3] >= 128][:, :3]}
    assert set(dusk.colours) <= painted
    assert len(dusk.to) == len(dusk.colours)
    assert sum(map(sum, dusk.to)) < sum(map(sum, dusk.colours))


def test_unequal_counts_of_colours_are_refused_in_words(colours):
    session, ui = colours.window.desk.session, colours.window.desk.ui
    colours.click("event:dusk")
    before = session.scene
    colours.type("event:to", "102030 405060")
    assert session.scene is before
    assert "2 colours" in ui.typed["event:to"].error


def test_transitions_are_added_and_their_cells_held_to_the_view(colours):
    session, desk = colours.window.desk.session, colours.window.desk
    colours.click("transition:close")
    made = session.scene.transitions[-1]
    view = session.target.view
    assert view[2] % made.cell[0] == view[3] % made.cell[1] == 0
    settle(colours)
    assert desk.product.error == ""
    colours.click("transition:kind:dissolve")
    colours.click("transition:opens:opens")
    colours.type("transition:tick", "10*2")
    assert 'kind = "dissolve"\ntick = 20\n' in scene_text(session.scene)
    settle(colours)
    assert desk.product.error == ""
    colours.click("transition:drop")
    assert [made.name for made in session.scene.transitions] == ["open", "close"]


def test_an_entry_is_reserved_and_let_go(colours):
    session = colours.window.desk.session
    colours.type("palette:entry", "40")
    colours.click("palette:reserve")
    assert [entry for entry, _ in session.target.reserved] == [40]
    colours.type("palette:reserved", "ff8800")
    assert session.target.reserved == ((40, (255, 136, 0)),)
    assert 'reserved = [{ entry = 40, colour = "ff8800" }]' in project_text(session.document)
    settle(colours)
    assert colours.window.desk.product.error == ""
    assert tuple(colours.window.desk.product.look.palette[40]) == (255, 136, 0)
    colours.click("palette:free")
    assert session.target.reserved == ()


def test_palettes_are_typed_or_brought_in_and_taken(colours, tmp_path: Path):
    session = colours.window.desk.session
    colours.type("rules:new", "000000 ffffff 4455aa 223344 ff8844 775533")
    assert session.target.palette == "palette"
    assert session.document.palettes[0].colours[2] == (0x44, 0x55, 0xAA)
    colours.click("rules:drop")
    assert (session.document.palettes, session.target.palette) == ((), "")
    file = tmp_path / "harbour.txt"
    file.write_text("102030 ; night\n#f0e0d0\n")
    colours.click("rules:bring")
    colours.frame(3)
    colours.type("path:text", str(file))
    assert session.target.palette == "harbour"
    assert session.document.palettes[0].file == "palettes/harbour.txt"
    assert (session.document.folder / "palettes" / "harbour.txt").read_bytes() == file.read_bytes()


def test_dither_and_entries_that_must_differ(colours):
    session = colours.window.desk.session
    colours.click("rules:dither:ordered")
    colours.type("rules:strength", "50")
    colours.type("rules:differ", "1 2, 3 4 5")
    text = project_text(session.document)
    assert 'differ = [[1, 2], [3, 4, 5]]\ndither = "ordered"\ndither_percent = 50\n' in text
    with pytest.raises(ProjectError, match="entries from 0 to 255"):
        read_groups("1 300")


def test_a_cycle_turns_there_and_back(colours):
    session = colours.window.desk.session
    colours.click("cycle:water:turns:there and back")
    assert session.document.cycles[0].there_and_back


def test_the_scene_seen_another_way_is_the_scene_on_show(colours):
    desk = colours.window.desk
    plain = pixels(colours, "scene")
    for way, kind in (("no red", "protan"), ("no green", "deutan"), ("no blue", "tritan")):
        colours.click(f"seen:way:{way}")
        assert np.array_equal(pixels(colours, "seen:picture"), as_seen(plain, kind)), way
    colours.click("seen:way:DAC")
    colours.type("seen:ohms", "270 510")
    ladder = Ladder(resistors_ohm=(270.0, 510.0), supply_v=3.3, tolerance_percent=5)
    assert np.array_equal(pixels(colours, "seen:picture"), shown_picture(plain, (ladder, ladder, ladder)))
    assert not desk.session.dirty
    with pytest.raises(ProjectError, match="ohms such as"):
        resistors_of("many")


def test_the_map_of_errors_shows_how_far_colours_are_off(colours):
    colours.click("seen:way:errors")
    seen = pixels(colours, "seen:picture")
    assert len(np.unique(seen.reshape(-1, 3), axis=0)) > 3
    product = colours.window.desk.product
    art = error_art(product.art, product.look)
    for name, picture in art.sheets.items():
        opaque = product.art.sheets[name][..., 3] >= 128
        assert ((picture > 0) == opaque).all()
        mean = (picture[opaque].astype(float) - 1).mean() / SCALE
        # sampled to sixteenths and cut at 15.9
        assert abs(mean - product.look.picture_error[f"sheet {name}"]) < 0.6, name

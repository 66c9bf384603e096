"""What a scene says beside pictures and ways: names, sleepers, a camera that goes after somebody, storage."""

import tomllib

import pygame
import pytest

from scenekit.editor.parts.storing import read_transfer, transfer_text
from scenekit.errors import ProjectError
from scenekit.model.camera import Wakes
from scenekit.model.project import read_project
from scenekit.model.project_text import project_text
from scenekit.model.scene import read_scene
from scenekit.model.scene_text import scene_text


@pytest.fixture
def tall(hand):
    """Return the hand in a window high enough for a whole station."""
    surface = pygame.display.set_mode((1280, 3000))
    hand.window.backend.surface = hand.window.backend.painter.surface = surface
    hand.window.backend.painter.forget()
    hand.frame(3)
    yield hand
    surface = pygame.display.set_mode((1280, 800))
    hand.window.backend.surface = hand.window.backend.painter.surface = surface


def choose(hand, name: str, option: str) -> None:
    hand.click(name)
    hand.click(f"{name}:{option}")


def sound(hand) -> None:
    """Wait until all is made, and see that it could be saved and read again."""
    session = hand.window.desk.session
    hand.frame(3)
    session.products.wait()
    hand.frame(3)
    assert session.products.now.error == ""
    assert session.notice is None or session.notice.level != "alarm"
    for scene in session.document.scenes:
        assert read_scene(tomllib.loads(scene_text(scene)), scene.name) == scene
    text, folder = project_text(session.document), session.document.folder
    assert read_project(tomllib.loads(text), folder, session.document.scenes) == session.document


def test_a_camera_goes_after_a_sprite_and_its_zone_is_typed(tall):
    session = tall.window.desk.session
    session.station, session.chosen.plane = "planes", "quay"
    tall.frame(4)
    choose(tall, "camera:keeps", "lamplighter")
    camera = session.scene.camera
    assert (camera.keeps, camera.path.segments) == ("lamplighter", ())
    tall.type("camera:zone-left", "320/4")
    assert session.scene.camera.zone[0] == 80
    sound(tall)
    choose(tall, "camera:keeps", "its own way")
    assert session.scene.camera.keeps == ""


def test_a_sprite_sleeps_until_the_view_comes(tall):
    session = tall.window.desk.session
    session.station, session.chosen.sprite, session.chosen.placed = "motion", "gull", ""
    tall.frame(4)
    name = next(p.name for p in session.scene.placed if p.sprite == "gull" and p.moves_with != "screen")
    session.chosen.placed = name
    tall.frame(3)
    tall.click("placed:asleep:when in view")
    placed = next(p for p in session.scene.placed if p.name == name)
    assert placed.asleep
    assert session.scene.wakes == Wakes(axis=0, start=-16, end=336)
    tall.type("placed:wakes-from", "-32")
    tall.type("placed:wakes-to", "320+8")
    assert session.scene.wakes == Wakes(axis=0, start=-32, end=328)
    sound(tall)
    tall.click("placed:asleep:at once")
    assert session.scene.wakes == Wakes()


def test_names_go_along_with_what_speaks_of_them(tall):
    session = tall.window.desk.session
    session.station, session.chosen.plane = "planes", "quay"
    tall.frame(4)
    on_it = [p.name for p in session.scene.placed if p.over == "quay"]
    assert on_it
    tall.type("plane:name", "pier")
    assert {p.name for p in session.scene.placed if p.over == "pier"} == set(on_it)
    session.station, session.chosen.sprite, session.chosen.placed = "motion", "lamplighter", "lamplighter"
    tall.frame(4)
    tall.type("sprite:name", "keeper")
    tall.type("placed:name", "hero")
    assert [p.name for p in session.scene.placed if p.sprite == "keeper"] == ["hero"]
    tall.click("sprite:spans:what is drawn")
    assert session.document.sprite("keeper").spans
    sound(tall)


def test_how_a_target_stores_and_by_which_way(tall):
    session = tall.window.desk.session
    session.station = "machine"
    tall.frame(4)
    tall.click("target:encode:always")
    tall.click("target:maps:in a file")
    tall.type("target:transfer", "by=serial baud=9600")
    assert (session.target.encode, session.target.maps) == ("always", "file")
    assert session.target.transfer == (("baud", 9600), ("by", "serial"))
    sound(tall)


def test_a_way_to_a_board_is_read_as_it_is_written():
    way = (("baud", 9600), ("by", "serial"), ("send", "sz -b {file}"))
    assert read_transfer(transfer_text(way)) == way
    assert read_transfer("") == ()
    for text in ("serial", "=4", "by=", "a b=1", "by='x"):
        with pytest.raises(ProjectError):
            read_transfer(text)

"""The Score station: the panel, its items by field and by dragging, values, strings, fonts."""

import pygame
import pytest

from scenekit.editor.parts.fonts import read_characters, read_kerning
from scenekit.editor.parts.paneldrag import item_boxes, kept_in
from scenekit.errors import ProjectError
from scenekit.model.panel import Panel
from scenekit.model.project_text import project_text
from scenekit.model.scene_text import scene_text
from scenekit.model.score_edits import drop_font, drop_string, drop_value


@pytest.fixture
def score(hand):
    """Return the hand at the Score station in a window high enough for all of it."""
    backend, desk = hand.window.backend, hand.window.desk
    backend.surface = pygame.display.set_mode((1280, 2400))
    backend.painter.surface = backend.surface
    desk.session.station = "score"
    desk.local.pop("item", None)
    hand.frame(4)
    yield hand
    backend.surface = pygame.display.set_mode((1280, 800))
    backend.painter.surface = backend.surface


def settle(hand) -> None:
    hand.frame(3)
    hand.window.desk.session.products.wait()
    hand.frame(3)


def item(hand, name: str):
    return next(i for i in hand.window.desk.session.scene.panel.items if i.name == name)


def test_an_item_of_every_kind_is_added_and_the_scene_still_builds(score):
    session = score.window.desk.session
    before = len(session.scene.panel.items)
    score.click("panel:add-number")
    score.type("item:digits", "2")
    score.click("item:zeros:zeros before")
    score.type("item:across", "60")
    score.type("item:down", "3*2")
    settle(score)
    assert score.window.desk.product.error == ""
    score.click("panel:add-bar")
    score.type("item:wide", "16")
    score.type("item:colour", "40c080")
    score.click("panel:add-icons")
    score.type("item:count", "2")
    score.click("panel:add-picture")
    score.click("panel:add-text")
    assert len(session.scene.panel.items) == before + 5
    kinds = [made.kind for made in session.scene.panel.items[before:]]
    assert kinds == ["number", "bar", "icons", "picture", "text"]
    text = scene_text(session.scene)
    assert 'kind = "number"\nat = [60, 6]\n' in text
    assert "digits = 2\nzeros = true\n" in text
    assert 'size = [16, 6]\ncolour = "40c080"\n' in text
    score.click("item:drop")
    assert len(session.scene.panel.items) == before + 4


def test_an_item_is_dragged_inside_its_panel_as_one_step(score):
    session, desk = score.window.desk.session, score.window.desk
    boxes = item_boxes(desk)
    x, y, w, h = boxes["oil"]
    left, top, wide, _ = desk.ui.marks["scene"]
    zoom = wide / 320
    start = (left + (x + w / 2) * zoom, top + (y + h / 2) * zoom)
    score.drag_points(start, (start[0] - 9 * zoom, start[1] + 4 * zoom))
    assert item(score, "oil").at == (x - 9, y + 4)
    assert session.history.place == 1
    start = (start[0] - 9 * zoom, start[1] + 4 * zoom)
    score.drag_points(start, (start[0], start[1] + 300))
    assert item(score, "oil").at == (x - 9, 20 - h)
    score.key(pygame.K_RIGHT, pygame.KMOD_ALT)
    assert item(score, "oil").at == (x - 8, 20 - h)
    settle(score)
    assert desk.product.error == ""


def test_things_stay_inside_the_panel():
    panel = Panel(box=(10, 20, 100, 16))
    assert kept_in(panel, (0, 0), (8, 8)) == (10, 20)
    assert kept_in(panel, (500, 500), (8, 8)) == (102, 28)
    assert kept_in(panel, (50, 22), (8, 8)) == (50, 22)


def test_values_strings_and_changes(score):
    session = score.window.desk.session
    score.click("value:add")
    added = session.document.values[-1].name
    score.type(f"value:{added}:high", "9*11")
    score.type(f"value:{added}:start", "7")
    score.type(f"value:{added}:name", "coal")
    assert '[[values]]\nname = "coal"\nlow = 0\nhigh = 99\nstart = 7\n' in project_text(session.document)
    score.click("string:add")
    score.type("string:text:text", "COAL")
    score.type("string:text:name", "coal-word")
    assert '[[strings]]\nname = "coal-word"\ntext = "COAL"\n' in project_text(session.document)
    count = len(session.scene.changes)
    score.click("change:add")
    score.type(f"change:{count}:tick", "2*50")
    score.type(f"change:{count}:add", "-3")
    assert (session.scene.changes[-1].tick, session.scene.changes[-1].add) == (100, -3)
    settle(score)
    assert score.window.desk.product.error == ""


def test_what_is_renamed_is_renamed_everywhere_and_what_is_used_stays(score):
    session = score.window.desk.session
    score.type("value:oil:name", "fuel")
    assert item(score, "oil").value == "fuel"
    assert "oil" not in {change.value for change in session.scene.changes}
    score.type("string:oil:name", "fuel-word")
    assert item(score, "oil-word").string == "fuel-word"
    for drop, name in ((drop_value, "fuel"), (drop_string, "fuel-word"), (drop_font, "small")):
        with pytest.raises(ProjectError, match="change that first"):
            drop(session.document, name)
    before = session.document
    score.click("value:fuel:drop")
    assert session.document is before
    assert "change that first" in session.notice.text


def test_fonts_are_made_and_set(score):
    session = score.window.desk.session
    score.click("font:small:way:proportional")
    assert session.document.fonts[0].proportional
    score.type("font:small:spacing", "2")
    score.type("font:small:kerning", "AV -1, TO -2")
    assert session.document.fonts[0].kerning == (("AV", -1), ("TO", -2))
    count = len(session.document.sheet(session.document.fonts[0].sheet).frames)
    with pytest.raises(ProjectError, match="a frame for each"):
        read_characters("A" * (count + 1), count)
    with pytest.raises(ProjectError, match="stands twice"):
        read_characters("ABA", 10)
    with pytest.raises(ProjectError, match="two characters"):
        read_kerning("A -1")
    settle(score)
    score.click("font:add")
    assert len(session.document.fonts) == 2


def test_a_scene_without_a_panel_gets_one_where_the_view_leaves_room(score):
    session = score.window.desk.session
    score.click("panel:drop")
    assert session.scene.panel is None
    settle(score)
    score.click("panel:make")
    assert session.scene.panel.box == (0, 0, 320, 20)
    settle(score)
    assert score.window.desk.product.error == ""

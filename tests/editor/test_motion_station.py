"""The Motion station: shapes of a way, ends dragged on the scene, facings that follow, turns."""

from fractions import Fraction

import pygame
import pytest

from scenekit.editor.parts.waymarks import ends_of, moved_end
from scenekit.model.paths import Path, Segment, Shape
from scenekit.model.scene_text import scene_text

NONE = Fraction(0)


@pytest.fixture
def motion(hand):
    """Return the hand at the Motion station with the lamplighter chosen, in a high window."""
    backend = hand.window.backend
    backend.surface = pygame.display.set_mode((1280, 1600))
    backend.painter.surface = backend.surface
    session = hand.window.desk.session
    session.station, session.chosen.sprite, session.chosen.placed = "motion", "lamplighter", "lamplighter"
    hand.frame(4)
    yield hand
    backend.surface = pygame.display.set_mode((1280, 800))
    backend.painter.surface = backend.surface


def placed(hand):
    return next(p for p in hand.window.desk.session.scene.placed if p.name == "lamplighter")


def test_a_stretch_becomes_a_drive(motion):
    first = placed(motion).path.segments[0]
    motion.click("way:0:kind")
    motion.click("way:0:kind:drive")
    segment = placed(motion).path.segments[0]
    assert segment.shape.kind == "drive"
    assert (segment.animation, segment.facing) == (first.animation, first.facing)
    motion.type("way:0:by-across", "4*50")
    motion.type("way:0:top", "3/2")
    assert placed(motion).path.segments[0].shape.by == (200, 0)
    text = scene_text(motion.window.desk.session.scene)
    assert 'drive = [200, 0], top = "3/2", gain = "1/16", brake = "1/8"' in text
    motion.frame(2)
    motion.window.desk.session.products.wait()
    motion.frame(2)
    assert motion.window.desk.product.error == ""


def test_every_shape_can_be_chosen(motion):
    for kind in ("ease", "jump", "circle", "wave", "speed"):
        motion.click("way:1:kind")
        motion.click(f"way:1:kind:{kind}")
        shape = placed(motion).path.segments[1].shape
        assert (shape.kind if shape else "speed") == kind
        assert not motion.window.desk.session.notice or "must" not in motion.window.desk.session.notice.text
        motion.window.desk.session.products.wait()
        motion.frame(2)
        assert motion.window.desk.product.error == ""


def test_facing_follows_the_way_with_a_turn(motion):
    motion.click("way:follow:where it goes")
    assert placed(motion).path.follow
    motion.click("way:turn")
    motion.click("way:turn:turn")
    assert placed(motion).path.turn == "turn"
    assert 'turn = "turn"' in scene_text(motion.window.desk.session.scene)
    motion.click("way:follow:as said")
    assert (placed(motion).path.follow, placed(motion).path.turn) == (False, "")


def test_the_end_of_a_stretch_is_dragged_on_the_scene(motion):
    session = motion.window.desk.session
    session.playing.go(230, 740)
    motion.frame(2)
    before = ends_of(placed(motion).path)
    start = motion.spot("way-end:0")
    zoom = round(motion.window.desk.ui.marks["scene"][2]) // 320
    motion.drag_points(start, (start[0] - 12 * zoom, start[1] - 4 * zoom))
    after = ends_of(placed(motion).path)
    assert after[0] == (before[0][0] - 12, before[0][1] - 4)
    assert after[1:] == before[1:]
    assert session.history.place == 1
    assert session.notice is None or session.notice.level != "alarm"


def test_ends_move_alone_or_with_all_that_follows():
    path = Path(segments=(
        Segment(ticks=10, speed=(Fraction(1), NONE)),
        Segment(ticks=5, speed=(NONE, NONE)),
        Segment(ticks=7, speed=(Fraction(-1), NONE)),
        Segment(ticks=0, speed=(NONE, NONE), shape=Shape(
            kind="drive", by=(30, 0), top=Fraction(2), gain=Fraction(1, 2), brake=Fraction(1, 2))),
    ))  # fmt: skip
    assert ends_of(path) == [(10, 0), (10, 0), (3, 0), (33, 0)]
    assert ends_of(moved_end(path, 0, (5, 2), alone=True)) == [(15, 2), (15, 2), (3, 0), (33, 0)]
    assert ends_of(moved_end(path, 0, (5, 2), alone=False)) == [(15, 2), (15, 2), (8, 2), (38, 2)]
    assert ends_of(moved_end(path, 3, (-10, 4), alone=True))[3] == (23, 4)

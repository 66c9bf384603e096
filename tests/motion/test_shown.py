"""What a placed sprite shows and where, in the small scene, by hand."""

import pytest
from small_scene import small_project

from scenekit.motion.shown import sprite_at


@pytest.fixture(scope="module")
def project(tmp_path_factory):
    return small_project(tmp_path_factory.mktemp("shown") / "p")


def shown(project, number, tick):
    scene = project.scenes[0]
    found = sprite_at(project, scene, scene.placed[number], tick)
    return found.sheet, found.frame, found.flip, found.x, found.y


def test_a_sprite_on_a_plane_moves_with_it(project):
    """Camera 5, -3: the fence's corner is at 7, -3 - 17 = -20; the sprite stands at 25, 3 of it."""
    assert shown(project, 0, 0) == ("cats", "f0", 0, 25 - 7, 3 + 20)


def test_a_sprite_on_the_screen_does_not(project):
    """5 ticks at 2/3, 1/2 end at 3, 2; 3 ticks at 1, -1 end at 6, -1; then it stays."""
    assert shown(project, 1, 0) == ("cats", "f2", 0, 28, 22)
    assert shown(project, 1, 5)[3:] == (31, 24)
    assert shown(project, 1, 60)[3:] == (34, 21)


def test_flips_of_step_and_facing_add_up(project):
    """The third sprite faces down (flip 2); its third step is flipped by 2 too: together none."""
    flips = [shown(project, 2, tick)[1:3] for tick in range(6)]
    assert flips == [("f0", 2), ("f0", 2), ("f1", 2), ("f1", 2), ("f1", 2), ("f2", 0)]


def test_a_facing_with_own_art_is_shown_unflipped(project):
    """From tick 25 it sits facing left, for which it licks: f4 mirrored by its own step alone."""
    assert [shown(project, 0, tick)[1:3] for tick in (18, 25, 28)] == [("f0", 1), ("f4", 1), ("f0", 0)]

"""Facings that are added to a sprite: mirrored or of their own, and refused where they cannot be."""

import pytest

from scenekit.model.sprites import FLIPS
from scenekit.model.store import load
from tests.cli.conftest import strip


@pytest.fixture
def cut(call, tmp_path):
    """Return a project with one walker that faces right."""
    folder = tmp_path / "walker"
    assert (
        call("new", folder, "--machine", "indexed-board", "--mode", "320x200", "--dialect", "plain").code == 0
    )
    sheet = strip(tmp_path / "walker.png")
    assert call("slice", sheet, "--cell", "12x16", "--into", folder).code == 0
    assert call("add", "animation", folder, "man", "walk", "--frames", "all").code == 0
    return folder


def facings(folder):
    return [(f.facing, FLIPS[f.flip], f.own) for f in load(folder).sprite("man").facings]


def test_the_opposite_of_the_first_facing_is_mirrored(call, cut):
    called = call("add", "facing", cut, "man", "left")
    assert (called.code, called.out) == (0, "man: facing left, flipped h\n")
    assert facings(cut) == [("right", "none", ()), ("left", "h", ())]


def test_a_facing_by_animations_of_its_own(call, cut):
    assert call("add", "animation", cut, "man", "climb", "--frames", "all").code == 0
    called = call("add", "facing", cut, "man", "up", "--own", "walk=climb")
    assert called.out == "man: facing up, walk as climb\n"
    assert facings(cut)[-1] == ("up", "none", (("walk", "climb"),))
    assert call("add", "facing", cut, "man", "up", "--flip", "v").code == 0
    assert facings(cut)[-1] == ("up", "v", ()), "given again it is replaced"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("man", "up"), "man first faces right, of which up is no mirror image; give --flip or --own"),
        (("man", "left", "--own", "walk"), "got 'walk'; must be ANIMATION=ANIMATION, each once"),
        (("man", "left", "--own", "walk=run"), "an animation of this sprite"),
        (("man", "left", "--own", "fly=walk"), "an animation of this sprite"),
        (("cat", "left"), "unknown name 'cat'; known: man"),
        (("man", "north"), "north"),
    ],
)
def test_what_cannot_be_is_said_and_nothing_changes(call, cut, words, said):
    before = (cut / "project.toml").read_bytes()
    called = call("add", "facing", cut, *words)
    assert called.code == 2
    assert said in called.err
    assert (cut / "project.toml").read_bytes() == before

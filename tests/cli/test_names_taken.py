"""What is there already is not lost to another thing of its name, unless that was asked for."""

from pathlib import Path

import pytest

from scenekit.model.store import load
from tests.cli.conftest import backdrop

TARGET = ("--machine", "brandy-pc", "--mode", "320x200-colour", "--dialect", "brandy")


def files(folder: Path) -> dict[str, bytes]:
    return {str(path): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def words(game: Path, kind: str, tmp_path: Path) -> tuple[object, ...]:
    """Return a command that adds another thing under a name that the game has."""
    other = backdrop(tmp_path / "other.png", (80, 40))
    return {
        "placed": ("add", "placed", game, "hero", "--over", "sky", "--at", "1,2"),
        "plane": ("add", "plane", game, other, "--name", "sky"),
        "animation": ("add", "animation", game, "hero", "walk", "--ticks", "9"),
        "target": ("add", "target", game, "main", *TARGET),
    }[kind]


@pytest.mark.parametrize("kind", ["placed", "plane", "animation", "target"])
def test_another_thing_of_a_name_is_refused_and_taken_on_request(call, game, tmp_path, kind) -> None:
    before = files(game)
    adding = words(game, kind, tmp_path)
    refused = call(*adding)
    assert refused.code == 2
    assert "there is another one of that name" in refused.err
    assert "or --replace it by this one" in refused.err
    assert files(game) == before

    assert call(*adding, "--replace").code == 0
    after = files(game)
    assert after != before
    assert call(*adding).code == 0, "the very same thing may be added again"
    documents = {name: data for name, data in after.items() if not name.endswith(".previous")}
    assert documents.items() <= files(game).items()


def test_another_picture_in_a_plane_that_is_otherwise_the_same_is_refused(call, game, tmp_path) -> None:
    sky = backdrop(tmp_path / "sky.png", (96, 64), holes=True)
    refused = call("add", "plane", game, sky, "--ratio", "1/3")
    assert refused.code == 2
    assert "plane sky: there is another one of that name" in refused.err


def test_mirroring_leaves_the_other_facings_of_a_sprite(call, game) -> None:
    assert call("add", "facing", game, "hero", "up", "--flip", "v").code == 0
    assert call("add", "animation", game, "hero", "stand", "--frames", "r00c00", "--mirror").code == 0
    assert [facing.facing for facing in load(game).sprite("hero").facings] == ["right", "left", "up"]


def test_a_target_takes_the_view_of_one_with_an_equal_screen(call, game) -> None:
    assert call("add", "target", game, "strip", *TARGET, "--view", "0,20,320,180").code == 0
    assert load(game).target("strip").view == (0, 20, 320, 180)
    assert call("add", "target", game, "plain", *TARGET).code == 0
    assert load(game).target("plain").view is None, "as the first with a screen of 320 x 200 px"
    assert call("add", "target", game, "main", *TARGET, "--view", "0,20,320,180", "--replace").code == 0
    assert "view 0, 20, 320, 180" in call("add", "target", game, "third", *TARGET).out
    assert load(game).target("third").view == (0, 20, 320, 180)


@pytest.mark.parametrize("view", ["0,0,321,200", "0,-1,320,180", "0,0,0,20", "1,2", "a,b,c,d"])
def test_a_view_outside_of_the_screen_is_refused(call, game, view) -> None:
    refused = call("add", "target", game, "strip", *TARGET, "--view", view)
    assert refused.code == 2
    assert f"got '{view}'" in refused.err
    assert [target.name for target in load(game).targets] == ["main"]


def test_slice_says_what_went_into_the_project(call, game, tmp_path) -> None:
    cutting = ("slice", game / "sheets" / "hero.png", "--cell", "12x16", "--into", game, "--name", "twin")
    said = call(*cutting).out
    assert f"{game}: sheet twin, 4 frames, r00c00 to r00c03" in said
    said = call(*cutting).out
    assert f"{game}: sheet twin cut again, 4 frames" in said

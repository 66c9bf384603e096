"""Libraries of several scenes: which tables stand in them for parts that only some scene has."""

from dataclasses import replace

import pytest
from parts_game import parts_game

from scenekit.build import Kept
from scenekit.game import Game, build_game

PARTS = {
    "turns": ("turn_ticks", "turn_cell"),
    "sleepers": ("actor_sleeps", "wake_place"),
    "spans": ("span_rows", "span_x"),
    "held": ("plane_every", "plane_when"),
    "maps": ("map_file", "window_w"),
}


@pytest.fixture(scope="module")
def project(tmp_path_factory):
    return parts_game(tmp_path_factory.mktemp("game") / "p")


def tables(game: Game, scene: int) -> dict[str, tuple[int, ...]]:
    """Return the tables that a scene of a game begins with, shared ones too."""
    return {table.name: table.values for table in (*game.tables.shared, *game.tables.scenes[scene])}


def test_parts_that_no_scene_needs_are_not_there(project):
    plain = project.scenes[0]
    game = build_game(replace(project, scenes=(plain, replace(plain, name="other", backdrop=(9, 9, 9)))))
    known = tables(game, 0)
    assert not known.keys() & {name for names in PARTS.values() for name in names}
    assert "large-maps.raw" not in game.files


def test_a_part_of_one_scene_is_empty_in_the_others(project):
    game = build_game(replace(project, scenes=(project.scenes[0], project.scenes[3])))
    without, with_all = tables(game, 0), tables(game, 1)
    for names in PARTS.values():
        assert set(names) <= without.keys() & with_all.keys()
    assert without["actor_sleeps"] == (0, 0)
    assert sum(with_all["actor_sleeps"]) == 6
    assert set(without["span_rows"]) == {0}
    assert max(with_all["span_rows"]) == 16
    assert without["plane_every"] == (1,)
    assert with_all["plane_every"] == (1, 2, 3, 4)
    assert without["map_file"] == (-1,)
    assert min(with_all["map_file"]) == 0
    turns = dict(zip(("plain", "all"), with_all["scene_turns"], strict=True))
    assert turns["plain"] == 0 < turns["all"]
    plain = game.scenes[0].bundle
    assert max(plain.table("map_cell").values) < dict(plain.variables)["turn_base"]


def test_each_part_is_there_for_one_scene_that_needs_it(project):
    game = build_game(replace(project, scenes=project.scenes[:2]))
    known = tables(game, 0)
    assert {part for part, names in PARTS.items() if set(names) <= known.keys()} == {"sleepers", "maps"}


def test_what_is_kept_gives_the_same_files_and_only_changes_are_made_again(project):
    kept = Kept()
    before = build_game(project, kept=kept).files
    assert before == build_game(project).files
    assert build_game(project, kept=kept).files == before
    assert kept.made == []
    last = project.scenes[-1]
    x, y = last.camera.start
    moved = replace(last, camera=replace(last.camera, start=(x + 1, y)))
    changed = replace(project, scenes=(*project.scenes[:-1], moved))
    after = build_game(changed, kept=kept).files
    assert not {"picture", "tiles"} & {kind for kind, _ in kept.made}
    assert after == build_game(changed).files
    assert after != before

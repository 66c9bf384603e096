"""Games whose scenes have other parts each: maps in a file, tiles in turn, sleepers, collisions by rows."""

from dataclasses import replace
from pathlib import Path

import pytest
from parts_game import TARGETS, parts_game

from scenekit.build import BuildOptions
from scenekit.game import Game, build_game, scene_files
from scenekit.interpreters.executor import Machine
from scenekit.model.project import Project
from scenekit.motion.waking import woken_at
from scenekit.programs.changing import MOST_STOPS
from scenekit.verify.compare import row_touches
from scenekit.verify.journey import Visit, there_and_back
from scenekit.verify.visits import prove_game

PROVING = BuildOptions(play=True, counting=True)
TICKS = (0, 1, 8, 31, 75)


@pytest.fixture(scope="module")
def large(tmp_path_factory) -> Project:
    return parts_game(tmp_path_factory.mktemp("parts") / "p")


@pytest.fixture(scope="module")
def small(tmp_path_factory) -> Project:
    return parts_game(tmp_path_factory.mktemp("parts") / "p", large=False)


@pytest.fixture(scope="module")
def board(large: Project) -> Game:
    return build_game(large, "board", options=PROVING)


@pytest.mark.parametrize("target", [name for name in TARGETS if name != "tables"])
def test_scenes_with_other_parts_there_and_back(large: Project, interpreter, target: str) -> None:
    interpreter(TARGETS[target][2])
    game = build_game(large, target, options=PROVING)
    visits = there_and_back(large.scenes, TICKS)
    assert [visit.scene for visit in visits] == [0, 1, 2, 3, 2, 1, 0]
    proof = prove_game(game, visits)
    assert [(tick.tick, tick.box) for tick in proof.ticks if tick.different] == []
    assert len(proof.ticks) == len(visits) * len(TICKS)
    assert (proof.different, proof.counts_different) == (0, 0)
    assert proof.counts > 0
    assert proof.passed


@pytest.mark.parametrize("target", ["board", "tables"])
def test_parts_whose_maps_are_in_memory(small: Project, interpreter, target: str) -> None:
    """Sleepers, turns and rows need no file, so that a BASIC that only prints reports them too."""
    interpreter(TARGETS[target][2])
    game = build_game(small, target, options=PROVING)
    assert game.first.extras.map_file == ""
    visits = tuple(Visit(scene=number, ticks=(0, 40)) for number in (3, 0, 2, 1, 3))
    assert prove_game(game, visits).passed


def test_each_scene_has_its_parts_and_goes_without_others(board: Game) -> None:
    """Else the proofs above would prove little."""
    has = [
        (
            any(build.windows),
            bool(build.pieces.turns.lists),
            any(p.asleep for p in build.scene.placed),
            any(build.project.sprite(p.sprite).spans for p in build.scene.placed),
            any(plane.cadence[0] > 1 for plane in build.scene.planes),
        )
        for build in board.scenes
    ]
    no, yes = False, True
    some = [(no, no, no, no, no), (yes, no, yes, no, no), (no, yes, no, yes, yes)]
    assert has == [*some, (yes, yes, yes, yes, yes)]
    woken = [
        woken_at(build.scene, p, TICKS[-1]) for build in board.scenes for p in build.scene.placed if p.asleep
    ]
    assert None in woken
    assert 0 in woken
    assert any(when for when in woken)
    touches = {
        touch
        for build in board.scenes[2:]
        for tick in TICKS
        for touch in row_touches(build.project, build.scene, build.reduced, tick)
    }
    assert touches == {0, 1}


def test_maps_of_all_scenes_stand_in_one_file(board: Game) -> None:
    """By hand: each map twice and its flags once, two bytes a cell, scene after scene."""
    sizes = []
    for build in board.scenes:
        size = 0
        for cut, window, flags in zip(build.pieces.planes, build.windows, build.flags, strict=True):
            size += 0 if window is None else cut.columns * cut.rows * 2 * (2 + (flags is not None))
        sizes.append(size)
    assert sizes[0] == sizes[2] == 0
    assert len(board.files["large-maps.raw"]) == sum(sizes)
    first = [min(n for n in build.bundle.table("map_file").values if n >= 0) for build in board.scenes[1::2]]
    assert first == [0, sizes[1]]
    for number in range(len(board.scenes)):
        assert "large-maps.raw" not in scene_files(board, number)


def test_a_fault_in_the_file_of_maps_is_seen(board: Game) -> None:
    place = board.scenes[3].bundle.table("map_file").values[0]
    data = bytearray(board.files["large-maps.raw"])
    data[place : place + 4000] = bytes(4000)
    spoilt = replace(board, files={**board.files, "large-maps.raw": bytes(data)})
    assert not prove_game(spoilt, (Visit(scene=3, ticks=(0,)),)).passed
    assert prove_game(spoilt, (Visit(scene=1, ticks=(0,)),)).passed


def test_memory_is_as_predicted(board: Game, tmp_path: Path) -> None:
    """The budget's bytes are the places of the arrays that the running program asked for."""
    for name, data in board.files.items():
        (tmp_path / name).write_bytes(data)
    (tmp_path / "stops.txt").write_text("-3\n0\n-5\n0\n-1\n", encoding="ascii")
    text = (tmp_path / board.play_file).read_text(encoding="ascii")
    machine = Machine(tmp_path, text, "large", 60.0, board.first.abilities.flips)
    sizes: list[int] = []
    words = machine.words()
    machine.words = lambda: {**words, "w_array": lambda size: sizes.append(size) or [0] * size}
    machine.run()
    told = {item.name: item.size_bytes for filled in board.memory for item, _ in filled.items}
    took = sum(sizes) - MOST_STOPS  # the list of stops is the playing program's
    assert told["tables and arrays"] == took * board.first.dialect.element_bytes

"""What a board sends back of a game of several scenes: one program goes through all of them and back."""

from dataclasses import replace

import numpy as np
import pytest
from small_scene import small_project

from scenekit.build import BuildOptions
from scenekit.errors import ExportError, VerifyError
from scenekit.export import write_export
from scenekit.game import build_game
from scenekit.interpreters import readers
from scenekit.interpreters.outcome import Run
from scenekit.model.panel import Value, ValueChange
from scenekit.programs.records import record_sums
from scenekit.verify.board import FAILED, INCOMPLETE, PASSED
from scenekit.verify.board_games import awaited_of_game, judge_game
from scenekit.verify.journey import Visit, stop_list, there_and_back
from scenekit.verify.visits import usual_visits_limit_s

TICKS = (0, 9, 22)
SEEN = ("plain", "sdlbrt", "yabasic")


@pytest.fixture(scope="module")
def project(tmp_path_factory):
    """Two scenes that share art; a value goes on from one to the other and back."""
    small = small_project(tmp_path_factory.mktemp("board") / "p")
    yard = replace(small.scenes[0], changes=(ValueChange(tick=9, value="gold", add=4),))
    lane = replace(yard, name="lane", planes=yard.planes[:2], placed=yard.placed[:1], backdrop=(9, 80, 9))
    seen = tuple(replace(small.target("colour"), name=f"{name}-seen", dialect=name) for name in SEEN)
    value = Value(name="gold", low=0, high=30, start=1)
    return replace(small, scenes=(yard, lane), values=(value,), targets=(*small.targets, *seen))


def run(project, target, folder, sums=False):
    """Return a game, its visits and what its reporting program said and showed."""
    visits = there_and_back(project.scenes, TICKS)
    stops = stop_list(visits, len(project.scenes))
    game = build_game(project, target, options=BuildOptions(play=True, report=stops, row_sums=sums))
    reader = readers()[game.first.dialect.reader]
    if not reader.available(game.first.dialect):
        pytest.skip("its display is missing")
    folder.mkdir()
    write_export(folder, game.files)
    task = Run(
        folder=folder,
        program=game.play_file,
        dialect=game.first.dialect,
        screens=0 if sums or not game.first.scheme.draws else 9,
        flips=game.first.abilities.flips,
        time_limit_s=60 + usual_visits_limit_s(game, visits),
    )
    return game, visits, reader.run(task)


@pytest.fixture(scope="module")
def ran(project, tmp_path_factory):
    return run(project, "board", tmp_path_factory.mktemp("ran") / "run")


@pytest.mark.parametrize("target", ["board", "colour", "sixteen", "tables"])
def test_one_program_proves_all_scenes_there_and_back(project, interpreter, tmp_path, target):
    interpreter(project.target(target).dialect)
    game, visits, outcome = run(project, target, tmp_path / "run")
    proof = judge_game(game, visits, [outcome.said], dict(enumerate(outcome.screens)))
    assert proof.verdict == PASSED
    assert len(proof.screens) == (9 if game.first.scheme.draws else 0)
    parts = awaited_of_game(game, visits)
    assert len(outcome.said) == 4 * sum(len(values) for _, values in parts)
    entered = [values for name, values in parts if name.count(",") == 1 and ":" not in name]
    assert entered == [(0,), (1,), (0,)]
    assert {name.split(": ")[1] for name, _ in parts if ": tick " in name} == {"tick 0", "tick 9", "tick 22"}


@pytest.mark.parametrize("dialect", SEEN)
def test_sums_of_rows_prove_them_too(project, interpreter, tmp_path, dialect):
    interpreter(dialect)
    game, visits, outcome = run(project, f"{dialect}-seen", tmp_path / "run", sums=True)
    proof = judge_game(game, visits, [outcome.said], {}, sums=True)
    assert (proof.verdict, proof.unsent) == (PASSED, ())
    rows = [part for part in proof.parts if "rows at tick" in part.name]
    assert [part.values for part in rows] == [2 * -(-game.first.screen[1] // 16)] * 9


def test_sums_that_nobody_can_read_are_refused(project):
    options = BuildOptions(play=True, report=(-2, 0), row_sums=True)
    with pytest.raises(ExportError, match="no word see"):
        build_game(project, "colour", options=options)


def test_what_is_missing_or_wrong_is_named_with_its_visit(ran):
    game, visits, outcome = ran
    screens = dict(enumerate(outcome.screens))
    assert judge_game(game, visits, [outcome.said], {}).unsent == tuple(range(9))
    proof = judge_game(game, visits, [outcome.said[:-8]], screens)
    assert proof.verdict == INCOMPLETE
    assert [part.name for part in proof.parts if part.missing] == ["visit 2, yard: tick 22"]
    said = list(outcome.said)
    said[-3] += 1
    said[-2:] = record_sums(said[-4], said[-3])
    proof = judge_game(game, visits, [said], screens)
    assert proof.verdict == FAILED
    assert [part.name for part in proof.parts if part.different] == ["visit 2, yard: tick 22"]
    wrong = np.array(screens[4])
    wrong[3, 5] ^= 1
    proof = judge_game(game, visits, [outcome.said], {**screens, 4: wrong})
    assert proof.verdict == FAILED
    (screen,) = [screen for screen in proof.screens if screen.different]
    assert (screen.where, screen.box) == ("lane, tick 9", (5, 3, 1, 1))


def test_values_that_went_on_are_awaited(ran):
    """By hand: 1 in the yard, 5 after its tick 9; 9 after that of the lane; 13 after the yard's once more."""
    game, visits, _ = ran
    states = [values for name, values in awaited_of_game(game, visits) if ": tick " in name]
    place = next(n for n, column in enumerate(zip(*states[:3], strict=True)) if column == (1, 5, 5))
    assert [state[place] for state in states[:3] + states[6:]] == [1, 5, 5, 9, 13, 13]


def test_bad_ways_and_screens_are_refused_in_a_line(ran):
    game, visits, outcome = ran
    with pytest.raises(VerifyError, match="the stops are 0 to 8"):
        judge_game(game, visits, [], {9: outcome.screens[0]})
    many = tuple(Visit(scene=n % 2, ticks=tuple(range(60))) for n in range(4))
    with pytest.raises(VerifyError, match="244 stops"):
        stop_list(many, 2)

"""Pictures of which only what changed is drawn, proved in programs: pixels, values and counts."""

import random
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from changing import MODES, PROVING, changing, moved_pictures, prove_all, small_targets
from random_scenes import random_project
from small_scene import TICKS, small_project

from scenekit.build import run_stages
from scenekit.errors import ProjectError
from scenekit.model.events import Transition
from scenekit.model.store import load, save
from scenekit.model.target import Target


@pytest.mark.parametrize("seed", range(3000, 3024))
def test_random_scenes_moved_along(tmp_path: Path, seed: int) -> None:
    project = random_project(tmp_path / "p", seed)
    view = project.target("small").mode.rsplit("-", 1)[0]
    build = run_stages(changing(project, small_targets(view), seed % 4 > 0), "board", options=PROVING)
    assert build.changes
    prove_all(build, sorted({*range(9), *random.Random(seed).sample(range(9, 110), 5)}))


@pytest.mark.parametrize("seed", range(3030, 3038))
@pytest.mark.parametrize("target", ["colour", "sixteen"])
def test_random_scenes_moved_along_by_an_interpreter(
    tmp_path: Path, interpreter, target: str, seed: int
) -> None:
    interpreter("brandy")
    project = random_project(tmp_path / "p", seed)
    view = project.target("small").mode.rsplit("-", 1)[0]
    build = run_stages(changing(project, small_targets(view), seed % 4 > 0), target, options=PROVING)
    assert build.changes
    assert build.abilities.pages == 1
    prove_all(build, sorted({*range(9), *random.Random(seed).sample(range(9, 110), 3)}))


@pytest.mark.parametrize("target", MODES)
def test_most_pictures_are_moved_where_planes_go_together(tmp_path: Path, interpreter, target: str) -> None:
    interpreter(MODES[target][1])
    project = changing(small_project(tmp_path / "p"), small_targets("yard"), True)
    quiet = replace(project.scenes[0], events=(), placed=project.scenes[0].placed[:1])
    project = replace(project, cycles=(), scenes=(quiet,))
    build = run_stages(project, target, options=PROVING)
    ticks = tuple(range(14))
    assert moved_pictures(build, ticks) >= 8
    prove_all(build, ticks)


def test_transitions_draw_whole_while_they_cover(tmp_path: Path) -> None:
    project = changing(small_project(tmp_path / "p"), small_targets("yard"), True)
    wipe = Transition(name="shut", kind="wipe", tick=6, ticks=5, cell=(8, 8))
    lift = Transition(name="open", kind="dissolve", tick=1, ticks=3, opens=True, cell=(8, 8))
    scene = replace(project.scenes[0], transitions=(wipe, lift))
    build = run_stages(replace(project, cycles=(), scenes=(scene,)), "board", options=PROVING)
    prove_all(build, tuple(range(14)))
    assert moved_pictures(build, tuple(range(14))) >= 1


def test_a_target_that_cannot_move_is_said(tmp_path: Path) -> None:
    project = small_project(tmp_path / "p")
    target = Target(name="t", machine="small.toml", mode="yard-indexed", dialect="plain", redraw="changes")
    with pytest.raises(ProjectError, match="cannot copy a part of the page"):
        run_stages(replace(project, targets=(target,)))


def test_the_cheaper_way_is_chosen(tmp_path: Path) -> None:
    """A picture of one plane that scrolls 1 px a tick shows a column of it anew, not 21 x 13 tiles."""
    board = Target(name="board", machine="indexed-board", mode="320x200", dialect="plain")
    project = changing(small_project(tmp_path / "p"), (board,), True)
    quiet = replace(project.scenes[0], events=(), placed=project.scenes[0].placed[:1])
    project = replace(project, cycles=(), scenes=(quiet,))
    assert run_stages(project, last="plan").changes
    told = replace(project, targets=(replace(board, redraw="everything"),))
    assert not run_stages(told, last="plan").changes
    apart = replace(
        quiet, planes=(replace(quiet.planes[0], ratio=(Fraction(1, 2), Fraction(1))), *quiet.planes[1:])
    )
    assert not run_stages(replace(project, scenes=(apart,)), last="plan").changes
    prove_all(run_stages(project, options=PROVING), (0, 1, 2, 5, 11, 12, 13))


def test_the_way_to_draw_is_kept(tmp_path: Path) -> None:
    project = small_project(tmp_path / "p")
    target = replace(project.targets[0], redraw="everything")
    save(replace(project, targets=(target,)))
    assert load(tmp_path / "p").targets[0].redraw == "everything"
    assert TICKS

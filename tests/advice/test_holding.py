"""Planes held in turn: chosen where nothing milder suffices, and as good as promised."""

import re
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from held_strips import quay

from scenekit.advice.holding import held_planes, with_cadences
from scenekit.advice.scene import advise
from scenekit.advice.settings import Setting
from scenekit.build import run_stages
from scenekit.costs.estimate import estimate
from scenekit.costs.worst import worst_case
from scenekit.model.project import Project
from scenekit.model.scene import Camera
from scenekit.model.store import load, save

BOARD = Path(__file__).parents[2] / "scenekit/machines/profiles/indexed-board.toml"
SMOOTH = [(1, 0)] * 3


def dear(folder: Path, per_pixel_us: float, sprites: int = 2) -> Project:
    """Return three smooth strips on a board whose copies cost so much a pixel."""
    project = quay(folder, 3, SMOOTH, sprites)
    text = BOARD.read_text(encoding="utf-8")
    before, keyed, after = text.partition('operation = "blit-keyed"')
    assert keyed
    after = re.sub(r"per_pixel_us = [0-9.]+", f"per_pixel_us = {per_pixel_us}", after, count=1)
    (folder / "dear.toml").write_text(before + keyed + after, encoding="utf-8")
    scene, slow = project.scenes[0], (Fraction(1, 8), Fraction(0))
    planes = tuple(replace(plane, tile=(64, 64), ratio=slow) for plane in scene.planes)
    target = replace(project.targets[0], machine="dear.toml", redraw="auto")
    save(replace(project, targets=(target,), scenes=(replace(scene, planes=planes),)))
    return load(folder)


def worst_ms(project: Project) -> float | None:
    build = run_stages(project)
    line = estimate(build.planner, build.machine, build.mode, build.scene, range(build.scene.ticks))
    return worst_case(build.project, build.scene, build.planner, build.machine, build.mode, line).work_ms


def test_planes_are_held_where_nothing_milder_suffices(tmp_path: Path) -> None:
    project = dear(tmp_path / "p", 0.5)
    milder = advise(project, "t", None, held=False, slower=False, smaller=False, modes=False)
    assert milder.after is None
    advice = advise(project, "t", None, slower=False, smaller=False, modes=False)
    assert advice.after is not None
    assert advice.after.fits
    assert "planes held in turn: " in advice.changes[0]
    assert " px from its place)" in advice.changes[0]
    assert advice.project is not None
    assert advice.project.targets[0].redraw == "changes"
    cadences = [plane.cadence for plane in advice.project.scenes[0].planes]
    assert any(every > 1 for every, _ in cadences)
    save(advice.project)
    assert worst_ms(load(project.folder)) == pytest.approx(advice.after.worst.work_ms)
    assert run_stages(advice.project, last="plan").changes


def test_no_more_is_held_than_is_needed(tmp_path: Path) -> None:
    """A little too dear, and much: less lag, in all, where less has to be saved."""
    lags = []
    for number, price in enumerate((0.3, 0.55)):
        project = dear(tmp_path / f"{number}", price)
        found = held_planes(run_stages(project), project)
        assert isinstance(found, Setting)
        lags.append(sum(plane.cadence[0] for plane in found.scene.planes))
    assert lags[0] <= lags[1]


def test_where_it_cannot_help_is_said_or_left_out(tmp_path: Path) -> None:
    hopeless = dear(tmp_path / "a", 40.0)
    found = held_planes(run_stages(hopeless), hopeless)
    assert found == "planes held in turn: no cadences keep the worst picture within its time"
    crowded = dear(tmp_path / "b", 0.4, sprites=14)
    found = held_planes(run_stages(crowded), crowded)
    assert found == "planes held in turn: sprites alone may change so much that a picture is drawn whole"
    still = dear(tmp_path / "c", 0.4)
    scene = replace(still.scenes[0], camera=Camera())
    still = replace(still, scenes=(scene,))
    assert not isinstance(held_planes(run_stages(still), still), Setting)


def test_cadences_go_to_their_planes(tmp_path: Path) -> None:
    scene = quay(tmp_path / "p", 3, SMOOTH, 0).scenes[0]
    changed = with_cadences(scene, {"wide1": (4, 2)})
    assert [plane.cadence for plane in changed.planes] == [(1, 0), (4, 2), (1, 0)]
    assert changed.planes[0].ratio[0] > Fraction(0)

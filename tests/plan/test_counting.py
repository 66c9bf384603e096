"""Many ticks counted at once against the draw plan, tick by tick, on random scenes and the demo."""

from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest
from large_map import large_map
from random_scenes import random_project, sleeping

from scenekit.build import Build, run_stages
from scenekit.model.events import Transition
from scenekit.model.planes import Turn
from scenekit.model.project import Project
from scenekit.plan.counting import Counter
from scenekit.plan.planecounts import PlaneCounts

TARGETS = ("small", "colour", "sixteen", "board", "tables")


def differences(build: Build, step: int = 1) -> list[tuple[int, object, object]]:
    """Return the ticks at which the two differ, with what each says."""
    every, pages = build.scene.ticks_per_update, build.abilities.pages
    ticks = np.arange(0, build.scene.ticks, every * step, dtype=np.int64)
    before, page = np.maximum(-1, ticks - every), np.maximum(-1, ticks - pages * every)
    counted = Counter(build.planner).count(ticks, before, page)
    found = []
    for place, tick in enumerate(ticks.tolist()):
        sums: dict[str, tuple[int, int, int]] = {}
        for work in build.planner.plan(tick, int(before[place]), int(page[place])):
            old = sums.get(work.operation, (0, 0, 0))
            sums[work.operation] = (old[0] + work.calls, old[1] + work.rows, old[2] + work.pixels)
        wanted = {name: amounts for name, amounts in sums.items() if amounts[0]}
        if counted.whole.at(place) != wanted:
            found.append((tick, counted.whole.at(place), wanted))
    return found


@pytest.mark.parametrize("target", TARGETS)
@pytest.mark.parametrize("seed", range(8))
def test_random_scenes(tmp_path, seed, target):
    project = random_project(tmp_path / "p", seed)
    assert differences(run_stages(project, target, last="plan")) == []


@pytest.mark.parametrize("still", [False, True])
@pytest.mark.parametrize("target", ["small", "colour", "sixteen"])
@pytest.mark.parametrize("seed", range(4))
def test_random_scenes_of_which_only_changes_are_drawn(tmp_path, seed, target, still):
    project = random_project(tmp_path / "p", seed)
    profile = project.folder / "small.toml"
    text = profile.read_text(encoding="utf-8")
    profile.write_text(text.replace('"page"]', '"page", "move"]'), encoding="utf-8")
    scene = project.scenes[0]
    if still:
        planes = tuple(
            replace(p, ratio=(Fraction(1),) * 2, drift=(Fraction(0),) * 2, bands=()) for p in scene.planes
        )
        scene = replace(scene, planes=planes)
    targets = tuple(replace(t, redraw="changes") for t in project.targets if t.name == target)
    build = run_stages(replace(project, scenes=(scene,), targets=targets), target, last="plan")
    assert build.changes
    assert differences(build) == []
    assert differences(build, step=3) == []  # ticks that do not follow each other


@pytest.mark.parametrize("scene", ["quay", "pier"])
@pytest.mark.parametrize("target", ["board", "brandy-colour", "brandy-16"])
def test_demo(demo: Project, target: str, scene: str) -> None:
    """The demo has panels, transitions, events and cycles besides planes and sprites."""
    assert differences(run_stages(demo, target, scene, last="plan"), 3) == []


@pytest.mark.parametrize("opens", [False, True])
def test_transitions(demo: Project, opens: bool) -> None:
    scene = replace(
        demo.scene("quay"),
        transitions=(
            Transition(name="shut", kind="wipe", tick=20, ticks=30, cell=(20, 20), opens=opens, side="left"),
        ),
    )
    project = replace(demo, scenes=(scene,))
    assert differences(run_stages(project, "board", last="plan")) == []


@pytest.mark.parametrize("seed", range(12))
def test_cells_read_from_files(tmp_path, monkeypatch, seed):
    monkeypatch.setattr("scenekit.tables.mapfile.LEAST_CELLS", 2)
    monkeypatch.setattr("scenekit.tables.mapfile.TIMES_LARGER", 1)
    project = random_project(tmp_path / "p", seed, {"small": (11, 9)})
    targets = tuple(replace(t, maps="file") for t in project.targets if t.name == "small")
    build = run_stages(replace(project, targets=targets), last="plan")
    assert differences(build) == []


@pytest.mark.parametrize("target", ["small", "colour"])
@pytest.mark.parametrize("seed", range(8))
def test_sprites_that_sleep(tmp_path, seed, target):
    project = sleeping(random_project(tmp_path / "p", seed), seed)
    assert differences(run_stages(project, target, last="plan")) == []


@pytest.mark.parametrize("maps", ["memory", "file"])
def test_tiles_that_take_turns(tmp_path, maps):
    project = large_map(tmp_path / "p", maps)
    turns = (Turn(frames=("t2", "t15", "t9"), ticks=5), Turn(frames=("t19", "t1"), ticks=8))
    scene = project.scenes[0]
    planes = tuple(replace(p, turns=turns) if p.name in ("land", "near") else p for p in scene.planes)
    build = run_stages(replace(project, scenes=(replace(scene, planes=planes),)), "board", last="plan")
    assert sum(build.planner.turning) == 2
    assert differences(build, step=23) == []


def test_large_planes_are_counted_one_by_one(tmp_path, monkeypatch):
    monkeypatch.setattr("scenekit.plan.planecounts.MOST_PIXELS", 10)
    build = run_stages(random_project(tmp_path / "p", 3), "colour", last="plan")
    assert PlaneCounts(build.planner, 0).runs == ()
    assert differences(build) == []


def test_most_of_others_is_that_of_some_tick(demo: Project) -> None:
    build = run_stages(demo, "board", last="plan")
    ticks = np.arange(200, dtype=np.int64)
    counted = Counter(build.planner).count(ticks, np.maximum(0, ticks - 1), np.maximum(-1, ticks - 2))
    names = {plane.name for plane in build.scene.planes} | {placed.name for placed in build.scene.placed}
    wanted: dict[tuple[str, str], tuple[int, int]] = {}
    for tick in range(200):
        for work in build.planner.plan(tick, max(0, tick - 1), max(-1, tick - 2)):
            if work.name not in names:
                key = (work.name, work.operation)
                wanted[key] = max(wanted.get(key, (0, 0)), (work.calls, work.pixels))
    found = {
        (work.name, work.operation): (work.calls, work.pixels)
        for work in counted.most_of_others()
        if work.name not in names  # the demo has a sprite and an item of one name
    }
    single = {key for key in found if found[key] == wanted.get(key)}
    assert {key for key, amounts in wanted.items() if amounts[0]} == set(found)
    # an item may fill several boxes in one picture, which the plan lists one by one
    assert all(key in single or found[key] >= wanted[key] for key in found)

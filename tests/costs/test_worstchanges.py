"""The worst picture of which only changes are drawn, against every tick of scenes of planes in turn."""

import random
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from held_strips import quay

from scenekit.build import Build, run_stages
from scenekit.costs.estimate import estimate
from scenekit.costs.worst import WorstCase, worst_case
from scenekit.costs.worstchanges import due_planes, is_due
from scenekit.model.scene import Camera, Plane, Scene, Segment
from scenekit.model.scene import Path as Route


def worst_of(build: Build) -> tuple[WorstCase, list[float]]:
    line = estimate(build.planner, build.machine, build.mode, build.scene, range(build.scene.ticks))
    worst = worst_case(build.project, build.scene, build.planner, build.machine, build.mode, line)
    return worst, [work or 0.0 for work in line.work_ms[build.abilities.pages :]]


@pytest.mark.parametrize("seed", range(12))
def test_no_tick_is_dearer_than_the_worst_picture_of_changes(tmp_path: Path, seed: int) -> None:
    chosen = random.Random(seed)
    cadences = [(8, chosen.randrange(8)) for _ in range(3)]
    project = quay(tmp_path / "p", seed, cadences, chosen.randint(0, 8))
    build = run_stages(project, last="plan")
    assert build.changes
    worst, times = worst_of(build)
    assert worst.work_ms is not None
    assert worst.work_ms >= max(times)
    everything = replace(build.target, redraw="everything")
    whole, _ = worst_of(run_stages(replace(project, targets=(everything,)), last="plan"))
    assert whole.work_ms is not None
    named = {cost.work.operation for cost in worst.costs}
    assert "box-added" in named or worst.work_ms >= whole.work_ms


def test_planes_in_turn_take_less_at_worst_than_planes_together(tmp_path: Path) -> None:
    apart = quay(tmp_path / "a", 3, [(8, 0), (8, 2), (8, 4)], 2)
    together = quay(tmp_path / "b", 3, [(8, 0), (8, 0), (8, 0)], 2)
    smooth = quay(tmp_path / "c", 3, [(1, 0), (1, 0), (1, 0)], 2)
    found = []
    for project in (apart, together, smooth):
        worst, times = worst_of(run_stages(project, last="plan"))
        assert worst.work_ms is not None
        found.append((worst.work_ms, max(times)))
    assert found[0][0] < found[2][0] <= found[1][0]
    assert found[0][1] < found[1][1]


def test_many_sprites_may_make_a_picture_be_drawn_whole(tmp_path: Path) -> None:
    """Twelve cats may need 24 boxes beside that of a strip, which is one too many."""
    for sprites, kept in ((11, True), (12, False)):
        project = quay(tmp_path / f"{sprites}", 3, [(8, 0), (8, 2), (8, 4)], sprites)
        worst, _ = worst_of(run_stages(project, last="plan"))
        assert any(cost.work.name == "view" for cost in worst.costs) != kept


def test_planes_are_due_as_walked_tick_by_tick() -> None:
    """From the definition: some tick of the last two, this one among them, is one of the cadence's."""
    for every in range(1, 9):
        for first in range(every):
            for tick in range(20, 40):
                for back in (1, 2, 3):
                    walked = any(t % every == first for t in range(tick - back + 1, tick + 1))
                    assert is_due((every, first), tick, back) == walked
    route = Route(segments=(Segment(ticks=9, speed=(Fraction(1), Fraction(0))),), repeat="onward")
    planes = tuple(
        Plane(name=f"p{n}", ratio=(Fraction(ratio), Fraction(1)), cadence=cadence)
        for n, (ratio, cadence) in enumerate(((1, (4, 0)), (1, (4, 2)), (0, (1, 0))))
    )
    scene = Scene(
        name="s", ticks=9, ticks_per_update=1, missed="slow", backdrop=(0, 0, 0), camera=Camera(path=route),
        planes=planes, placed=(), events=(),
    )  # fmt: skip
    assert due_planes(scene, 1) == {frozenset({0}), frozenset({1}), frozenset()}
    assert due_planes(scene, 2) == {frozenset({0}), frozenset({1})}
    assert due_planes(scene, 3) == {frozenset({0}), frozenset({1}), frozenset({0, 1})}

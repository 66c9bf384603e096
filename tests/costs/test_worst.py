"""The worst case against every tick and every place, and what stays unknown."""

from dataclasses import replace

import pytest

from scenekit.build import Build, run_stages
from scenekit.costs.estimate import Estimate, estimate
from scenekit.costs.pricing import time_us
from scenekit.costs.worst import camera_places, plane_times, worst_case
from scenekit.errors import ProjectError
from scenekit.machines.cost import Cost
from scenekit.model.project import Project
from scenekit.model.scene import Camera
from scenekit.motion.parallax import camera_at, scroll_at
from scenekit.plan.counting import counter_of


@pytest.fixture(scope="module")
def board(demo: Project) -> Build:
    return run_stages(demo, "board")


@pytest.fixture(scope="module")
def line(board: Build) -> Estimate:
    return estimate(board.planner, board.machine, board.mode, board.scene, range(board.scene.ticks))


def test_no_tick_is_dearer_than_the_worst_case(board: Build, line: Estimate) -> None:
    worst = worst_case(board.project, board.scene, board.planner, board.machine, board.mode, line)
    assert worst.work_ms is not None
    assert line.worst_ms is not None
    pages = board.abilities.pages
    # the first pictures also draw the border, which belongs to the start of a game
    assert worst.work_ms >= max(work or 0 for work in line.work_ms[pages:])
    assert worst.spare_ms == pytest.approx(line.period_ms - worst.work_ms)
    assert sum(cost.time_ms or 0 for cost in worst.costs) == pytest.approx(worst.work_ms)


def test_all_places_within_the_limits_are_looked_at(board: Build, line: Estimate) -> None:
    worst = worst_case(board.project, board.scene, board.planner, board.machine, board.mode, line)
    assert board.scene.camera.limits == (0, 0, 320, 0)
    assert worst.places == 321
    assert worst.complete


def test_every_sprite_is_in_view_once(board: Build, line: Estimate) -> None:
    worst = worst_case(board.project, board.scene, board.planner, board.machine, board.mode, line)
    for sprite in {placed.sprite for placed in board.scene.placed}:
        count = sum(placed.sprite == sprite for placed in board.scene.placed)
        mine = [cost.work for cost in worst.costs if cost.work.name == sprite]
        assert sum(work.calls for work in mine if work.operation == "piece") == count
        assert sum(work.calls for work in mine if work.operation.startswith("blit")) == count


def test_more_of_a_sprite_cost_as_much_each(board: Build, line: Estimate) -> None:
    parts = (board.project, board.scene, board.planner, board.machine, board.mode, line)
    name = board.scene.placed[0].sprite
    times = [worst_case(*parts, {name: number}).work_ms or 0 for number in (0, 1, 9)]
    assert times[2] - times[0] == pytest.approx(9 * (times[1] - times[0]))
    assert times[1] > times[0]
    with pytest.raises(ProjectError, match="sprite nobody: not placed"):
        worst_case(*parts, {"nobody": 2})
    with pytest.raises(ProjectError, match="got 1001"):
        worst_case(*parts, {name: 1001})


def test_planes_are_dearest_where_looking_one_by_one_finds_it(board: Build) -> None:
    prices = board.machine.costs_in(board.mode.name)
    (xs, ys), _ = camera_places(board.scene)
    for number, plane in enumerate(board.scene.planes):
        times, _, complete = plane_times(counter_of(board.planner), board.scene, number, (xs, ys), prices)
        assert complete
        for place in range(0, len(xs), 40):
            camera = int(xs[place]), int(ys[place])
            ticks = range(board.scene.ticks) if any(plane.drift) else (0,)
            each = {
                round(time_us(board.planner.plane_work(number, scroll_at(plane, camera, tick)), prices), 6)
                for tick in ticks
            }
            assert times[place] == pytest.approx(max(each), abs=1e-5)


def test_estimates_have_no_interval_and_measurements_have(board: Build, line: Estimate) -> None:
    parts = (board.project, board.scene, board.planner)
    assert worst_case(*parts, board.machine, board.mode, line).half_width_ms is None
    measured = replace(board.machine, residual_percent=5.0)
    worst = worst_case(*parts, measured, board.mode, line)
    assert worst.work_ms is not None
    share = next(cost.time_ms or 0 for cost in worst.costs if cost.work.operation == "logic")
    assert worst.half_width_ms == pytest.approx(1.96 * 0.05 * (worst.work_ms - share))


def test_an_unknown_cost_leaves_the_worst_case_unknown(board: Build, line: Estimate) -> None:
    prices = tuple(price for price in board.machine.prices if price.operation != "piece")
    machine = replace(board.machine, prices=prices)
    worst = worst_case(board.project, board.scene, board.planner, machine, board.mode, line)
    assert (worst.work_ms, worst.half_width_ms, worst.spare_ms) == (None, None, None)


def test_a_camera_without_limits_goes_where_its_path_leads(board: Build) -> None:
    free = replace(board.scene, camera=replace(board.scene.camera, limits=None))
    (xs, ys), complete = camera_places(free)
    assert complete
    places = list(zip(xs.tolist(), ys.tolist(), strict=True))
    assert set(places) == {camera_at(free, tick) for tick in range(free.ticks)}
    assert len(places) == len(set(places))
    xs, ys = camera_places(replace(board.scene, camera=Camera()))[0]
    assert (xs.tolist(), ys.tolist()) == ([0], [0])


def test_large_limits_are_looked_at_in_steps(board: Build) -> None:
    camera = Camera(limits=(0, 0, 1999, 399))
    (xs, _), complete = camera_places(replace(board.scene, camera=camera))
    assert not complete
    assert 100_000 < len(xs) <= 250_000


def test_a_panel_counts_as_all_its_values_drawn_anew(board: Build, line: Estimate) -> None:
    worst = worst_case(board.project, board.scene, board.planner, board.machine, board.mode, line)
    drawn = {cost.work.name for cost in worst.costs}
    shown = {place.item.name for place in board.planner.places if place.item.value}
    assert shown
    assert shown <= drawn
    assert "border" not in drawn


def test_music_takes_its_share_of_all_time(board: Build, line: Estimate) -> None:
    parts = (board.project, board.scene, board.planner)
    quiet = worst_case(*parts, board.machine, board.mode, line).work_ms or 0
    sound = Cost(operation="sound", share_percent=20, provenance="estimated: test")
    prices = (*(price for price in board.machine.prices if price.operation != "sound"), sound)
    loud = replace(board.machine, prices=prices)
    found = estimate(board.planner, loud, board.mode, board.scene, range(5))
    before = sum(cost.time_ms or 0 for cost in found.worst if cost.work.operation != "sound")
    assert found.worst_ms == pytest.approx(before / 0.8)
    old = [price for price in board.machine.prices if price.operation == "sound"]
    share = old[0].share_percent / 100 if old else 0
    assert worst_case(*parts, loud, board.mode, line).work_ms == pytest.approx(quiet * (1 - share) / 0.8)

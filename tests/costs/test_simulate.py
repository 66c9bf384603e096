"""The worst case against every tick and every place, the time line, and what stays unknown."""

from dataclasses import replace

import pytest

from scenekit.build import Build, run_stages
from scenekit.costs.estimate import Estimate, estimate
from scenekit.costs.simulate import camera_places, load_ms, time_line, worst_case
from scenekit.model.project import Project
from scenekit.model.scene import Camera


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
    assert worst.work_ms >= line.worst_ms
    assert worst.spare_ms == pytest.approx(line.period_ms - worst.work_ms)
    assert sum(cost.time_ms or 0 for cost in worst.costs) == pytest.approx(worst.work_ms)


def test_all_places_within_the_limits_are_looked_at(board: Build, line: Estimate) -> None:
    worst = worst_case(board.project, board.scene, board.planner, board.machine, board.mode, line)
    assert board.scene.camera.limits == (0, 0, 320, 0)
    assert worst.places == 321
    assert worst.complete


def test_every_sprite_is_in_view_once(board: Build, line: Estimate) -> None:
    worst = worst_case(board.project, board.scene, board.planner, board.machine, board.mode, line)
    for placed in board.scene.placed:
        mine = [cost.work for cost in worst.costs if cost.work.name == placed.name]
        assert sum(work.calls for work in mine if work.operation == "piece") == 1
        assert sum(work.calls for work in mine if work.operation.startswith("blit")) == 1


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
    unknown = replace(line, work_ms=(None, *line.work_ms[1:]))
    assert time_line(unknown, board.scene) is None


def test_a_camera_without_limits_goes_where_its_path_leads(board: Build) -> None:
    free = replace(board.scene, camera=replace(board.scene.camera, limits=None))
    places, complete = camera_places(free)
    assert complete
    assert (0, 0) in places
    assert len(places) == len(set(places))
    assert camera_places(replace(board.scene, camera=Camera()))[0] == ((0, 0),)


def test_large_limits_are_looked_at_in_steps(board: Build) -> None:
    camera = Camera(limits=(0, 0, 999, 399))
    places, complete = camera_places(replace(board.scene, camera=camera))
    assert not complete
    assert 700 < len(places) <= 1500


def test_late_pictures_wait_for_the_next_refresh(board: Build, line: Estimate) -> None:
    period = line.period_ms
    # three pictures: in time, a little late (two refreshes), very late (three)
    made = replace(line, ticks=(0, 1, 2), work_ms=(0.5 * period, 1.01 * period, 2.5 * period))
    played = time_line(made, board.scene)
    assert played is not None
    assert (played.pictures, played.refreshes, played.wanted) == (3, 6, 3)
    assert played.missed_a_minute == pytest.approx(3 / (6 * period / 60_000))
    assert played.percentiles_ms[50] == pytest.approx(1.01 * period)
    assert played.percentiles_ms[100] == pytest.approx(2.5 * period)
    calm = replace(board.scene, ticks_per_update=3)
    assert time_line(made, calm).refreshes == 9  # type: ignore[union-attr]


def test_loading_is_reading_every_file(board: Build) -> None:
    assert board.machine.storage is not None
    files = {"a": bytes(900_000), "b": bytes(450_000)}
    # two files at 12 ms, 1,350,000 bytes at 900,000 a second
    assert load_ms(board.machine, files) == pytest.approx(24 + 1500)
    assert load_ms(replace(board.machine, storage=None), files) is None

"""Time: prices, waiting for the refresh, unknown costs."""

import csv
from dataclasses import replace
from pathlib import Path

import pytest

from scenekit.build import run_stages
from scenekit.costs.estimate import _periods, estimate, price
from scenekit.machines.cost import Cost
from scenekit.model.project import Project
from scenekit.plan.drawplan import Work

REFERENCE = Path(__file__).parents[1] / "reference" / "frame_lock.csv"


def rows() -> list[dict[str, str]]:
    lines = [line for line in REFERENCE.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


@pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row['refresh_hz']}-{row['work_ms']}")
def test_rate_after_waiting_for_the_refresh(row: dict[str, str]) -> None:
    period_ms = float(row["period_ms"])
    periods = _periods(float(row["work_ms"]), period_ms)
    assert periods == int(row["periods_per_frame"])
    assert 1000 / period_ms / periods == pytest.approx(float(row["frame_rate_hz"]), abs=1e-6)


def test_price_adds_calls_rows_and_pixels() -> None:
    cost = Cost(
        operation="blit", per_call_us=10, per_row_us=2, per_pixel_us=0.5, provenance="estimated: test"
    )
    work = Work(name="hero", operation="blit", calls=3, rows=20, pixels=100)
    (priced,) = price([work], {"blit": cost}, 16.0)
    assert priced.time_ms == pytest.approx((3 * 10 + 20 * 2 + 100 * 0.5) / 1000)


def test_unknown_price_gives_no_total(demo: Project) -> None:
    build = run_stages(demo, "board", last="plan")
    machine = replace(
        build.machine, prices=tuple(p for p in build.machine.prices if p.operation != "blit-keyed")
    )
    result = estimate(build.planner, machine, build.mode, build.scene, range(5))
    assert result.work_ms == (None,) * 5
    assert result.rate_hz is None
    assert result.holds_target is None
    assert [f.code for f in result.findings] == ["unknown-cost"]
    assert "blit-keyed" in result.findings[0].text


def test_worst_tick_is_the_dearest(demo: Project) -> None:
    build = run_stages(demo, "board", last="plan")
    result = estimate(build.planner, build.machine, build.mode, build.scene, range(740))
    assert result.worst_ms == max(work for work in result.work_ms if work is not None)
    assert sum(p.time_ms or 0 for p in result.worst) == pytest.approx(result.worst_ms)


def test_too_slow_is_a_finding(demo: Project) -> None:
    build = run_stages(demo, "board", last="plan")
    slow = tuple(replace(p, per_call_us=p.per_call_us * 4) for p in build.machine.prices)
    result = estimate(build.planner, replace(build.machine, prices=slow), build.mode, build.scene, range(3))
    assert result.holds_target is False
    assert result.findings[0].code == "misses-rate"


def test_ticks_between_updates_are_not_drawn(demo: Project) -> None:
    build = run_stages(demo, "board", last="plan")
    scene = replace(build.scene, ticks_per_update=2)
    result = estimate(build.planner, build.machine, build.mode, scene, range(10))
    assert result.ticks == (0, 2, 4, 6, 8)
    assert result.target_hz == pytest.approx(result.refresh_hz / 2)

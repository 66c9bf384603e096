"""What every machine that ships must hold: prices for all that its games do, which can be measured anew."""

from pathlib import Path

import pytest
from timed_board import benchmark, invented

from scenekit.calibration.benchmark import read_log
from scenekit.calibration.costs import calibrate
from scenekit.calibration.profiles import measured_profile
from scenekit.machines.profile import PROFILES_FOLDER, load_machine, machine_names

MADE_FOR = {"brandy-pc": "brandy", "sdlbrt-pc": "sdlbrt", "yabasic-pc": "yabasic", "pcbasic-pc": "pcbasic"}
"""Machines that are an interpreter's window; the others are measured by the plain dialect."""
MODES = {"pcbasic-pc": "640x350", "brandy-pc": "320x200-colour"}
DRAWING = [name for name in machine_names() if load_machine(name).abilities.words]


@pytest.mark.parametrize("name", DRAWING)
def test_all_that_is_timed_has_a_price_and_can_be_written_back(name: str, tmp_path: Path) -> None:
    mode = MODES.get(name, next(iter(load_machine(name).modes)))
    bench = benchmark(tmp_path / "b", name, mode, MADE_FOR.get(name, "plain"), repeats=1)
    timed = {operation for measure in bench.measures for (operation, _), _ in measure.work}
    assert timed <= set(load_machine(name).costs_in(mode))
    done = calibrate(bench, read_log(bench, invented(bench)), "measured: 2026-03-01, a test")
    text = (PROFILES_FOLDER / f"{name}.toml").read_text(encoding="utf-8")
    again = measured_profile(text, done, "again")
    assert again.count("measured: 2026-03-01") == len(done.costs) > 10


def test_some_machine_draws_on_one_page_alone() -> None:
    assert any("page" not in load_machine(name).abilities.words for name in DRAWING)

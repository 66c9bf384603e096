"""How much a machine varies between rounds, and the share of music, from made-up logs."""

import random

import pytest

from scenekit.calibration.benchmark import Log
from scenekit.calibration.drift import drift_percent
from scenekit.calibration.music import music_cost
from scenekit.errors import MachineError


def rounds(factors, measures=40, noise=0.01, seed=1):
    """Return runs of measures on a machine that is slower by a factor in each round."""
    chosen = random.Random(seed)
    runs = {}
    for measure in range(measures):
        base = chosen.randint(50, 5000)
        times = [base * factor * (1 + abs(chosen.gauss(0, noise))) for factor in factors]
        runs[measure] = tuple((10, round(time * 10)) for time in times)
    return runs


def test_a_steady_machine_has_none():
    assert drift_percent(rounds([1.0] * 9)) < 1
    assert drift_percent(rounds([1.0] * 3)) == 0
    assert drift_percent({}) == 0


def test_a_single_slow_round_does_not_count():
    """The shortest of three rounds in a row counts, as one of a whole calibration does."""
    assert drift_percent(rounds([1, 1.8, 1, 1, 1, 1.5, 1, 1, 1])) < 1


def test_a_slow_hour_counts():
    """Blocks at 1, 1 and 1.3: the standard deviation of log 1, log 1, log 1.3 is 0.1515."""
    assert drift_percent(rounds([1, 1, 1, 1, 1, 1, 1.3, 1.3, 1.3])) == pytest.approx(15.15, abs=1.0)


def test_planted_drift_is_found_on_average():
    chosen = random.Random(5)
    found = []
    for seed in range(60):
        blocks = [chosen.lognormvariate(0, 0.1) for _ in range(6)]
        found.append(drift_percent(rounds([b for b in blocks for _ in range(3)], seed=seed)) ** 2)
    assert (sum(found) / len(found)) ** 0.5 == pytest.approx(10, abs=1.5)


def log(runs):
    return Log(grain_ms=1, runs=runs, missing=(), notes=())


def test_the_share_of_music_is_found():
    """Music that takes a fifth of all time makes everything last 1 / 0.8 as long."""
    cost = music_cost(log(rounds([1, 1, 1])), log(rounds([1.25, 1.25, 1.25])), "measured: test")
    assert cost is not None
    assert cost.operation == "sound"
    assert cost.share_percent == pytest.approx(20, abs=1)
    assert cost.measured


def test_no_music_is_no_cost():
    assert music_cost(log(rounds([1, 1, 1])), log(rounds([1, 1, 1], seed=1)), "measured: test") is None


def test_music_that_leaves_nothing_and_logs_apart_are_refused():
    with pytest.raises(MachineError, match="music takes 98"):
        music_cost(log(rounds([1])), log(rounds([50])), "measured: test")
    with pytest.raises(MachineError, match="0 measures were timed with music and without"):
        music_cost(log(rounds([1])), log({}), "measured: test")

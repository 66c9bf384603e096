"""Delays in ticks: worked by hand, and never drifting."""

from fractions import Fraction

import numpy as np
import pytest

from scenekit.images.delays import delays_to_ticks, describe_ticks


def ticks(delays, refresh):
    return [step.ticks for step in delays_to_ticks(delays, refresh)]


def test_worked_by_hand():
    # 60 ticks a second: a tick is 50/3 ms; ends at 40, 80, 120 ms are 2.4, 4.8, 7.2 ticks
    assert ticks([40, 40, 40], 60) == [2, 3, 2]
    assert ticks([100, 100, 100], 60) == [6, 6, 6]
    assert ticks([100, 100, 100], 50) == [5, 5, 5]
    assert ticks([30, 30, 30, 30], 70) == [2, 2, 2, 2]
    assert ticks([Fraction(25, 2)] * 4, 60) == [1, 1, 1, 1]


def test_a_half_goes_to_the_later_tick():
    assert ticks([25], 60) == [2]
    assert ticks([Fraction(2499, 100)], 60) == [1]


def test_steps_of_no_delay_get_a_tick_and_later_ones_catch_up():
    assert ticks([0, 0, 0, 100], 60) == [1, 1, 1, 3]
    assert ticks([5, 5, 5, 5, 80], 60) == [1, 1, 1, 1, 2]


@pytest.mark.parametrize("refresh", [50, 60, Fraction(60000, 1001), Fraction(25_175_000, 800 * 449)])
def test_no_step_ends_more_than_half_a_tick_off(refresh):
    draw = np.random.default_rng(4)
    delays = [Fraction(int(d)) for d in draw.integers(20, 300, 5000)]
    steps = delays_to_ticks(delays, refresh)
    half = Fraction(500) / Fraction(refresh)
    assert all(abs(step.late_ms) <= half for step in steps)
    assert sum(step.shown_ms for step in steps) - sum(delays) == steps[-1].late_ms


def test_the_rounding_can_be_read():
    assert describe_ticks(delays_to_ticks([40, 40, 40], 60)) == (
        "3 steps in ticks: 40 ms as 2, 40 ms as 3, 40 ms as 2; "
        "120 ms becomes 116.7 ms, no step ends more than 6.7 ms off"
    )


@pytest.mark.parametrize(("delays", "refresh"), [([-1], 60), ([1], 0), ([1], -60)])
def test_impossible_values(delays, refresh):
    with pytest.raises(ValueError, match="must"):
        delays_to_ticks(delays, refresh)

"""Step patterns, judder and fixed point against exact tables; long runs against drift."""

import csv
from fractions import Fraction
from math import floor
from pathlib import Path

import pytest

from scenekit.motion.depths import image_speed, ratio_from_depth
from scenekit.motion.steps import fixed_step, step_pattern

REFERENCE = Path(__file__).parents[1] / "reference"


def rows(name: str) -> list[dict[str, str]]:
    lines = (REFERENCE / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def whole(text: str) -> tuple[int, ...]:
    return tuple(int(part) for part in text.split())


@pytest.mark.parametrize("row", rows("parallax.csv"), ids=lambda row: "z" + row["Z_units"])
def test_parallax_row(row: dict[str, str]) -> None:
    depth = Fraction(row["Z_units"])
    speed = image_speed(Fraction(row["f_px"]), Fraction(row["V_units_per_s"]), depth)
    assert speed == Fraction(row["px_per_s"])
    assert f"{float(speed):.9g}" == row["px_per_s_dec"]
    ratio = ratio_from_depth(Fraction(1), depth)
    assert ratio == Fraction(row["ratio_to_Z1"])
    assert f"{float(ratio):.9g}" == row["ratio_dec"]


def test_nearer_planes_are_faster_than_the_camera() -> None:
    assert ratio_from_depth(Fraction(3), Fraction(2)) == Fraction(3, 2)
    for depths in ((Fraction(0), Fraction(1)), (Fraction(1), Fraction(-1))):
        with pytest.raises(ValueError, match="above 0"):
            ratio_from_depth(*depths)
    with pytest.raises(ValueError, match="above 0"):
        image_speed(Fraction(256), Fraction(4), Fraction(0))


@pytest.mark.parametrize(
    "row", rows("pixel_step_patterns.csv"), ids=lambda row: row["px_per_frame"].replace("/", "_")
)
def test_pattern_row(row: dict[str, str]) -> None:
    pattern = step_pattern(Fraction(row["px_per_frame"]))
    assert pattern.period_ticks == int(row["period_frames"])
    assert pattern.floor_steps == whole(row["floor_steps"])
    assert pattern.rounded_steps == whole(row["round_half_up_steps"])
    assert (pattern.small_px, pattern.large_px) == (int(row["small_step"]), int(row["large_step"]))
    assert (pattern.large_count, pattern.small_count) == (int(row["large_count"]), int(row["small_count"]))
    assert pattern.max_lag_px == Fraction(row["max_floor_lag_px"])
    assert pattern.max_error_px == Fraction(row["max_round_error_px"])


def test_pattern_of_a_whole_speed_has_no_judder() -> None:
    pattern = step_pattern(Fraction(3))
    assert (pattern.floor_steps, pattern.max_lag_px, pattern.large_count) == ((3,), 0, 0)
    back = step_pattern(Fraction(-2, 5))
    assert sum(back.floor_steps) == sum(back.rounded_steps) == -2
    with pytest.raises(ValueError, match="repeat"):
        step_pattern(Fraction(1, 1_000_003))


@pytest.mark.parametrize(
    "step", [Fraction(1, 3), Fraction(355, 113), Fraction(-7, 64), Fraction(99991, 65537)]
)
def test_steps_do_not_drift_over_ten_million_ticks(step: Fraction) -> None:
    """Whole periods are added up as a loop would, and compared with one multiplication."""
    pattern = step_pattern(step)
    periods, rest = divmod(10_000_000, pattern.period_ticks)
    place = periods * sum(pattern.floor_steps) + sum(pattern.floor_steps[:rest])
    assert place == floor(step * 10_000_000)


FIXED = rows("fixed_point.csv")


def test_there_are_thirty_fixed_point_rows() -> None:
    assert len(FIXED) == 30


@pytest.mark.parametrize("row", FIXED, ids=lambda row: f"{row['format']}-{row['value']}".replace("/", "_"))
def test_fixed_point_row(row: dict[str, str]) -> None:
    bits, value = int(row["format"].split(".")[1]), Fraction(row["value"])
    near = fixed_step(value, bits)
    assert near.raw == int(row["nearest_raw"])
    assert near.error_px == Fraction(row["error_per_step"])
    assert f"{float(near.error_px):.6e}" == row["error_dec"]
    assert f"{float(near.drift_px(600)):.6e}" == row["drift_600_frames_px"]
    assert f"{float(near.drift_px(3600)):.6e}" == row["drift_3600_frames_px"]
    assert near.ticks_to_half_px == int(row["steps_to_half_px"])
    assert near.ticks_to_one_px == int(row["steps_to_one_px"])
    cut = fixed_step(value, bits, nearest=False)
    assert cut.raw == int(row["trunc_raw"])
    assert f"{float(cut.error_px):.6e}" == row["trunc_error_per_step"]
    assert cut.ticks_to_one_px == int(row["trunc_steps_to_one_px"])


def test_fixed_point_that_is_exact_never_drifts() -> None:
    exact = fixed_step(Fraction(3, 4), 4)
    assert (exact.raw, exact.error_px, exact.ticks_to_half_px, exact.ticks_to_one_px) == (12, 0, None, None)


@pytest.mark.parametrize("row", rows("pixel_step_patterns.csv")[:12], ids=lambda row: row["px_per_frame"])
@pytest.mark.parametrize("every", [2, 3, 5])
def test_held_steps_are_those_of_the_faster_plane_with_rests(row: dict[str, str], every: int) -> None:
    """Held for n ticks it steps as one that is n times as fast, every n-th tick, and else not at all."""
    step = Fraction(row["px_per_frame"])
    held, fast = step_pattern(step, every), step_pattern(step * every)
    count = held.period_ticks // every
    repeated = fast.floor_steps * (count // fast.period_ticks)
    assert held.floor_steps == tuple(s for whole in repeated for s in (*[0] * (every - 1), whole))
    assert (held.small_px, held.large_px) == (fast.small_px, fast.large_px)
    assert held.small_count + held.large_count == count
    places = [sum(held.floor_steps[:tick]) for tick in range(held.period_ticks)]
    assert held.max_lag_px == max(abs(step * tick - place) for tick, place in enumerate(places))

"""Motion under acceleration against closed forms, exact square roots and tick-by-tick loops."""

import csv
import random
from fractions import Fraction
from math import floor
from pathlib import Path

import pytest

from scenekit.motion.kinematics import (
    accelerate_then_move,
    constant_acceleration,
    drive,
    floor_with_root,
    jump,
    move_then_accelerate,
    travelled,
)

REFERENCE = Path(__file__).parents[1] / "reference"
LINES = (REFERENCE / "kinematics.csv").read_text(encoding="utf-8").splitlines()
ROWS = list(csv.DictReader(line for line in LINES if not line.startswith("#")))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"u{row['u']}a{row['a']}".replace("/", "_"))
def test_published_row(row: dict[str, str]) -> None:
    u, a, dt, n = Fraction(row["u"]), Fraction(row["a"]), Fraction(row["dt"]), int(row["N"])
    exact = travelled(u, a, dt * n)
    assert exact == Fraction(row["exact_x"]) == Fraction(row["midpoint_x"])
    assert move_then_accelerate(u, a, dt, n) == Fraction(row["explicit_euler_x"])
    semi = accelerate_then_move(u, a, dt, n)
    assert semi == Fraction(row["semi_implicit_x"])
    assert semi - exact == Fraction(row["semi_minus_exact"])


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"u{row['u']}a{row['a']}".replace("/", "_"))
def test_the_forms_are_what_the_loops_do(row: dict[str, str]) -> None:
    u, a, dt, n = Fraction(row["u"]), Fraction(row["a"]), Fraction(row["dt"]), int(row["N"])
    first = second = Fraction(0)
    speed = u
    for _ in range(n):
        first += speed * dt
        speed += a * dt
        second += speed * dt
    assert move_then_accelerate(u, a, dt, n) == first
    assert accelerate_then_move(u, a, dt, n) == second


@pytest.mark.parametrize(
    ("speed", "gravity", "first", "apex", "ticks"),
    [
        (8, 1, True, 28, 15),
        (8, 1, False, 36, 17),
        (10, 1, True, 45, 19),
        (10, 1, False, 55, 21),
        (16, 2, True, 56, 15),
        (16, 2, False, 72, 17),
    ],
)
def test_whole_number_jumps(speed: int, gravity: int, first: bool, apex: int, ticks: int) -> None:
    """source: apex v0 (v0 -+ g) / 2g and time 2 v0 / g -+ 1 when g divides v0 (discrete sums)."""
    made = jump(speed, gravity, first)
    assert (made.apex_px, made.airborne_ticks) == (apex, ticks)
    assert made.heights_px[0] == made.heights_px[-1] == 0
    assert min(made.heights_px[1:-1]) > 0


@pytest.mark.parametrize(("speed", "gravity"), [(0, 1), (1, 0), (10**9, 1)])
def test_impossible_jump(speed: int, gravity: int) -> None:
    with pytest.raises(ValueError):
        jump(speed, gravity)


def test_constant_acceleration_never_drifts() -> None:
    speed, acceleration = Fraction(1, 3), Fraction(1, 700)
    path = constant_acceleration(Fraction(5), speed, acceleration, 3000)
    for tick in (0, 1, 999, 3000):
        ideal = 5 + speed * tick + acceleration * tick * tick / 2
        assert abs(path[tick] - ideal) <= Fraction(1, 2)


def ideal_drive(way: int, top: float, up: float, down: float, tick: int) -> float:
    """The textbook motion in floating point, written another way round."""
    import math

    peak = min(top, math.sqrt(2 * way * up * down / (up + down)))
    gather, brake = peak / up, peak / down
    level = max(way - peak * (gather + brake) / 2, 0) / peak
    if tick <= gather:
        return up * tick * tick / 2
    if tick <= gather + level:
        return up * gather * gather / 2 + peak * (tick - gather)
    left = max(gather + level + brake - tick, 0)
    return way - down * left * left / 2


def test_drive_follows_the_textbook_motion() -> None:
    source = random.Random(9)
    for _ in range(300):
        way = source.randint(1, 900)
        top = Fraction(source.randint(1, 40), source.randint(1, 8))
        up = Fraction(source.randint(1, 20), source.randint(10, 200))
        down = Fraction(source.randint(1, 20), source.randint(10, 200))
        path = drive(way, top, up, down)
        assert (path[0], path[-1]) == (0, way)
        assert list(path) == sorted(path)
        for tick, shown in enumerate(path):
            assert abs(shown - ideal_drive(way, float(top), float(up), float(down), tick)) <= 0.5 + 1e-6
        assert ideal_drive(way, float(top), float(up), float(down), len(path)) == way


def test_drive_runs_backwards_the_same_way() -> None:
    forth = drive(100, Fraction(3), Fraction(1, 8), Fraction(1, 4))
    assert drive(-100, Fraction(3), Fraction(1, 8), Fraction(1, 4)) == tuple(-place for place in forth)
    assert drive(0, Fraction(3), Fraction(1), Fraction(1)) == (0,)


@pytest.mark.parametrize("value", [Fraction(0), Fraction(-1)])
def test_impossible_drive(value: Fraction) -> None:
    with pytest.raises(ValueError, match="above 0"):
        drive(10, value, Fraction(1), Fraction(1))
    with pytest.raises(ValueError, match="above 0"):
        drive(10, Fraction(1), value, Fraction(1))


def test_drive_of_endless_length_is_refused() -> None:
    with pytest.raises(ValueError, match="ticks"):
        drive(10**6, Fraction(1, 10**6), Fraction(1), Fraction(1))
    with pytest.raises(ValueError, match="ticks"):
        drive(10**6, Fraction(10**9), Fraction(1, 10**9), Fraction(1, 10**9))


def test_root_is_cut_exactly() -> None:
    assert floor_with_root(Fraction(-7, 2), Fraction(49, 4)) == 0
    assert floor_with_root(Fraction(-7, 2), Fraction(49, 4) - Fraction(1, 10**40)) == -1
    source = random.Random(2)
    for _ in range(500):
        rational = Fraction(source.randint(-999, 999), source.randint(1, 99))
        squared = Fraction(source.randint(0, 9999), source.randint(1, 99))
        value = floor_with_root(rational, squared)
        assert value <= rational or (value - rational) ** 2 <= squared
        assert value + 1 > rational
        assert (value + 1 - rational) ** 2 > squared
        assert abs(value - floor(float(rational) + float(squared) ** 0.5)) <= 1

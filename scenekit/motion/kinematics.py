"""Constant acceleration, braking and jumps, sampled each tick into whole pixels without drift."""

from dataclasses import dataclass
from fractions import Fraction
from math import floor, isqrt

HALF = Fraction(1, 2)
MAX_TICKS = 1_000_000


def travelled(speed: Fraction, acceleration: Fraction, time: Fraction) -> Fraction:
    """Return the way under constant acceleration: speed x time + acceleration x time squared / 2.

    source   textbook; values in tests/reference/kinematics.csv
    """
    return speed * time + acceleration * time * time * HALF


def move_then_accelerate(speed: Fraction, acceleration: Fraction, tick: Fraction, ticks: int) -> Fraction:
    """Return the way of the loop that moves first and then changes its speed (explicit Euler)."""
    return travelled(speed, acceleration, tick * ticks) - acceleration * tick * tick * ticks * HALF


def accelerate_then_move(speed: Fraction, acceleration: Fraction, tick: Fraction, ticks: int) -> Fraction:
    """Return the way of the loop that changes its speed first and then moves (semi-implicit Euler)."""
    return travelled(speed, acceleration, tick * ticks) + acceleration * tick * tick * ticks * HALF


def constant_acceleration(
    start_px: Fraction, speed: Fraction, acceleration: Fraction, ticks: int
) -> tuple[int, ...]:
    """Return the whole position at each of ticks 0 to `ticks`; a half goes up.

    speed, acceleration   px a tick, px a tick squared
    """
    return tuple(
        floor(start_px + travelled(speed, acceleration, Fraction(tick)) + HALF) for tick in range(ticks + 1)
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Jump:
    """A jump in whole steps, as a game loop plays it.

    heights_px   height above the ground at each tick, from 0 on the ground to 0 again
    """

    heights_px: tuple[int, ...]

    @property
    def apex_px(self) -> int:
        """Greatest height."""
        return max(self.heights_px)

    @property
    def airborne_ticks(self) -> int:
        """Ticks from leaving the ground to standing on it again."""
        return len(self.heights_px) - 1


def jump(speed_px: int, gravity_px: int, accelerate_first: bool = True) -> Jump:
    """Return the jump that starts with a speed upward and falls by a gravity, both in whole px a tick.

    accelerate_first   whether each tick changes the speed before it moves
    raises             ValueError: not both 1 or more, or a jump of more than MAX_TICKS
    """
    if speed_px < 1 or gravity_px < 1 or 2 * speed_px // gravity_px >= MAX_TICKS:
        raise ValueError(f"a jump needs a speed and a gravity of 1 or more; got {speed_px} and {gravity_px}")
    heights = [0]
    speed = speed_px
    while True:
        if accelerate_first:
            speed -= gravity_px
        height = heights[-1] + speed
        if not accelerate_first:
            speed -= gravity_px
        heights.append(max(height, 0))
        if height <= 0:
            return Jump(heights_px=tuple(heights))


def drive(way_px: int, top_speed: Fraction, acceleration: Fraction, braking: Fraction) -> tuple[int, ...]:
    """Return the whole position at each tick of a drive from rest to rest.

    It gathers speed, keeps the top speed if it gets there, and brakes to stand exactly on its goal.
    Positions are rounded (a half goes up) from the exact motion, whose end may lie between two ticks.
    way_px      distance, of either sign
    top_speed   px a tick; acceleration and braking: px a tick squared, all above 0
    raises      ValueError: a value not above 0, or a drive of more than MAX_TICKS
    """
    if min(top_speed, acceleration, braking) <= 0:
        raise ValueError("top speed, acceleration and braking must be above 0")
    way = Fraction(abs(way_px))
    full = top_speed * top_speed / 2 * (1 / acceleration + 1 / braking)
    if way >= full:
        plan = _cruise(way, top_speed, acceleration, braking)
    else:
        plan = _peak(way, acceleration, braking)
    sign = 1 if way_px >= 0 else -1
    return tuple(sign * position for position in plan)


def _cruise(way: Fraction, top: Fraction, acceleration: Fraction, braking: Fraction) -> list[int]:
    """With a stretch at top speed: everything is rational."""
    first = top / acceleration
    last = top / braking
    cruise = (way - top * (first + last) / 2) / top
    end = first + cruise + last
    _check_length(end)
    positions = []
    for tick in range(-floor(-end) + 1):
        if tick <= first:
            place = acceleration * tick * tick / 2
        elif tick <= first + cruise:
            place = top * (tick - first / 2)
        elif tick < end:
            place = way - braking * (end - tick) ** 2 / 2
        else:
            place = way
        positions.append(floor(place + HALF))
    return positions


def _peak(way: Fraction, acceleration: Fraction, braking: Fraction) -> list[int]:
    """Without top speed: the end time is a square root, compared and rounded exactly."""
    if way == 0:
        return [0]
    turn_squared = 2 * way * braking / (acceleration * (acceleration + braking))
    end_squared = 2 * way * (acceleration + braking) / (acceleration * braking)
    ticks = isqrt(floor(end_squared))
    ticks += ticks * ticks < end_squared
    _check_length(Fraction(ticks))
    positions = []
    for tick in range(ticks + 1):
        if tick * tick <= turn_squared:
            positions.append(floor(acceleration * tick * tick / 2 + HALF))
        elif tick * tick >= end_squared:
            positions.append(floor(way + HALF))
        else:
            rational = way - braking * (end_squared + tick * tick) / 2
            positions.append(floor_with_root(rational + HALF, (braking * tick) ** 2 * end_squared))
    return positions


def floor_with_root(rational: Fraction, squared: Fraction) -> int:
    """Return the whole part of rational + square root of squared, exactly."""
    guess = floor(rational) + isqrt(floor(squared))
    while guess + 1 <= rational or (guess + 1 - rational) ** 2 <= squared:
        guess += 1
    return guess


def _check_length(ticks: Fraction) -> None:
    if ticks > MAX_TICKS:
        raise ValueError(f"a drive may take {MAX_TICKS} ticks; this one takes {floor(ticks)}")

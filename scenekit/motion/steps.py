"""What whole pixels make of a fractional speed: patterns of steps, judder, and drift of fixed point."""

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import ceil, floor, lcm

HALF = Fraction(1, 2)
MAX_PERIOD_TICKS = 100_000


@dataclass(frozen=True, slots=True, kw_only=True)
class StepPattern:
    """The steps a plane takes in whole pixels, over one period.

    floor_steps    when positions are rounded down; rounded_steps: to the nearest, a half up
    small_px       the two sizes of step from one new place to the next, and how many of each there are in a
    large_px       period; large_count is 0 when every step is the same
    max_lag_px     worst distance that rounding down leaves between ideal and shown position
    max_error_px   the same for the nearest position
    """

    period_ticks: int
    floor_steps: tuple[int, ...]
    rounded_steps: tuple[int, ...]
    small_px: int
    large_px: int
    small_count: int
    large_count: int
    max_lag_px: Fraction
    max_error_px: Fraction


def step_pattern(step_px: Fraction, every: int = 1) -> StepPattern:
    """Return the pattern of whole steps for a speed in px a tick.

    every    ticks from one new place to the next, between which it is held
    raises   ValueError: the pattern repeats only after more than MAX_PERIOD_TICKS
    source   values in tests/reference/pixel_step_patterns.csv
    """
    period = lcm(step_px.denominator, every)
    if period > MAX_PERIOD_TICKS:
        raise ValueError(f"the steps repeat after {period} ticks; at most {MAX_PERIOD_TICKS} are listed")
    ideal = [step_px * tick for tick in range(period + 1)]
    held = [ideal[tick - tick % every] for tick in range(period + 1)]
    down = [floor(place) for place in held]
    near = [floor(place + HALF) for place in held]
    stride, new_places = step_px * every, period // every
    large = int(stride * new_places) - floor(stride) * new_places
    return StepPattern(
        period_ticks=period,
        floor_steps=_differences(down),
        rounded_steps=_differences(near),
        small_px=floor(stride),
        large_px=ceil(stride),
        small_count=new_places - large,
        large_count=large,
        max_lag_px=max(abs(place - shown) for place, shown in zip(ideal, down, strict=True)),
        max_error_px=max(abs(place - shown) for place, shown in zip(ideal, near, strict=True)),
    )


def _differences(places: list[int]) -> tuple[int, ...]:
    return tuple(after - before for before, after in pairwise(places))


@dataclass(frozen=True, slots=True, kw_only=True)
class FixedStep:
    """A speed held as a whole number of 1/2**bits px, and how far it drifts.

    raw                  the whole number; error_px: what each tick adds to the error
    ticks_to_half_px     ticks until the error reaches half a pixel, ticks_to_one_px a whole one;
                         None while it never does
    """

    raw: int
    error_px: Fraction
    ticks_to_half_px: int | None
    ticks_to_one_px: int | None

    def drift_px(self, ticks: int) -> Fraction:
        """Return the error after so many ticks."""
        return self.error_px * ticks


def fixed_step(step_px: Fraction, bits: int, nearest: bool = True) -> FixedStep:
    """Return a speed as fixed point with so many bits after the point.

    nearest   round to the nearest (a half up); else cut off
    source    values in tests/reference/fixed_point.csv
    """
    raw = floor(step_px * (1 << bits) + (HALF if nearest else 0))
    error = Fraction(raw, 1 << bits) - step_px
    return FixedStep(
        raw=raw,
        error_px=error,
        ticks_to_half_px=ceil(HALF / abs(error)) if error else None,
        ticks_to_one_px=ceil(1 / abs(error)) if error else None,
    )

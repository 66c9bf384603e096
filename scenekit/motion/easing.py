"""Easing curves of the web standard, solved in exact fractions and sampled into whole pixels."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import floor, lcm
from types import MappingProxyType

from scenekit.errors import ProjectError, UnknownNameError

SOLVE_BITS = 80
"""The curve parameter is found to this many binary places, or exactly when it has fewer."""

JUMPS = ("jump-start", "jump-end", "jump-none", "jump-both")
MAX_STEPS = 10_000
HALF = Fraction(1, 2)

_NUMBER = r"\s*(-?\d{1,6}(?:\.\d{1,12})?|-?\.\d{1,12})\s*"
_BEZIER = re.compile(rf"cubic-bezier\({_NUMBER},{_NUMBER},{_NUMBER},{_NUMBER}\)", re.ASCII)
_STEPS = re.compile(r"steps\(\s*(\d{1,6})\s*(?:,\s*([a-z-]+)\s*)?\)", re.ASCII)


@dataclass(frozen=True, slots=True, kw_only=True)
class CubicBezier:
    """A cubic Bezier easing from (0, 0) to (1, 1).

    raises   ValueError: x1 or x2 outside 0 to 1
    source   W3C CSS Easing Functions Level 1, cubic Bezier easing functions;
             values in tests/reference/easing_values.csv
    """

    x1: Fraction
    y1: Fraction
    x2: Fraction
    y2: Fraction

    def __post_init__(self) -> None:
        if not (0 <= self.x1 <= 1 and 0 <= self.x2 <= 1):
            raise ValueError("x1 and x2 must lie in 0 to 1")

    def at(self, progress: Fraction, before: bool = False) -> Fraction:
        """Return the eased progress; outside 0 to 1 the curve goes on along its end tangents."""
        if progress < 0:
            return self._slope_at_start() * progress
        if progress > 1:
            return 1 + self._slope_at_end() * (progress - 1)
        return _bezier(self.y1, self.y2, self._parameter(progress))

    def _parameter(self, progress: Fraction) -> Fraction:
        """The curve parameter where x is the progress, by halving: x never falls, so this cannot fail.

        All in whole numbers: x of m / 2**bits, times 2**(3 bits) and the common denominator.
        """
        common = lcm(self.x1.denominator, self.x2.denominator)
        first, second = int(self.x1 * common), int(self.x2 * common)
        cube, square = common - 3 * second + 3 * first, (3 * second - 6 * first) << SOLVE_BITS
        plain = 3 * first << 2 * SOLVE_BITS
        goal = progress.numerator * common << 3 * SOLVE_BITS
        low, high = 0, 1 << SOLVE_BITS
        while high - low > 1:
            middle = (low + high) // 2
            reached = ((cube * middle + square) * middle + plain) * middle * progress.denominator
            if reached == goal:
                return Fraction(middle, 1 << SOLVE_BITS)
            if reached < goal:
                low = middle
            else:
                high = middle
        return Fraction(high if progress > HALF else low, 1 << SOLVE_BITS)

    def _slope_at_start(self) -> Fraction:
        """Towards the first control point that lies to the right, else level."""
        if self.x1 > 0:
            return self.y1 / self.x1
        return self.y2 / self.x2 if self.x2 > 0 else Fraction(0)

    def _slope_at_end(self) -> Fraction:
        """From the last control point that lies to the left, else level."""
        if self.x2 < 1:
            return (1 - self.y2) / (1 - self.x2)
        return (1 - self.y1) / (1 - self.x1) if self.x1 < 1 else Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """A staircase of equal steps.

    raises   ValueError: fewer than 1 step, or fewer than 2 with jump-none
    source   W3C CSS Easing Functions Level 1, step easing functions;
             values in tests/reference/easing_steps.csv
    """

    count: int
    position: str = "jump-end"

    def __post_init__(self) -> None:
        least = 2 if self.position == "jump-none" else 1
        if self.position not in JUMPS or not least <= self.count <= MAX_STEPS:
            raise ValueError(f"steps must be {least} to {MAX_STEPS}, with one of {', '.join(JUMPS)}")

    def at(self, progress: Fraction, before: bool = False) -> Fraction:
        """Return the eased progress; `before` is the standard's flag for the time before the start."""
        scaled = progress * self.count
        step = floor(scaled)
        if self.position in ("jump-start", "jump-both"):
            step += 1
        if before and scaled.denominator == 1:
            step -= 1
        jumps = self.count + {"jump-none": -1, "jump-both": 1}.get(self.position, 0)
        if progress >= 0:
            step = max(step, 0)
        if progress <= 1:
            step = min(step, jumps)
        return Fraction(step, jumps)


Easing = CubicBezier | Steps


def _curve(x1: str, y1: str, x2: str, y2: str) -> CubicBezier:
    return CubicBezier(x1=Fraction(x1), y1=Fraction(y1), x2=Fraction(x2), y2=Fraction(y2))


EASINGS: Mapping[str, Easing] = MappingProxyType(
    {
        "linear": _curve("0", "0", "1", "1"),
        "ease": _curve("0.25", "0.1", "0.25", "1"),
        "ease-in": _curve("0.42", "0", "1", "1"),
        "ease-out": _curve("0", "0", "0.58", "1"),
        "ease-in-out": _curve("0.42", "0", "0.58", "1"),
        "step-start": Steps(count=1, position="jump-start"),
        "step-end": Steps(count=1, position="jump-end"),
    }
)
"""The standard's named easings."""


def parse_easing(where: str, text: str) -> Easing:
    """Return the easing that the standard's notation names, such as "ease-in" or "steps(4, jump-none)".

    raises   ProjectError: numbers out of range; UnknownNameError: none of the notations
    """
    if text in EASINGS:
        return EASINGS[text]
    try:
        if numbers := _BEZIER.fullmatch(text):
            return _curve(*numbers.groups())
        if steps := _STEPS.fullmatch(text):
            position = {"start": "jump-start", "end": "jump-end", None: "jump-end"}.get(steps[2], steps[2])
            return Steps(count=int(steps[1]), position=position)
    except ValueError as error:
        raise ProjectError(f"{where}: {text[:60]!r}: {error}") from None
    raise UnknownNameError(
        f"{where}: easing", text[:60], [*EASINGS, "cubic-bezier(x1, y1, x2, y2)", "steps(n, jump-end)"]
    )


def ease_between(easing: Easing, start_px: int, end_px: int, ticks: int) -> tuple[int, ...]:
    """Return the whole position at each of ticks 0 to `ticks`, both ends included.

    Every position is rounded (a half goes up) from the exact curve, so nothing drifts.
    raises   ValueError: less than one tick
    """
    if ticks < 1:
        raise ValueError(f"ticks must be 1 or more; got {ticks}")
    way = end_px - start_px
    return tuple(start_px + floor(way * easing.at(Fraction(tick, ticks)) + HALF) for tick in range(ticks + 1))


def _bezier(first: Fraction, second: Fraction, t: Fraction) -> Fraction:
    """One coordinate of the curve from 0 to 1 with two control values."""
    return ((1 - 3 * second + 3 * first) * t + (3 * second - 6 * first)) * t * t + 3 * first * t

"""When a scene repeats: exact least common multiples, and simpler ratios that repeat sooner."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil, floor, gcd, lcm

MAX_DENOMINATOR = 16
"""Simpler ratios are looked for among fractions up to this denominator."""

WIDEST_CHANGE = Fraction(1, 4)
"""A simpler ratio may differ from the wanted one by this part of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrapping:
    """A plane that wraps on one axis.

    size_px  width (or height) after which it repeats
    step_px  movement in one tick, any exact fraction; 0 stands still
    """

    name: str
    size_px: int
    step_px: Fraction

    @property
    def period_ticks(self) -> Fraction | None:
        """Ticks after which it is where it was, whole or not; None while it stands still."""
        return Fraction(self.size_px) / abs(self.step_px) if self.step_px else None

    @property
    def loop_ticks(self) -> int:
        """Whole ticks after which it is exactly where it was; 1 while it stands still."""
        return (self.step_px / self.size_px).denominator


@dataclass(frozen=True, slots=True, kw_only=True)
class Simpler:
    """A ratio near the wanted one that makes the scene repeat sooner.

    step_px         movement in one tick that it gives
    change_percent  how much faster the plane moves than wanted; negative is slower
    loop_ticks      ticks after which the whole scene then repeats
    """

    ratio: Fraction
    step_px: Fraction
    change_percent: Fraction
    loop_ticks: int


def loop_ticks(planes: Iterable[Wrapping], whole_periods: Iterable[int] = ()) -> int:
    """Return the least number of ticks after which every plane and every whole period is where it was.

    whole_periods   ticks of animations, palette cycles and closed paths, each 1 or more
    source          N with N * step / size whole for all: least common multiple of the denominators
                    (common practice); values in tests/reference/loop_lcm.csv
    """
    return lcm(*(plane.loop_ticks for plane in planes), *whole_periods)


def fraction_lcm(values: Sequence[Fraction]) -> Fraction:
    """Return the least positive fraction that is a whole multiple of each.

    raises   ValueError: none given, or one not above 0
    """
    if not values or min(values) <= 0:
        raise ValueError("a least common multiple needs fractions above 0")
    return Fraction(
        lcm(*(value.numerator for value in values)), gcd(*(value.denominator for value in values))
    )


def simpler_ratios(
    planes: Sequence[Wrapping],
    index: int,
    camera_step_px: Fraction,
    whole_periods: Sequence[int] = (),
    most: int = 5,
) -> tuple[Simpler, ...]:
    """Return ratios near that of one plane, each the nearest that makes the scene repeat so soon.

    Ordered from the smallest change to the shortest loop; a ratio that changes more without a shorter
    loop is left out. Empty when the plane stands still or nothing near is simpler.
    camera_step_px   movement of the camera in one tick; the ratio is step / camera step
    raises           ValueError: the camera stands still
    """
    if not camera_step_px:
        raise ValueError("the camera must move for a ratio to matter")
    plane = planes[index]
    wanted = plane.step_px / camera_step_px
    others = [other for place, other in enumerate(planes) if place != index]
    rest = loop_ticks(others, whole_periods)
    best = lcm(rest, plane.loop_ticks)
    found: list[Simpler] = []
    for ratio in sorted(_ratios_near(wanted), key=lambda ratio: (abs(ratio - wanted), ratio)):
        step = ratio * camera_step_px
        ticks = lcm(rest, replace(plane, step_px=step).loop_ticks)
        if ticks < best:
            best = ticks
            change = (ratio - wanted) / wanted * 100
            found.append(Simpler(ratio=ratio, step_px=step, change_percent=change, loop_ticks=ticks))
    return tuple(found[:most] if len(found) <= most else [*found[: most - 1], found[-1]])


def _ratios_near(wanted: Fraction) -> set[Fraction]:
    """Fractions of small denominator within the widest change, without the wanted one and 0."""
    reach = abs(wanted) * WIDEST_CHANGE
    near: set[Fraction] = set()
    for denominator in range(1, MAX_DENOMINATOR + 1):
        low, high = ceil((wanted - reach) * denominator), floor((wanted + reach) * denominator)
        if high - low > 4 * MAX_DENOMINATOR:
            middle = round(wanted * denominator)
            low, high = middle - 2 * MAX_DENOMINATOR, middle + 2 * MAX_DENOMINATOR
        near.update(Fraction(numerator, denominator) for numerator in range(low, high + 1))
    return near - {wanted, Fraction(0)}

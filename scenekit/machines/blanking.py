"""What fits into the time when no picture line is sent."""

from fractions import Fraction
from math import floor

from scenekit.machines.cost import Cost
from scenekit.machines.timing import Timing

ENDLESS = 1 << 30
"""Given where a price says nothing of calls or pixels."""


def quiet_us(timing: Timing, borders: bool = True) -> Fraction:
    """Return the time of one refresh without picture lines; `borders` counts border lines too."""
    return (timing.undrawn_ms if borders else timing.blank_ms) * 1000


def calls_in_blanking(timing: Timing, cost: Cost | None, borders: bool = True) -> int | None:
    """Return how many calls of an operation fit, such as palette entries; None while its cost is unknown."""
    if cost is None:
        return None
    return _count(quiet_us(timing, borders), exact(cost.per_call_us))


def pixels_in_blanking(timing: Timing, cost: Cost | None, width_px: int, borders: bool = True) -> int | None:
    """Return how many pixels one call can draw in rows of a width; None while its cost is unknown."""
    if cost is None:
        return None
    left = quiet_us(timing, borders) - exact(cost.per_call_us)
    if left <= 0:
        return 0
    return _count(left, exact(cost.per_pixel_us) + exact(cost.per_row_us) / width_px)


def bytes_in_blanking(timing: Timing, bytes_per_s: Fraction | int, borders: bool = True) -> int:
    """Return how many bytes a copy of some speed moves while no picture line is sent.

    raises   ValueError: speed not above 0
    """
    if bytes_per_s <= 0:
        raise ValueError(f"a speed must be above 0; got {bytes_per_s}")
    return floor(quiet_us(timing, borders) * bytes_per_s / 1_000_000)


def exact(value: float) -> Fraction:
    """Return the fraction that the decimal digits of a number say."""
    return Fraction(repr(value))


def _count(time_us: Fraction, each_us: Fraction) -> int:
    return min(floor(time_us / each_us), ENDLESS) if each_us else ENDLESS

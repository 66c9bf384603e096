"""Positions along a path and steps of an animation, at any tick."""

from bisect import bisect_right
from fractions import Fraction
from math import floor
from operator import itemgetter

from scenekit.model.scene import Path, travel
from scenekit.model.sprites import Animation
from scenekit.records import record

first = itemgetter(0)


@record(frozen=True, slots=True, kw_only=True)
class Place:
    """Where a mover is: position, segment (None when it stands) and ticks spent in that segment."""

    x: int
    y: int
    segment: int | None
    elapsed: int
    lap: int


def place_at(path: Path, start: tuple[int, int], tick: int) -> Place:
    """Return where a mover is at a tick.

    Within a segment the position is its start plus the floor of speed times ticks; each segment
    starts where the one before ended, on whole pixels.
    """
    x, y = start
    if not path.segments:
        return Place(x=x, y=y, segment=None, elapsed=tick, lap=0)
    edges = path.edges
    total, across, down = edges[-1]
    lap, rest = (0, tick) if path.repeat == "no" else divmod(tick, total)
    if path.repeat == "onward":
        x, y = x + lap * across, y + lap * down
    if rest >= total:
        return Place(x=x + across, y=y + down, segment=None, elapsed=rest - total, lap=lap)
    number = bisect_right(edges, rest, key=first) - 1
    began, left, top = edges[number]
    speed = path.segments[number].speed
    return Place(
        x=x + left + travel(speed[0], rest - began),
        y=y + top + travel(speed[1], rest - began),
        segment=number,
        elapsed=rest - began,
        lap=lap,
    )


def lap_travel(path: Path) -> tuple[int, int]:
    """Return how far one whole run of a path moves, in pixels."""
    return path.edges[-1][1:]


def split_speed(speed: Fraction) -> tuple[int, int, int]:
    """Return (whole, part, parts): speed = whole + part / parts with 0 <= part < parts."""
    whole = floor(speed)
    rest = speed - whole
    return whole, rest.numerator, rest.denominator


def unroll(animation: Animation) -> tuple[tuple[int, ...], bool]:
    """Return the step numbers an animation plays, and whether they begin again."""
    count = len(animation.steps)
    numbers = tuple(range(count))
    if animation.play == "there-and-back":
        numbers += tuple(range(count - 2, 0, -1))
    return numbers, animation.play != "once"


def step_at(animation: Animation, elapsed: int) -> int:
    """Return the number of the step an animation shows after some ticks."""
    numbers, again = unroll(animation)
    total = sum(animation.steps[number].ticks for number in numbers)
    if not again and elapsed >= total:
        return numbers[-1]
    rest = elapsed % total
    for number in numbers:
        rest -= animation.steps[number].ticks
        if rest < 0:
            return number
    raise AssertionError("unreachable: the ticks of all steps add up to the total")

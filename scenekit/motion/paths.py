"""Positions, animations and facings along a path, at any tick."""

from bisect import bisect_right
from dataclasses import dataclass
from fractions import Fraction
from math import floor
from operator import itemgetter

from scenekit.model.scene import Path, Placed, travel
from scenekit.model.sprites import Animation, Facing, Sprite

first = itemgetter(0)


@dataclass(frozen=True, slots=True, kw_only=True)
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """What a sprite shows: the animation by index, the flip, and ticks since that animation began."""

    animation: int
    flip: int
    elapsed: int


def shown_animation(sprite: Sprite, animation: int, facing: str) -> tuple[int, int]:
    """Return (animation, flip) that a sprite shows for a logical animation and facing.

    A facing that the sprite does not have looks like its first.
    """
    found = next((f for f in sprite.facings if f.facing == facing), sprite.facings[0])
    own = _own_animation(sprite, animation, found)
    return (animation, found.flip) if own is None else (own, 0)


def _own_animation(sprite: Sprite, animation: int, facing: Facing) -> int | None:
    name = dict(facing.own).get(sprite.animations[animation].name)
    return None if name is None else sprite.animation_number(name)


def start_state(sprite: Sprite, placed: Placed) -> tuple[int, str]:
    """Return the logical animation and facing that a placed sprite has before its path begins."""
    animation = sprite.animation_number(placed.animation) if placed.animation else 0
    return animation or 0, placed.facing or sprite.facings[0].facing


def look_at(sprite: Sprite, placed: Placed, tick: int, place: Place | None = None) -> Look:
    """Return what a placed sprite shows at a tick.

    The animation begins anew whenever the shown animation becomes another one.
    place    where it is then, when that is known already
    """
    place = place or place_at(placed.path, placed.at, tick)
    changes = _changes(sprite, placed, place)
    current = changes[-1]
    began = current[0]
    for earlier in reversed(changes):
        if earlier[1] != current[1]:
            break
        began = earlier[0]
    return Look(animation=current[1], flip=current[2], elapsed=tick - began)


def _changes(sprite: Sprite, placed: Placed, place: Place) -> list[tuple[int, int, int]]:
    """Return (tick, shown animation, flip) at the start and at each segment's start, up to a place.

    From the second lap on a path repeats itself, so only the first two and the last two are walked.
    """
    animation, facing = start_state(sprite, placed)
    changes = [(0, *shown_animation(sprite, animation, facing))]
    segments = placed.path.segments
    total = sum(segment.ticks for segment in segments)
    last = len(segments) - 1 if place.segment is None else place.segment
    for lap in sorted({0, min(1, place.lap), max(0, place.lap - 1), place.lap}):
        tick = lap * total
        for number, segment in enumerate(segments):
            if lap == place.lap and number > last:
                break
            animation = _or_else(sprite.animation_number(segment.animation), animation)
            facing = segment.facing or facing
            changes.append((tick, *shown_animation(sprite, animation, facing)))
            tick += segment.ticks
    return changes


def _or_else(number: int | None, other: int) -> int:
    return other if number is None else number


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

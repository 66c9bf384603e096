"""Positions, animations and facings along paths, at any tick, by hand and against single steps."""

import random
from dataclasses import replace
from fractions import Fraction
from math import floor

import pytest

from scenekit.model.scene import Path, Placed, Segment
from scenekit.model.sprites import Animation, Facing, Sprite, Step
from scenekit.motion.expand import expand_path
from scenekit.motion.looks import look_at, shown_animation, start_state
from scenekit.motion.paths import (
    lap_travel,
    place_at,
    split_speed,
    step_at,
    unroll,
)


def segment(ticks, x, y=0, **more):
    return Segment(ticks=ticks, speed=(Fraction(x), Fraction(y)), **more)


def path(*segments, repeat="no", **more):
    return Path(segments=segments, repeat=repeat, **more)


def places(route, count, start=(0, 0)):
    return [(place_at(route, start, tick).x, place_at(route, start, tick).y) for tick in range(count)]


def test_no_path_stays():
    assert places(path(), 3, (4, -7)) == [(4, -7)] * 3


def test_a_speed_with_parts_is_rounded_down_in_both_ways():
    assert [x for x, _ in places(path(segment(9, "2/3")), 7)] == [0, 0, 1, 2, 2, 3, 4]
    assert [x for x, _ in places(path(segment(9, "-2/3")), 7)] == [0, -1, -2, -2, -3, -4, -4]


def test_segments_begin_on_the_pixel_where_the_last_one_ended():
    """-1/2 for 3 ticks ends at -2 (floor of -1.5); the next segment starts there, not at -1.5."""
    assert [x for x, _ in places(path(segment(3, "-1/2"), segment(4, "1/2")), 8)] == [
        0,
        -1,
        -1,
        -2,
        -2,
        -1,
        -1,
        0,
    ]


@pytest.mark.parametrize(
    ("repeat", "wanted"),
    [
        ("no", [0, 2, 4, 5, 5, 5, 5]),
        ("from-start", [0, 2, 4, 0, 2, 4, 0]),
        ("onward", [0, 2, 4, 5, 7, 9, 10]),
    ],
)
def test_what_comes_after_the_last_segment(repeat, wanted):
    route = path(segment(2, 2), segment(1, 1), repeat=repeat)
    assert [x for x, _ in places(route, 7)] == wanted
    assert lap_travel(route) == (5, 0)


@pytest.mark.parametrize("seed", range(20))
def test_a_place_at_any_tick_is_what_single_steps_reach(seed):
    """Walk one tick at a time with exact fractions; then ask for ticks in any order, far ones too."""
    chosen = random.Random(seed)
    parts = [
        segment(
            chosen.randint(1, 9),
            Fraction(chosen.randint(-20, 20), chosen.randint(1, 9)),
            Fraction(chosen.randint(-9, 9), 7),
        )
        for _ in range(chosen.randint(1, 5))
    ]
    route = path(*parts, repeat=chosen.choice(("no", "from-start", "onward")))
    start = (chosen.randint(-50, 50), chosen.randint(-50, 50))
    found, base, gone, number, spent = [], start, [Fraction(0), Fraction(0)], 0, 0
    for _ in range(200):
        found.append((base[0] + floor(gone[0]), base[1] + floor(gone[1])))
        if number is None:
            continue
        gone = [g + s for g, s in zip(gone, parts[number].speed, strict=True)]
        spent += 1
        if spent == parts[number].ticks:
            base, gone, spent = (
                (base[0] + floor(gone[0]), base[1] + floor(gone[1])),
                [Fraction(0), Fraction(0)],
                0,
            )
            number += 1
            if number == len(parts):
                number = None if route.repeat == "no" else 0
                base = start if route.repeat == "from-start" else base
    ticks = list(range(200))
    chosen.shuffle(ticks)
    for tick in ticks:
        place = place_at(route, start, tick)
        assert (place.x, place.y) == found[tick], tick


def test_far_ticks_are_found_at_once():
    route = path(segment(3, "1/3"), segment(4, -1), repeat="onward")
    assert place_at(route, (0, 0), 7_000_000_000).x == -3_000_000_000
    assert place_at(route, (0, 0), 7_000_000_000).lap == 1_000_000_000


@pytest.mark.parametrize("speed", ["0", "3", "-3", "1/3", "-1/3", "7/2", "-7/2", "-1/9999"])
def test_a_speed_splits_into_whole_pixels_and_parts(speed):
    whole, part, parts = split_speed(Fraction(speed))
    assert whole + Fraction(part, parts) == Fraction(speed)
    assert 0 <= part < parts


def animation(name, play, *ticks):
    steps = tuple(Step(frame=f"{name}{n}", ticks=t) for n, t in enumerate(ticks))
    return Animation(name=name, sheet="s", play=play, steps=steps)


@pytest.mark.parametrize(
    ("play", "ticks", "wanted"),
    [
        ("loop", (2, 1), [0, 0, 1, 0, 0, 1, 0]),
        ("once", (2, 1, 2), [0, 0, 1, 2, 2, 2, 2]),
        ("there-and-back", (1, 2, 1), [0, 1, 1, 2, 1, 1, 0]),
        ("there-and-back", (1, 2), [0, 1, 1, 0, 1, 1, 0]),
        ("there-and-back", (3,), [0, 0, 0, 0, 0, 0, 0]),
        ("loop", (5,), [0] * 7),
        ("once", (1,), [0] * 7),
    ],
)
def test_steps_of_an_animation(play, ticks, wanted):
    shown = animation("a", play, *ticks)
    assert [step_at(shown, elapsed) for elapsed in range(7)] == wanted
    numbers, again = unroll(shown)
    assert again == (play != "once")
    assert numbers[0] == 0


def walker():
    return Sprite(
        name="w",
        animations=(
            animation("walk", "loop", 2, 2),
            animation("sit", "once", 3, 3),
            animation("lie", "loop", 4),
        ),
        facings=(
            Facing(facing="right", flip=0),
            Facing(facing="left", flip=1, own=(("sit", "lie"),)),
            Facing(facing="up", flip=3),
        ),
    )


def placed(route, **more):
    return Placed(name="p", sprite="w", over="x", moves_with="x", at=(0, 0), path=route, **more)


def test_a_facing_is_a_flip_or_its_own_art_unflipped():
    sprite = walker()
    assert shown_animation(sprite, 0, "left") == (0, 1)
    assert shown_animation(sprite, 1, "left") == (2, 0)
    assert shown_animation(sprite, 1, "up") == (1, 3)
    assert shown_animation(sprite, 1, "down") == (1, 0), "a facing that it has not looks like its first"


def test_a_sprite_starts_with_its_first_animation_and_facing():
    assert start_state(walker(), placed(path())) == (0, "right")
    assert start_state(walker(), placed(path(), animation="sit", facing="up")) == (1, "up")


def looks(one, count):
    return [
        (look.animation, look.flip, look.elapsed)
        for look in (look_at(walker(), one, t) for t in range(count))
    ]


def test_an_animation_begins_anew_only_when_another_one_is_shown():
    route = path(
        segment(2, 1, animation="walk"), segment(2, 1, animation="walk"), segment(2, 0, animation="sit")
    )
    assert looks(placed(route), 7) == [
        *((0, 0, tick) for tick in range(4)),
        *((1, 0, tick) for tick in range(3)),
    ]


def test_a_turn_of_the_facing_alone_goes_on_with_the_step():
    route = path(segment(3, 1, facing="right"), segment(3, -1, facing="left"))
    assert looks(placed(route), 5) == [(0, 0, 0), (0, 0, 1), (0, 0, 2), (0, 1, 3), (0, 1, 4)]


def test_own_art_of_a_facing_begins_anew():
    route = path(segment(2, 0, animation="sit"), segment(2, 0, facing="left"), segment(2, 0, facing="up"))
    assert looks(placed(route), 6) == [(1, 0, 0), (1, 0, 1), (2, 0, 0), (2, 0, 1), (1, 3, 0), (1, 3, 1)]


def test_a_lap_takes_up_what_its_segments_ask_for_and_else_goes_on():
    """The first segment asks for nothing, so from the second lap on it goes on with the last one's."""
    route = path(segment(2, 1), segment(3, 0, animation="sit"), repeat="from-start")
    found = looks(placed(route), 16)
    assert found[:5] == [(0, 0, 0), (0, 0, 1), (1, 0, 0), (1, 0, 1), (1, 0, 2)]
    assert [animation for animation, *_ in found[5:]] == [1] * 11
    assert [elapsed for *_, elapsed in found[5:]] == list(range(3, 14))
    far = look_at(walker(), placed(route), 5 * 1_000_000 + 1)
    assert (far.animation, far.elapsed) == (1, 5_000_001 - 2)


def test_two_animations_in_turn_begin_anew_on_every_lap():
    route = path(segment(2, 1, animation="walk"), segment(3, 0, animation="sit"), repeat="onward")
    for lap in (0, 1, 2, 7, 1000):
        assert look_at(walker(), placed(route), 5 * lap).elapsed == 0
        assert look_at(walker(), placed(route), 5 * lap + 4).elapsed == 2


@pytest.mark.parametrize("repeat", ["from-start", "onward"])
def test_a_following_facing_turns_on_every_lap(repeat):
    """There and back for ever: each lap's way out is seen from the right, each way home from the left."""
    route = path(segment(4, 1), segment(4, -1), repeat=repeat, follow=True)
    one = placed(route)
    one = replace(one, path=expand_path(route, walker(), one, "here"))
    flips = [flip for _, flip, _ in looks(one, 24)]
    assert flips == [*[0] * 4, *[1] * 4] * 3


def test_a_turn_is_played_at_each_reversal_of_every_lap():
    """Way out 4 ticks, turn 6 (sit, once 3 + 3), way home 4, turn 6: a lap of 20 ticks."""
    route = path(segment(4, 1), segment(4, -1), repeat="from-start", follow=True, turn="sit")
    one = placed(route)
    one = replace(one, path=expand_path(route, walker(), one, "here"))
    assert one.path.edges[-1][0] == 20
    for lap in (0, 1, 5):
        found = [look_at(walker(), one, 20 * lap + tick) for tick in range(20)]
        assert [look.flip for look in found[:10]] == [0] * 10
        assert [look.animation for look in found[:10]] == [0] * 4 + [1] * 6
        assert [(look.animation, look.flip) for look in found[10:14]] == [(0, 1)] * 4
        assert [(look.animation, look.flip) for look in found[14:]] == [(2, 0)] * 6, (
            "its own art for this facing"
        )

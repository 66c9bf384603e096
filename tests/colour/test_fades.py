"""Fades and keyframes against exact Oklab."""

import numpy as np
import pytest

from scenekit.colour import space
from scenekit.colour.fades import Fade, Flash, Keyframes, between
from scenekit.errors import PaletteError


def test_between_is_exact_at_both_ends_and_near_oklab_elsewhere():
    rng = np.random.default_rng(1)
    start, to = (rng.integers(0, 256, (100, 3), dtype=np.uint8) for _ in range(2))
    assert (between(start, to, 0, 5) == start).all()
    assert (between(start, to, 5, 5) == to).all()
    for done in range(1, 5):
        mixed = space.bytes_to_oklab(start) * (5 - done) / 5 + space.bytes_to_oklab(to) * done / 5
        exact = space.linear_to_bytes(np.maximum(space.oklab_to_linear(mixed), 0))
        assert np.abs(between(start, to, done, 5).astype(int) - exact).max() <= 1


def test_equal_colours_do_not_move():
    rgb = np.random.default_rng(2).integers(0, 256, (500, 3), dtype=np.uint8)
    assert (between(rgb, rgb, 3, 7) == rgb).all()


def test_middle_of_black_and_white():
    # Oklab L 0.5 is linear 0.125, sRGB 99.0 of 255
    assert between(np.zeros(3, np.uint8), np.full(3, 255, np.uint8), 1, 2).tolist() == [99, 99, 99]


def test_fade_takes_its_steps_in_time():
    fade = Fade(entries=(1, 2), to=((0, 0, 0),), tick=10, steps=4, ticks_per_step=3)
    palette = np.full((4, 3), 200, dtype=np.uint8)
    shown = [int(fade.apply(palette, tick)[1, 0]) for tick in range(30)]
    assert shown[:10] == [200] * 10
    assert shown[10] == shown[12] != shown[9]
    assert shown[19:] == [0] * 11
    assert shown == sorted(shown, reverse=True)
    assert len(set(shown)) == 5
    assert (fade.apply(palette, 15)[[0, 3]] == 200).all()


def test_flash_ends_and_returns():
    palette = np.zeros((2, 3), dtype=np.uint8)
    flash = Flash(entries=(1,), colours=((255, 255, 255),), tick=5, ticks=2, every_ticks=10)
    lit = [tick for tick in range(30) if flash.apply(palette, tick)[1, 0]]
    assert lit == [5, 6, 15, 16, 25, 26]
    once = Flash(entries=(1,), colours=((255, 255, 255),), tick=5, ticks=2)
    assert [tick for tick in range(30) if once.apply(palette, tick)[1, 0]] == [5, 6]


def test_keyframes_follow_the_day():
    night, noon = ((10, 10, 40),), ((120, 180, 250),)
    day = Keyframes(entries=(3,), ticks=(0, 100), palettes=(night, noon), loop_ticks=200)
    at = [tuple(day.colours_at(tick)[0].tolist()) for tick in range(400)]
    assert at[0] == night[0]
    assert at[100] == noon[0]
    assert at[200:] == at[:200]
    assert at[30] == at[170]
    still = Keyframes(entries=(3,), ticks=(10, 110), palettes=(night, noon))
    assert tuple(still.colours_at(0)[0].tolist()) == night[0]
    assert tuple(still.colours_at(500)[0].tolist()) == noon[0]
    coarse = Keyframes(entries=(3,), ticks=(0, 100), palettes=(night, noon), step_ticks=10)
    assert [len({tuple(coarse.colours_at(t)[0].tolist()) for t in range(a, a + 10)}) for a in (0, 50)] == [
        1,
        1,
    ]
    assert (coarse.colours_at(37) == still.colours_at(40)).all()


@pytest.mark.parametrize(
    "make",
    [
        lambda: Fade(entries=(), to=((0, 0, 0),), tick=0, steps=1),
        lambda: Fade(entries=(1, 2, 3), to=((0, 0, 0), (1, 1, 1)), tick=0, steps=1),
        lambda: Fade(entries=(1,), to=((0, 0, 256),), tick=0, steps=1),
        lambda: Fade(entries=(1,), to=((0, 0, 0),), tick=0, steps=0),
        lambda: Flash(entries=(1,), colours=((0, 0, 0),), tick=0, ticks=5, every_ticks=5),
        lambda: Keyframes(entries=(1,), ticks=(5, 5), palettes=(((0, 0, 0),),) * 2),
        lambda: Keyframes(entries=(1, 2), ticks=(5,), palettes=(((0, 0, 0),),)),
        lambda: Keyframes(entries=(1,), ticks=(0, 9), palettes=(((0, 0, 0),),) * 2, loop_ticks=9),
        lambda: between(np.zeros(3, np.uint8), np.zeros(3, np.uint8), 3, 2),
    ],
)
def test_impossible_events_are_refused(make):
    with pytest.raises(PaletteError):
        make()

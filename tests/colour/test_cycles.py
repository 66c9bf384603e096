"""Cycles on whole numbers, and the order base, cycles, events."""

import numpy as np
import pytest

from scenekit.colour.cycles import EntryCycle, palette_at, period_ticks, rotate
from scenekit.colour.depth import parse
from scenekit.colour.fades import Fade, Flash
from scenekit.errors import PaletteError

TRUE = parse("8-8-8")
BASE = np.arange(24, dtype=np.uint8).reshape(8, 3) * 10


def test_rotation_moves_colours_forward():
    assert rotate(4, 0) == (0, 1, 2, 3)
    assert rotate(4, 1) == (3, 0, 1, 2)
    assert rotate(4, -1) == (1, 2, 3, 0)
    assert rotate(4, 7) == rotate(4, -1)


@pytest.mark.parametrize("direction", ["forward", "backward"])
def test_a_cycle_is_single_steps(direction):
    cycle = EntryCycle(entries=(5, 2, 7), ticks_per_step=4, direction=direction)
    shown = BASE.copy()
    for tick in range(50):
        if tick and tick % 4 == 0:
            order = [7, 5, 2] if direction == "forward" else [2, 7, 5]
            shown[[5, 2, 7]] = shown[order]
        assert (palette_at(BASE, [cycle], [], tick, TRUE) == shown).all()


def test_there_and_back():
    cycle = EntryCycle(entries=(0, 1, 2, 3), ticks_per_step=2, there_and_back=True)
    assert [cycle.shift_at(tick) for tick in range(0, 16, 2)] == [0, 1, 2, 3, 2, 1, 0, 1]
    assert cycle.period_ticks == 12
    back = EntryCycle(entries=(0, 1, 2), ticks_per_step=1, there_and_back=True, direction="backward")
    assert [back.shift_at(tick) for tick in range(5)] == [0, 2, 1, 2, 0]


def test_all_cycles_together_repeat():
    cycles = [
        EntryCycle(entries=(0, 1, 2), ticks_per_step=4),
        EntryCycle(entries=(3, 4, 5, 6), ticks_per_step=3, there_and_back=True),
    ]
    period = period_ticks(cycles)
    assert period == 36
    seen = [palette_at(BASE, cycles, [], tick, TRUE).tobytes() for tick in range(2 * period)]
    assert seen[:period] == seen[period:]
    assert all(seen[:period] != seen[start : start + period] for start in range(1, period))
    assert period_ticks([]) == 1


def test_events_come_after_cycles():
    cycle = EntryCycle(entries=(0, 1), ticks_per_step=1)
    flash = Flash(entries=(0,), colours=((1, 2, 3),), tick=3, ticks=1)
    fade = Fade(entries=(1,), to=((9, 9, 9),), tick=5, steps=1)
    assert palette_at(BASE, [cycle], [flash, fade], 3, TRUE)[:2].tolist() == [[1, 2, 3], BASE[0].tolist()]
    assert palette_at(BASE, [cycle], [flash, fade], 4, TRUE)[:2].tolist() == BASE[:2].tolist()
    assert palette_at(BASE, [cycle], [flash, fade], 6, TRUE)[:2].tolist() == [BASE[0].tolist(), [9, 9, 9]]


def test_rounded_to_the_depth_and_base_untouched():
    before = BASE.copy()
    depth = parse("3-3-2")
    got = palette_at(BASE, [], [Fade(entries=(1, 2), to=((255, 0, 7),), tick=0, steps=7)], 2, depth)
    assert (depth.round_trip(got) == got).all()
    assert (before == BASE).all()


@pytest.mark.parametrize(
    "options",
    [
        {"entries": (1,)},
        {"entries": (1, 1)},
        {"entries": (1, 2), "ticks_per_step": 0},
        {"entries": (1, 2), "direction": "sideways"},
    ],
)
def test_impossible_cycles_are_refused(options):
    with pytest.raises(PaletteError, match="cycle"):
        EntryCycle(**{"ticks_per_step": 1, **options})


def test_entries_outside_the_palette_are_refused():
    with pytest.raises(PaletteError, match="entry 8"):
        palette_at(BASE, [EntryCycle(entries=(1, 8), ticks_per_step=1)], [], 0, TRUE)

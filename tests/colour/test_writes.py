"""Tables of palette writes, played back."""

from fractions import Fraction

import numpy as np
import pytest

from scenekit.colour.cycles import EntryCycle, palette_at
from scenekit.colour.depth import parse
from scenekit.colour.fades import Fade
from scenekit.colour.writes import (
    blanking_findings,
    entries_in_blanking,
    palette_writes,
    spread_writes,
)
from scenekit.errors import MachineError

DEPTH = parse("dac-6")
CYCLES = [EntryCycle(entries=tuple(range(1, 9)), ticks_per_step=5)]
EVENTS = [Fade(entries=tuple(range(6, 14)), to=((0, 0, 0),), tick=20, steps=8, ticks_per_step=2)]


def palettes(ticks: int) -> list[np.ndarray]:
    base = np.random.default_rng(1).integers(0, 256, (16, 3), dtype=np.uint8)
    return [palette_at(base, CYCLES, EVENTS, tick, DEPTH) for tick in range(ticks)]


def play(first: np.ndarray, writes, ticks: int) -> list[np.ndarray]:
    levels, out = DEPTH.levels(first), []
    for tick in range(ticks):
        for write in writes:
            if write.tick == tick:
                levels[write.entry] = write.levels
        out.append(DEPTH.expand(levels))
    return out


def test_writes_play_back_to_the_same_palettes():
    wanted = palettes(60)
    writes = palette_writes(wanted, DEPTH)
    assert all((got == want).all() for got, want in zip(play(wanted[0], writes, 60), wanted, strict=True))
    assert len(writes) < 60 * 16 / 2


def test_spread_writes_keep_the_limit_and_arrive():
    wanted = palettes(60)
    writes = palette_writes(wanted, DEPTH)
    spread, longest = spread_writes(writes, 3)
    counts = [sum(write.tick == tick for write in spread) for tick in range(80)]
    assert max(counts) == 3
    assert longest > 0
    assert (play(wanted[0], spread, 100)[-1] == wanted[-1]).all()
    assert spread_writes(writes, 16) == (writes, 0)
    assert spread_writes((), 3) == ((), 0)


def test_entries_in_blanking():
    # VGA 640x400 at 70 Hz: 449 lines of 31.7776 us, 400 shown: 49 lines are 1557.1 us
    blanking = Fraction(49 * 800 * 1000, 25175)
    assert entries_in_blanking(blanking, 10) == 155
    assert entries_in_blanking(blanking, 10, 8) == 154
    assert entries_in_blanking(5, 10) == 0
    for bad in ((-1, 1, 0), (1, 0, 0), (1, 1, -1)):
        with pytest.raises(MachineError):
            entries_in_blanking(*bad)


def test_too_many_writes_are_a_warning():
    writes = palette_writes(palettes(60), DEPTH)
    assert blanking_findings(writes, 16, "scene quay") == ()
    (finding,) = blanking_findings(writes, 4, "scene quay")
    assert finding.level == "warning"
    assert "tick 20 writes" in finding.text
    assert "4 fit" in finding.text
    with pytest.raises(MachineError):
        spread_writes(writes, 0)

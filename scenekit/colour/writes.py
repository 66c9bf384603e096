"""Palette changes as tables, and as many as the blanking time allows."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.depth import Depth
from scenekit.errors import MachineError
from scenekit.findings import Finding

Palette = NDArray[np.uint8]


@dataclass(frozen=True, slots=True, kw_only=True)
class PaletteWrite:
    """One entry to write at a tick; levels are those of the depth, not 8-bit values."""

    tick: int
    entry: int
    levels: tuple[int, int, int]


def entries_in_blanking(
    blanking_us: Fraction | float, write_us: Fraction | float, setup_us: Fraction | float = 0
) -> int:
    """Return how many entries can be written while nothing is displayed.

    blanking_us  time from the last displayed line to the first
    write_us     time for one entry
    setup_us     time before the first write
    raises       MachineError: a time that is negative, or no time for a write
    """
    if blanking_us < 0 or setup_us < 0 or not write_us > 0:
        raise MachineError(
            f"palette writes: {setup_us!r} us and {write_us!r} us for each in {blanking_us!r} us; "
            "allowed above 0"
        )
    return max(0, int((Fraction(blanking_us) - Fraction(setup_us)) // Fraction(write_us)))


def palette_writes(palettes: Sequence[Palette], depth: Depth) -> tuple[PaletteWrite, ...]:
    """Return what to write so that each tick shows its palette; tick 0 is loaded before.

    palettes  one (entries, 3) uint8 for each tick
    """
    writes: list[PaletteWrite] = []
    for tick in range(1, len(palettes)):
        before, now = depth.levels(palettes[tick - 1]), depth.levels(palettes[tick])
        for entry in np.flatnonzero((before != now).any(axis=1)).tolist():
            red, green, blue = (int(level) for level in now[entry])
            writes.append(PaletteWrite(tick=tick, entry=entry, levels=(red, green, blue)))
    return tuple(writes)


def spread_writes(writes: Sequence[PaletteWrite], most: int) -> tuple[tuple[PaletteWrite, ...], int]:
    """Put off writes so that no tick has more than `most`; an entry waiting takes its newest colour.

    writes   by rising tick
    returns  the writes, by rising tick, and the longest wait in ticks
    raises   MachineError: no write fits at all
    """
    if most < 1:
        raise MachineError(f"palette writes: {most} entries fit in the blanking time; allowed 1 or more")
    by_tick: dict[int, list[PaletteWrite]] = {}
    for write in writes:
        by_tick.setdefault(write.tick, []).append(write)
    waiting: dict[int, tuple[int, tuple[int, int, int]]] = {}
    out: list[PaletteWrite] = []
    longest = 0
    tick = min(by_tick, default=0)
    while by_tick or waiting:
        for write in by_tick.pop(tick, []):
            since = waiting.pop(write.entry, (tick, write.levels))[0]
            waiting[write.entry] = (since, write.levels)
        for entry in sorted(waiting, key=lambda entry: (waiting[entry][0], entry))[:most]:
            since, levels = waiting.pop(entry)
            longest = max(longest, tick - since)
            out.append(PaletteWrite(tick=tick, entry=entry, levels=levels))
        tick = tick + 1 if waiting or not by_tick else min(by_tick)
    return tuple(out), longest


def blanking_findings(writes: Sequence[PaletteWrite], most: int, where: str) -> tuple[Finding, ...]:
    """Return a warning when some tick writes more entries than fit in the blanking time."""
    counts: dict[int, int] = {}
    for write in writes:
        counts[write.tick] = counts.get(write.tick, 0) + 1
    over = [tick for tick in sorted(counts) if counts[tick] > most]
    if not over:
        return ()
    worst = max(over, key=lambda tick: (counts[tick], -tick))
    way_out = f"or let {-(-counts[worst] // most)} ticks pass for a change" if most else "or change none"
    text = (
        f"tick {worst} writes {counts[worst]} palette entries, {len(over)} ticks write too many; {most} fit "
        "while nothing is displayed, later ones change in the middle of the picture; "
        f"change fewer at a time, {way_out}"
    )
    return (Finding(level="warning", code="palette-writes", where=where, text=text),)

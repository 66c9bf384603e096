"""Palettes that move: cycles of entries and what they show at a tick."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import lcm

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.depth import Depth
from scenekit.colour.fades import PaletteEvent
from scenekit.errors import PaletteError

Palette = NDArray[np.uint8]

DIRECTIONS = ("forward", "backward")


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryCycle:
    """Entries of a palette that pass their colours on.

    entries         in turning order
    ticks_per_step  ticks between two steps
    direction       "forward": each colour moves to the next entry; "backward": to the one before
    there_and_back  turns to the last place and back again, instead of round and round
    raises          PaletteError: fewer than two entries, equal ones, or no time between steps
    """

    entries: tuple[int, ...]
    ticks_per_step: int
    direction: str = "forward"
    there_and_back: bool = False

    def __post_init__(self) -> None:
        if len(self.entries) < 2 or len(set(self.entries)) != len(self.entries):
            raise PaletteError(f"cycle: entries {self.entries}; allowed two or more that all differ")
        if self.ticks_per_step < 1:
            raise PaletteError(f"cycle: {self.ticks_per_step} ticks per step; allowed 1 or more")
        if self.direction not in DIRECTIONS:
            raise PaletteError(f"cycle: direction {self.direction!r}; allowed {', '.join(DIRECTIONS)}")

    @property
    def period_ticks(self) -> int:
        """Return after how many ticks it looks the same again."""
        count = len(self.entries)
        return self.ticks_per_step * (2 * (count - 1) if self.there_and_back else count)

    def shift_at(self, tick: int) -> int:
        """Return by how many places the colours have moved forward at a tick."""
        count = len(self.entries)
        done = tick // self.ticks_per_step
        if self.there_and_back:
            done %= 2 * (count - 1)
            done = min(done, 2 * (count - 1) - done)
        return (done if self.direction == "forward" else -done) % count

    def apply(self, palette: Palette, tick: int) -> Palette:
        """Return a palette (entries, 3) with the colours where they are at a tick."""
        out = palette.copy()
        places = rotate(len(self.entries), self.shift_at(tick))
        out[list(self.entries)] = palette[[self.entries[place] for place in places]]
        return out


def rotate(count: int, shift: int) -> tuple[int, ...]:
    """Return, for each place, the place whose colour it shows after a shift forward."""
    return tuple((place - shift) % count for place in range(count))


def palette_at(
    base: Palette,
    cycles: Sequence[EntryCycle],
    events: Sequence[PaletteEvent],
    tick: int,
    depth: Depth,
) -> Palette:
    """Return the palette at a tick: base, then cycles, then events, then rounded to the depth.

    base     (entries, 3) uint8 sRGB
    returns  (entries, 3) uint8 sRGB, a new array
    raises   PaletteError: an entry that the palette does not have
    """
    palette = np.array(base, dtype=np.uint8)
    for part in (*cycles, *events):
        highest, lowest = max(part.entries, default=0), min(part.entries, default=0)
        if lowest < 0 or highest >= len(palette):
            raise PaletteError(f"palette: entry {highest} moves; allowed 0 to {len(palette) - 1}")
    for cycle in cycles:
        palette = cycle.apply(palette, tick)
    for event in events:
        palette = event.apply(palette, tick)
    return depth.round_trip(palette)


def period_ticks(cycles: Sequence[EntryCycle]) -> int:
    """Return after how many ticks all cycles look the same again."""
    return lcm(*(cycle.period_ticks for cycle in cycles))

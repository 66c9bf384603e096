"""Palette events: fades, flashes, and palettes that follow the time of day, in whole-number Oklab."""

from bisect import bisect_right
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.fixed_oklab import bytes_to_fixed, fixed_to_bytes
from scenekit.errors import PaletteError

Palette = NDArray[np.uint8]
Colour = tuple[int, int, int]


class PaletteEvent(Protocol):
    """Something that changes some entries of a palette from a tick on."""

    @property
    def entries(self) -> tuple[int, ...]:
        """Return the entries it changes."""

    def apply(self, palette: Palette, tick: int) -> Palette:
        """Return a palette (entries, 3) as it is at a tick, a new array."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fade:
    """Entries go from what they show to other colours in equal steps of Oklab, and stay there.

    tick            the tick of the first step
    steps           steps until the colours are reached
    ticks_per_step  ticks between two steps
    to              one colour for each entry, or one for all
    """

    entries: tuple[int, ...]
    to: tuple[Colour, ...]
    tick: int
    steps: int
    ticks_per_step: int = 1

    def __post_init__(self) -> None:
        _check_colours("fade", self.entries, self.to)
        if self.steps < 1 or self.ticks_per_step < 1:
            raise PaletteError(f"fade: {self.steps} steps of {self.ticks_per_step} ticks; allowed 1 or more")

    def done_at(self, tick: int) -> int:
        """Return how many steps are done at a tick."""
        if tick < self.tick:
            return 0
        return min(self.steps, (tick - self.tick) // self.ticks_per_step + 1)

    def apply(self, palette: Palette, tick: int) -> Palette:
        """Return a palette (entries, 3) as it is at a tick."""
        out = palette.copy()
        at = list(self.entries)
        out[at] = between(palette[at], np.array(self.to, dtype=np.uint8), self.done_at(tick), self.steps)
        return out


@dataclass(frozen=True, slots=True, kw_only=True)
class Flash:
    """Entries show other colours for some ticks and are then as before.

    every_ticks  ticks from one flash to the next, 0 for a single one
    """

    entries: tuple[int, ...]
    colours: tuple[Colour, ...]
    tick: int
    ticks: int
    every_ticks: int = 0

    def __post_init__(self) -> None:
        _check_colours("flash", self.entries, self.colours)
        if self.ticks < 1 or (self.every_ticks and self.every_ticks <= self.ticks):
            raise PaletteError(
                f"flash: {self.ticks} ticks every {self.every_ticks}; allowed 1 or more, "
                "and less than from one flash to the next"
            )

    def apply(self, palette: Palette, tick: int) -> Palette:
        """Return a palette (entries, 3) as it is at a tick."""
        out = palette.copy()
        since = tick - self.tick
        if since >= 0 and (since % self.every_ticks if self.every_ticks else since) < self.ticks:
            out[list(self.entries)] = np.array(self.colours, dtype=np.uint8)
        return out


@dataclass(frozen=True, slots=True, kw_only=True)
class Keyframes:
    """Entries follow given palettes, in Oklab between them: the time of day.

    ticks       tick of each palette, rising
    palettes    colours of the entries at those ticks
    loop_ticks  length of the day: from the last palette back to the first; 0: stays at the last
    step_ticks  ticks between two changes, so that few entries are written
    """

    entries: tuple[int, ...]
    ticks: tuple[int, ...]
    palettes: tuple[tuple[Colour, ...], ...]
    loop_ticks: int = 0
    step_ticks: int = 1

    def __post_init__(self) -> None:
        rising = all(one < two for one, two in zip(self.ticks, self.ticks[1:], strict=False))
        if not self.ticks or not rising or len(self.ticks) != len(self.palettes):
            raise PaletteError(f"keyframes: ticks {self.ticks}; allowed one rising tick for each palette")
        for colours in self.palettes:
            if len(colours) != len(self.entries):
                raise PaletteError(f"keyframes: {len(colours)} colours for {len(self.entries)} entries")
            _check_colours("keyframes", self.entries, colours)
        if self.step_ticks < 1 or (self.loop_ticks and self.loop_ticks <= self.ticks[-1] - self.ticks[0]):
            raise PaletteError(
                f"keyframes: a day of {self.loop_ticks} ticks in steps of {self.step_ticks}; "
                f"allowed more than {self.ticks[-1] - self.ticks[0]}, and 1 or more"
            )

    def apply(self, palette: Palette, tick: int) -> Palette:
        """Return a palette (entries, 3) as it is at a tick."""
        out = palette.copy()
        out[list(self.entries)] = self.colours_at(tick)
        return out

    def colours_at(self, tick: int) -> Palette:
        """Return the colours of the entries at a tick."""
        since = (tick - self.ticks[0]) // self.step_ticks * self.step_ticks
        since = since % self.loop_ticks if self.loop_ticks else max(since, 0)
        starts = [start - self.ticks[0] for start in self.ticks]
        at = bisect_right(starts, since) - 1
        before = np.array(self.palettes[at], dtype=np.uint8)
        if at + 1 < len(starts):
            return between(
                before,
                np.array(self.palettes[at + 1], np.uint8),
                since - starts[at],
                starts[at + 1] - starts[at],
            )
        if not self.loop_ticks:
            return before
        first = np.array(self.palettes[0], dtype=np.uint8)
        return between(before, first, since - starts[at], self.loop_ticks - starts[at])


def between(start: NDArray[np.uint8], to: NDArray[np.uint8], done: int, steps: int) -> NDArray[np.uint8]:
    """Return colours `done` of `steps` equal steps of Oklab from start to to; both ends are exact.

    start, to  (..., 3) uint8 sRGB, broadcast against each other
    returns    (..., 3) uint8 sRGB, a new array
    raises     PaletteError: done outside 0 to steps
    """
    if not 0 <= done <= steps or steps < 1:
        raise PaletteError(f"fade: step {done} of {steps}; allowed 0 to {steps}")
    start, to = np.broadcast_arrays(np.asarray(start, np.uint8), np.asarray(to, np.uint8))
    if done in (0, steps):
        return np.array(to if done else start)
    mixed = bytes_to_fixed(start) * (steps - done) + bytes_to_fixed(to) * done
    out = fixed_to_bytes((2 * mixed + steps) // (2 * steps))
    same = (start == to).all(axis=-1)
    out[same] = start[same]
    return out


def _check_colours(name: str, entries: tuple[int, ...], colours: tuple[Colour, ...]) -> None:
    if not entries or len(set(entries)) != len(entries) or min(entries) < 0:
        raise PaletteError(f"{name}: entries {entries}; allowed one or more that all differ")
    if len(colours) not in (1, len(entries)):
        raise PaletteError(
            f"{name}: {len(colours)} colours for {len(entries)} entries; allowed one, or one each"
        )
    if any(len(colour) != 3 or not all(0 <= part <= 255 for part in colour) for colour in colours):
        raise PaletteError(f"{name}: a colour is not three numbers 0 to 255")

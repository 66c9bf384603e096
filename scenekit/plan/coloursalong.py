"""Which entries change their colours at many ticks at once, and what they show."""

import numpy as np
from numpy.typing import NDArray

from scenekit.images.recolouring import Change, Turning

Whole = NDArray[np.int64]


def _done_along(change: Change, ticks: Whole) -> Whole:
    begun = (ticks - change.tick) // change.ticks_per_step + 1
    return np.where(ticks < change.tick, 0, np.minimum(begun, len(change.colours)))


def mixed_along(cycles: tuple[Turning, ...], changes: tuple[Change, ...], ticks: Whole) -> Whole:
    """Return how many entries are given colours anew at ticks, as `mixed_entries` adds them up."""
    changed = np.zeros(len(ticks), dtype=bool)
    entries = np.full(len(ticks), sum(cycle.count for cycle in cycles), dtype=np.int64)
    for cycle in cycles:
        changed |= ticks % cycle.ticks == 0
    for change in changes:
        done = _done_along(change, ticks)
        since = ticks - change.tick
        last = change.ticks_per_step * len(change.colours)
        changed |= (since >= 0) & (since < last) & (since % change.ticks_per_step == 0)
        entries += (done > 0) * len(change.entries)
    return np.where(changed, entries, 0)


def colours_along(
    cycles: tuple[Turning, ...], changes: tuple[Change, ...], ticks: Whole, base: int
) -> list[Whole]:
    """Return for each entry that moves the number of the colour it shows, as `colour_numbers` gives it."""
    shown: dict[int, Whole] = {}
    for cycle in cycles:
        turn = ticks // cycle.ticks % cycle.period
        shift = np.where(turn < cycle.count, turn, cycle.period - turn)
        shift = (cycle.count - shift) % cycle.count if cycle.backward else shift
        for place in range(cycle.count):
            shown[cycle.first + place] = cycle.first + (place - shift) % cycle.count
    for change in changes:
        done, count = _done_along(change, ticks), len(change.entries)
        for place, entry in enumerate(change.entries):
            still = shown.get(entry, np.full(len(ticks), entry, dtype=np.int64))
            shown[entry] = np.where(done > 0, base + (done - 1) * count + place, still)
        base += count * len(change.colours)
    return [shown[entry] for entry in sorted(shown)]

"""Cycles and palette events by entries: which entries show which colours at a tick."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.depth import Depth
from scenekit.colour.fades import between
from scenekit.model.events import Event
from scenekit.model.palette import Colour
from scenekit.model.project import Project
from scenekit.model.scene import Scene


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Turning:
    """A cycle by entries: `count` entries from `first` on rotate.

    period     turns after which it looks the same again
    backward   whether colours move to the entry before
    """

    name: str
    first: int
    count: int
    ticks: int
    period: int
    backward: bool

    def shift_at(self, tick: int) -> int:
        """Return by how many entries the colours have moved at a tick; past the last entry it comes back."""
        turn = tick // self.ticks % self.period
        shift = turn if turn < self.count else self.period - turn
        return (self.count - shift) % self.count if self.backward else shift


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Change:
    """A palette event by entries: colours[s] is what `entries` show after step s + 1."""

    name: str
    tick: int
    ticks_per_step: int
    entries: tuple[int, ...]
    colours: tuple[tuple[Colour, ...], ...]

    def done_at(self, tick: int) -> int:
        """Return how many of its steps are done at a tick."""
        if tick < self.tick:
            return 0
        return min(len(self.colours), (tick - self.tick) // self.ticks_per_step + 1)


def turnings(project: Project, by_colour: dict[Colour, int]) -> tuple[Turning, ...]:
    return tuple(
        Turning(
            name=cycle.name,
            first=by_colour[cycle.colours[0]],
            count=len(cycle.colours),
            ticks=cycle.ticks,
            period=2 * (len(cycle.colours) - 1) if cycle.there_and_back else len(cycle.colours),
            backward=cycle.direction == "backward",
        )
        for cycle in project.cycles
    )


def changes_of(
    scene: Scene,
    by_colour: dict[Colour, int],
    merged: dict[Colour, Colour],
    depth: Depth,
    palette: NDArray[np.uint8],
    used: list[int],
) -> tuple[Change, ...]:
    changes = []
    for event in scene.events:
        if event.colours:
            entry_of = [by_colour[merged.get(colour, colour)] for colour in event.colours]
            numbers = [n for n, entry in enumerate(entry_of) if entry not in entry_of[:n]]
            start = np.array([event.start[n] for n in numbers], dtype=np.uint8)
        else:
            entry_of = used
            numbers = list(range(len(used)))
            start = palette[used]
        goals = event.goals(len(entry_of))
        to = np.array([goals[n] for n in numbers], dtype=np.uint8)
        entries = tuple(entry_of[n] for n in numbers)
        done = [*range(1, event.steps + 1), *(range(event.steps - 1, -1, -1) if event.back else ())]
        steps = tuple(_step(event, start, to, d, depth) for d in done)
        changes.append(
            Change(
                name=event.name,
                tick=event.tick,
                ticks_per_step=event.ticks_per_step,
                entries=entries,
                colours=steps,
            )
        )
    return tuple(changes)


def _step(
    event: Event, start: NDArray[np.uint8], to: NDArray[np.uint8], done: int, depth: Depth
) -> tuple[Colour, ...]:
    """Return an event's colours after so many of its steps, as the display shows them."""
    if event.mix == "oklab":
        mixed = between(start, to, done, event.steps)
    else:
        wide = start.astype(np.int64) * (event.steps - done) + to.astype(np.int64) * done
        mixed = ((wide + event.steps // 2) // event.steps).astype(np.uint8)
    return tuple((int(c[0]), int(c[1]), int(c[2])) for c in depth.round_trip(mixed))

"""How a scene plays: pictures that wait for a refresh, by every way in which pages can take turns."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from scenekit.costs.estimate import Estimate
from scenekit.costs.pricing import rounded
from scenekit.machines.machine import DisplayMode, Machine
from scenekit.model.scene import Scene

PERCENTILES = (50, 90, 95, 99, 100)
DIGITS = 6
COPIED = "two pages, copied"


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeLine:
    """The scene as it plays, each picture waiting for a refresh.

    pictures        drawn in the whole scene
    refreshes       they take; at the wanted rate they would take `wanted`
    missed_a_minute refreshes that show an old picture for want of time, in a minute of play
    percentiles_ms  percent -> work of a picture that so many do not exceed
    """

    pictures: int
    refreshes: int
    wanted: int
    missed_a_minute: float
    percentiles_ms: Mapping[int, float]

    def as_dict(self) -> dict[str, object]:
        """Return it as plain JSON data."""
        return {
            "pictures": self.pictures,
            "refreshes": self.refreshes,
            "missed_a_minute": rounded(self.missed_a_minute),
            "percentiles_ms": {str(p): rounded(value) for p, value in self.percentiles_ms.items()},
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class Turns:
    """A way in which pages can take turns, and how the scene plays by it.

    way              "one page, drawn in sight", "two pages, copied", "two pages, flipped" or
                     "three pages, flipped"
    pages            frame buffers it takes, `memory_bytes` in all
    missed_a_minute  as for the time line; None while a price is unknown
    in_sight         pictures that the beam meets half drawn; for copies, half copied
    possible         whether the machine has so many pages, and the operations for it
    used             whether the exported program does it so
    """

    way: str
    pages: int
    memory_bytes: int
    missed_a_minute: float | None
    in_sight: int | None
    possible: bool
    used: bool

    def as_dict(self) -> dict[str, object]:
        """Return it as plain JSON data."""
        return {
            "way": self.way,
            "memory_bytes": self.memory_bytes,
            "missed_a_minute": rounded(self.missed_a_minute),
            "seen_half_drawn": self.in_sight,
            "possible": self.possible,
            "used": self.used,
        }


def time_line(line: Estimate, scene: Scene) -> TimeLine | None:
    """Return how a scene plays when every picture waits for a refresh; None while a price is unknown.

    The exported programs draw every picture they are asked for: late ones slow the game down, or where the
    scene catches up, are followed by more ticks at once.
    """
    times = [work for work in line.work_ms if work is not None]
    if len(times) < len(line.work_ms) or not times:
        return None
    every = scene.ticks_per_update
    refreshes = flipped(times, line.period_ms, every, 2)
    ordered = sorted(times)
    return TimeLine(
        pictures=len(times),
        refreshes=refreshes,
        wanted=len(times) * every,
        missed_a_minute=_missed(refreshes, len(times) * every, line.period_ms),
        percentiles_ms={p: ordered[max(0, ceil(p / 100 * len(ordered)) - 1)] for p in PERCENTILES},
    )


def _missed(refreshes: int, wanted: int, period_ms: float) -> float:
    return (refreshes - wanted) / (refreshes * period_ms / 60_000)


def flipped(times_ms: Sequence[float], period_ms: float, every: int, pages: int) -> int:
    """Return how many refreshes pictures take that are drawn on pages out of sight, flipped at a refresh.

    With two pages a picture is begun when the one before is shown; with three, when the one before is
    drawn and the one before that is shown. One page counts as two: it is drawn after the refresh.
    """
    ahead = max(2, pages) - 1
    shown = [0] * ahead
    done = 0.0
    for time_ms in times_ms:
        begun = max(done, float(shown[0]))
        done = round(begun + time_ms / period_ms, DIGITS)
        shown.append(max(ceil(done), shown[-1] + every))
        shown.pop(0)
    return shown[-1]


def ways_of_turns(
    line: Estimate, scene: Scene, machine: Machine, mode: DisplayMode, pages_used: int
) -> tuple[Turns, ...]:
    """Return each way in which pages can take turns, with what it takes."""
    words = machine.abilities.words
    copy = machine.costs_in(mode.name).get("blit")
    pixels = mode.width_px * mode.height_px
    copy_ms = None if copy is None else copy.time_us(1, mode.height_px, pixels) / 1000
    ways = (
        ("one page, drawn in sight", 1, True),
        ("two pages, copied", 2, "blit" in words),
        ("two pages, flipped", 2, "page" in words),
        ("three pages, flipped", 3, "page" in words),
    )
    found = []
    for way, pages, able in ways:
        missed, in_sight = _plays(way, pages, line, scene.ticks_per_update, copy_ms)
        found.append(
            Turns(
                way=way,
                pages=pages,
                memory_bytes=pages * mode.page_bytes,
                missed_a_minute=missed,
                in_sight=in_sight,
                possible=able and machine.abilities.pages >= pages,
                used=pages == pages_used and way != COPIED,
            )
        )
    return tuple(found)


def _plays(
    way: str, pages: int, line: Estimate, every: int, copy_ms: float | None
) -> tuple[float | None, int | None]:
    """Return refreshes missed a minute and pictures seen half drawn; None while a price is unknown.

    A copy made at the refresh, row after row, stays ahead of the beam while it takes at most a refresh; what
    is drawn in sight is met half drawn when it takes longer than the time without picture lines.
    """
    times = [work for work in line.work_ms if work is not None]
    if len(times) < len(line.work_ms) or (way == COPIED and copy_ms is None):
        return None, None
    extra = copy_ms if way == COPIED and copy_ms is not None else 0.0
    refreshes = flipped([time + extra for time in times], line.period_ms, every, 2 if extra else pages)
    if pages == 1:
        in_sight = sum(time > line.quiet_ms for time in times)
    else:
        in_sight = len(times) if extra > line.period_ms else 0
    return _missed(refreshes, len(times) * every, line.period_ms), in_sight

"""Prices the draw plan of every tick and says which rate the scene holds."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil

from scenekit.findings import Finding
from scenekit.machines.cost import Cost
from scenekit.machines.machine import DisplayMode, Machine
from scenekit.model.scene import Scene
from scenekit.plan.drawplan import DrawPlanner
from scenekit.plan.work import Work

LOGIC = "logic"
MOST_TICKS = 100_000
PriceList = Mapping[str, Cost]


@dataclass(frozen=True, slots=True, kw_only=True)
class Priced:
    """Work with its time; `time_ms` is None while its price is unknown."""

    work: Work
    time_ms: float | None

    def as_dict(self) -> dict[str, object]:
        """Return the work as plain JSON data."""
        work, time_ms = self.work, self.time_ms
        return {
            "name": work.name,
            "operation": work.operation,
            "calls": work.calls,
            "pixels": work.pixels,
            "ms": None if time_ms is None else round(time_ms, 4),
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """What drawing a scene takes.

    work_ms      for each tick that is drawn, None while a price is unknown
    worst_tick   the tick of most work; while prices are unknown, of most pixels
    palette_ms   for each drawn tick, time of palette writes, 0 while its price is unknown
    quiet_ms     time of a refresh without picture lines
    rate_hz      pictures a second after waiting for the refresh, None while unknown
    """

    machine: str
    mode: str
    refresh_hz: float
    period_ms: float
    ticks: tuple[int, ...]
    work_ms: tuple[float | None, ...]
    worst_tick: int
    worst: tuple[Priced, ...]
    rate_hz: float | None
    target_hz: float
    palette_ms: tuple[float, ...]
    quiet_ms: float
    findings: tuple[Finding, ...]

    @property
    def worst_ms(self) -> float | None:
        """Return the work of the worst tick."""
        return self.work_ms[self.ticks.index(self.worst_tick)]

    @property
    def holds_target(self) -> bool | None:
        """Say whether the scene holds its rate; None while prices are unknown."""
        return None if self.rate_hz is None else self.rate_hz >= self.target_hz * (1 - 1e-9)


def estimate(
    planner: DrawPlanner, machine: Machine, mode: DisplayMode, scene: Scene, ticks: Sequence[int]
) -> Estimate:
    """Price every drawn tick of a scene.

    ticks   the ticks to look at, in rising order; those between two updates are left out
    """
    prices = machine.costs_in(mode.name)
    period_ms = float(mode.timing.period_ms)
    drawn = tuple(tick for tick in ticks if tick % scene.ticks_per_update == 0) or (0,)
    unknown: set[str] = set()
    work_ms: list[float | None] = []
    palette_ms: list[float] = []
    best: tuple[float, int] = (-1.0, drawn[0])
    for tick in drawn:
        priced = price(_drawn(planner, scene, tick), prices, period_ms)
        unknown |= {p.work.operation for p in priced if p.time_ms is None}
        times = [p.time_ms for p in priced]
        palette_ms.append(sum(p.time_ms or 0.0 for p in priced if p.work.operation == "palette"))
        total = None if None in times else sum(t for t in times if t is not None)
        work_ms.append(total)
        load = float(sum(p.work.pixels for p in priced)) if total is None else round(total, 6)
        if load > best[0]:
            best = (load, tick)
    worst_ms = work_ms[drawn.index(best[1])] if not unknown else None
    refresh = float(mode.timing.refresh_hz)
    rate = None if worst_ms is None else refresh / max(scene.ticks_per_update, _periods(worst_ms, period_ms))
    result = Estimate(
        machine=machine.name,
        mode=mode.name,
        refresh_hz=refresh,
        period_ms=period_ms,
        ticks=drawn,
        work_ms=tuple(work_ms),
        worst_tick=best[1],
        worst=price(_drawn(planner, scene, best[1]), prices, period_ms),
        rate_hz=rate,
        target_hz=refresh / scene.ticks_per_update,
        palette_ms=tuple(palette_ms),
        quiet_ms=float(mode.timing.undrawn_ms),
        findings=(),
    )
    return replace(result, findings=tuple(_findings(result, sorted(unknown), scene, prices)))


def _drawn(planner: DrawPlanner, scene: Scene, tick: int) -> tuple[Work, ...]:
    """Return the work of a tick when every update before it was drawn too."""
    page = tick - planner.abilities.pages * scene.ticks_per_update
    return planner.plan(tick, max(0, tick - scene.ticks_per_update), max(-1, page))


def _periods(work_ms: float, period_ms: float) -> int:
    """Return how many refreshes a piece of work takes, waiting for the next one."""
    return max(1, ceil(round(work_ms / period_ms, 6)))


def price(work: Sequence[Work], prices: PriceList, period_ms: float) -> tuple[Priced, ...]:
    """Return work with its times, and the share of each refresh that the game's own logic keeps."""
    reserved = Work(name="game logic", operation=LOGIC, calls=1, rows=0, pixels=0)
    items = [reserved, *work] if LOGIC in prices else list(work)
    result = []
    for item in items:
        cost = prices.get(item.operation)
        time_us = None if cost is None else cost.time_us(item.calls, item.rows, item.pixels, period_ms * 1000)
        result.append(Priced(work=item, time_ms=None if time_us is None else time_us / 1000))
    return tuple(result)


def _findings(result: Estimate, unknown: list[str], scene: Scene, prices: PriceList) -> list[Finding]:
    where = f"scene {scene.name}"
    found = []
    if unknown:
        text = f"no price is known for {', '.join(unknown)} on {result.machine}; measure it to learn the rate"
        found.append(Finding(level="warning", code="unknown-cost", where=where, text=text))
    if result.holds_target is False and result.worst_ms is not None and result.rate_hz is not None:
        text = (
            f"the worst tick, {result.worst_tick}, takes {result.worst_ms:.2f} ms of {result.period_ms:.2f} "
            f"ms a refresh; {result.rate_hz:.1f} pictures a second instead of {result.target_hz:.1f}"
        )
        found.append(Finding(level="error", code="misses-rate", where=where, text=text))
    writes = max(result.palette_ms, default=0.0)
    if writes > result.quiet_ms:
        text = (
            f"palette writes take up to {writes:.2f} ms, and {result.quiet_ms:.2f} ms pass without picture "
            "lines; later ones change in the middle of the picture: change fewer entries at a time"
        )
        found.append(Finding(level="warning", code="palette-writes", where=where, text=text))
    guessed = sorted(name for name, cost in prices.items() if not cost.measured)
    if guessed and not unknown:
        text = (
            f"{len(guessed)} of {len(prices)} prices on {result.machine} are estimates; measure them on yours"
        )
        found.append(Finding(level="note", code="estimated-costs", where=where, text=text))
    return found

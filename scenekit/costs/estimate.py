"""Prices the draw plan of every tick and says which rate the scene holds."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil

import numpy as np

from scenekit.costs.pricing import Priced, PriceList, price, price_amounts, sound_share
from scenekit.findings import Finding
from scenekit.machines.machine import DisplayMode, Machine
from scenekit.model.scene import Scene
from scenekit.plan.amounts import Amounts
from scenekit.plan.counting import Counted, counter_of
from scenekit.plan.drawplan import DrawPlanner
from scenekit.plan.work import Work

__all__ = ["Estimate", "PriceList", "Priced", "estimate", "price"]
AT_ONCE = 16_384


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """What drawing a scene takes.

    work_ms      for each tick that is drawn, None while a price is unknown
    worst_tick   the tick of most work; while prices are unknown, of most pixels
    palette_ms   for each drawn tick, time of palette writes, 0 while its price is unknown
    quiet_ms     time of a refresh without picture lines
    others       what is neither plane nor sprite, each as on the tick that has most of it
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
    others: tuple[Work, ...]
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
    times, pixels, palette, others = [], [], [], []
    for first in range(0, len(drawn), AT_ONCE):
        counted = _counted(planner, scene, drawn[first : first + AT_ONCE])
        part, lacking = price_amounts(counted.whole, prices, period_ms)
        unknown.update(lacking)
        times.append(part)
        pixels.append(sum((amounts[2] for _, amounts in counted.whole.items()), np.zeros(len(part))))
        palette.append(_palette_ms(counted.whole, prices))
        others.append(counted.most_of_others())
    work_ms = np.concatenate(times)
    load = np.concatenate(pixels) if unknown else np.round(work_ms, 6)
    worst = int(np.argmax(load))
    worst_ms = float(work_ms[worst]) if not unknown else None
    refresh = float(mode.timing.refresh_hz)
    rate = None if worst_ms is None else refresh / max(scene.ticks_per_update, _periods(worst_ms, period_ms))
    result = Estimate(
        machine=machine.name,
        mode=mode.name,
        refresh_hz=refresh,
        period_ms=period_ms,
        ticks=drawn,
        work_ms=(None,) * len(drawn) if unknown else tuple(work_ms.tolist()),
        worst_tick=drawn[worst],
        worst=price(_drawn(planner, scene, drawn[worst]), prices, period_ms),
        rate_hz=rate,
        target_hz=refresh / scene.ticks_per_update,
        palette_ms=tuple(np.concatenate(palette).tolist()),
        quiet_ms=float(mode.timing.undrawn_ms),
        others=_most(others),
        findings=(),
    )
    return replace(result, findings=tuple(_findings(result, sorted(unknown), scene, prices)))


def _counted(planner: DrawPlanner, scene: Scene, drawn: Sequence[int]) -> Counted:
    """Return the work of ticks when every update before each was drawn too."""
    ticks = np.array(drawn, dtype=np.int64)
    before = np.maximum(-1, ticks - scene.ticks_per_update)
    page = np.maximum(-1, ticks - planner.abilities.pages * scene.ticks_per_update)
    return counter_of(planner).count(ticks, before, page)


def _drawn(planner: DrawPlanner, scene: Scene, tick: int) -> tuple[Work, ...]:
    """Return the work of a tick when every update before it was drawn too."""
    page = tick - planner.abilities.pages * scene.ticks_per_update
    return planner.plan(tick, tick - scene.ticks_per_update, max(-1, page))


def _palette_ms(amounts: Amounts, prices: PriceList) -> "np.ndarray[tuple[int], np.dtype[np.float64]]":
    cost = prices.get("palette")
    if cost is None or "palette" not in amounts.sums:
        return np.zeros(amounts.count)
    calls, rows, pixels = amounts.sums["palette"]
    work = calls * cost.per_call_us + rows * cost.per_row_us + pixels * cost.per_pixel_us
    return np.asarray(work / 1000 / (1 - sound_share(prices)), dtype=np.float64)


def _most(parts: Sequence[Sequence[Work]]) -> tuple[Work, ...]:
    """Return of each operation of each thing the most that any part has."""
    most: dict[tuple[str, str], Work] = {}
    for work in (work for part in parts for work in part):
        key = (work.name, work.operation)
        if key not in most or (work.calls, work.pixels) > (most[key].calls, most[key].pixels):
            most[key] = work
    return tuple(most.values())


def _periods(work_ms: float, period_ms: float) -> int:
    """Return how many refreshes a piece of work takes, waiting for the next one."""
    return max(1, ceil(round(work_ms / period_ms, 6)))


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

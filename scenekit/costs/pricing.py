"""Times of work by the prices of a machine: of a list of work, and of amounts at many ticks at once."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scenekit.machines.cost import Cost
from scenekit.plan.amounts import Amounts
from scenekit.plan.work import Work

LOGIC, SOUND = "logic", "sound"
PriceList = Mapping[str, Cost]
Times = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Priced:
    """Work with its time; `time_ms` is None while its price is unknown."""

    work: Work
    time_ms: float | None

    def as_dict(self) -> dict[str, object]:
        """Return the work as plain JSON data."""
        work = self.work
        return {
            "name": work.name,
            "operation": work.operation,
            "calls": work.calls,
            "pixels": work.pixels,
            "ms": rounded(self.time_ms),
        }


def rounded(value: float | None) -> float | None:
    """Return a figure with as many digits as are printed as JSON."""
    return None if value is None else round(value, 4)


def sound_share(prices: PriceList) -> float:
    """Return the share of all time that sound takes, 0 to below 1."""
    return prices[SOUND].share_percent / 100 if SOUND in prices else 0.0


def price(work: Sequence[Work], prices: PriceList, period_ms: float) -> tuple[Priced, ...]:
    """Return work with its times, and what the game's own logic and sound keep of each refresh."""
    reserved = Work(name="game logic", operation=LOGIC, calls=1, rows=0, pixels=0)
    items = [reserved, *work] if LOGIC in prices else list(work)
    result = []
    for item in items:
        cost = prices.get(item.operation)
        time_us = None if cost is None else cost.time_us(item.calls, item.rows, item.pixels, period_ms * 1000)
        result.append(Priced(work=item, time_ms=None if time_us is None else time_us / 1000))
    share = sound_share(prices)
    if share:
        played = Work(name="sound", operation=SOUND, calls=1, rows=0, pixels=0)
        known = sum(item.time_ms or 0.0 for item in result)
        result.append(Priced(work=played, time_ms=known * share / (1 - share)))
    return tuple(result)


def time_us(work: Sequence[Work], prices: PriceList) -> float:
    """Return the time of work, unknown prices counted by their pixels so that the largest is still found."""
    total = 0.0
    for item in work:
        cost = prices.get(item.operation)
        total += item.pixels if cost is None else cost.time_us(item.calls, item.rows, item.pixels)
    return total


def price_amounts(amounts: Amounts, prices: PriceList, period_ms: float) -> tuple[Times, tuple[str, ...]]:
    """Return the time of every tick in ms, and the operations that have no price, sorted.

    Operations without a price count one microsecond a pixel, so that the largest is still found.
    """
    total_us = np.zeros(amounts.count)
    unknown = []
    for operation, (calls, rows, pixels) in amounts.items():
        cost = prices.get(operation)
        if cost is None:
            unknown.append(operation)
            total_us += pixels
            continue
        for amount, each in zip(
            (calls, rows, pixels), (cost.per_call_us, cost.per_row_us, cost.per_pixel_us), strict=True
        ):
            if each:
                total_us += amount * each
    if LOGIC in prices:
        total_us += prices[LOGIC].time_us(1, 0, 0, period_ms * 1000)
    return total_us / 1000 / (1 - sound_share(prices)), tuple(sorted(unknown))

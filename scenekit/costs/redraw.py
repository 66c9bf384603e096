"""Whether drawing only what changed takes less time than drawing everything in each picture."""

from collections.abc import Sequence

from scenekit.costs.estimate import PriceList
from scenekit.model.scene import Scene
from scenekit.plan.changework import changes_at
from scenekit.plan.drawplan import DrawPlanner

COMPARED_PICTURES = 32
CLEARLY_LESS = 0.9


def is_cheaper(moving: DrawPlanner, plain: DrawPlanner, prices: PriceList, scene: Scene) -> bool:
    """Compare two ways to draw a scene by pictures spread over it; never while a price is unknown."""
    every = scene.ticks_per_update
    step = every * max(1, scene.ticks // every // COMPARED_PICTURES)
    ticks = range(step, scene.ticks, step)
    back = moving.abilities.pages * every
    whole = sum(changes_at(moving, tick, max(-1, tick - back)).whole for tick in ticks)
    if not ticks or 2 * whole > len(ticks):
        return False
    new, old = time_us(moving, prices, ticks, every), time_us(plain, prices, ticks, every)
    return new is not None and old is not None and new < CLEARLY_LESS * old


def time_us(planner: DrawPlanner, prices: PriceList, ticks: Sequence[int], every: int) -> float | None:
    """Return the time of drawing ticks, each after the update before; None while a price is unknown."""
    total = 0.0
    for tick in ticks:
        for work in planner.plan(tick, max(0, tick - every), max(-1, tick - planner.abilities.pages * every)):
            if work.operation not in prices:
                return None
            total += prices[work.operation].time_us(work.calls, work.rows, work.pixels)
    return total

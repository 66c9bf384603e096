"""How far off a time may be that measured costs give."""

from collections.abc import Mapping, Sequence
from math import hypot, sqrt

from scenekit.machines.cost import Cost
from scenekit.plan.work import Work

TWO_SIDED_95 = 1.96
"""Standard deviations on either side that hold 95 of 100 cases of a normal distribution."""


def margin_ms(work: Sequence[Work], prices: Mapping[str, Cost], residual_percent: float) -> float:
    """Return the half width of the 95 % interval around the time of some work.

    Errors of different costs add up as if they were independent; the residual stands for what the costs
    leave out, as a share of the whole.
    """
    sums: dict[str, list[int]] = {}
    for item in work:
        total = sums.setdefault(item.operation, [0, 0, 0])
        total[0] += item.calls
        total[1] += item.rows
        total[2] += item.pixels
    squares = whole_us = 0.0
    for operation, amounts in sums.items():
        cost = prices.get(operation)
        if cost is None:
            continue
        whole_us += cost.time_us(*amounts)
        for amount, error in zip(amounts, cost.standard_errors_us, strict=False):
            squares += (amount * error) ** 2
    return TWO_SIDED_95 * hypot(sqrt(squares), residual_percent / 100 * whole_us) / 1000

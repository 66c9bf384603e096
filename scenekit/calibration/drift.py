"""How much a machine itself varies from time to time, as the rounds of a benchmark show it."""

from collections.abc import Mapping, Sequence

import numpy as np

FEWEST_ROUNDS = 3
SHARED = 0.5
"""Share of all measures that a round must hold to say something about the machine."""


def drift_percent(runs: Mapping[int, Sequence[tuple[int, int]]]) -> float:
    """Return the standard deviation of the machine's speed between rounds of a benchmark.

    The speed of a round is the median, over all measures, of each one's time against its own typical time; a
    machine that does one thing at a time has next to none, one that shares its processor or changes its clock
    has much. What a calibration says of another hour is off by as much.
    runs     measure -> (turns, ms) of each round
    returns  percent; 0 with fewer rounds than can tell
    """
    rounds = max((len(done) for done in runs.values()), default=0)
    shares: list[list[float]] = [[] for _ in range(rounds)]
    for done in runs.values():
        each = [took / turns for turns, took in done if turns > 0]
        typical = float(np.median(each)) if each else 0.0
        if typical > 0:
            for number, time in enumerate(each):
                shares[number].append(time / typical)
    factors = [float(np.median(part)) for part in shares if len(part) >= SHARED * len(runs)]
    factors = [factor for factor in factors if factor > 0]
    if len(factors) < FEWEST_ROUNDS:
        return 0.0
    return float(np.std(np.log(factors), ddof=1)) * 100

"""How much a machine itself varies from time to time, as the rounds of a benchmark show it."""

from collections.abc import Mapping, Sequence

import numpy as np

BLOCK_ROUNDS = 3
"""Rounds in a row whose shortest time counts together, as of the rounds of a whole calibration one counts."""

SHARED = 0.5
"""Share of all measures that a block must hold to say something about the machine."""


def drift_percent(runs: Mapping[int, Sequence[tuple[int, int]]]) -> float:
    """Return the standard deviation of the machine's speed between blocks of rounds of a benchmark.

    The speed of a block is the median, over all measures, of each one's shortest time in it against that of
    all blocks; a machine that does one thing at a time varies next to nothing, one that shares its processor
    or changes its clock varies much. What a calibration says of another hour is off by as much.
    runs     measure -> (turns, ms) of each round
    returns  percent; 0 with fewer rounds than can tell
    """
    rounds = max((len(done) for done in runs.values()), default=0)
    shares: list[list[float]] = [[] for _ in range(-(-rounds // BLOCK_ROUNDS))]
    for done in runs.values():
        each = [took / turns for turns, took in done if turns > 0]
        blocks = [min(each[n : n + BLOCK_ROUNDS]) for n in range(0, len(each), BLOCK_ROUNDS)]
        typical = float(np.median(blocks)) if blocks else 0.0
        if typical > 0:
            for number, time in enumerate(blocks):
                shares[number].append(time / typical)
    factors = [float(np.median(part)) for part in shares if len(part) >= SHARED * len(runs)]
    factors = [factor for factor in factors if factor > 0]
    if len(factors) < 2:
        return 0.0
    return float(np.std(np.log(factors), ddof=1)) * 100

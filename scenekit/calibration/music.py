"""The share of all time that music takes: one benchmark with it and one without."""

from collections.abc import Sequence

import numpy as np

from scenekit.calibration.benchmark import Log
from scenekit.errors import MachineError
from scenekit.machines.cost import Cost

FEWEST = 10
MOST_PERCENT = 95.0
LEAST_PERCENT = 0.01


def music_cost(quiet: Log, loud: Log, provenance: str) -> Cost | None:
    """Return the share of all time that music takes, or None when it takes none that can be told.

    Each measure that both logs hold says how much longer it took; the median of these counts.
    raises   MachineError: too few measures in common, or music that leaves no time
    """
    ratios = []
    for measure, runs in quiet.runs.items():
        with_music = loud.runs.get(measure)
        if with_music:
            before, after = _turn(runs), _turn(with_music)
            if before > 0 and after > 0:
                ratios.append(before / after)
    if len(ratios) < FEWEST:
        raise MachineError(
            f"log: {len(ratios)} measures were timed with music and without; at least {FEWEST} are needed"
        )
    share = (1 - float(np.median(ratios))) * 100
    spread = float(np.std(ratios, ddof=1)) / len(ratios) ** 0.5 * 100
    if share > MOST_PERCENT:
        raise MachineError(
            f"log: music takes {share:.1f} % of all time; at most {MOST_PERCENT:.0f} % can be reckoned"
        )
    if share <= max(LEAST_PERCENT, 2 * spread):
        return None
    return Cost(
        operation="sound",
        share_percent=float(f"{share:.4g}"),
        provenance=f"{provenance}, +- {2 * spread:.2g} percent of all time",
    )


def _turn(runs: Sequence[tuple[int, int]]) -> float:
    return min(took / turns for turns, took in runs)

"""Regular stripes that move: not a flash, and known to hurt the same people."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scenekit.findings import Finding
from scenekit.safety.flash import Frames
from scenekit.safety.transitions import LIGHT_ONE, luminance_of, planes_of

Light = NDArray[np.int32]

MOST_PAIRS = 5
"""More pairs of light and dark stripes than this are noted when they move (epilepsy charities)."""

LEAST_SHARE = 0.25
"""Share of the picture from which stripes are noted (Wilkins, Emmett, Harding 2005)."""

LEAST_SECONDS = 0.5
"""Time from which stripes are noted (Wilkins, Emmett, Harding 2005)."""

_BRIGHT = LIGHT_ONE // 4
"""Light stripes of 50 cd/m2 on a screen whose white is 200 cd/m2."""

_CONTRAST = LIGHT_ONE // 10
_SAMPLES_HZ = 8
_LINES = 64


@dataclass(frozen=True, slots=True, kw_only=True)
class MovingStripes:
    """A stretch of ticks with regular moving stripes.

    upright  the stripes stand, else they lie
    pairs    most pairs of light and dark stripes in a row
    share    of the picture that they cover, at most, 0 to 1
    """

    first_tick: int
    last_tick: int
    upright: bool
    pairs: int
    share: float


def moving_stripes(frames: Frames, refresh_hz: float) -> tuple[MovingStripes, ...]:
    """Look for regular stripes that move, about eight times a second.

    frames  one (H, W, 3) uint8 for each display refresh
    """
    gap = max(1, round(refresh_hz / _SAMPLES_HZ))
    open_runs: dict[bool, list[tuple[int, int, float]]] = {True: [], False: []}
    found: list[MovingStripes] = []
    for tick in range(0, len(frames), gap):
        light = _light(frames[tick])
        moved = light != _light(frames[min(tick + gap // 2 + 1, len(frames) - 1)])
        for upright, run in open_runs.items():
            pairs, share = _stripes(light if upright else light.T, moved if upright else moved.T)
            if pairs > MOST_PAIRS and share > LEAST_SHARE:
                run.append((tick, pairs, share))
            elif run:
                found += _closed(run, upright, gap, refresh_hz)
                run.clear()
    for upright, run in open_runs.items():
        found += _closed(run, upright, gap, refresh_hz)
    return tuple(sorted(found, key=lambda stripes: (stripes.first_tick, stripes.upright)))


def stripe_findings(stripes: tuple[MovingStripes, ...], where: str) -> tuple[Finding, ...]:
    """Return a note for each stretch with moving stripes."""
    return tuple(
        Finding(
            level="note",
            code="moving-stripes",
            where=where,
            text=(
                f"ticks {part.first_tick} to {part.last_tick}: {part.pairs} pairs of regular "
                f"{'upright' if part.upright else 'lying'} stripes move over {part.share:.0%} of the "
                f"picture; more than {MOST_PAIRS} pairs over a quarter can hurt people with photosensitive "
                "epilepsy; "
                "break the pattern up, give it less contrast, or move it slower"
            ),
        )
        for part in stripes
    )


def _closed(
    run: list[tuple[int, int, float]], upright: bool, gap: int, refresh_hz: float
) -> list[MovingStripes]:
    if not run or len(run) * gap < LEAST_SECONDS * refresh_hz:
        return []
    return [
        MovingStripes(
            first_tick=run[0][0],
            last_tick=run[-1][0],
            upright=upright,
            pairs=max(pairs for _, pairs, _ in run),
            share=max(share for _, _, share in run),
        )
    ]


def _light(frame: NDArray[np.uint8]) -> Light:
    return luminance_of(planes_of(frame)).reshape(frame.shape[:2])


def _stripes(light: Light, moved: NDArray[np.bool_]) -> tuple[int, float]:
    """Return the most pairs of stripes along the rows, and the share of the picture they move over."""
    step = max(1, light.shape[0] // _LINES)
    most, covered, rows = 0, 0, range(step // 2, light.shape[0], step)
    for row in rows:
        pairs, start, end = _regular(light[row])
        if pairs > MOST_PAIRS and moved[row, start:end].mean() > 0.1:
            most = max(most, pairs)
            covered += end - start
    return most, covered / (len(rows) * light.shape[1])


def _regular(line: Light) -> tuple[int, int, int]:
    """Return the longest run of even light and dark stripes of a line: pairs, start, end."""
    low, high = int(line.min()), int(line.max())
    if high - low < _CONTRAST or high < _BRIGHT:
        return 0, 0, 0
    bright = line > (low + high) // 2
    rises = np.flatnonzero(bright[1:] & ~bright[:-1]) + 1
    if len(rises) <= MOST_PAIRS:
        return 0, 0, 0
    periods = np.diff(rises).tolist()
    best = (0, 0, 0)
    start = 0
    for end in range(1, len(periods) + 1):
        run = periods[start:end]
        while (max(run) - min(run)) * 5 > max(5, sum(run) // len(run)):
            start += 1
            run = run[1:]
        if end - start > best[0]:
            best = (end - start, int(rises[start]), int(rises[end]))
    return best

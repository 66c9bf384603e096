"""Choice of few colours for many: split where it is worst, then move every colour to its middle."""

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.fixed_oklab import ONE

Whole = NDArray[np.int64]
Floats = NDArray[np.float32]

_COARSE = 2048
"""Steps of Oklab 1.0 in which distances are taken: products of coordinates stay below 2**24,
so that single-precision sums of them are exact whole numbers in whatever order they are added."""

_CHUNK_CELLS = 1 << 21
"""Distances held at once by `nearest`."""

_ROUNDS = 8
"""Rounds of moving colours to the middle of what they serve."""

_SPLIT_POINTS = 6000
"""Most points that the splitting looks at in full."""


def nearest(points: Whole, centres: Whole) -> NDArray[np.intp]:
    """Give each colour its nearest centre in Oklab; ties take the lowest.

    points   (N, 3) int64, Oklab times 2**16
    centres  (K, 3) int64, K at least 1
    returns  (N,) index of the centre
    """
    at = _coarse(centres)
    square = (at * at).sum(axis=1)
    around = np.vstack([2 * at.T, -square]).astype(np.float32)
    out = np.empty(len(points), dtype=np.intp)
    step = max(1, _CHUNK_CELLS // len(centres))
    for start in range(0, len(points), step):
        stop = min(start + step, len(points))
        block = np.ones((stop - start, 4), dtype=np.float32)
        block[:, :3] = _coarse(points[start:stop])
        np.argmax(block @ around, axis=1, out=out[start:stop])
    return out


def choose(points: Whole, weights: Whole, count: int, fixed: Whole) -> Whole:
    """Choose colours that serve weighted colours well beside fixed ones.

    points   (N, 3) int64, Oklab times 2**16, N at least 1
    weights  (N,) int64, at least 1
    count    how many to choose, at least 1
    fixed    (F, 3) int64, colours that are there anyway; F may be 0
    returns  (count or fewer, 3) int64
    """
    centres = _split(points, weights, count)
    for _ in range(_ROUNDS):
        served = nearest(points, np.vstack([centres, fixed]))
        centres = middles(points, weights, served, centres)
    return centres


def middles(points: Whole, weights: Whole, served: NDArray[np.intp], centres: Whole) -> Whole:
    """Move each centre to the weighted mean of the points it serves; one that serves none stays."""
    count = len(centres)
    mass = np.bincount(served, weights, count)[:count]
    moved = centres.copy()
    busy = mass > 0
    for axis in range(3):
        total = np.bincount(served, weights * points[:, axis], count)[:count]
        moved[busy, axis] = np.floor(total[busy] / mass[busy] + 0.5).astype(np.int64)
    return moved


def _split(points: Whole, weights: Whole, count: int) -> Whole:
    """Halve the group with the greatest squared error along its widest axis, again and again."""
    groups = [np.arange(len(points))]
    measured = [_measure(points, weights, groups[0])]
    while len(groups) < count:
        worst = max(range(len(groups)), key=lambda index: (measured[index][0], -index))
        error, axis, middle = measured[worst]
        if error <= 0:
            break
        members = groups[worst]
        low = points[members, axis] <= middle
        halves = members[low], members[~low]
        groups[worst : worst + 1] = [halves[0]]
        groups.append(halves[1])
        measured[worst] = _measure(points, weights, halves[0])
        measured.append(_measure(points, weights, halves[1]))
    served = np.empty(len(points), dtype=np.intp)
    for index, members in enumerate(groups):
        served[members] = index
    return middles(points, weights, served, np.zeros((len(groups), 3), dtype=np.int64))


def _measure(points: Whole, weights: Whole, members: NDArray[np.intp]) -> tuple[int, int, int]:
    """Return squared error times mass, the axis that has most of it, and the mean there, rounded down."""
    at = points[members] * _COARSE // ONE
    by = weights[members]
    mass = int(by.sum())
    sums = [int(total) for total in by @ at]
    squares = [int(total) for total in by @ (at * at)]
    errors = [square - total * total // mass for square, total in zip(squares, sums, strict=True)]
    axis = max(range(3), key=lambda index: (errors[index], -index))
    exact = int(by @ points[members, axis])
    return sum(errors), axis, exact // mass


def _coarse(fixed: Whole) -> Whole:
    return (fixed * _COARSE + ONE // 2) // ONE

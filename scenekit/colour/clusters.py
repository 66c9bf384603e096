"""Choice of few colours for many: split where it is worst, then move every colour to its middle."""

from dataclasses import dataclass
from heapq import heappop, heappush

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.fixed_oklab import ONE

Whole = NDArray[np.int64]
Floats = NDArray[np.float32]

CHROMA_WEIGHT = 2
"""How much more a and b count than L: brings distances in Oklab near to CIEDE2000 (own trials)."""

_COARSE = 2048
"""Steps of Oklab 1.0 in which distances are taken. Twice the product of two colours stays below
2**24, so single-precision sums are exact whole numbers in whatever order they are added."""

_CHUNK_CELLS = 1 << 16
"""Distances held at once: so few that they stay in the cache and the product stays on one core."""

_ROUNDS = 3
"""Rounds of moving colours to the middle of what they serve, before swaps and again after."""

_SWAP_CELLS = 1 << 25
"""Distances that may be taken for swaps of colours: few colours can afford more of them."""

_MOST_SWAPS = 12
"""Rounds of swaps at most."""

_SOFTENING = 8
"""Added to a distance before the weight is divided by it, in coarse steps."""

_LARGEST_MASS = 1 << 26
"""Sum of weights up to which weighted sums are exact in double precision."""


def nearest(points: Whole, centres: Whole) -> NDArray[np.intp]:
    """Give each colour its nearest centre; ties take the lowest.

    points   (N, 3) int64, Oklab times 2**16
    centres  (K, 3) int64, K at least 1
    returns  (N,) index of the centre
    """
    return _nearest(_seen(points), _seen(centres))


def squared_distance(points: Whole, centres: Whole) -> Whole:
    """Return the squared distance of each colour to its own centre, as `nearest` measures it.

    points, centres  (N, 3) int64, Oklab times 2**16
    returns          (N,) in coarse steps squared
    """
    apart = (_seen(points) - _seen(centres)).astype(np.int64)
    return np.asarray((apart * apart).sum(axis=1))


def choose(points: Whole, weights: Whole, count: int, fixed: Whole) -> Whole:
    """Choose colours that serve weighted colours well beside fixed ones.

    points   (N, 3) int64, Oklab times 2**16, N at least 1
    weights  (N,) int64, at least 1
    count    how many to choose, at least 1
    fixed    (F, 3) int64, colours that are there anyway; F may be 0
    returns  (count or fewer, 3) int64
    """
    while int(weights.sum()) > _LARGEST_MASS + len(weights):
        weights = np.maximum(weights >> 1, 1)
    seen = _seen(points)
    centres = _split(points, seen.astype(np.int64), weights, count)
    cloud = _Cloud(points=points, seen=seen, weights=weights, fixed=fixed)
    centres = cloud.settled(centres, _ROUNDS)
    tries = min(_MOST_SWAPS, _SWAP_CELLS // (3 * len(points) * len(centres)))
    return cloud.settled(_swapped(cloud, centres, tries), _ROUNDS)


def middles(points: Whole, weights: Whole, served: NDArray[np.intp], centres: Whole) -> Whole:
    """Move each centre to the weighted mean of the points it serves; one that serves none stays."""
    count = len(centres)
    mass = np.bincount(served, weights, count)[:count]
    busy = mass > 0
    moved = centres.copy()
    for axis in range(3):
        total = np.bincount(served, weights * points[:, axis], count)[:count]
        moved[busy, axis] = np.floor(total[busy] / mass[busy] + 0.5).astype(np.int64)
    return moved


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Cloud:
    """The colours to serve."""

    points: Whole
    seen: Floats
    weights: Whole
    fixed: Whole

    def served(self, centres: Whole) -> tuple[NDArray[np.intp], Floats]:
        """Return which centre serves each colour, fixed ones last, and how far apart they are."""
        around = _seen(np.vstack([centres, self.fixed]))
        served = _nearest(self.seen, around)
        return served, self.seen - around[served]

    def settled(self, centres: Whole, rounds: int) -> Whole:
        """Return the centres moved to the middle of what they serve, some times over."""
        for _ in range(rounds):
            served, apart = self.served(centres)
            centres = middles(self.points, _by_distance(self.weights, apart), served, centres)
        return centres

    def losses(self, centres: Whole) -> tuple[NDArray[np.intp], Whole]:
        """Return which centre serves each colour, and its distance times its weight."""
        served, apart = self.served(centres)
        return served, _distance(apart) * self.weights


def _swapped(cloud: _Cloud, centres: Whole, tries: int) -> Whole:
    """Take centres that are hardly missed and use them to halve the worst groups, while the loss falls."""
    served, losses = cloud.losses(centres)
    for _ in range(tries):
        moved = _moved(cloud, centres, served, losses)
        if moved is None:
            break
        moved = cloud.settled(moved, 2)
        served, new_losses = cloud.losses(moved)
        if int(new_losses.sum()) >= int(losses.sum()):
            break
        centres, losses = moved, new_losses
    return centres


def _moved(cloud: _Cloud, centres: Whole, served: NDArray[np.intp], losses: Whole) -> Whole | None:
    count = len(centres)
    loss = np.bincount(served, losses, count)[:count].astype(np.int64)
    at = _seen(np.vstack([centres, cloud.fixed])).astype(np.int64)
    square = ((at[:count, None] - at[None]) ** 2).sum(axis=2)
    square[np.arange(count), np.arange(count)] = np.iinfo(np.int64).max
    mass = np.bincount(served, cloud.weights, count)[:count].astype(np.int64)
    missed = mass * np.sqrt(square.min(axis=1).astype(np.float64)).astype(np.int64)
    out, taken = centres.copy(), set[int]()
    worst_first = np.argsort(-loss, kind="stable").tolist()
    for spare, worst in zip(np.argsort(missed, kind="stable").tolist(), worst_first, strict=True):
        if len(taken) >= max(2, count // 8) or 10 * missed[spare] > 7 * loss[worst] or spare == worst:
            break
        halves = _halves(cloud, np.flatnonzero(served == worst))
        if halves is None or spare in taken or worst in taken:
            continue
        out[[worst, spare]] = halves
        taken |= {spare, worst}
    return out if taken else None


def _halves(cloud: _Cloud, members: NDArray[np.intp]) -> Whole | None:
    """Return the middles of two halves of a group, or None when it cannot be halved."""
    seen, weights = cloud.seen[members].astype(np.int64), cloud.weights[members]
    _, axis, middle = _measure(seen, weights)
    side = (seen[:, axis] > middle).astype(np.intp)
    if side.all() or not side.any():
        return None
    return middles(cloud.points[members], weights, side, np.zeros((2, 3), dtype=np.int64))


def _distance(apart: Floats) -> Whole:
    """Return distances in coarse steps, rounded down."""
    return np.asarray(np.sqrt((apart * apart).sum(axis=1).astype(np.float64)), dtype=np.int64)


def _by_distance(weights: Whole, apart: Floats) -> Whole:
    """Divide weights by distance, so that the mean of distances falls and not that of squares."""
    return np.asarray((weights << 7) // (_distance(apart) + _SOFTENING) + 1)


def _nearest(seen: Floats, centres: Floats) -> NDArray[np.intp]:
    around = np.vstack([2 * centres.T, -(centres * centres).sum(axis=1)]).astype(np.float32)
    out = np.empty(len(seen), dtype=np.intp)
    step = max(1, _CHUNK_CELLS // len(centres))
    for start in range(0, len(seen), step):
        block = np.ones((min(step, len(seen) - start), 4), dtype=np.float32)
        block[:, :3] = seen[start : start + step]
        out[start : start + step] = (block @ around).argmax(axis=1)
    return out


def _seen(fixed: Whole) -> Floats:
    """Return colours as whole numbers of coarse steps, with chroma weighted."""
    scale = np.array([1, CHROMA_WEIGHT, CHROMA_WEIGHT]) * _COARSE
    return np.asarray((fixed * scale + ONE // 2) // ONE, dtype=np.float32)


def _split(points: Whole, seen: Whole, weights: Whole, count: int) -> Whole:
    """Halve the group with the greatest squared error along its widest axis, again and again."""
    groups = [np.arange(len(points))]
    error, axis, middle = _measure(seen, weights)
    worst_first = [(-error, 0, axis, middle)]
    while len(groups) < count:
        error, worst, axis, middle = heappop(worst_first)
        if error >= 0:
            break
        members = groups[worst]
        low = seen[members, axis] <= middle
        groups[worst] = members[low]
        groups.append(members[~low])
        for half in (worst, len(groups) - 1):
            error, axis, middle = _measure(seen[groups[half]], weights[groups[half]])
            heappush(worst_first, (-error, half, axis, middle))
    served = np.empty(len(points), dtype=np.intp)
    for index, members in enumerate(groups):
        served[members] = index
    return middles(points, weights, served, np.zeros((len(groups), 3), dtype=np.int64))


def _measure(seen: Whole, weights: Whole) -> tuple[int, int, int]:
    """Return squared error times mass, the axis that has most of it, and the mean there, rounded down."""
    mass = int(weights.sum())
    sums = [int(total) for total in weights @ seen]
    squares = [int(total) for total in weights @ (seen * seen)]
    errors = [square * mass - total * total for square, total in zip(squares, sums, strict=True)]
    axis = max(range(3), key=lambda index: (errors[index], -index))
    return sum(errors) // mass, axis, sums[axis] // mass

"""Find straight lines at which one sheet ends and another begins."""

import numpy as np
import numpy.typing as npt

from scenekit.slicing.guess_ground import Ground, Mask, Pixels
from scenekit.slicing.guess_lines import Floats, crossings, rank_bits
from scenekit.slicing.guess_prior import size_bits

LONGEST_PERIOD = 256
LEAST_PART_PX = 16
MOST_PLACES = 96
KEPT_PLACES = 4
REACH = 64


def split_places(pixels: Pixels, ground: Ground) -> list[tuple[int, int]]:
    """Return the likeliest places to part a sheet in two, as (axis, place): axis 0 at x, 1 at y.

    The best of either axis come first.
    """
    out: list[tuple[int, int, int]] = []
    turned = np.ascontiguousarray(ground.mask.T)
    for axis, (picture, mask) in enumerate(((pixels, ground.mask), (pixels.swapaxes(0, 1), turned))):
        on, _, beside = crossings(picture, mask)
        art: Mask = np.any(mask, axis=0)
        evidence = rank_bits(on, REACH) + 0.5 * rank_bits(beside, REACH)
        places = clean_places(on, art)
        found = [*best_places(evidence, places), *wide_gaps(art, art.size)]
        out += [(rank, axis, place) for rank, place in enumerate(found)]
    return list(dict.fromkeys((axis, place) for _, axis, place in sorted(out)))


def clean_places(on: npt.NDArray[np.int64], art: Mask) -> npt.NDArray[np.int64]:
    """Return the lines that nothing runs across; of empty stretches only the ends; few where many."""
    clean = np.flatnonzero(on[1:-1] == 0) + 1
    kept = clean[art[clean] | art[clean - 1]]
    kept = kept[(kept >= LEAST_PART_PX) & (kept <= art.size - LEAST_PART_PX)]
    if kept.size > MOST_PLACES:
        kept = kept[np.unique(np.linspace(0, kept.size - 1, MOST_PLACES).astype(np.int64))]
    return kept


def best_places(evidence: Floats, places: npt.NDArray[np.int64]) -> list[int]:
    """Return the places where a period from the start and another from the place on explain lines best."""
    if places.size == 0:
        return []
    length = evidence.size - 1
    before, after = np.full(places.size, -1.0), np.full(places.size, -1.0)
    for period in range(3, min(LONGEST_PERIOD, length // 2) + 1):
        price = size_bits(period)
        rows = -(-evidence.size // period)
        padded = np.zeros(rows * period, np.float64)
        padded[: evidence.size] = evidence
        sums = np.cumsum(padded.reshape(rows, period), axis=0)
        first = sums[(places - 1) // period, 0]
        phase = places % period
        later = sums[-1, phase] - sums[places // period, phase]
        before = np.maximum(before, np.where(places >= 2 * period, first - price, -1.0))
        after = np.maximum(after, np.where(length - places >= 2 * period, later - price, -1.0))
    orders = [np.lexsort((places, -np.round(score, 6))) for score in (before + after, before, after)]
    chosen = [*orders[0][:KEPT_PLACES], orders[1][0], orders[2][0]]  # one part alone may be regular
    return list(dict.fromkeys(int(places[index]) for index in chosen))


def wide_gaps(art: Mask, length: int) -> list[int]:
    """Return where art begins again after the widest empty stretches."""
    edges = np.flatnonzero(np.diff(art.astype(np.int8)))
    ends, starts = edges[~art[edges + 1]] + 1, edges[art[edges + 1]] + 1
    found = []
    for start in starts.tolist():
        earlier = ends[ends < start]
        if earlier.size and LEAST_PART_PX <= start <= length - LEAST_PART_PX:
            found.append((start - int(earlier[-1]), start))
    found.sort(key=lambda item: (-item[0], item[1]))
    return [(start - gap + start + 1) // 2 for gap, start in found[:KEPT_PLACES]]


def part_of(pixels: Pixels, ground: Ground, axis: int, start: int, end: int) -> tuple[Pixels, Ground]:
    """Return the stretch of a sheet between two lines of an axis."""
    across = slice(start, end) if axis == 0 else slice(None)
    down = slice(start, end) if axis == 1 else slice(None)
    ends = ground.repeats[:, axis::2]
    inside = ground.repeats[((ends >= start) & (ends < end)).all(axis=1)]
    part = Ground(
        kind=ground.kind,
        keys=ground.keys,
        mask=np.ascontiguousarray(ground.mask[down, across]),
        bits=ground.bits,
        columns=ground.columns[across],
        rows=ground.rows[down],
        repeats=inside - np.array([start, 0, start, 0] if axis == 0 else [0, start, 0, start]),
    )
    return np.ascontiguousarray(pixels[down, across]), part

"""What is counted along one axis of a sheet, against plain loops over its pixels."""

import numpy as np
from numpy.typing import NDArray

from scenekit.slicing.guess_axis import KEPT_AXES, LOWEST_BITS, Axis, best_axes, best_phases, few_of, rank
from scenekit.slicing.guess_cells import band_columns
from scenekit.slicing.guess_lines import JUMP
from scenekit.slicing.guess_sides import running_on, side

Pixels = NDArray[np.uint8]


def noise(seed: int, height: int, width: int) -> tuple[Pixels, NDArray[np.bool_]]:
    """Draw pixels of few colours with holes."""
    rng = np.random.default_rng(seed)
    pixels = rng.choice(np.array([10, 14, 90, 250], np.uint8), (height, width, 4))
    return pixels, rng.random((height, width)) < 0.7


def runs_on(pixels: Pixels, mask: NDArray[np.bool_], y: int, x: int) -> bool:
    """Say of the pixels beside a line whether they run on: no larger step than on either side of them."""

    def step(left: int) -> int:
        if left < 0 or left + 1 >= mask.shape[1] or not (mask[y, left] and mask[y, left + 1]):
            return 0
        one, two = pixels[y, left, :3].tolist(), pixels[y, left + 1, :3].tolist()
        return max(abs(a - b) for a, b in zip(one, two, strict=True))

    if not (mask[y, x - 1] and mask[y, x]):
        return False
    return step(x - 1) <= max(step(x - 2), step(x)) + JUMP


def test_pairs_that_run_on_are_those_that_loops_find() -> None:
    for seed in range(4):
        pixels, mask = noise(seed, 9, 14)
        lines = np.arange(1, 14)
        want = [[runs_on(pixels, mask, y, int(x)) for x in lines] for y in range(9)]
        assert running_on(pixels, mask, lines).tolist() == want


def axis(cell: int, margin: int, count: int) -> Axis:
    """Return an axis without gutters."""
    return Axis(cell=cell, gutter=0, margin=margin, count=count, evidence=0.0, bits=0.0)


def test_sides_of_cells_are_unbroken_where_no_pair_runs_on() -> None:
    pixels, mask = noise(7, 12, 30)
    mask[:, 9:11] = False
    mask[4:8, 19:21] = False
    packed = np.ascontiguousarray(np.packbits(mask, axis=0).T)
    cuts = [axis(10, 0, 3), axis(7, 3, 4), axis(10, -4, 4)]
    seen = side(pixels, mask, packed, cuts)
    starts, ends = np.array([0, 4, 8]), np.array([4, 8, 12])
    for cut in cuts:
        lefts, rights = cut.cells(30)
        want = [
            [
                not any(
                    0 < x < 30 and runs_on(pixels, mask, y, x)
                    for x in (int(left), int(right))
                    for y in range(start, end)
                )
                for left, right in zip(lefts, rights, strict=True)
            ]
            for start, end in zip(starts.tolist(), ends.tolist(), strict=True)
        ]
        assert seen.unbroken(cut, starts, ends).tolist() == want
        assert (seen.band(cut) == band_columns(packed, 12, *cut.cells(30))).all()
    assert seen.unbroken(cuts[0], starts, ends)[1].tolist()[1] is True


def test_leaving_out_hopeless_periods_loses_no_cut_that_is_kept() -> None:
    clear = np.zeros(120, np.bool_)
    for seed in range(6):
        rng = np.random.default_rng(seed)
        folds = {period: rng.normal(0, 5, period) for period in range(2, 120)}
        folds[24][3] += 30
        every = [cut for p in folds for cut in best_phases(folds[p], p, clear, (3, 99), 0, LOWEST_BITS)]
        kept = best_axes(folds, list(folds), clear, (3, 99), 0, 0)
        assert len(kept) >= KEPT_AXES
        assert kept == few_of(sorted(every, key=rank))

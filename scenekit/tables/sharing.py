"""Pictures that are equal up to flips share one piece."""

from collections.abc import Sequence

from scenekit.model.arrays import Indices, freeze
from scenekit.symmetry.flips import find_equal

EMPTY = -1
"""Stands in maps and frames for nothing."""


def share(
    arrays: Sequence[Indices], flips: frozenset[int], base: int, common: Sequence[Indices] = ()
) -> tuple[tuple[Indices, ...], list[int]]:
    """Return the different pictures that are not common, and for each array 4 x its number + flip.

    base     number of the first of them; common ones have the numbers from 0 on
    """
    found = find_equal([*common, *arrays], flips)[len(common) :]
    numbers: dict[int, int] = {number: number for number in range(len(common))}
    kept: list[Indices] = []
    cells = []
    for first, flip in found:
        if first not in numbers:
            numbers[first] = base + len(kept)
            kept.append(freeze(arrays[first - len(common)]))
        cells.append(4 * numbers[first] + flip)
    return tuple(kept), cells


def common_pictures(scenes: Sequence[Sequence[Indices]], flips: frozenset[int]) -> tuple[Indices, ...]:
    """Return the pictures that stand in two scenes or more up to the given flips, in order of first use."""
    arrays = [picture for pictures in scenes for picture in pictures]
    owner = [number for number, pictures in enumerate(scenes) for _ in pictures]
    used: dict[int, set[int]] = {}
    for place, (first, _) in enumerate(find_equal(arrays, flips)):
        used.setdefault(first, set()).add(owner[place])
    return tuple(freeze(arrays[first]) for first, owners in used.items() if len(owners) > 1)

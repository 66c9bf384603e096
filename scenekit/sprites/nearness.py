"""Finds pictures that are nearly equal, by the difference of their samples."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import isqrt

import numpy as np
from numpy.typing import NDArray

from scenekit.model.arrays import Pixels
from scenekit.symmetry.flips import NONE, turn_picture

NEAR_RMS = 12
MAX_LISTED = 1000
MAX_COMPARED = 8192
MAX_PAIRS = 4000

_BLOCK_PX = 4
_STRIP = 512


@dataclass(frozen=True, slots=True, kw_only=True)
class Near:
    """Picture `index` is nearly picture `first` flipped or turned by `code`.

    pixels_different   pixels that are not equal
    of_pixels          pixels of the picture
    largest            largest difference of one sample, 1 to 255
    rms_milli          root mean square difference of all samples, in thousandths
    """

    index: int
    first: int
    code: int
    pixels_different: int
    of_pixels: int
    largest: int
    rms_milli: int


def find_near(
    arrays: list[Pixels], numbers: list[int], allowed: frozenset[int], limit_rms: int = NEAR_RMS
) -> tuple[Near, ...]:
    """List pairs of pictures of one size that differ little, closest first, at most MAX_LISTED.

    arrays     each (H, W, 4) uint8, no two equal
    numbers    what to call them in the answer
    allowed    flip or turn codes; of several for one pair the closest, then the lowest
    limit_rms  0 to 255; 0 lists nothing

    Of more than MAX_COMPARED pictures of one size only the first are compared, and of more than MAX_PAIRS
    pairs only the first are ranked.
    """
    best: dict[tuple[int, int], tuple[int, int]] = {}
    for code in sorted(allowed | {NONE}):
        for first, index in _candidates(arrays, code, limit_rms):
            total = _squares(turn_picture(arrays[first], code), arrays[index])
            if total <= limit_rms * limit_rms * arrays[index].size:
                pair = (first, index)
                best[pair] = min(best.get(pair, (total, code)), (total, code))
            if len(best) >= MAX_PAIRS:
                break
    ranked = sorted(
        (total * 1000 // arrays[index].size, index, first, code)
        for (first, index), (total, code) in best.items()
    )
    return tuple(
        _describe(arrays, numbers, first, index, code) for _, index, first, code in ranked[:MAX_LISTED]
    )


def _describe(arrays: list[Pixels], numbers: list[int], first: int, index: int, code: int) -> Near:
    old = turn_picture(arrays[first], code)
    apart = np.abs(old.astype(np.int16) - arrays[index])
    total = _squares(old, arrays[index])
    return Near(
        index=numbers[index],
        first=numbers[first],
        code=code,
        pixels_different=int(apart.any(axis=2).sum()),
        of_pixels=old.shape[0] * old.shape[1],
        largest=int(apart.max()),
        rms_milli=isqrt(total * 1_000_000 // arrays[index].size),
    )


def _squares(old: Pixels, new: Pixels) -> int:
    """Return the sum of squared differences of samples, exact."""
    apart = old.astype(np.int32) - new
    return int((apart * apart).sum(dtype=np.int64))


def _candidates(arrays: list[Pixels], code: int, limit_rms: int) -> Iterator[tuple[int, int]]:
    """Yield pairs (first, index) that may be near: the means of their blocks are.

    The squared distance of block means, times the pixels of a block, never exceeds that of all samples.
    """
    if limit_rms <= 0:
        return
    shapes: dict[tuple[int, ...], list[int]] = {}
    for index, array in enumerate(arrays):
        shapes.setdefault(array.shape, []).append(index)
    for shape, members in shapes.items():
        others = shapes.get((shape[1], shape[0], 4), []) if code >= 4 else members
        members, others = members[:MAX_COMPARED], others[:MAX_COMPARED]
        if members and others:
            limit = limit_rms * limit_rms * shape[0] * shape[1] * 4
            old = np.stack([_sketch(turn_picture(arrays[index], code)) for index in others])
            new = np.stack([_sketch(arrays[index]) for index in members])
            yield from _close(old, new, others, members, limit)


def _close(
    old: NDArray[np.float32],
    new: NDArray[np.float32],
    others: list[int],
    members: list[int],
    limit: int,
) -> Iterator[tuple[int, int]]:
    """Yield pairs whose sketches are within a squared distance; a little beyond it, to allow for rounding."""
    old_squares = (old * old).sum(axis=1)
    for start in range(0, len(new), _STRIP):
        part = new[start : start + _STRIP]
        squares = (part * part).sum(axis=1)[:, None] + old_squares[None, :] - 2 * (part @ old.T)
        slack = (old_squares.max() + (part * part).sum(axis=1).max()) * 1e-5 + 1
        for row, column in np.argwhere(squares <= limit + slack):
            first, index = others[column], members[start + row]
            if first < index:
                yield first, index


def _sketch(array: Pixels) -> NDArray[np.float32]:
    """Return block means, each scaled by the root of its block's pixels."""
    height, width = array.shape[:2]
    down, across = np.arange(0, height, _BLOCK_PX), np.arange(0, width, _BLOCK_PX)
    sums = np.add.reduceat(np.add.reduceat(array.astype(np.float32), down, axis=0), across, axis=1)
    rows, columns = np.diff([*down, height]), np.diff([*across, width])
    pixels = np.outer(rows, columns)[..., None].astype(np.float32)
    return np.asarray(sums / np.sqrt(pixels), dtype=np.float32).ravel()

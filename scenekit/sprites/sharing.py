"""Finds which pictures of a set can share pixels: equal, mirrored, turned, recoloured or nearly equal."""

from collections.abc import Sequence
from dataclasses import dataclass
from hashlib import blake2b

import numpy as np
from numpy.typing import NDArray

from scenekit.model.arrays import Pixels
from scenekit.sprites.nearness import NEAR_RMS, Near, find_near
from scenekit.symmetry.flips import (
    ALL_FLIPS,
    ALL_TURNS,
    NONE,
    H,
    find_equal,
    invert,
    turn_picture,
)

Rgba = tuple[int, int, int, int]
Box = tuple[int, int, int, int]

LEVELS = (
    ("equal", frozenset({NONE})),
    ("h", frozenset({NONE, H})),
    ("h, v, hv", ALL_FLIPS),
    ("quarter turns", ALL_TURNS),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """How far a set shrinks when pictures may differ by some flips.

    distinct   pictures that are kept
    pixels     pixels of those
    """

    name: str
    distinct: int
    pixels: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Equal:
    """Picture `index` is picture `first`, flipped or turned by `code`."""

    index: int
    first: int
    code: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Recolour:
    """Picture `index` is picture `first`, flipped or turned by `code`, in other colours.

    colours   pairs (colour of first, colour of index) of those that change, one to one, sorted
    """

    index: int
    first: int
    code: int
    colours: tuple[tuple[Rgba, Rgba], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sharing:
    """What the pictures of a set share; indices count the pictures given.

    given       pictures with art; empty ones are passed over
    levels      counts without flips, with h, with h, v and hv, and with quarter turns too
    equal       under the allowed codes
    recolours   of pictures that are not equal, under the allowed codes
    near        of pictures that are not equal, under the allowed codes, closest first
    """

    given: int
    levels: tuple[Level, ...]
    equal: tuple[Equal, ...]
    recolours: tuple[Recolour, ...]
    near: tuple[Near, ...]


def find_sharing(
    pictures: Sequence[Pixels],
    allowed: frozenset[int] = ALL_FLIPS,
    *,
    near_rms: int = NEAR_RMS,
) -> Sharing:
    """Report what pictures share.

    pictures   each (H, W, 4) uint8; pixels of alpha 0 count as equal
    allowed    flip or turn codes that the machine can do
    near_rms   largest root mean square difference of samples, 0 to 255, for pictures that are nearly equal
    """
    cleared = [_cleared(picture) for picture in pictures]
    drawn = [index for index, picture in enumerate(cleared) if picture[..., 3].any()]
    arrays = [cleared[index] for index in drawn]
    found = find_equal(arrays, allowed)
    kept = [index for index, (first, _) in enumerate(found) if first == index]
    kept_arrays = [arrays[index] for index in kept]
    numbers = [drawn[index] for index in kept]
    return Sharing(
        given=len(drawn),
        levels=tuple(_level(name, codes, arrays) for name, codes in LEVELS),
        equal=tuple(
            Equal(index=drawn[index], first=drawn[first], code=code)
            for index, (first, code) in enumerate(found)
            if first != index
        ),
        recolours=_recolours(kept_arrays, numbers, allowed),
        near=find_near(kept_arrays, numbers, allowed, near_rms),
    )


def cut_out(pixels: Pixels, boxes: Sequence[Box]) -> list[Pixels]:
    """Return the part of a sheet in each box, repeated boxes once, what lies off the sheet left out.

    pixels   (H, W, 4) uint8
    """
    parts = []
    for x, y, w, h in dict.fromkeys(boxes):
        part = pixels[max(0, y) : max(0, y + h), max(0, x) : max(0, x + w)]
        if part.size:
            parts.append(part)
    return parts


def _level(name: str, codes: frozenset[int], arrays: list[Pixels]) -> Level:
    found = find_equal(arrays, codes)
    kept = [array for index, array in enumerate(arrays) if found[index][0] == index]
    return Level(
        name=name,
        distinct=len(kept),
        pixels=sum(array.shape[0] * array.shape[1] for array in kept),
    )


def _cleared(picture: Pixels) -> Pixels:
    clear = picture[..., 3] == 0
    return np.where(clear[..., None], np.uint8(0), picture) if clear.any() else picture


def _recolours(arrays: list[Pixels], numbers: list[int], allowed: frozenset[int]) -> tuple[Recolour, ...]:
    """Find pictures that are one once colours are numbered by first appearance; plain fills do not count."""
    codes = sorted(allowed | {NONE})
    kept: dict[bytes, int] = {}
    found = []
    for index, array in enumerate(arrays):
        inverse, alpha, count = _numbered(array)
        if count < 2:
            continue
        keys = {code: _pattern_key(inverse, alpha, count, invert(code)) for code in codes}
        matches = [(kept[key], code) for code, key in keys.items() if key in kept]
        if not matches:
            kept[keys[NONE]] = index
            continue
        first, code = min(matches)
        colours = _pairs(turn_picture(arrays[first], code), array)
        found.append(Recolour(index=numbers[index], first=numbers[first], code=code, colours=colours))
    return tuple(found)


def _numbered(array: Pixels) -> tuple[NDArray[np.intp], NDArray[np.uint8], int]:
    """Return (H, W) numbers of colours, alpha, and how many colours there are."""
    values, inverse = np.unique(_packed(array), return_inverse=True)
    return inverse.reshape(array.shape[:2]), array[..., 3], len(values)


def _pattern_key(inverse: NDArray[np.intp], alpha: NDArray[np.uint8], count: int, code: int) -> bytes:
    """Return a digest of a turned picture that says where colours are equal, and its alpha, but no colour."""
    turned = turn_picture(inverse, code)
    flat = turned.ravel()
    first = np.zeros(count, np.intp)
    first[flat[::-1]] = np.arange(flat.size - 1, -1, -1)
    rank = np.empty(count, np.int32)
    rank[np.argsort(first, kind="stable")] = np.arange(count, dtype=np.int32)
    content = rank[flat].tobytes() + turn_picture(alpha, code).tobytes()
    return blake2b(f"{turned.shape}".encode() + content, digest_size=16).digest()


def _pairs(old: Pixels, new: Pixels) -> tuple[tuple[Rgba, Rgba], ...]:
    """Return the colours that change, each once."""
    both = np.concatenate((old, new), axis=2).reshape(-1, 8)
    both = np.unique(both[(both[:, :4] != both[:, 4:]).any(axis=1)], axis=0)
    return tuple(((r, g, b, a), (s, t, u, v)) for r, g, b, a, s, t, u, v in both.tolist())


def _packed(array: Pixels) -> NDArray[np.uint32]:
    return np.ascontiguousarray(array).view(np.uint32)[..., 0]

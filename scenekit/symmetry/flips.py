"""Flips and quarter turns of pictures, and pictures that are equal up to them."""

from collections.abc import Sequence
from typing import Any

from numpy.typing import NDArray

NONE = 0
H = 1
V = 2
HV = 3
FLIP_NAMES = ("none", "h", "v", "hv")
ALL_FLIPS = frozenset({NONE, H, V, HV})

DIAGONAL = 4
TURN_NAMES = ("none", "h", "v", "hv", "diagonal", "quarter-right", "quarter-left", "anti-diagonal")
ALL_TURNS = frozenset(range(8))

Array = NDArray[Any]


def flip_code(name: str) -> int:
    """Return the code of a flip name.

    raises   ValueError: not one of FLIP_NAMES
    """
    if name not in FLIP_NAMES:
        raise ValueError(f"flip must be one of {', '.join(FLIP_NAMES)}; got {name!r}")
    return FLIP_NAMES.index(name)


def flip_picture(array: Array, flip: int) -> Array:
    """Return a view of a picture, mirrored left-right (bit 0) and top-bottom (bit 1).

    array    (H, W, ...)
    raises   ValueError: flip not in 0..3
    """
    if flip not in ALL_FLIPS:
        raise ValueError(f"flip must be in 0..3; got {flip}")
    return array[:: -1 if flip & V else 1, :: -1 if flip & H else 1]


def turn_picture(array: Array, code: int) -> Array:
    """Return a view of a picture, first mirrored on its main diagonal (bit 2), then flipped (bits 0 and 1).

    array    (H, W, ...)
    returns  (H, W, ...), or (W, H, ...) when bit 2 is set; code 5 is a quarter turn to the right
    raises   ValueError: code not in 0..7
    """
    if code not in ALL_TURNS:
        raise ValueError(f"turn must be in 0..7; got {code}")
    return flip_picture(array.swapaxes(0, 1) if code & DIAGONAL else array, code & HV)


def combine(first: int, second: int) -> int:
    """Return the flip or turn that does what `first`, then `second` do."""
    if second & DIAGONAL:
        return second ^ _other_axis(first)
    return second ^ first


def invert(code: int) -> int:
    """Return the flip or turn that undoes a code; a flip undoes itself."""
    return _other_axis(code) if code & DIAGONAL else code


def is_closed(allowed: frozenset[int]) -> bool:
    """Say whether doing two allowed codes one after the other is always allowed too."""
    whole = allowed | {NONE}
    return all(combine(a, b) in whole for a in whole for b in whole)


def canonical(array: Array, allowed: frozenset[int] = ALL_FLIPS) -> tuple[bytes, int]:
    """Return a key that equal pictures share, and the code that turns the canonical picture into this one.

    Two pictures have one key if and only if an allowed code turns one into the other; the canonical picture
    is the one whose bytes come first.  Keys are 16-byte digests of type, shape and bytes.

    array    (H, W, ...)
    raises   ValueError: allowed is not closed, such as {h, v} without hv
    """
    if not is_closed(allowed):
        raise ValueError(f"allowed flips must be closed under combining; got {sorted(allowed)}")
    best = min((_content(turn_picture(array, code)), code) for code in allowed | {NONE})
    return _digest(array, best[0]), invert(best[1])


def find_equal(arrays: Sequence[Array], allowed_flips: frozenset[int] = ALL_FLIPS) -> list[tuple[int, int]]:
    """Find for each picture the earliest equal one that is kept, and the code that turns that one into it.

    arrays   each (H, W, ...)
    returns  (index, code) for each; a picture that is kept answers (its own index, NONE); ties take the
             earliest index, then the lowest code; an index that is answered is always a kept one
    """
    kept: dict[bytes, int] = {}
    codes = sorted(allowed_flips | {NONE})
    closed = is_closed(allowed_flips)
    found: list[tuple[int, int]] = []
    for index, array in enumerate(arrays):
        exact = _key(array)
        matches = [(kept[exact], NONE)] if exact in kept else []
        for code in () if matches and closed else codes[1:]:
            earlier = kept.get(_key(turn_picture(array, invert(code))))
            if earlier is not None:
                matches.append((earlier, code))
        if not matches:
            kept[exact] = index
        found.append(min(matches, default=(index, NONE)))
    return found


def _other_axis(code: int) -> int:
    """Swap bits 0 and 1."""
    return (code & DIAGONAL) | (code & H) << 1 | (code & V) >> 1


def _content(array: Array) -> tuple[tuple[int, ...], bytes]:
    return array.shape, array.tobytes()


def _digest(array: Array, content: tuple[tuple[int, ...], bytes]) -> bytes:
    from hashlib import blake2b

    head = f"{array.dtype.str}{content[0]}".encode()
    return blake2b(head + content[1], digest_size=16).digest()


def _key(array: Array) -> bytes:
    return _digest(array, _content(array))

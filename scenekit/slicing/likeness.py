"""Says how alike two pieces of art are, and where one lies on the other."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from hashlib import blake2b

import numpy as np
from numpy.typing import NDArray

from scenekit.model.arrays import Pixels
from scenekit.slicing.cut import Box, Mask, Pair

Art = NDArray[np.uint32]
"""(H, W) colours, each pixel one number, 0 where nothing is drawn."""

NEAR_STEP = 24
"""Samples that differ by no more are near."""

FEW_TRIES = 25
MANY_TRIES = 4096
MOST_PIXELS = 1 << 21
"""Pixels that may be compared for one fit."""

_BINS = 64


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """How one piece of art lies on another.

    shift    (x, y) of the old one's top left from the new one's
    score    0 to 1000: a quarter each for equal colours and equal outlines, a half for near colours
    """

    shift: Pair
    score: int


def take_art(pixels: Pixels, mask: Mask, content: Box) -> Art:
    """Return the art in a content box.

    pixels   (H, W, 4) uint8
    mask     (H, W) bool, True where a pixel is art
    """
    x, y, w, h = content
    part = np.ascontiguousarray(pixels[y : y + h, x : x + w]).view(np.uint32)[..., 0]
    return np.where(mask[y : y + h, x : x + w], part, np.uint32(0))


def same_key(art: Art) -> bytes:
    """Return a digest that art of equal pixels shares."""
    return _digest(art.shape, art.tobytes())


def pattern_key(art: Art) -> bytes | None:
    """Return a digest that art shares up to a one-to-one change of colours; None for a plain fill."""
    values, first, inverse = np.unique(art, return_index=True, return_inverse=True)
    if len(values) < 2:
        return None
    rank = np.empty(len(values), np.int32)
    rank[np.argsort(first, kind="stable")] = np.arange(len(values), dtype=np.int32)
    drawn = (art != 0).tobytes()
    return _digest(art.shape, rank[inverse.reshape(-1)].tobytes() + drawn)


def outline_key(art: Art) -> bytes | None:
    """Return a digest that art of one outline shares; None where the outline is the whole box."""
    drawn = art != 0
    return None if drawn.all() else _digest(art.shape, drawn.tobytes())


def best_fit(old: Art, new: Art, shifts: Iterable[Pair] = (), *, tries: int = FEW_TRIES) -> Fit:
    """Find where old art lies on new art: at the shifts given, at edges, corners and the middle.

    Where that takes at most so many tries, every shift that keeps the smaller within the larger is looked at;
    on large art fewer tries are made.  The best score counts, of equal ones the first.
    """
    across, down = new.shape[1] - old.shape[1], new.shape[0] - old.shape[0]
    if (abs(across) + 1) * (abs(down) + 1) <= min(tries, MOST_PIXELS // old.size):
        places = [(x, y) for y in _between(down) for x in _between(across)]
    else:
        places = [(x, y) for y in _anchors(down) for x in _anchors(across)]
    sizes = int((old != 0).sum()) + int((new != 0).sum())
    best = Fit(shift=(0, 0), score=-1)
    for shift in dict.fromkeys([*shifts, *places]):
        equal, near, both = _shared(old, new, shift)
        score = (equal + 2 * near + both) * 500 // max(1, sizes)
        if score > best.score:
            best = Fit(shift=shift, score=score)
    return best


def colour_likeness(olds: Sequence[Art], news: Sequence[Art]) -> NDArray[np.float32]:
    """Return (old, new) how alike their colours are, wherever those lie; whole numbers, 0 to about 65025.

    Each is a histogram of 64 bins whose roots are rounded to bytes, so that sums of products are exact.
    """
    old, new = (np.stack([_histogram(art) for art in arts]) for arts in (olds, news))
    return np.asarray(old @ new.T, np.float32)


def _anchors(slack: int) -> tuple[int, ...]:
    """Return shifts in the middle, at the end and at the start."""
    return slack // 2, slack, 0


def _between(slack: int) -> range:
    return range(min(0, slack), max(0, slack) + 1)


def _shared(old: Art, new: Art, shift: Pair) -> tuple[int, int, int]:
    """Return how many pixels are drawn in equal colours, in near colours, and in both at all."""
    x, y = shift
    (h, w), (height, width) = old.shape, new.shape
    left, top = max(0, x), max(0, y)
    right, bottom = min(width, x + w), min(height, y + h)
    if left >= right or top >= bottom:
        return 0, 0, 0
    part = new[top:bottom, left:right]
    under = old[top - y : bottom - y, left - x : right - x]
    drawn = (part != 0) & (under != 0)
    equal = int(((part == under) & drawn).sum())
    both = int(drawn.sum())
    if equal == both:
        return equal, equal, both
    apart = _bytes(part[drawn]).astype(np.int16) - _bytes(under[drawn])
    return equal, int((np.abs(apart) <= NEAR_STEP).all(axis=1).sum()), both


def _bytes(colours: Art) -> NDArray[np.uint8]:
    return np.ascontiguousarray(colours).view(np.uint8).reshape(-1, 4)


def _histogram(art: Art) -> NDArray[np.float32]:
    samples = _bytes(art[art != 0]) >> 6
    numbers = (samples[:, 0].astype(np.intp) << 4) + (samples[:, 1] << 2) + samples[:, 2]
    counts = np.bincount(numbers, minlength=_BINS)
    share = counts * 65025 // max(1, int(counts.sum()))
    return np.sqrt(share).astype(np.uint8).astype(np.float32)


def _digest(shape: tuple[int, ...], content: bytes) -> bytes:
    return blake2b(f"{shape}".encode() + content, digest_size=16).digest()

"""Describes the outline of a frame as spans of rows, for collisions that a box is too coarse for."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scenekit.symmetry.flips import H, V

Pair = tuple[int, int]

EMPTY = (0, 0)
"""The span of a row without art."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """For each row of a frame the span from its first to its last art pixel.

    width    of the frame, px
    spans    (left, length) of each row from the top, in px from the frame's left; (0, 0) without art
    filled   pixels inside spans that are no art
    """

    width: int
    spans: tuple[Pair, ...]
    filled: int

    def flipped(self, flip: int) -> "Outline":
        """Return the outline of the flipped frame."""
        rows = self.spans[::-1] if flip & V else self.spans
        if flip & H:
            rows = tuple((self.width - left - length if length else 0, length) for left, length in rows)
        return Outline(width=self.width, spans=rows, filled=self.filled)

    def covers(self, x: int, y: int) -> bool:
        """Say whether a pixel of the frame lies in a span."""
        if not 0 <= y < len(self.spans):
            return False
        left, length = self.spans[y]
        return left <= x < left + length


def outline(mask: NDArray[np.bool_]) -> Outline:
    """Return the outline of a frame.

    mask   (H, W) bool, True where art is
    """
    first = mask.argmax(axis=1)
    last = mask.shape[1] - 1 - mask[:, ::-1].argmax(axis=1)
    spans = tuple(
        (int(left), int(right - left) + 1) if drawn else EMPTY
        for left, right, drawn in zip(first, last, (mask.sum(axis=1) > 0).tolist(), strict=True)
    )
    inside = sum(length for _, length in spans)
    return Outline(width=mask.shape[1], spans=spans, filled=inside - int(mask.sum()))


def touch(first: Outline, second: Outline, offset: Pair) -> bool:
    """Say whether two outlines share a pixel.

    offset   (x, y) of the second frame's top left from the first one's
    """
    x, y = offset
    for row in range(max(0, y), min(len(first.spans), len(second.spans) + y)):
        left, length = first.spans[row]
        other, breadth = second.spans[row - y]
        if length and breadth and left < other + x + breadth and other + x < left + length:
            return True
    return False

"""Say how surprising the measures of a grid are before the picture is looked at, in bits."""

from functools import lru_cache
from math import log2

GUTTER_LIMIT = 8
"""Widest gutter that is looked for."""
MOVED_BITS = 6.0
LOPSIDED_BITS = 4.0
"""A border on one side of the picture only."""
ASPECT_BITS = 2.0
"""What a cell costs that is twice as long as wide, or half."""
GUTTERS = {0: 0.5, 1: 4.0, 2: 4.0, 4: 6.0, 3: 7.0}


@lru_cache(maxsize=1 << 14)
def size_bits(size: int) -> float:
    """Return the surprise of one side of a cell: powers of two and multiples of eight are common practice."""
    spread = log2(size + 1) / 2
    if size & (size - 1) == 0:
        return 1.0 + spread
    for step, bits in ((16, 2.0), (8, 3.0), (10, 3.5), (4, 4.5), (5, 4.5), (2, 5.0)):
        if size % step == 0:
            return bits + spread
    return 6.0 + spread


def gutter_bits(gutter: int) -> float:
    """Return the surprise of a gutter; none is usual, narrow ones are common practice."""
    return GUTTERS.get(gutter, 7.0 + log2(gutter + 1))


def margin_bits(margin: int, gutter: int, period: int) -> float:
    """Return the surprise of a margin; none, one gutter and half a gutter are common practice."""
    if margin == 0:
        return 0.5
    if gutter and margin in (gutter, gutter / 2):
        return 1.5
    return 1.0 + min(log2(period), 2 * log2(abs(margin) + 1))


def fit_bits(length: int, margin: int, cell: int, gutter: int) -> float:
    """Return the surprise of what is left over at the far side of the picture."""
    period = cell + gutter
    rest = (length - margin) % period
    if rest == 0:
        return 3.0 if gutter else 0.0
    if rest == (cell + margin) % period:
        return 0.0
    if rest == cell:
        return LOPSIDED_BITS
    if rest > cell:
        return 2.0
    if rest * 2 > cell:
        return 2.0 + 1.5 * log2(cell - rest + 1)
    return 3.0 if length & (length - 1) == 0 else 4.0


def moved_bits(length: int, margin: int, cell: int, gutter: int) -> float:
    """Return the surprise of a grid that is moved although its period divides the picture without a rest.

    A cropped sheet or one with a border hardly ever has such a length by chance: one in a period does.
    """
    period = cell + gutter
    if length % period or margin in (0, gutter, gutter / 2):
        return 0.0
    return log2(period) + MOVED_BITS


@lru_cache(maxsize=1 << 16)
def axis_bits(length: int, margin: int, cell: int, gutter: int) -> float:
    """Return the surprise of a whole axis."""
    if cell >= length:
        return 1.0
    return moved_bits(length, margin, cell, gutter) + (
        size_bits(cell)
        + gutter_bits(gutter)
        + margin_bits(margin, gutter, cell + gutter)
        + fit_bits(length, margin, cell, gutter)
    )


def aspect_bits(width: int, height: int) -> float:
    """Return the surprise of a cell's shape: the longer than wide it is, the rarer."""
    return ASPECT_BITS * abs(log2(width / height))


@lru_cache(maxsize=1 << 14)
def least_bits(period: int) -> float:
    """Return the least surprise of any axis of one period that has two cells or more."""
    gutters = range(min(GUTTER_LIMIT, period - 2) + 1)
    least = min(size_bits(period - gutter) + gutter_bits(gutter) for gutter in gutters)
    return least + margin_bits(0, 0, period)

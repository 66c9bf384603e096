"""Which pairs of whole numbers differ, of many."""

import numpy as np
from numpy.typing import NDArray

Whole = NDArray[np.int64]
MARKS_A_PAIR = 32
"""Pairs that there can be, for each there is, up to which all are marked or not; else they are sorted."""


def distinct_pairs(first: Whole, second: Whole) -> tuple[Whole, Whole, Whole]:
    """Return the pairs that differ, in rising order of the first number and then of the second, and which of
    them each pair is.
    """
    if not len(first):
        return first, second, np.zeros(0, dtype=np.int64)
    low = int(first.min()), int(second.min())
    span = int(second.max()) - low[1] + 1
    codes = (first - low[0]) * span + (second - low[1])
    count = int(codes.max()) + 1
    if count > MARKS_A_PAIR * len(codes):
        different, which = np.unique(codes, return_inverse=True)
    else:
        marks = np.zeros(count, dtype=bool)
        marks[codes] = True
        different = np.flatnonzero(marks)
        numbers = np.empty(count, dtype=np.int32)
        numbers[different] = np.arange(len(different), dtype=np.int32)
        which = numbers.take(codes)
    rows = different // span
    return low[0] + rows, low[1] + different - rows * span, which

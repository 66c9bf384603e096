"""Differences from one number to the next, as runs."""

from collections.abc import Sequence

from scenekit.tables import runs
from scenekit.tables.encoding import Bytes, Encoding


def encode(numbers: Sequence[int], wide: int, row: int) -> bytes:
    """Return the runs of differences, each taken round the largest number; the first counts from 0."""
    size = 256**wide
    differences = [(b - a) % size for a, b in zip([0, *numbers], numbers, strict=False)]
    return runs.encode(differences, wide, 0)


def decode(data: Bytes, count: int, wide: int) -> list[int]:
    """Return the numbers."""
    numbers, last = [], 0
    for difference in runs.decode(data, count, wide):
        last = (last + difference) % 256**wide
        numbers.append(last)
    return numbers


PLUGIN = Encoding(
    name="delta",
    code=3,
    meaning="differences from number to number, as runs",
    encode=encode,
    decode=decode,
    routine="unpack_delta",
    example=((10, 12, 14, 16, 15), 1, 0, bytes([0, 10, 129, 2, 0, 255])),
)

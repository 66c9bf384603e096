"""Runs of equal numbers: a byte below 128 announces different ones, any other a run."""

from collections.abc import Sequence

from scenekit.errors import EncodingError
from scenekit.tables.encoding import Bytes, Encoding, number_bytes

MOST_DIFFERENT = 128
MOST_EQUAL = 129
"""Byte 128 announces 2 equal numbers, byte 255 announces 129."""


def encode(numbers: Sequence[int], wide: int, row: int) -> bytes:
    """Return the runs; two equal numbers between different ones stay among these."""
    result = bytearray()
    different: list[int] = []
    place = 0

    def flush() -> None:
        if different:
            result.append(len(different) - 1)
            for number in different:
                result.extend(number_bytes(number, wide))
            different.clear()

    while place < len(numbers):
        length, most = 1, min(MOST_EQUAL, len(numbers) - place)
        while length < most and numbers[place + length] == numbers[place]:
            length += 1
        if length > 2 or (length == 2 and not different):
            flush()
            result.append(126 + length)
            result.extend(number_bytes(numbers[place], wide))
        else:
            length = 1
            different.append(numbers[place])
            if len(different) == MOST_DIFFERENT:
                flush()
        place += length
    flush()
    return bytes(result)


def decode(data: Bytes, count: int, wide: int) -> list[int]:
    """Return the numbers."""
    numbers: list[int] = []
    while len(numbers) < count:
        head = data.byte()
        if head < 128:
            numbers += [data.number(wide) for _ in range(head + 1)]
        else:
            numbers += [data.number(wide)] * (head - 126)
    if len(numbers) != count:
        raise EncodingError(f"runs: {len(numbers)} numbers; {count} awaited")
    return numbers


PLUGIN = Encoding(
    name="runs",
    code=2,
    meaning="runs of equal numbers",
    encode=encode,
    decode=decode,
    routine="unpack_runs",
    example=((5, 5, 5, 5, 1, 2), 1, 0, bytes([130, 5, 1, 1, 2])),
)

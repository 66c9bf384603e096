"""Numbers one after the other."""

from collections.abc import Sequence

from scenekit.tables.encoding import Bytes, Encoding, number_bytes


def encode(numbers: Sequence[int], wide: int, row: int) -> bytes:
    """Return every number in full."""
    return b"".join(number_bytes(number, wide) for number in numbers)


def decode(data: Bytes, count: int, wide: int) -> list[int]:
    """Return the numbers."""
    return [data.number(wide) for _ in range(count)]


PLUGIN = Encoding(
    name="raw",
    code=0,
    meaning="every number in full",
    encode=encode,
    decode=decode,
    routine="unpack_raw",
    example=((7, 0, 300), 2, 0, bytes([0, 7, 0, 0, 1, 44])),
)

"""What an encoding is, and how numbers stand in its bytes."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from scenekit.errors import EncodingError


@dataclass(frozen=True, slots=True, kw_only=True)
class Encoding:
    """A way to write numbers that are not negative as bytes.

    code     its number in a table's first byte, 0 to 14
    meaning  one sentence
    encode   numbers, bytes a number, cells a row (0 is none) -> bytes; None when it cannot
    decode   bytes, count, bytes a number -> numbers; raises EncodingError for bytes it cannot have written
    routine  file of neutral routines that undoes it
    example  numbers, bytes a number, cells a row, and their bytes, worked out by hand
    """

    name: str
    code: int
    meaning: str
    encode: Callable[[Sequence[int], int, int], bytes | None]
    decode: Callable[["Bytes", int, int], list[int]]
    routine: str
    example: tuple[tuple[int, ...], int, int, bytes]


class Bytes:
    """Bytes that are read in order."""

    def __init__(self, data: bytes) -> None:
        self.data = data
        self.at = 0

    def byte(self) -> int:
        """Return the next byte."""
        if self.at >= len(self.data):
            raise EncodingError(f"encoded table: ends after {len(self.data)} bytes; more are needed")
        self.at += 1
        return self.data[self.at - 1]

    def number(self, wide: int) -> int:
        """Return the next number, its high byte first."""
        value = 0
        for _ in range(wide):
            value = 256 * value + self.byte()
        return value


def number_bytes(value: int, wide: int) -> bytes:
    """Return a number, its high byte first."""
    return value.to_bytes(wide, "big")

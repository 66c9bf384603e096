"""Rows of a map that repeat earlier rows."""

from collections.abc import Sequence

from scenekit.errors import EncodingError
from scenekit.tables import runs
from scenekit.tables.encoding import Bytes, Encoding

MOST_BACK = 255
LONGEST_ROW = 255


def encode(numbers: Sequence[int], wide: int, row: int) -> bytes | None:
    """Return cells a row, then for each row how many rows back it stands already, or 0 and its runs."""
    if not 1 < row <= LONGEST_ROW or len(numbers) < 2 * row:
        return None
    result = bytearray([row])
    seen: list[tuple[int, ...]] = []
    for start in range(0, len(numbers), row):
        cells = tuple(numbers[start : start + row])
        back = next((n for n in range(1, min(len(seen), MOST_BACK) + 1) if seen[-n] == cells), 0)
        result.append(back)
        if not back:
            result += runs.encode(list(cells), wide, 0)
        seen.append(cells)
    return bytes(result)


def decode(data: Bytes, count: int, wide: int) -> list[int]:
    """Return the numbers."""
    row, numbers = data.byte(), list[int]()
    while len(numbers) < count:
        back = data.byte()
        length = min(row, count - len(numbers))
        if back * row > len(numbers) or not row:
            raise EncodingError(f"rows: {back} rows back; only {len(numbers)} numbers stand before")
        if back:
            start = len(numbers) - back * row
            numbers += numbers[start : start + length]
        else:
            numbers += runs.decode(data, length, wide)
    return numbers


PLUGIN = Encoding(
    name="rows",
    code=4,
    meaning="rows of a map, equal ones once",
    encode=encode,
    decode=decode,
    routine="unpack_rows",
    example=((1, 2, 3, 3, 1, 2), 1, 2, bytes([2, 0, 1, 1, 2, 0, 128, 3, 2])),
)

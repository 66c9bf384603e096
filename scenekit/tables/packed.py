"""Encodes tables, each the way that makes it smallest, and decodes them again."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from scenekit.errors import EncodingError
from scenekit.routines.language import Table
from scenekit.tables import encodings
from scenekit.tables.encoding import Bytes, Encoding, number_bytes

LOWS = (0, -1)
"""Lowest numbers that take no bytes of their own; kind 2 is followed by two bytes, low + 32768."""
LOW_BIAS = 32_768
MOST_WIDE = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """How a table was encoded.

    values         how many
    decimal_bytes  its values as decimal text with commas
    data           its bytes: 16 x encoding + 4 x kind of low + bytes a number, the low, the numbers
    """

    table: str
    encoding: str
    values: int
    decimal_bytes: int
    data: bytes


def encode_table(values: Sequence[int], row: int, known: Mapping[str, Encoding]) -> tuple[str, bytes]:
    """Return the name of the encoding that makes a table smallest, and its bytes.

    row     cells a row where the table is a map, else 0
    raises  EncodingError: values too far apart
    """
    low = min((0, *values)) if min(values, default=0) >= -1 else min(values)
    wide = max(1, (max((value - low for value in values), default=0).bit_length() + 7) // 8)
    if wide > MOST_WIDE or not -LOW_BIAS <= low <= LOW_BIAS:
        raise EncodingError(f"table: values from {low} to {max(values)}; at most 16777215 apart")
    kind = LOWS.index(low) if low in LOWS else 2
    numbers = [value - low for value in values]
    best: tuple[str, bytes] | None = None
    for name, encoding in known.items():
        body = encoding.encode(numbers, wide, row)
        if body is not None:
            head = bytes([16 * encoding.code + 4 * kind + wide])
            data = head + (number_bytes(low + LOW_BIAS, 2) if kind == 2 else b"") + body
            if best is None or len(data) < len(best[1]):
                best = (name, data)
    if best is None:
        raise EncodingError("table: no encoding takes it")
    return best


def decode_table(data: Bytes, count: int, known: Mapping[str, Encoding]) -> list[int]:
    """Return the values of a table.

    raises   EncodingError
    """
    head = data.byte()
    encoding = next((e for e in known.values() if e.code == head // 16), None)
    wide, kind = head % 4, head // 4 % 4
    if encoding is None or not 1 <= wide <= MOST_WIDE or kind > 2:
        raise EncodingError(f"encoded table: got first byte {head}; no encoding writes that")
    low = LOWS[kind] if kind < 2 else data.number(2) - LOW_BIAS
    return [number + low for number in encoding.decode(data, count, wide)]


def encode_tables(tables: Sequence[Table], rows: Mapping[str, int]) -> tuple[Choice, ...]:
    """Encode tables, decode them again and compare.

    rows   cells a row, by the name of tables that are maps
    raises EncodingError
    """
    known = encodings()
    choices = []
    for table in tables:
        if not table.values:
            continue
        name, data = encode_table(table.values, rows.get(table.name, 0), known)
        again = Bytes(data)
        if tuple(decode_table(again, len(table.values), known)) != table.values or again.at != len(data):
            raise AssertionError(f"table {table.name}: {name} does not give its values again")
        choices.append(
            Choice(
                table=table.name,
                encoding=name,
                values=len(table.values),
                decimal_bytes=sum(len(str(value)) + 1 for value in table.values),
                data=data,
            )
        )
    return tuple(choices)

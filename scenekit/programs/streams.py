"""The tables of several scenes as streams: in files of bytes, or one after the other in DATA."""

from collections.abc import Callable, Container, Sequence
from dataclasses import dataclass

from scenekit.programs.unpack import pack_tables
from scenekit.routines.language import Table
from scenekit.tables import encodings
from scenekit.tables.encoding import number_bytes
from scenekit.tables.forms import DECIMAL, RADIX, Form, to_decimal, to_hexadecimal, to_radix
from scenekit.tables.packed import Choice, encode_tables
from scenekit.tables.scenes import SceneTables

FILE_WORDS = ("file_open", "file_byte", "file_close")
LENGTH_BYTES = 3
WHOLE_BYTES = 6
"""Bytes that every form of DATA ends on a whole sign or number with."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Streams:
    """The tables of several scenes, ready to be read.

    form            how they stand in DATA, None in files or as plain numbers
    in_files        they are read from files of bytes
    shared, scenes  bytes for these files, empty otherwise
    text, data      what stands in DATA
    skips           signs or numbers of DATA before each scene's tables, then in all
    used            encodings used
    """

    form: Form | None
    in_files: bool
    shared: bytes
    scenes: tuple[bytes, ...]
    text: str
    data: tuple[Table, ...]
    skips: tuple[int, ...]
    used: tuple[str, ...]


def encode_one(_part: str, table: Table, row: int) -> tuple[Choice, ...]:
    """Encode a table of what all scenes share, or of one scene; none where it is empty.

    row   cells a row where it is a map
    """
    return encode_tables([table], {"map_cell": row})


def stream_tables(
    tables: SceneTables,
    columns: Sequence[int],
    *,
    words: Container[str],
    high: int,
    plain: bool,
    encode: Callable[[str, Table, int], tuple[Choice, ...]] = encode_one,
) -> Streams:
    """Return the tables of several scenes as a dialect reads them.

    columns  cells a row of each scene's maps
    words    that the dialect spells
    high     its largest integer
    plain    leave them as plain numbers
    encode   as encode_one does, which is told a scene by its number and shared tables by ""
    """
    choices = [choice for table in tables.shared for choice in encode("", table, 0)]
    packed = None if plain else pack_tables(choices, words, high)
    in_files = not plain and all(word in words for word in FILE_WORDS)
    if packed is None and not in_files:
        return _plain(tables)
    shared = b"".join(choice.data for choice in choices)
    used = {choice.encoding for choice in choices}
    scenes = []
    for number, (own, row) in enumerate(zip(tables.scenes, columns, strict=True)):
        data = b""
        for table in own:
            data += number_bytes(len(table.values), LENGTH_BYTES)
            for choice in encode(str(number), table, row):
                data += choice.data
                used.add(choice.encoding)
        scenes.append(data)
    names = tuple(name for name in encodings() if name in used)
    if in_files:
        return Streams(
            form=None,
            in_files=True,
            shared=shared,
            scenes=tuple(scenes),
            text="",
            data=(),
            skips=(),
            used=names,
        )
    assert packed is not None
    return _in_data(packed.form, [shared, *scenes], names)


def _in_data(form: Form, parts: Sequence[bytes], used: tuple[str, ...]) -> Streams:
    """Return streams that stand in DATA one after the other, each beginning with a whole sign or number."""
    padded = [part + bytes(-len(part) % WHOLE_BYTES) for part in parts]
    whole = b"".join(padded)
    starts = [sum(len(part) for part in padded[:number]) for number in range(1, len(padded) + 1)]
    if form is DECIMAL:
        text, skips = "", [start // 2 for start in starts]
    elif form is RADIX:
        text, skips = to_radix(whole), [start // 3 * 4 for start in starts]
    else:
        text, skips = to_hexadecimal(whole), [start * 2 for start in starts]
    numbers = (Table("packed", to_decimal(whole), "the tables, encoded"),) if form is DECIMAL else ()
    return Streams(
        form=form,
        in_files=False,
        shared=b"",
        scenes=(b"",) * (len(parts) - 1),
        text=text,
        data=numbers,
        skips=tuple(skips),
        used=used,
    )


def _plain(tables: SceneTables) -> Streams:
    """Return the tables as plain numbers in DATA, each of a scene after its length."""
    data = list(tables.shared)
    at = sum(len(table.values) for table in data)
    skips = []
    for number, own in enumerate(tables.scenes):
        skips.append(at)
        for table in own:
            values = (len(table.values), *table.values)
            data.append(Table(f"{table.name} of scene {number}", values, table.remark))
            at += len(values)
    return Streams(
        form=None,
        in_files=False,
        shared=b"",
        scenes=(b"",) * len(tables.scenes),
        text="",
        data=tuple(data),
        skips=(*skips, at),
        used=(),
    )

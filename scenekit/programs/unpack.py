"""What a program needs to unpack its tables: their text, and the routines for the encodings used."""

from collections.abc import Container, Sequence
from dataclasses import dataclass

from scenekit.routines.language import Routine, Table
from scenekit.routines.library import gather
from scenekit.routines.parse import parse_routines
from scenekit.tables import encodings
from scenekit.tables.forms import (
    DECIMAL,
    DECIMAL_HIGH,
    FORMS,
    RADIX,
    Form,
    to_decimal,
    to_hexadecimal,
    to_radix,
)
from scenekit.tables.packed import Choice

START_OF_PACKED = (("share", 1), ("text_at", 0), ("text_long", 0))
"""Variables that must be set before the first byte is read."""
DECIMAL_WORDS = DECIMAL.words
ROUTINE_BYTES = 2500
"""About what the unpacking routines add to a program's text."""

HEAD = """
' Unpacks the next N values of the tables into the array unpacked.
routine unpack(n)
  local i, low, code
  do next_byte
  code = byte div 16
  wide = byte mod 4
  low = 0 - byte div 4 mod 4
  if low = -2
    do next_byte
    low = byte
    do next_byte
    low = low * 256 + byte - 32768
  end
"""
STEP = """  if code = {code}
    do {routine}({arguments})
  end
"""
FOOT = """  if low <> 0
    for i = 0 to n - 1
      unpacked(i) = unpacked(i) + low
    end
  end
end
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Packed:
    """The tables of a program, encoded.

    text       all bytes as text, or "" in decimal form
    tables     all bytes as numbers, in decimal form
    used       names of the encodings used
    data_bytes, decimal_bytes  characters of this form, and of the plain numbers it stands for
    """

    form: Form
    text: str
    tables: tuple[Table, ...]
    used: tuple[str, ...]
    data_bytes: int
    decimal_bytes: int

    @property
    def saves(self) -> bool:
        """Say whether the program gets shorter, its unpacking routines included."""
        return self.data_bytes + ROUTINE_BYTES < self.decimal_bytes


def pack_tables(choices: Sequence[Choice], words: Container[str], high: int) -> Packed | None:
    """Return encoded tables in the shortest form that a dialect can read, or None when it can read none.

    high   largest integer of the dialect
    """
    form = next((f for f in FORMS if all(word in words for word in f.words)), None)
    if form is None or (form is DECIMAL and high < DECIMAL_HIGH) or not choices:
        return None
    return in_form(choices, form)


def in_form(choices: Sequence[Choice], form: Form) -> Packed:
    """Return encoded tables in one form."""
    data = b"".join(choice.data for choice in choices)
    text = "" if form is DECIMAL else to_radix(data) if form is RADIX else to_hexadecimal(data)
    numbers = to_decimal(data) if form is DECIMAL else ()
    tables = (Table("packed", numbers, "the tables, encoded"),) if numbers else ()
    return Packed(
        form=form,
        text=text,
        tables=tables,
        used=tuple(name for name in encodings() if any(choice.encoding == name for choice in choices)),
        data_bytes=len(text) + sum(len(str(number)) + 1 for number in numbers),
        decimal_bytes=sum(choice.decimal_bytes for choice in choices),
    )


def unpack_routines(packed: Packed) -> list[Routine]:
    """Return the routines that unpack tables: the form's, the numbers', and those of the encodings used."""
    return decoding_routines(packed.used, packed.form.routine)


def decoding_routines(used: Sequence[str], source: str) -> list[Routine]:
    """Return the routines that unpack some encodings, and the file of routines that gives the bytes."""
    known = encodings()
    files = [source, "unpack_number"]
    steps = []
    for name in used:
        routine = known[name].routine
        files.append(routine)
        arguments = "0, n" if routine == "unpack_runs" else "n"
        steps.append(STEP.format(code=known[name].code, routine=routine, arguments=arguments))
    if {"delta", "rows"} & set(used) and "unpack_runs" not in files:
        files.append("unpack_runs")
    head = parse_routines(HEAD + "".join(steps) + FOOT, "unpack")
    return [*head, *gather(files)]

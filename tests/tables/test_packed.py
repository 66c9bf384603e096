"""Tables are encoded the smallest way, come back, and are read by every interpreter as they were."""

import random
import zlib
from collections.abc import Sequence

import pytest

from scenekit.build import run_stages
from scenekit.dialects.dialect import load_dialect
from scenekit.dialects.spell import Options, spell
from scenekit.errors import EncodingError
from scenekit.interpreters import readers
from scenekit.interpreters.outcome import Run
from scenekit.programs.unpack import START_OF_PACKED, Packed, in_form, unpack_routines
from scenekit.routines.language import Assign, Call, Element, For, Name, Number, Program, Routine, Table, Word
from scenekit.tables import encodings
from scenekit.tables.encoding import Bytes
from scenekit.tables.forms import DECIMAL, HEXADECIMAL, RADIX, Form
from scenekit.tables.packed import Choice, decode_table, encode_table, encode_tables

KNOWN = encodings()
TEXT_DIALECTS = ("plain", "brandy", "sdlbrt", "yabasic", "pcbasic")
CASES = [(name, RADIX) for name in TEXT_DIALECTS] + [("brandy", HEXADECIMAL), ("plain", HEXADECIMAL)]
CASES += [("ecma55", DECIMAL), ("brandy", DECIMAL)]


@pytest.mark.parametrize(
    ("values", "name"),
    [
        ((3,) * 40, "runs"),
        (tuple(range(100, 900, 3)), "delta"),
        ((1, 5, 2, 7, 0, 6, 3, 4) * 9, "dictionary"),
        (tuple((n * n) % 13 for n in range(7)), "bits"),
    ],
)
def test_the_smallest_is_taken(values, name):
    assert encode_table(values, 0, KNOWN)[0] == name


def test_negative_and_far_values_come_back():
    for values in [(-1, 0, 4), (-300, 70_000, 5), (0, 65_535), (-32_768, 32_767), (9_000_000, 0)]:
        data = encode_table(values, 0, KNOWN)[1]
        assert tuple(decode_table(Bytes(data), len(values), KNOWN)) == values


def test_values_too_far_apart_are_refused():
    with pytest.raises(EncodingError, match="at most 16777215 apart"):
        encode_table((0, 1 << 24), 0, KNOWN)


def test_a_first_byte_that_no_encoding_writes_is_refused():
    with pytest.raises(EncodingError, match="first byte 241"):
        decode_table(Bytes(b"\xf1\x00"), 1, KNOWN)


@pytest.mark.parametrize("scene", ["quay", "pier"])
def test_the_demo_reaches_the_bars(demo, scene):
    build = run_stages(demo, "board", scene, last="encode")
    data = b"".join(choice.data for choice in build.choices)
    decimal = sum(choice.decimal_bytes for choice in build.choices)
    plain = b""
    for table in build.bundle.tables:
        low = min((0, *table.values))
        wide = 1 if max((0, *table.values)) - low < 256 else 2
        plain += b"".join((value - low).to_bytes(wide, "big") for value in table.values)
    assert len(data) <= 1.5 * len(zlib.compress(plain, 9))
    assert build.packed is not None
    assert len(build.packed.text) <= 0.45 * decimal


def random_table(chosen: random.Random, number: int) -> Table:
    """Return a table with values as scenes have them."""
    low, high = chosen.choice([(0, 1), (-1, 40), (0, 255), (-300, 300), (0, 30_000), (-5, 90)])
    kind = chosen.randint(0, 3)
    length = chosen.randint(1, 24)
    if kind == 0:
        values = [chosen.randint(low, high)] * length
    elif kind == 1:
        values = [min(high, low + 2 * n) for n in range(length)]
    elif kind == 2:
        part = [chosen.randint(low, high) for _ in range(4)]
        values = (part * length)[:length]
    else:
        values = [chosen.randint(low, high) for _ in range(length)]
    return Table(f"t{number}", tuple(values))


def every_way(tables: Sequence[Table]) -> tuple[Choice, ...]:
    """Encode tables, each by the next encoding that takes it, so that all are used."""
    choices = []
    names = list(KNOWN)
    for number, table in enumerate(tables):
        for turn in range(len(names)):
            name = names[(number + turn) % len(names)]
            if KNOWN[name].encode([v - min((0, *table.values)) for v in table.values], 2, 4) is not None:
                data = encode_table(table.values, 4, {name: KNOWN[name]})[1]
                choices.append(
                    Choice(
                        table=table.name, encoding=name, values=len(table.values), decimal_bytes=0, data=data
                    )
                )
                break
    return tuple(choices)


def reading_program(tables: Sequence[Table], packed: Packed) -> Program:
    """Return a program that unpacks every table and says its values."""
    body = [Word("rewind", ()), *(Assign(Name(name), Number(value)) for name, value in START_OF_PACKED)]
    for table in tables:
        body.append(Call("unpack", (Number(len(table.values)),)))
        say = Word("say", (Element("unpacked", Name("i")),))
        body.append(For("i", Number(0), Number(len(table.values) - 1), (say,)))
    main = (Word("say_open", ()), Call("load", ()), Word("say_close", ()), Word("quit", ()))
    return Program(
        name="reading",
        remarks=("reading",),
        arrays=(("unpacked", max(len(table.values) for table in tables)),),
        main=main,
        routines=(
            Routine("load", (), ("i",), tuple(body), ("Reads.",)),
            *unpack_routines(packed),
        ),
        tables=packed.tables,
        packed=packed.text,
    )


def said_by(folder, name: str, form: Form, tables: Sequence[Table], choices: tuple[Choice, ...]):
    """Return what an interpreter says that the tables hold."""
    dialect = load_dialect(name, folder)
    reader = readers()[dialect.reader]
    if not reader.available(dialect):
        pytest.skip(f"the interpreter of {name} is missing; to install it: {dialect.package}")
    program = reading_program(tables, in_form(choices, form))
    text = spell(dialect, program, {"art_height": 1, "widest": 1, "highest": 1}, Options())
    file = f"reading{dialect.file_ending}"
    (folder / file).write_text(text, encoding="ascii", newline="\n")
    outcome = reader.run(Run(folder=folder, program=file, dialect=dialect, screens=0, time_limit_s=120))
    return outcome.said


def wanted(tables: Sequence[Table]) -> tuple[int, ...]:
    return tuple(value for table in tables for value in table.values)


@pytest.mark.parametrize(("name", "form"), CASES, ids=[f"{n}-{f.name}" for n, f in CASES])
def test_real_interpreters_unpack_every_encoding(tmp_path, name, form):
    tables = [random_table(random.Random(seed), seed) for seed in range(12)]
    choices = every_way(tables)
    assert {choice.encoding for choice in choices} == set(KNOWN)
    assert said_by(tmp_path, name, form, tables, choices) == wanted(tables)


@pytest.mark.slow
@pytest.mark.parametrize(("name", "form"), CASES, ids=[f"{n}-{f.name}" for n, f in CASES])
def test_real_interpreters_unpack_200_random_tables(tmp_path, name, form):
    tables = [random_table(random.Random(5000 + seed), seed) for seed in range(200)]
    for choices in (every_way(tables), encode_tables(tables, {})):
        assert said_by(tmp_path, name, form, tables, choices) == wanted(tables)

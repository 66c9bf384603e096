"""Makes exported files ready for a board: names, line ends, time, and a program there that checks them."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from scenekit.dialects.dialect import Dialect
from scenekit.dialects.spell import Options, missing_words, spell
from scenekit.dialects.transfer import LINE_ENDS, Transfer
from scenekit.errors import ExportError
from scenekit.programs.proof import SUMS
from scenekit.programs.records import sums_of
from scenekit.routines.language import (
    Assign,
    Binary,
    Call,
    For,
    If,
    Name,
    Number,
    Program,
    Statement,
    Text,
    Word,
)
from scenekit.routines.library import gather

SHORT_NAME = re.compile(r"[A-Za-z0-9_-]{1,8}(\.[A-Za-z0-9_-]{1,3})?")
CHECK_STEM = "check"
BLOCK = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class Shipment:
    """Files as they go to a board.

    names    exported name -> name there
    seconds  what a serial line takes, None for a card
    """

    files: Mapping[str, bytes]
    names: Mapping[str, str]
    seconds: float | None

    @property
    def size_bytes(self) -> int:
        """Return the bytes of all files."""
        return sum(len(data) for data in self.files.values())


def ship(files: Mapping[str, bytes], dialect: Dialect, check: bool = False) -> Shipment:
    """Rename files, set their line ends, and predict how long they take.

    check    add a program that reads each file on the board and says whether it came whole
    raises   ExportError: a line is too long for the way, or the dialect cannot read files
    """
    way = dialect.transfer
    names = names_there(files, way)
    ready = {}
    for name, data in files.items():
        if is_text(name, dialect):
            text = _renamed(data.decode("utf-8"), names)
            _check_lines(name, text, way)
            data = text.replace("\n", LINE_ENDS[way.line_end]).encode("utf-8")
        ready[names[name]] = data
    if check:
        text = check_text(ready, dialect)
        _check_lines(CHECK_STEM, text, way)
        name = f"{CHECK_STEM}{dialect.file_ending}"
        ready[name] = text.replace("\n", LINE_ENDS[way.line_end]).encode("ascii")
    lines = sum(
        data.count(b"\n") or data.count(b"\r") for name, data in ready.items() if is_text(name, dialect)
    )
    size = sum(len(data) for data in ready.values())
    return Shipment(files=ready, names=names, seconds=way.seconds(size, lines))


def is_text(name: str, dialect: Dialect) -> bool:
    """Say whether a file is text, whose line ends may change."""
    return name.lower().endswith((dialect.file_ending, ".txt"))


def names_there(names: Iterable[str], way: Transfer) -> dict[str, str]:
    """Return the name of each file on the board; with 8.3 a long one is cut and numbered."""
    taken = {name.lower() for name in names if SHORT_NAME.fullmatch(name)}
    found = {}
    for name in names:
        if way.names == "any" or SHORT_NAME.fullmatch(name):
            found[name] = name
            continue
        stem, _, ending = name.rpartition(".")
        stem = re.sub(r"[^a-z0-9]", "", stem.lower()) or "file"
        ending = re.sub(r"[^a-z0-9]", "", ending.lower())[:3]
        short = next(
            candidate
            for number in range(1, 10_000)
            if (candidate := f"{stem[: 8 - len(str(number))]}{number}.{ending}") not in taken
        )
        taken.add(short)
        found[name] = short
    return found


def _renamed(text: str, names: Mapping[str, str]) -> str:
    """Put the new names of files where a program names them, within quotes."""
    for old, new in names.items():
        text = text.replace(f'"{old}"', f'"{new}"')
    return text


def _check_lines(name: str, text: str, way: Transfer) -> None:
    longest = max((len(line) for line in text.split("\n")), default=0)
    if way.longest_line and longest > way.longest_line:
        raise ExportError(
            f"{name}: a line of {longest} characters; the way to the board lets {way.longest_line} through: "
            "give the dialect a line_length of that"
        )


def check_text(files: Mapping[str, bytes], dialect: Dialect) -> str:
    """Return a program that says for each file its number and 1 when its bytes came as sent, else 0.

    A file that is too short ends it with the BASIC's own error; bytes behind the awaited ones are seen
    where the dialect has `file_end`.
    raises   ExportError: the dialect cannot read files
    """
    main: list[Statement] = [Word("say_open", ())]
    remarks = ["Says for each file its number, and 1 when it came whole, else 0:"]
    for number, (name, data) in enumerate(files.items(), 1):
        remarks.append(f"{number} {name}, {len(data)} bytes")
        main += _check_one(number, name, data, "file_end" in dialect.words)
    program = Program(
        name=CHECK_STEM,
        remarks=tuple(remarks),
        arrays=(),
        main=(*main, Word("say_close", ()), Word("quit", ())),
        routines=tuple(routine for routine in gather(["report"]) if routine.name == "add_to_sum"),
    )
    missing = missing_words(dialect, program)
    if missing:
        raise ExportError(
            f"dialect {dialect.name}: cannot check files on the board, no spelling for {', '.join(missing)}"
        )
    constants = {
        "screen_width": 0,
        "screen_height": 0,
        "bottom": 0,
        "art_height": 0,
        "widest": 1,
        "highest": 1,
    }
    return spell(dialect, program, constants, Options())


def _check_one(number: int, name: str, data: bytes, ends: bool) -> list[Statement]:
    step: tuple[Statement, ...] = (
        Word("file_byte", (Name("octet"),)),
        Call("add_to_sum", (Name("octet"),)),
    )
    blocks, rest = divmod(len(data), BLOCK)
    body: list[Statement] = [Assign(Name(sum_name), Number(1)) for sum_name in SUMS]
    body.append(Word("file_open", (Text(name),)))
    if blocks:
        inner = For("i", Number(1), Number(BLOCK), step)
        body.append(For("j", Number(1), Number(blocks), (inner,)))
    if rest:
        body.append(For("i", Number(1), Number(rest), step))
    if ends:
        body.append(Word("file_end", (Name("ended"),)))
    body.append(Word("file_close", ()))
    equal = [Binary("=", Name(n), Number(s)) for n, s in zip(SUMS, sums_of(data), strict=True)]
    whole = Binary("and", equal[0], equal[1])
    if ends:
        whole = Binary("and", whole, Binary("=", Name("ended"), Number(1)))
    body += [
        Assign(Name("whole"), Number(0)),
        If(whole, (Assign(Name("whole"), Number(1)),)),
        Word("say", (Number(number),)),
        Word("say", (Name("whole"),)),
    ]
    return body

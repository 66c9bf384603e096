"""Makes exported files ready for a board: names, line ends, time, and a program there that checks them."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

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

    own      the user's own files among them
    names    exported name -> name there
    seconds  what a serial line takes, None for a card
    """

    files: Mapping[str, bytes]
    own: Mapping[str, bytes]
    names: Mapping[str, str]
    seconds: float | None

    @property
    def size_bytes(self) -> int:
        """Return the bytes of all files."""
        return sum(len(data) for data in (*self.files.values(), *self.own.values()))


def ship(
    files: Mapping[str, bytes],
    dialect: Dialect,
    check: bool = False,
    own: Mapping[str, bytes] = MappingProxyType({}),
) -> Shipment:
    """Rename files, set their line ends, and predict how long they take.

    check    add a program that reads each file on the board and says whether it came whole
    own      the user's own files, which go along and are not checked: they may change there
    raises   ExportError: a line is too long for the way, the dialect cannot read files, or the user's program
             could not name the library by its new name
    """
    way = dialect.transfer
    names = names_there([*files, *own], way)
    if own:
        _check_included(names, own, dialect)
    ready, theirs = (
        {names[n]: _ready(n, d, names, dialect) for n, d in some.items()} for some in (files, own)
    )
    if check:
        text = check_text(ready, dialect)
        _check_lines(CHECK_STEM, text, way)
        name = f"{CHECK_STEM}{dialect.file_ending}"
        ready[name] = text.replace("\n", LINE_ENDS[way.line_end]).encode("ascii")
    texts = [data for name, data in (*ready.items(), *theirs.items()) if is_text(name, dialect)]
    lines = sum(data.count(b"\n") or data.count(b"\r") for data in texts)
    size = sum(len(data) for data in (*ready.values(), *theirs.values()))
    return Shipment(files=ready, own=theirs, names=names, seconds=way.seconds(size, lines))


def _ready(name: str, data: bytes, names: Mapping[str, str], dialect: Dialect) -> bytes:
    """Return a file as it is there: with its line ends, and the names of files there."""
    if not is_text(name, dialect):
        return data
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError:
        raise ExportError(f"{name}: is no plain text; export it anew into another folder") from None
    text = _renamed(text.replace("\r\n", "\n"), names)
    _check_lines(name, text, dialect.transfer)
    return text.replace("\n", LINE_ENDS[dialect.transfer.line_end]).encode("utf-8")


def _check_included(names: Mapping[str, str], own: Mapping[str, bytes], dialect: Dialect) -> None:
    """Refuse new names of libraries where a program of the user's own names them without quotes.

    raises   ExportError
    """
    bare = "{name}" in dialect.statements.get("include", "") or "{file}" in dialect.naming.included
    for name, there in names.items():
        named = rb"\b" + re.escape(name.rpartition(".")[0].encode()) + rb"\b"
        if bare and there != name and any(re.search(named, data) for data in own.values()):
            raise ExportError(
                f"{name}: would be {there} on the board, where programs that include it could not name it; "
                "give the project a name of at most 8 letters"
            )


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

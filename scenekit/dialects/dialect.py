"""Reads a dialect: one TOML file of spellings and limits."""

import re
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path

from scenekit.dialects.spellings import (
    ANYWHERE,
    CONSTANTS,
    OPERATORS,
    STATEMENTS,
    check_spelling,
    read_spellings,
)
from scenekit.dialects.transfer import Transfer, read_transfer
from scenekit.errors import DialectError
from scenekit.model.fields import Fields
from scenekit.model.tomlfile import read_toml
from scenekit.records import record
from scenekit.registry import choose, data_files
from scenekit.routines.words import WORDS

TARGETS_FOLDER = Path(__file__).parent / "targets"


@record(frozen=True, slots=True, kw_only=True)
class Naming:
    """How a dialect may name things.

    style      "long": prefix and neutral name; "short": letters and digits given out in order
    scalar     pattern of a variable, with {name}
    array      pattern of an array, with {name}
    routine    pattern of a routine, with {name}
    one_array  name of the single array that holds every table, or ""
    wide_scalar, wide_array  patterns of what may outgrow 16 bits (routines.library.WIDE)
    underscore  what stands for the underscore of neutral names
    included   pattern of what belongs to an included file, with its {file} and {name}
    reserved   names that the dialect keeps for itself, in small letters; a name among them gets an x
    """

    style: str
    scalar: str
    array: str
    routine: str
    one_array: str
    wide_scalar: str
    wide_array: str
    underscore: str
    included: str
    reserved: frozenset[str]


@record(frozen=True, slots=True, kw_only=True)
class Limits:
    """What a dialect cannot exceed; 0 is no limit.

    data_items   values in one DATA statement
    data_total   values in all of them
    array_items  elements of one array
    array_total  elements of all arrays
    integer_high, wide_high  largest number of usual and of wide variables
    line_high    largest line number
    text_length  characters of a text
    memory_bytes  program, arrays and variables together, each array with array_bytes besides its elements
    stored_percent  memory that 100 bytes of program text take once they are loaded
    """

    line_length: int
    data_items: int
    data_total: int
    array_items: int
    array_total: int
    integer_high: int
    wide_high: int
    program_bytes: int
    memory_bytes: int
    stored_percent: int
    array_bytes: int
    line_high: int
    text_length: int
    text_avoid: tuple[int, int]


@record(frozen=True, slots=True, kw_only=True)
class Dialect:
    """A BASIC by its spellings.

    numbered     lines carry numbers
    blocks       has block IF and WHILE; else these are spelled with jumps
    procedures   routines have names, parameters and own variables; else line numbers
    loops_once   FOR runs once although the end lies below the start
    brief        comments take memory when the program runs, so only its title is one
    definitions_first  DATA, arrays and routines must stand before the main part
    statements   spelling by statement, with placeholders in braces
    operators    spelling by operator, with {a} and {b}
    words        spelling by neutral word; lines are separated by a line break
    element_bytes, wide_bytes  size of an element of a usual and of a wide array
    command      argument list that runs a program; {program} is its file
    environment  variables set for that
    reader       name of the plug-in that runs a program and reads its results
    package      what to install to have it, for messages
    transfer     how its files get to where they run
    differs      what it does otherwise than most with the same words, for the porting sheet
    """

    name: str
    summary: str
    file_ending: str
    numbered: bool
    blocks: bool
    procedures: bool
    loops_once: bool
    definitions_first: bool
    brief: bool
    naming: Naming
    limits: Limits
    statements: Mapping[str, str]
    operators: Mapping[str, str]
    words: Mapping[str, str]
    element_bytes: int
    wide_bytes: int
    image_formats: tuple[str, ...]
    command: tuple[str, ...]
    environment: tuple[tuple[str, str], ...]
    reader: str
    package: str
    transfer: Transfer
    differs: tuple[str, ...]

    def bytes_of(self, wide: bool) -> int:
        """Return the bytes of an element of a usual or a wide array."""
        return self.wide_bytes if wide else self.element_bytes


def dialect_names() -> tuple[str, ...]:
    """Return the names of the dialects that ship, sorted."""
    return tuple(data_files(TARGETS_FOLDER))


def load_dialect(name: str, folder: Path) -> Dialect:
    """Return a dialect that ships by name, or one from a TOML file of the project folder.

    raises   UnknownNameError, ProjectError, DialectError
    """
    if name.endswith(".toml"):
        path = folder / name
        if not path.resolve().is_relative_to(folder.resolve()):
            raise DialectError(f"dialect {name}: leads outside the project folder")
        return read_dialect(read_toml(path, f"dialect {path.name}"), path.stem)
    return _installed(choose("dialect", name, data_files(TARGETS_FOLDER)))


@lru_cache(maxsize=32)
def _installed(path: Path) -> Dialect:
    """Return a dialect that came with a package, read once."""
    return read_dialect(read_toml(path, f"dialect {path.name}"), path.stem)


def read_dialect(table: object, name: str) -> Dialect:
    """Build a dialect from a parsed TOML file.

    raises   ProjectError, DialectError: with the key and what is allowed
    """
    fields = Fields(table, f"dialect {name}")
    run = _table(fields, "run")
    element_bytes = fields.integer("element_bytes", 1, 64, 4)
    dialect = Dialect(
        name=name,
        summary=fields.text("summary"),
        file_ending=_ending(fields),
        numbered=fields.flag("numbered"),
        blocks=fields.flag("blocks"),
        procedures=fields.flag("procedures"),
        loops_once=fields.flag("loops_once", False),
        brief=fields.flag("brief", False),
        definitions_first=fields.flag("definitions_first", False),
        naming=_naming(_table(fields, "names")),
        limits=_limits(_table(fields, "limits")),
        statements=read_spellings(
            _table(fields, "statements"), {key: (*known, *ANYWHERE) for key, known in STATEMENTS.items()}
        ),
        operators=read_spellings(_table(fields, "operators"), dict.fromkeys(OPERATORS, ("a", "b"))),
        words=read_spellings(
            _table(fields, "words"),
            {word: (*fact.parameters, *CONSTANTS) for word, fact in WORDS.items()},
            several_lines=True,
        ),
        element_bytes=element_bytes,
        wide_bytes=fields.integer("wide_bytes", 1, 64, element_bytes),
        image_formats=fields.names("image_formats", []),
        command=_texts(run, "command", "arguments"),
        environment=_environment(run),
        reader=run.text("reader", ""),
        package=run.text("package", ""),
        transfer=read_transfer(_table(fields, "transfer")),
        differs=_texts(fields, "differs", "texts"),
    )
    run.done()
    fields.done()
    return dialect


def _table(fields: Fields, key: str) -> Fields:
    fields.asked.add(key)
    return Fields(fields.table.get(key, {}), f"{fields.where}: {key}")


def _ending(fields: Fields) -> str:
    ending = fields.text("file_ending", ".bas")
    if not re.fullmatch(r"\.[a-z0-9]{1,8}", ending):
        raise fields.error("file_ending", ending, "a dot and 1 to 8 small letters or digits")
    return ending


def _naming(fields: Fields) -> Naming:
    scalar, array = fields.text("scalar", "{name}"), fields.text("array", "{name}")
    naming = Naming(
        style=fields.choice("style", ("long", "short")),
        scalar=scalar,
        array=array,
        routine=fields.text("routine", "{name}"),
        one_array=fields.text("one_array", ""),
        wide_scalar=fields.text("wide_scalar", scalar),
        wide_array=fields.text("wide_array", array),
        underscore=fields.text("underscore", "_"),
        included=fields.text("included", "{name}"),
        reserved=frozenset(name.lower() for name in fields.names("reserved", [])),
    )
    for key in ("scalar", "array", "routine", "wide_scalar", "wide_array"):
        check_spelling(fields, key, getattr(naming, key), ("name",))
    check_spelling(fields, "included", naming.included, ("file", "name"))
    if naming.underscore not in ("_", ".", ""):
        raise fields.error("underscore", naming.underscore, 'one of "_", "." and ""')
    fields.done()
    return naming


def _limits(fields: Fields) -> Limits:
    huge = 1_000_000_000
    integer_high = fields.integer("integer_high", 255, 1 << 62, 32_767)
    limits = Limits(
        line_length=fields.integer("line_length", 20, huge),
        data_items=fields.integer("data_items", 0, huge, 0),
        data_total=fields.integer("data_total", 0, huge, 0),
        array_items=fields.integer("array_items", 0, huge, 0),
        array_total=fields.integer("array_total", 0, huge, 0),
        integer_high=integer_high,
        wide_high=fields.integer("wide_high", integer_high, 1 << 62, integer_high),
        program_bytes=fields.integer("program_bytes", 0, huge, 0),
        memory_bytes=fields.integer("memory_bytes", 0, huge, 0),
        stored_percent=fields.integer("stored_percent", 1, 1000, 100),
        array_bytes=fields.integer("array_bytes", 0, 255, 8),
        line_high=fields.integer("line_high", 999, huge, 9999),
        text_length=fields.integer("text_length", 0, huge, 0),
        text_avoid=_avoided(fields),
    )
    fields.done()
    return limits


def _avoided(fields: Fields) -> tuple[int, int]:
    """Return (a, b): texts whose length leaves b when divided by a are made one longer."""
    a, b = fields.integers("text_avoid", 2, 0, 255, (0, 0))
    return a, b


def _texts(fields: Fields, key: str, what: str) -> tuple[str, ...]:
    fields.asked.add(key)
    values = fields.table.get(key, [])
    if not isinstance(values, list) or not all(isinstance(v, str) and v.isprintable() for v in values):
        raise fields.error(key, values, f"a list of {what}")
    return tuple(values)


def _environment(fields: Fields) -> tuple[tuple[str, str], ...]:
    fields.asked.add("environment")
    values = fields.table.get("environment", {})
    good = isinstance(values, Mapping) and all(
        isinstance(v, str) and v.isprintable() for v in values.values()
    )
    if not good or not all(re.fullmatch(r"[A-Z][A-Z0-9_]{0,40}", str(key)) for key in values):
        raise fields.error("environment", values, 'a table such as { SDL_VIDEODRIVER = "dummy" }')
    return tuple(sorted((str(key), str(value)) for key, value in values.items()))

"""What programs are assembled from, and the counters of those that count."""

from collections.abc import Sequence
from dataclasses import dataclass

from scenekit.machines.abilities import DRAWING, ROUTINE_WORK
from scenekit.plan.schemes import Abilities, Scheme
from scenekit.programs.pacing import Pace
from scenekit.programs.unpack import Packed
from scenekit.routines.language import (
    Assign,
    Element,
    Expression,
    For,
    Name,
    Number,
    Routine,
    Statement,
    Table,
    Word,
)
from scenekit.tables.bundle import Bundle

COUNTED = (*(operation for operation in DRAWING if operation != "plot"), *ROUTINE_WORK)


@dataclass(frozen=True, slots=True, kw_only=True)
class Parts:
    """What a program is assembled from.

    size      (width, height) of the screen
    art_file  name of the file that holds the pieces, or ""
    packed    the encoded tables, where that is shorter than their numbers in DATA
    counting  whether calls and pixels of every operation are counted and reported
    changes   whether only what changed is drawn, and the rest moved along
    map_file  name of the file that holds large maps, or ""
    keys      the dialect can tell which keys are held
    pace      how the playing program keeps time, or None where it has no clock
    """

    name: str
    title: tuple[str, ...]
    scheme: Scheme
    abilities: Abilities
    bundle: Bundle
    size: tuple[int, int]
    art_file: str
    counting: bool = False
    packed: Packed | None = None
    changes: bool = False
    map_file: str = ""
    keys: bool = False
    pace: Pace | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Loading:
    """How a program comes by its tables and art.

    routines  made for it, `load` first
    files     of routines that these need
    arrays    every array with its size, tables included
    tables    what stands in DATA as numbers
    packed    what stands there as text
    """

    routines: tuple[Routine, ...]
    files: tuple[str, ...]
    arrays: tuple[tuple[str, int], ...]
    tables: tuple[Table, ...]
    packed: str


def set_variables(variables: Sequence[tuple[str, int]]) -> list[Statement]:
    """Return the assignments of constants."""
    return [Assign(Name(name), Number(value)) for name, value in variables]


def fill_array(name: str, last: Expression, packed: bool) -> For:
    """Return the loop that fills an array up to a place: from what was unpacked, or from DATA."""
    place = Element(name, Name("i"))
    fill: Statement = Assign(place, Element("unpacked", Name("i"))) if packed else Word("read", (place,))
    return For("i", Number(0), last, (fill,))


def open_display(parts: Parts) -> list[Statement]:
    """Return what opens the display, where the program draws."""
    opened: list[Statement] = [Assign(Name("pages"), Number(parts.abilities.pages))]
    if parts.scheme.draws:
        mode = "mode_direct" if parts.abilities.direct else "mode"
        opened.append(Word(mode, (Number(parts.size[0]), Number(parts.size[1]))))
    return opened


def counters(operation: str) -> tuple[Name, Name]:
    """Return the variables that count calls and pixels of an operation."""
    name = operation.replace("-", "_")
    return Name(f"calls_{name}"), Name(f"pixels_{name}")


def reset_counts() -> list[Statement]:
    """Return the assignments that set all counters to 0."""
    return [Assign(name, Number(0)) for operation in COUNTED for name in counters(operation)]

"""Says what a dialect does not spell, and what each missing word costs."""

from collections.abc import Mapping
from dataclasses import dataclass

from scenekit.dialects.dialect import Dialect
from scenekit.dialects.spellings import OPERATORS
from scenekit.plan.schemes import BLIT, FRAME_WORDS, PAGE, RUNS
from scenekit.routines.words import WORDS

ALWAYS = ("rewind", "read", "stops_open", "stop_next", "say_open", "say", "say_close", "quit")
NO_PROGRAM = "program at all"
BLOCKS = ("while", "end_while", "if", "else", "end_if")
JUMPS = ("if_goto", "goto")
PROCEDURES = ("call", "routine", "routine_plain", "local")
EVERYWHERE = ("assign", "for", "next", "call_plain", "end_routine", "return", "dim", "data", "remark", "end")


@dataclass(frozen=True, slots=True, kw_only=True)
class Lack:
    """A spelling that is missing.

    needed  nothing works without it
    costs   features lost with it, in words
    """

    name: str
    needed: bool
    costs: tuple[str, ...]


def features(direct: bool) -> Mapping[str, tuple[str, ...]]:
    """Return every feature with the words that it takes.

    direct   pixels hold colours rather than entries
    """
    colour = ("mode_direct", "ink_rgb") if direct else ("mode", "palette", "ink")
    drawing = (*colour, *FRAME_WORDS)
    return {
        "drawing by copies from an image file": (*drawing, *BLIT.words),
        "drawing by copies from a hidden page": (*drawing, *PAGE.words),
        "drawing by runs of one colour": (*drawing, *RUNS.words),
        "packed tables, which make programs short": ("take_text", "text_code"),
        "saving its screen, which proves pictures": ("save_screen",),
        "leaving the playing program by a key": ("key",),
        "steering by keys": ("keys_held",),
        "playing a script of keys": ("keys_open", "keys_next"),
        "proving pictures that are not saved, by sums of rows": ("see",),
        "measuring what drawing costs": ("clock",),
        "checking on the board whether files came whole": ("file_open", "file_byte", "file_close"),
        "seeing there that a file came too long": ("file_end",),
    }


def lacks(dialect: Dialect, direct: bool = False) -> tuple[Lack, ...]:
    """Return every spelling that a dialect does not have; first those that nothing works without."""
    found = [Lack(name=name, needed=True, costs=(NO_PROGRAM,)) for name in _structure(dialect)]
    taking = features(direct)
    for word in WORDS:
        if word in dialect.words:
            continue
        if word in ALWAYS:
            found.append(Lack(name=word, needed=True, costs=(NO_PROGRAM,)))
            continue
        costs = tuple(feature for feature, words in taking.items() if word in words)
        if costs:
            found.append(Lack(name=word, needed=False, costs=costs))
    return tuple(sorted(found, key=lambda lack: not lack.needed))


def _structure(dialect: Dialect) -> list[str]:
    needed = [*EVERYWHERE]
    needed += BLOCKS if dialect.blocks else JUMPS
    needed += PROCEDURES if dialect.procedures else ()
    if dialect.procedures and dialect.statements.get("call_plain") is None:
        needed.append("call_plain")
    missing = [f"statement {name}" for name in dict.fromkeys(needed) if name not in dialect.statements]
    connecting = () if dialect.blocks else ("and", "or")
    missing += [f"operator {o}" for o in OPERATORS if o not in connecting and o not in dialect.operators]
    return missing


def able(dialect: Dialect, direct: bool = False) -> tuple[str, ...]:
    """Return the features that a dialect's words allow."""
    taking = features(direct)
    return tuple(name for name, words in taking.items() if all(word in dialect.words for word in words))

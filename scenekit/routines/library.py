"""The routines that every program is put together from."""

from collections.abc import Sequence
from functools import cache
from pathlib import Path

from scenekit.routines.language import Routine, parse_routines

FOLDER = Path(__file__).parent


def library_names() -> tuple[str, ...]:
    """Return the names of all files of routines, sorted."""
    return tuple(sorted(path.stem for path in FOLDER.glob("*.words")))


@cache
def routines_of(name: str) -> tuple[Routine, ...]:
    """Return the routines of one file."""
    return parse_routines((FOLDER / f"{name}.words").read_text(encoding="utf-8"), f"{name}.words")


def gather(names: Sequence[str]) -> tuple[Routine, ...]:
    """Return the routines of several files, in order."""
    return tuple(routine for name in names for routine in routines_of(name))

"""The list of stops: the only part of an export that verify changes, in a copy."""

import re
from collections.abc import Sequence
from pathlib import Path

from scenekit.errors import VerifyError

STOPS_FILE = "stops.txt"
EMPTY_DATA = re.compile(r"^(\d+ )?(DATA) -1$", re.MULTILINE | re.IGNORECASE)


def write_stops(folder: Path, program: str, ticks: Sequence[int], line_length: int) -> None:
    """Put stops into a copied export: into its stops file, or into the marked DATA line.

    raises   VerifyError: there is no place for them
    """
    path = folder / STOPS_FILE
    if path.exists():
        path.write_text("".join(f"{tick}\n" for tick in ticks), encoding="ascii", newline="\n")
        return
    text = (folder / program).read_text(encoding="ascii")
    found = list(EMPTY_DATA.finditer(text))
    if not found:
        raise VerifyError(f"{program}: has no list of stops")
    match = found[-1]
    line = f"{match.group(1) or ''}{match.group(2)} {','.join(str(tick) for tick in (*ticks, -1))}"
    if len(line) > line_length:
        raise VerifyError(
            f"{program}: {len(ticks)} stops do not fit one DATA line of {line_length} characters"
        )
    (folder / program).write_text(
        text[: match.start()] + line + text[match.end() :], encoding="ascii", newline="\n"
    )


def default_ticks(last: int, count: int = 12) -> tuple[int, ...]:
    """Return ticks spread over a scene: the first two, then evenly, each an odd step apart."""
    if last < count:
        return tuple(range(last + 1))
    spread = [round(last * number / (count - 2)) for number in range(count - 1)]
    return tuple(sorted({0, 1, *spread}))

"""The list of stops: the only part of an export that verify changes, in a copy."""

import re
from collections.abc import Sequence
from pathlib import Path

from scenekit.errors import VerifyError
from scenekit.model.scene import Scene

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
    numbers = [str(tick) for tick in (*ticks, -1)]
    lines = _data_lines(numbers, match.group(1) or "", match.group(2), line_length)
    rest = text[match.end() :]
    if match.group(1) and len(lines) > 1:
        # Only the program's last line may stand behind, so that it moves down by as many.
        rest = re.sub(r"(?m)^\d+", lambda m: str(int(m.group(0)) + len(lines) - 1), rest)
    changed = text[: match.start()] + "\n".join(lines) + rest
    (folder / program).write_text(changed, encoding="ascii", newline="\n")


def _data_lines(numbers: Sequence[str], first: str, word: str, line_length: int) -> list[str]:
    """Return DATA lines of numbers, as many to a line as fit; `first` numbers the first line, if any."""
    lines: list[str] = []
    at = int(first) if first else 0
    for number in numbers:
        longer = f"{lines[-1]},{number}" if lines else ""
        if lines and len(longer) <= line_length:
            lines[-1] = longer
        else:
            lines.append(f"{at + len(lines)} {word} {number}" if first else f"{word} {number}")
    return lines


def default_ticks(scene: Scene, count: int = 12) -> tuple[int, ...]:
    """Return ticks spread over a scene: the first two, then evenly, each an odd step apart.

    Transitions cover the view, so the first tick after each that opens it and the last before each that
    closes it are among them.
    """
    last = scene.ticks - 1
    if last < count:
        return tuple(range(last + 1))
    spread = [round(last * number / (count - 2)) for number in range(count - 1)]
    edges = [t.tick + t.ticks if t.opens else t.tick - 1 for t in scene.transitions]
    return tuple(sorted({0, 1, *spread, *(tick for tick in edges if 0 <= tick <= last)}))

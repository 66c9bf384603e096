"""Work: calls of one operation for one thing drawn."""

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """Calls of one operation for one thing drawn: how many, over how many rows and pixels."""

    name: str
    operation: str
    calls: int
    rows: int
    pixels: int


def unnamed(operation: str, calls: int, rows: int, pixels: int) -> Work:
    """Return work of something whose name is set later."""
    return Work(name="", operation=operation, calls=calls, rows=rows, pixels=pixels)


def called(name: str, operation: str, calls: int) -> Work:
    """Return work that draws nothing."""
    return Work(name=name, operation=operation, calls=calls, rows=0, pixels=0)


def merged(name: str, work: Sequence[Work]) -> list[Work]:
    """Add up the work of one thing by operation, in order of first use."""
    sums: dict[str, list[int]] = {}
    for item in work:
        total = sums.setdefault(item.operation, [0, 0, 0])
        total[0] += item.calls
        total[1] += item.rows
        total[2] += item.pixels
    return [Work(name=name, operation=o, calls=c, rows=r, pixels=p) for o, (c, r, p) in sums.items()]

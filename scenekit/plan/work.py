"""Work: calls of one operation for one thing drawn."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """Calls of one operation for one thing drawn: how many, over how many rows and pixels."""

    name: str
    operation: str
    calls: int
    rows: int
    pixels: int

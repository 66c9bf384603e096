"""Tables as they are collected."""

from collections.abc import Sequence

from scenekit.routines.language import Table


class Collected:
    """Tables in the order in which they were added."""

    def __init__(self) -> None:
        self.tables: list[Table] = []

    def add(self, name: str, values: Sequence[int], remark: str) -> None:
        """Add a table."""
        self.tables.append(Table(name, tuple(int(value) for value in values), remark))


def tables_of(tables: Collected, name: str) -> tuple[int, ...]:
    """Return the values of a collected table."""
    return next(table.values for table in tables.tables if table.name == name)


def starts_of(lengths: Sequence[int]) -> list[int]:
    return [sum(lengths[:number]) for number in range(len(lengths))]

"""Amounts of work at many ticks: calls, rows and pixels of each operation."""

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from scenekit.plan.work import Work

Whole = NDArray[np.int64]


class Amounts:
    """Calls, rows and pixels of each operation, (3, T) an operation, added up from many things."""

    def __init__(self, count: int) -> None:
        self.count = count
        self.sums: dict[str, Whole] = {}

    def of(self, operation: str) -> Whole:
        """Return the (3, T) sums of an operation, to be added to."""
        if operation not in self.sums:
            self.sums[operation] = np.zeros((3, self.count), dtype=np.int64)
        return self.sums[operation]

    def add(self, operation: str, calls: Whole | int, rows: Whole | int = 0, pixels: Whole | int = 0) -> None:
        """Add calls, rows and pixels, each for every tick or the same for all."""
        total = self.of(operation)
        for number, amount in enumerate((calls, rows, pixels)):
            if isinstance(amount, np.ndarray) or amount:
                total[number] += amount

    def add_work(self, work: Sequence[Work], place: int) -> None:
        """Add work that is done at one of the ticks."""
        for item in work:
            self.of(item.operation)[:, place] += (item.calls, item.rows, item.pixels)

    def add_all(self, other: "Amounts", places: Whole | None = None) -> None:
        """Add amounts of the same ticks, or of others that each tick takes its own from by place."""
        for operation, amounts in other.sums.items():
            self.of(operation)[:] += amounts if places is None else amounts[:, places]

    def at(self, place: int) -> dict[str, tuple[int, int, int]]:
        """Return what is done at one of the ticks, operations that are not left out."""
        found = {}
        for operation, amounts in self.sums.items():
            calls, rows, pixels = (int(amount) for amount in amounts[:, place])
            if calls:
                found[operation] = (calls, rows, pixels)
        return found

    def items(self) -> Iterator[tuple[str, Whole]]:
        """Yield each operation that is done at all with its (3, T) sums."""
        for operation, amounts in self.sums.items():
            if amounts[0].any():
                yield operation, amounts

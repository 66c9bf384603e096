"""Records that are found by name, in tuples of them."""

from collections.abc import Sequence
from typing import Protocol, TypeVar


class Named(Protocol):
    """Anything with a name."""

    @property
    def name(self) -> str:
        """Return its name."""


T = TypeVar("T", bound=Named)


def with_named(items: Sequence[T], item: T, old_name: str = "") -> tuple[T, ...]:
    """Return items with one in the place of the one of that name, or added at the end.

    old_name   name of the one it replaces, where that is another one
    """
    wanted = old_name or item.name
    if any(other.name == wanted for other in items):
        return tuple(item if other.name == wanted else other for other in items)
    return (*items, item)


def without_named(items: Sequence[T], name: str) -> tuple[T, ...]:
    """Return items without the one of a name."""
    return tuple(item for item in items if item.name != name)


def swapped(items: Sequence[T], name: str, step: int) -> tuple[T, ...]:
    """Return items with one moved by some places, as far as there are places."""
    made = list(items)
    place = next(n for n, item in enumerate(made) if item.name == name)
    item = made.pop(place)
    made.insert(max(0, min(place + step, len(made))), item)
    return tuple(made)

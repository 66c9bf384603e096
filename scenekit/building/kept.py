"""What builds made, kept for the next one: only what depends on a change is made again."""

from collections.abc import Callable, Hashable
from dataclasses import fields, is_dataclass
from typing import Any, TypeVar

import numpy as np

T = TypeVar("T")


class Kept:
    """Results by what they were made from; of each kind and name the last one is kept.

    made   (kind, name) of everything that the last build made rather than found, in order
    """

    def __init__(self) -> None:
        self.made: list[tuple[str, Hashable]] = []
        self._known: dict[tuple[str, Hashable], tuple[object, Any]] = {}

    def get(self, kind: str, name: Hashable, given: object, make: Callable[[], T]) -> T:
        """Return what was made from the same things before, or make it now.

        given   everything that the result depends on; not to be changed afterwards, as the result is not
        """
        known = self._known.get((kind, name))
        if known is not None and alike(known[0], given):
            result: T = known[1]
            return result
        self._known.pop((kind, name), None)
        made = make()
        self._known[kind, name] = given, made
        self.made.append((kind, name))
        return made


def alike(one: Any, other: Any) -> bool:
    """Say whether two things have the same content, arrays and records that hold some included."""
    if one is other:
        return True
    if type(one) is not type(other):
        return False
    if isinstance(one, np.ndarray):
        return one.dtype == other.dtype and np.array_equal(one, other)
    if isinstance(one, tuple | list):
        return len(one) == len(other) and all(alike(a, b) for a, b in zip(one, other, strict=True))
    if isinstance(one, dict):
        return list(one) == list(other) and all(alike(value, other[key]) for key, value in one.items())
    if one == other:
        return True
    if not is_dataclass(one):
        return False
    return all(alike(getattr(one, field.name), getattr(other, field.name)) for field in fields(one))

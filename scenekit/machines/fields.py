"""Fields of machine profiles and display timings: those of a project, and numbers that are measured."""

import math
from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from scenekit.errors import MachineError
from scenekit.model.fields import Fields as ProjectFields
from scenekit.model.fields import near, shown


class Fields(ProjectFields):
    """The fields of one table; whatever is wrong with one is a MachineError."""

    kind = MachineError

    def number(self, key: str, low: float, high: float, default: Any = ...) -> float:
        """Return a number from low to high."""
        value = self.value(key, default)
        if not is_number(value) or not low <= value <= high:
            raise self.error(key, value, f"a number from {low:g} to {high:g}")
        return float(value)

    def rate(self, key: str, high: int) -> Fraction:
        """Return a fraction above 0 and at most high, written as an integer or as "p/q"."""
        value = self.value(key)
        result = _whole_fraction(value)
        if result is None or not 0 < result <= high:
            raise self.error(key, value, f'a whole number or a text such as "7159090/2", up to {high}')
        return result

    def choices(self, key: str, known: Iterable[str], default: Any = ...) -> tuple[str, ...]:
        """Return a list of different known words, in the order written."""
        value = self.value(key, default)
        words = tuple(known)
        if not isinstance(value, list | tuple):
            raise self.error(key, value, f"a list out of {', '.join(words)}")
        for item in value:
            if not isinstance(item, str) or item not in words:
                raise self.error(key, item, f"out of {', '.join(words)}{near(item, words)}")
        if len(set(value)) != len(value):
            raise self.error(key, value, "without repetition")
        return tuple(value)

    def tables(self, key: str, least: int, most: int) -> list[Any]:
        """Return a list of tables."""
        value = self.value(key, [])
        if not isinstance(value, list) or not least <= len(value) <= most:
            got = f"{len(value)} tables" if isinstance(value, list) else shown(value)
            raise MachineError(f"{self.where}: {key}: got {got}; must be {least} to {most} tables [[{key}]]")
        return value


def is_number(value: object) -> bool:
    """Say whether a value is a finite number and no truth value."""
    return type(value) is int or (type(value) is float and math.isfinite(value))


def _whole_fraction(value: object) -> Fraction | None:
    """Return a fraction written as an integer or as "p/q", or None."""
    if type(value) is int:
        return Fraction(value)
    if isinstance(value, str) and len(value) <= 40:
        parts = value.split("/")
        if len(parts) <= 2 and all(part.isascii() and part.isdigit() for part in parts) and int(parts[-1]):
            return Fraction(int(parts[0]), int(parts[1])) if len(parts) == 2 else Fraction(int(parts[0]))
    return None

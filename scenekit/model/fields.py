"""Reads values out of TOML tables with an error that says where, what, got and allowed."""

import re
from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from pathlib import PurePosixPath
from typing import Any, TypeVar

from scenekit.errors import ProjectError, SceneKitError, UnknownNameError, one_line

T = TypeVar("T")

NAME_PATTERN = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]{0,39}")
LARGEST_INTEGER = 1_000_000
LARGEST_FRACTION_PART = 9_999
LONGEST_TEXT = 400


class Fields:
    """The keys of one table; every key must be asked for before `done` is called.

    kind     of the errors
    """

    kind: type[SceneKitError] = ProjectError

    def __init__(self, table: object, where: str) -> None:
        if not isinstance(table, Mapping):
            raise self.kind(f"{where}: got {shown(table)}; must be a table")
        self.table: Mapping[str, Any] = table
        self.where = where
        self.asked: set[str] = set()

    def error(self, key: str, got: object, allowed: str) -> SceneKitError:
        """Return the error for a bad value of a key."""
        return self.kind(f"{self.where}: {key}: got {shown(got)}; must be {allowed}")

    def has(self, key: str) -> bool:
        """Return whether the table has the key."""
        self.asked.add(key)
        return key in self.table

    def value(self, key: str, default: object = ...) -> Any:
        """Return a value of any type; without a default the key must be there."""
        self.asked.add(key)
        if key in self.table:
            return self.table[key]
        if default is ...:
            hint = near(key, [str(other) for other in self.table if other not in self.asked], "did you write")
            raise self.kind(f"{self.where}: {key}: missing{hint}")
        return default

    def done(self) -> None:
        """Raise for any key that nobody asked for, naming the nearest known one."""
        for key in self.table:
            if key not in self.asked:
                raise UnknownNameError(f"{self.where}: key", str(key), self.asked)

    def text(self, key: str, default: Any = ..., *, longest: int = LONGEST_TEXT) -> str:
        """Return a short printable text."""
        value = self.value(key, default)
        if not isinstance(value, str) or len(value) > longest or not value.isprintable():
            raise self.error(key, value, f"printable text of at most {longest} characters")
        return value

    def name(self, key: str, default: Any = ...) -> str:
        """Return a name: letters, digits, - and _, at most 40 characters."""
        value = self.value(key, default)
        if value == default and default is not ...:
            return str(value)
        if not isinstance(value, str) or not NAME_PATTERN.fullmatch(value):
            raise self.error(key, value, "a name of letters, digits, - and _, at most 40 characters")
        return value

    def names(self, key: str, default: Any = ...) -> tuple[str, ...]:
        """Return a list of names."""
        values = self._list(key, default)
        for value in values:
            if not isinstance(value, str) or not NAME_PATTERN.fullmatch(value):
                raise self.error(key, value, "a list of names (letters, digits, - and _)")
        return tuple(values)

    def choice(self, key: str, allowed: Iterable[str], default: Any = ...) -> str:
        """Return one of the allowed words."""
        options = tuple(allowed)
        value = self.value(key, default)
        if value not in options:
            raise self.error(key, value, f"one of {', '.join(options)}{near(value, options)}")
        return str(value)

    def flag(self, key: str, default: Any = ...) -> bool:
        """Return true or false."""
        value = self.value(key, default)
        if not isinstance(value, bool):
            raise self.error(key, value, "true or false")
        return value

    def flags(self, key: str, default: tuple[bool, bool]) -> tuple[bool, bool]:
        """Return two truth values, for x and y."""
        value = self.value(key, list(default))
        if not isinstance(value, list) or len(value) != 2 or not all(isinstance(v, bool) for v in value):
            raise self.error(key, value, "[true or false, true or false] for x and y")
        return value[0], value[1]

    def integer(self, key: str, low: int, high: int, default: Any = ...) -> int:
        """Return an integer of a range, both ends included."""
        value = self.value(key, default)
        if type(value) is not int or not low <= value <= high:
            raise self.error(key, value, f"a whole number from {low} to {high}")
        return value

    def integers(
        self, key: str, count: int, low: int, high: int, default: tuple[int, ...] | None = None
    ) -> tuple[int, ...]:
        """Return a list of a given count of integers of a range."""
        value = self.value(key, ... if default is None else list(default))
        good = isinstance(value, list) and len(value) == count
        if not good or not all(type(v) is int and low <= v <= high for v in value):
            raise self.error(key, value, f"{count} whole numbers from {low} to {high}")
        return tuple(value)

    def fraction(self, key: str, default: Any = ...) -> Fraction:
        """Return an exact fraction, written as 3, "3/2" or 1.5."""
        return self._fraction(key, self.value(key, default))

    def fractions(self, key: str, default: tuple[int, int] = (0, 0)) -> tuple[Fraction, Fraction]:
        """Return two exact fractions, for x and y."""
        value = self.value(key, list(default))
        if not isinstance(value, list) or len(value) != 2:
            raise self.error(key, value, 'two numbers or fractions such as ["3/2", 0]')
        return self._fraction(key, value[0]), self._fraction(key, value[1])

    def _fraction(self, key: str, value: object) -> Fraction:
        if type(value) is int and abs(value) <= LARGEST_FRACTION_PART:
            return Fraction(value)
        allowed = f'a number or fraction such as "3/2", parts to {LARGEST_FRACTION_PART}'
        if isinstance(value, bool) or not isinstance(value, int | float | str) or len(str(value)) > 24:
            raise self.error(key, value, allowed)
        if not re.fullmatch(r"[+-]?\d{1,9}(\.\d{1,9}|/\d{1,9})?", str(value)):
            raise self.error(key, value, allowed)
        try:
            fraction = Fraction(str(value))
        except ZeroDivisionError:
            raise self.error(key, value, allowed) from None
        if max(abs(fraction.numerator), fraction.denominator) > LARGEST_FRACTION_PART:
            raise self.error(key, value, allowed)
        return fraction

    def colour(self, key: str, default: Any = ...) -> tuple[int, int, int] | None:
        """Return a colour written as six hexadecimal digits; None only when that is the default."""
        value = self.value(key, default)
        return None if value is None else parse_colour(value, lambda: self.error(key, value, "rrggbb"))

    def colours(self, key: str, default: Any = ..., *, most: int = 256) -> tuple[tuple[int, int, int], ...]:
        """Return a list of colours written as six hexadecimal digits each."""
        values = self._list(key, default)
        if len(values) > most:
            raise self.error(key, f"{len(values)} colours", f"at most {most} colours")
        return tuple(parse_colour(v, lambda v=v: self.error(key, v, "rrggbb")) for v in values)  # type: ignore[misc]

    def path(self, key: str, default: Any = ...) -> str:
        """Return a relative path inside the project folder, with / between its parts."""
        value = self.value(key, default)
        if value is None:
            return ""
        allowed = "a relative path inside the project folder, with / between its parts"
        if not isinstance(value, str) or not value.isprintable() or not 0 < len(value) <= 200:
            raise self.error(key, value, allowed)
        parts = PurePosixPath(value).parts
        if value.startswith("/") or ".." in parts or set('\\:*?"<>|') & set(value) or not parts:
            raise self.error(key, value, allowed)
        return value

    def records(self, key: str, build: Callable[["Fields"], T], label: str, most: int) -> tuple[T, ...]:
        """Return one record per table of a list; labels in errors are by name where there is one."""
        values = self._list(key, [])
        if len(values) > most:
            raise self.error(key, f"{len(values)} records", f"at most {most} records")
        records = []
        for number, value in enumerate(values):
            title = value.get("name", number + 1) if isinstance(value, Mapping) else number + 1
            fields = type(self)(value, f"{self.where}: {label} {shown(title).strip(chr(39))}")
            records.append(build(fields))
            fields.done()
        return tuple(records)

    def listed(self, key: str) -> list[Any]:
        """Return a list of any values, empty when the key is missing."""
        return self._list(key, [])

    def _list(self, key: str, default: Any) -> list[Any]:
        value = self.value(key, default)
        if not isinstance(value, list):
            raise self.error(key, value, "a list")
        return value


def parse_colour(value: object, error: Callable[[], SceneKitError]) -> tuple[int, int, int]:
    """Return (r, g, b) of six hexadecimal digits."""
    if not isinstance(value, str) or not re.fullmatch(r"[0-9a-fA-F]{6}", value):
        raise error()
    return int(value[0:2], 16), int(value[2:4], 16), int(value[4:6], 16)


def unique(where: str, kind: str, names: Iterable[str]) -> None:
    """Raise when a name occurs twice."""
    seen: set[str] = set()
    for name in names:
        if name in seen:
            raise ProjectError(f"{where}: {kind} {name!r} stands twice; names must differ")
        seen.add(name)


def near(value: object, words: Iterable[str], question: str = "did you mean") -> str:
    """Return a question for the nearest of some words; the search is loaded when something is wrong."""
    from difflib import get_close_matches

    found = get_close_matches(value[:200], list(words), 1) if isinstance(value, str) else []
    return f"; {question} {one_line(found[0])!r}?" if found else ""


def shown(value: object) -> str:
    """Return a value on one line, shortened."""
    if isinstance(value, Mapping):
        return "a table"
    if isinstance(value, int) and abs(value) >= 10**30:
        return "a huge number"
    text = one_line(repr(value))
    return text if len(text) <= 60 else text[:57] + "..."

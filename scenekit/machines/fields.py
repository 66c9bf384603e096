"""Reads TOML of strangers: bounded files, typed fields, unknown keys refused with the nearest known one."""

import math
import tomllib
from collections.abc import Iterable
from fractions import Fraction
from pathlib import Path
from typing import Any

from scenekit.errors import MachineError, one_line

MAX_FILE_BYTES = 1_000_000
MAX_LINE_CHARACTERS = 400
"""Longer lines are refused: dotted keys of any length would let a small file take minutes to read."""

MAX_TEXT_CHARACTERS = 200


def read_toml(path: Path) -> dict[str, Any]:
    """Return the tables of a TOML file.

    raises   MachineError: not a file, too large, too long a line, not UTF-8, not TOML
    """
    where = str(path)
    try:
        if not path.is_file():
            raise MachineError(f"{where}: no such file")
        with path.open("rb") as stream:
            data = stream.read(MAX_FILE_BYTES + 1)
    except (OSError, ValueError) as error:
        raise MachineError(f"{where}: cannot be read: {error}") from None
    if len(data) > MAX_FILE_BYTES:
        raise MachineError(f"{where}: larger than {MAX_FILE_BYTES} bytes")
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        raise MachineError(f"{where}: byte {error.start} is not utf-8") from None
    for number, line in enumerate(text.splitlines(), 1):
        if len(line) > MAX_LINE_CHARACTERS:
            raise MachineError(f"{where}: line {number}: longer than {MAX_LINE_CHARACTERS} characters")
    try:
        return tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        raise MachineError(f"{where}: not toml: {str(error) or 'nested too deeply'}") from None


def whole_fraction(value: object) -> Fraction | None:
    """Return a positive fraction written as an integer or as "p/q", or None."""
    if isinstance(value, int) and not isinstance(value, bool):
        return Fraction(value)
    if isinstance(value, str) and len(value) <= 40:
        parts = value.split("/")
        if len(parts) <= 2 and all(part.isascii() and part.isdigit() for part in parts) and int(parts[-1]):
            return Fraction(int(parts[0]), int(parts[1])) if len(parts) == 2 else Fraction(int(parts[0]))
    return None


class Fields:
    """The fields of one table, each asked for once by name and type; `finish` refuses the rest.

    raises   MachineError: from every method, when the field is missing or not as allowed
    """

    def __init__(self, where: str, table: object) -> None:
        if not isinstance(table, dict):
            raise MachineError(f"{where}: must be a table; got {_shown(table)}")
        self.where = where
        self._table: dict[str, Any] = dict(table)
        self._asked: list[str] = []

    def fail(self, key: str, got: object, allowed: str) -> MachineError:
        """Return the error for a field that is not as allowed."""
        return MachineError(f"{self.where}: {key} is {_shown(got)}; must be {allowed}")

    def has(self, key: str) -> bool:
        """Say whether a field is still to be taken."""
        return key in self._table

    def take(self, key: str, default: object = None) -> Any:
        """Return a field of any type, or the default; None makes it required."""
        self._asked.append(key)
        if key in self._table:
            return self._table.pop(key)
        if default is None:
            near = get_close_matches(key, list(self._table), 1)
            hint = f"; did you write {one_line(near[0])!r} instead?" if near else ""
            raise MachineError(f"{self.where}: {key} is missing{hint}")
        return default

    def text(self, key: str, default: str | None = None) -> str:
        """Return a line of text."""
        value = self.take(key, default)
        if not isinstance(value, str) or len(value) > MAX_TEXT_CHARACTERS or not value.isprintable():
            raise self.fail(key, value, f"one line of text of at most {MAX_TEXT_CHARACTERS} characters")
        return value

    def flag(self, key: str, default: bool | None = None) -> bool:
        """Return true or false."""
        value = self.take(key, default)
        if not isinstance(value, bool):
            raise self.fail(key, value, "true or false")
        return value

    def whole(self, key: str, low: int, high: int, default: int | None = None) -> int:
        """Return a whole number from low to high."""
        value = self.take(key, default)
        if not isinstance(value, int) or isinstance(value, bool) or not low <= value <= high:
            raise self.fail(key, value, f"a whole number from {low} to {high}")
        return value

    def wholes(self, key: str, count: int, low: int, high: int) -> tuple[int, ...]:
        """Return so many whole numbers from low to high."""
        value = self.take(key)
        good = isinstance(value, list) and len(value) == count
        if not good or not all(type(item) is int and low <= item <= high for item in value):
            raise self.fail(key, value, f"{count} whole numbers from {low} to {high}")
        return tuple(value)

    def number(self, key: str, low: float, high: float, default: float | None = None) -> float:
        """Return a number from low to high."""
        value = self.take(key, default)
        if not is_number(value) or not low <= value <= high:
            raise self.fail(key, value, f"a number from {low:g} to {high:g}")
        return float(value)

    def fraction(self, key: str, high: int) -> Fraction:
        """Return a fraction above 0 and at most high."""
        value = self.take(key)
        result = whole_fraction(value)
        if result is None or not 0 < result <= high:
            raise self.fail(key, value, f'a whole number or a text such as "7159090/2", up to {high}')
        return result

    def one_of(self, key: str, known: Iterable[str], default: str | None = None) -> str:
        """Return one of the known words."""
        value = self.take(key, default)
        words = tuple(known)
        if not isinstance(value, str) or value not in words:
            raise self.fail(key, value, _listed(words) + _near(value, words))
        return value

    def some_of(
        self, key: str, known: Iterable[str], default: tuple[str, ...] | None = None
    ) -> tuple[str, ...]:
        """Return a list of different known words, in the order written."""
        value = self.take(key, default)
        words = tuple(known)
        if not isinstance(value, list | tuple):
            raise self.fail(key, value, f"a list out of {_listed(words)}")
        for item in value:
            if not isinstance(item, str) or item not in words:
                raise self.fail(key, item, f"out of {_listed(words)}{_near(item, words)}")
        if len(set(value)) != len(value):
            raise self.fail(key, value, "without repetition")
        return tuple(value)

    def tables(self, key: str, least: int, most: int) -> list[Any]:
        """Return a list of tables."""
        value = self.take(key, [])
        if not isinstance(value, list) or not least <= len(value) <= most:
            got = f"{len(value)} tables" if isinstance(value, list) else _shown(value)
            raise MachineError(f"{self.where}: {key}: got {got}; must be {least} to {most} tables [[{key}]]")
        return value

    def finish(self) -> None:
        """Refuse every field that nobody asked for."""
        for key in self._table:
            near = get_close_matches(key, self._asked, 1)
            hint = f"; did you mean {near[0]!r}?" if near else f"; known: {', '.join(self._asked)}"
            raise MachineError(f"{self.where}: unknown key {_shown(key)}{hint}")


def is_number(value: object) -> bool:
    """Say whether a value is a finite number and no truth value."""
    return type(value) is int or (type(value) is float and math.isfinite(value))


def get_close_matches(word: str, words: Iterable[str], most: int) -> list[str]:
    """Return the nearest words; the search is loaded when something is wrong."""
    from difflib import get_close_matches as nearest

    return nearest(word, list(words), most)


def _listed(words: tuple[str, ...]) -> str:
    return ", ".join(words) if words else "nothing"


def _near(value: object, words: tuple[str, ...]) -> str:
    near = get_close_matches(value, words, 1) if isinstance(value, str) else []
    return f"; did you mean {near[0]!r}?" if near else ""


def _shown(value: object) -> str:
    """A value on one line, shortened."""
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, int) and abs(value) >= 10**30:
        return "a huge number"
    text = one_line(repr(value))
    return text if len(text) <= 60 else text[:57] + "..."

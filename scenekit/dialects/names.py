"""Gives every neutral name the name it has in a dialect."""

import re
from string import ascii_uppercase

from scenekit.dialects.dialect import Naming
from scenekit.errors import DialectError
from scenekit.routines.language import Program

PREFIX_PATTERN = re.compile(r"[a-z][a-z0-9]{0,7}_?")


class Names:
    """The names of one program in one dialect.

    scalars   (routine or "", neutral name) -> name
    arrays    neutral name -> (name, base): element i is name(base + i)
    routines  neutral name -> name
    """

    def __init__(self, naming: Naming, program: Program, prefix: str) -> None:
        if naming.style == "long" and not PREFIX_PATTERN.fullmatch(prefix):
            raise DialectError(
                f"prefix: got {prefix!r}; must be a small letter, then at most 7 letters or digits, then _"
            )
        self.naming = naming
        self.prefix = prefix if naming.style == "long" else ""
        self.own = {r.name: {*r.parameters, *r.locals} for r in program.routines}
        self.scalars: dict[tuple[str, str], str] = {}
        self.arrays: dict[str, tuple[str, int]] = {}
        self.free = self._short_names()
        base = 0
        for number, (name, size) in enumerate(program.arrays):
            if naming.one_array:
                self.arrays[name] = (naming.one_array, base)
                base += size
            elif naming.style == "short":
                self.arrays[name] = (_letter(number, name), 0)
            else:
                self.arrays[name] = (naming.array.format(name=self.prefix + name), 0)
        self.total_items = base

    def _short_names(self) -> list[str]:
        letters = [letter for letter in ascii_uppercase if letter != self.naming.one_array]
        return [*letters, *(letter + digit for letter in letters for digit in "0123456789")]

    def scalar(self, routine: str, name: str) -> str:
        """Return the name of a variable as seen from a routine ("" is the main part)."""
        own = name in self.own.get(routine, ())
        key = (routine if own else "", name)
        if key not in self.scalars:
            self.scalars[key] = self._new_scalar(own, name)
        return self.scalars[key]

    def _new_scalar(self, own: bool, name: str) -> str:
        if self.naming.style == "long":
            return self.naming.scalar.format(name=name if own else self.prefix + name)
        if not self.free:
            raise DialectError(
                "the dialect has too few variable names for this program; fewer routines are needed"
            )
        return self.free.pop(0)

    def routine(self, name: str) -> str:
        """Return the name of a routine."""
        return self.naming.routine.format(name=self.prefix + name)


def _letter(number: int, name: str) -> str:
    if number >= len(ascii_uppercase):
        raise DialectError(f"array {name}: the dialect has only 26 array names; give it one_array")
    return ascii_uppercase[number]

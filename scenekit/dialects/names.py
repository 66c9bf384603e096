"""Gives every neutral name the name it has in a dialect."""

import re
from string import ascii_uppercase

from scenekit.dialects.dialect import Dialect
from scenekit.errors import DialectError
from scenekit.routines.language import Call, Program, names_set, walk
from scenekit.routines.library import is_wide

FILE_PATTERN = re.compile(r"[a-z]\w*", re.ASCII)
PREFIX_PATTERN = re.compile(r"[a-z][a-z0-9]{0,7}_?")


class Names:
    """The names of one program in one dialect.

    scalars   (routine or "", neutral name) -> name
    arrays    neutral name -> (name, base): element i is name(base + i)
    routines  neutral name -> name
    """

    def __init__(self, dialect: Dialect, program: Program, prefix: str) -> None:
        naming = dialect.naming
        if naming.style == "long" and not PREFIX_PATTERN.fullmatch(prefix):
            raise DialectError(
                f"prefix: got {prefix!r}; must be a small letter, then at most 7 letters or digits, then _"
            )
        self.naming = naming
        self.prefix = prefix if naming.style == "long" else ""
        self.own = {r.name: {*r.parameters, *r.locals} for r in program.routines}
        library = program.library
        self.file = library_name(dialect, program)
        self.included = names_set(library) if library is not None else frozenset[str]()
        self.included_routines = {r.name for r in library.routines} if library is not None else set[str]()
        self.shared = not dialect.procedures
        self.together = _active_together(program) if self.shared else {}
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
                self.arrays[name] = (self.pattern(name, naming.array, naming.wide_array), 0)
        for name, _ in library.arrays if library is not None else ():
            spelled = self.pattern(name, naming.array, naming.wide_array)
            self.arrays[name] = (naming.included.format(file=self.file, name=spelled), 0)
        self.total_items = base

    def _short_names(self) -> list[str]:
        letters = [letter for letter in ascii_uppercase if letter != self.naming.one_array]
        return [*letters, *(letter + digit for letter in letters for digit in "0123456789")]

    def pattern(self, name: str, usual: str, wide: str, own: bool = False) -> str:
        """Return a long name in the dialect's pattern."""
        text = (name if own else self.prefix + name).replace("_", self.naming.underscore)
        if text in self.naming.reserved:
            text += "x"
        return (wide if is_wide(name.rstrip("0123456789") if own else name) else usual).format(name=text)

    def scalar(self, routine: str, name: str) -> str:
        """Return the name of a variable as seen from a routine ("" is the main part)."""
        own = name in self.own.get(routine, ())
        key = (routine if own else "", name)
        if key not in self.scalars:
            spelled = self._new_scalar(routine if own else "", name)
            if not own and name in self.included:
                spelled = self.naming.included.format(file=self.file, name=spelled)
            self.scalars[key] = spelled
        return self.scalars[key]

    def _new_scalar(self, routine: str, name: str) -> str:
        if self.naming.style == "long":
            if routine and self.shared:
                name = self._apart(routine, name)
            return self.pattern(name, self.naming.scalar, self.naming.wide_scalar, bool(routine))
        if not self.free:
            raise DialectError(
                "the dialect has too few variable names for this program; fewer routines are needed"
            )
        return self.free.pop(0)

    def _apart(self, routine: str, name: str) -> str:
        """Return a numbered name that no routine active at the same time uses, where all are shared."""
        taken = {
            spelled
            for (other, _), spelled in self.scalars.items()
            if other and (other == routine or other in self.together[routine])
        }
        number = 1
        while True:
            tried = name if number == 1 else f"{name}{number}"
            if self.pattern(tried, self.naming.scalar, self.naming.wide_scalar, True) not in taken:
                return tried
            number += 1

    def routine(self, name: str) -> str:
        """Return the name of a routine."""
        spelled = self.naming.routine.format(name=(self.prefix + name).replace("_", self.naming.underscore))
        if name in self.included_routines:
            return self.naming.included.format(file=self.file, name=spelled)
        return spelled


def library_name(dialect: Dialect, program: Program) -> str:
    """Return the name of the library's file without its ending, or "".

    raises   DialectError: the dialect includes no files, or none of that name
    """
    if program.library is None:
        return ""
    check_includes(dialect)
    name = program.library_file.rpartition(".")[0]
    if "{file}" in dialect.naming.included and not FILE_PATTERN.fullmatch(name):
        raise DialectError(
            f"dialect {dialect.name}: project name {name}: must be letters, digits and _ "
            "to be a file of routines there"
        )
    return name


def check_includes(dialect: Dialect) -> None:
    """Refuse a dialect that cannot take the routines of another file into a program.

    raises   DialectError
    """
    if "include" not in dialect.statements or not dialect.procedures or dialect.naming.style == "short":
        raise DialectError(
            f"dialect {dialect.name}: cannot take the routines of another file into a program "
            "(statement include), so that a program of yours must be written into a copy of the library"
        )


def _active_together(program: Program) -> dict[str, set[str]]:
    """Return, for each routine, the others that may have called it or be called by it."""
    calls = {r.name: {s.routine for s in walk(r.body) if isinstance(s, Call)} for r in program.routines}
    below: dict[str, set[str]] = {}

    def reach(name: str) -> set[str]:
        if name not in below:
            below[name] = set()
            for called in calls.get(name, ()):
                below[name] |= {called} | reach(called)
        return below[name]

    for name in calls:
        reach(name)
    return {name: below[name] | {other for other in calls if name in below[other]} for name in calls}


def _letter(number: int, name: str) -> str:
    if number >= len(ascii_uppercase):
        raise DialectError(f"array {name}: the dialect has only 26 array names; give it one_array")
    return ascii_uppercase[number]

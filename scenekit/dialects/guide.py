"""What a program says of itself: routines to call, names it uses, and which of them all routines know."""

import re
from textwrap import wrap

from scenekit.dialects.lines import Lines, pointed
from scenekit.dialects.names import Names
from scenekit.routines.language import Program, Word, walk

OWN_NAME = re.compile(r"\{variable_prefix\}(\w+[%$]?)")


class Guide:
    """Adds the lines that name things."""

    def __init__(self, lines: Lines, names: Names, program: Program) -> None:
        self.lines = lines
        self.dialect = lines.dialect
        self.names = names
        self.program = program

    def share_names(self, place: int) -> None:
        """Put the lines that make variables known to all routines at a place, where the dialect has them."""
        if not self.dialect.statements.get("global"):
            return
        body = self.lines.taken_from(place)
        included, library = self.names.included, self.program.library
        theirs = self._names_of_words(library) if library is not None else []
        names = [
            s for (routine, name), s in self.names.scalars.items() if not routine and name not in included
        ]
        names += [name for name in self._names_of_words() if name not in theirs]
        for part in wrap(", ".join(names), self.dialect.limits.line_length - 40):
            self.lines.say("global", names=part.replace(" ", "").rstrip(","))
        self.lines.lines += body

    def insert(self, place: int) -> None:
        """Put what a user calls and must not name otherwise, as spelled here, near the top."""
        if self.lines.silent or self.program.library is not None:
            return
        body = self.lines.taken_from(place)
        width = min(self.dialect.limits.line_length, 100) - 14
        self.lines.remarks(["Routines for your program:"])
        for name, meaning in self.program.entry_points:
            self._line(f"{self._how_to_call(name)}: {meaning}", width)
        self.lines.remarks(["Names it uses:"])
        used = [(n, spelled) for (routine, n), spelled in self.names.scalars.items() if not routine]
        arrays = [(n, f"{name}({base})" if base else name) for n, (name, base) in self.names.arrays.items()]
        short = self.dialect.naming.style == "short"
        texts = [f"{n} {spelled}" if short else spelled for n, spelled in [*used, *arrays]]
        texts += self._names_of_words()
        self._line(", ".join(texts) + ".", width)
        self.lines.lines += body

    def _names_of_words(self, library: Program | None = None) -> list[str]:
        """Return the names that spellings of the words of the program, or its library, use for themselves."""
        program = library or self.program
        bodies = [program.main, *(routine.body for routine in program.routines)]
        words = {s.word for body in bodies for s in walk(body) if isinstance(s, Word)}
        found = {name for word in words for name in OWN_NAME.findall(self.dialect.words[word])}
        return sorted(f"{self.lines.texts['variable_prefix']}{name}" for name in found)

    def _line(self, text: str, width: int) -> None:
        """Add a comment, indented; a label in it counts as four digits."""
        for part in wrap(text, width) or [""]:
            self.lines.say("remark", text=f"  {part}")

    def _how_to_call(self, name: str) -> str:
        """Return how a routine is called."""
        parameters = self.program.routine(name).parameters
        spelled = [self.names.scalar(name, parameter) for parameter in parameters]
        if self.dialect.procedures:
            form = "call" if parameters else "call_plain"
            text = self.dialect.statements[form]
            return text.format(**self.lines.texts, name=self.names.routine(name), arguments=",".join(spelled))
        call = self.dialect.statements["call_plain"].format(
            **{**self.lines.texts, "line": pointed(f"routine:{name}"), "name": ""}
        )
        if not parameters:
            return call
        sets = ", ".join(f"{s} to {p}" for p, s in zip(parameters, spelled, strict=True))
        return f"set {sets}, then {call}"

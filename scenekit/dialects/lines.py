"""Lines of a program that is being spelled: labels, comments, and the numbers put to them at the end."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from textwrap import wrap

from scenekit.dialects.dialect import Dialect
from scenekit.errors import DialectError

LABEL = re.compile("\x00([^\x00]*)\x00")


@dataclass(slots=True)
class Line:
    """A line of the program before its number and the lines it points to are known."""

    text: str
    labels: list[str] = field(default_factory=list)


@dataclass(frozen=True, slots=True, kw_only=True)
class Options:
    """What the user may choose about generated code.

    prefix      before the names of variables and routines
    first_line  number of the first line, in numbered dialects
    """

    prefix: str = "sk_"
    first_line: int = 1000
    line_step: int = 1


def pointed(label: str) -> str:
    """Return what stands in a line for the number of the line that has a label."""
    return f"\x00{label}\x00"


class Lines:
    """The lines so far.

    texts    values for placeholders such as screen_width, as text
    pending  labels that wait for the next line
    depth    steps that lines stand further in
    silent   comments are left out
    """

    def __init__(self, dialect: Dialect, options: Options, constants: Mapping[str, int | str]) -> None:
        self.dialect = dialect
        self.options = options
        self.texts = {key: str(value) for key, value in constants.items()}
        self.lines: list[Line] = []
        self.pending: list[str] = []
        self.fresh = 0
        self.depth = 0
        self.silent = False

    def emit(self, text: str) -> None:
        """Add a line; labels waiting for one are put on it."""
        pad = "" if self.dialect.numbered else "  " * self.depth
        self.lines.append(Line(pad + text, self.pending))
        self.pending = []

    def say(self, statement: str, **values: str) -> None:
        """Add the line of a statement's spelling."""
        spelling = self.dialect.statements.get(statement)
        if spelling is None:
            raise DialectError(f"dialect {self.dialect.name}: no spelling for the statement {statement!r}")
        if spelling:
            self.emit(spelling.format(**self.texts, **values))

    def label(self) -> str:
        """Return a new label."""
        self.fresh += 1
        return f"L{self.fresh}"

    def taken_from(self, place: int) -> list[Line]:
        """Take the lines from a place on away and return them."""
        body, self.lines = self.lines[place:], self.lines[:place]
        return body

    def remarks(self, texts: Iterable[str]) -> None:
        """Add comment lines, wrapped to the line length."""
        if self.silent:
            return
        width = min(self.dialect.limits.line_length, 100) - 12 - 2 * self.depth
        for text in texts:
            for part in wrap(text, width) or [""]:
                self.say("remark", text=part)

    def too_long(self, text: str) -> bool:
        """Say whether a line with its number or its indentation is too long."""
        beside = 6 if self.dialect.numbered else 2 * self.depth
        return len(text) + beside > self.dialect.limits.line_length

    def resolve(self) -> str:
        """Put numbers to lines and to the labels that lines point to."""
        step, first = self.options.line_step, self.options.first_line
        place = {label: index for index, line in enumerate(self.lines) for label in line.labels}
        texts = []
        for index, line in enumerate(self.lines):
            text = LABEL.sub(lambda match, i=index: self._target(match.group(1), place, i), line.text)  # type: ignore[misc]
            text = f"{first + index * step} {text}" if self.dialect.numbered else text
            if len(text) > self.dialect.limits.line_length:
                raise DialectError(
                    f"dialect {self.dialect.name}: line {text[:40]!r}... has {len(text)} characters; "
                    f"at most {self.dialect.limits.line_length}"
                )
            texts.append(text)
        last = first + len(texts) * step
        high = self.dialect.limits.line_high
        if self.dialect.numbered and last > high:
            raise DialectError(
                f"dialect {self.dialect.name}: lines up to {last}; at most {high}; use a smaller scene"
            )
        return "\n".join(texts) + "\n"

    def _target(self, label: str, place: Mapping[str, int], here: int) -> str:
        """Return what stands for a label: a line number, or how many lines further on it is."""
        if label.startswith("+"):
            return str(place[label[1:]] - here)
        return str(self.options.first_line + place[label] * self.options.line_step)

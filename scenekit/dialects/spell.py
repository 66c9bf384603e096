"""Spells a neutral program in a dialect."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from textwrap import wrap

from scenekit.dialects.dialect import Dialect
from scenekit.dialects.limits import check_limits
from scenekit.dialects.names import Names
from scenekit.errors import DialectError
from scenekit.routines.language import (
    NEGATED,
    Assign,
    Binary,
    Call,
    Count,
    Element,
    Expression,
    For,
    If,
    Name,
    Number,
    Program,
    Remark,
    Return,
    Routine,
    Statement,
    Text,
    While,
    Word,
    precedence,
    walk,
)
from scenekit.routines.words import WORDS

LABEL = re.compile("\x00([^\x00]*)\x00")
OWN_NAME = re.compile(r"\{variable_prefix\}(\w+[%$]?)")
DATA_LABEL = "data"
STOPS_REMARK = "stops: ticks to save and report, -1 ends the list"


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
    stop_data   the list of stops stands in DATA, since the dialect cannot read files
    """

    prefix: str = "sk_"
    first_line: int = 1000
    line_step: int = 1


def missing_words(dialect: Dialect, program: Program) -> tuple[str, ...]:
    """Return every word that a program needs and a dialect does not spell, in order of first use."""
    bodies = [program.main, *(routine.body for routine in program.routines)]
    needed = [s.word for body in bodies for s in walk(body) if isinstance(s, Word)]
    return tuple(word for word in dict.fromkeys(needed) if word not in dialect.words)


def spell(dialect: Dialect, program: Program, constants: Mapping[str, int], options: Options) -> str:
    """Return the text of a program in a dialect, every line within its limits.

    constants  values for placeholders such as screen_width
    raises     DialectError: missing words (all of them at once), a line that does not fit
    """
    missing = missing_words(dialect, program)
    if missing:
        raise DialectError(f"dialect {dialect.name}: no spelling for the words {', '.join(missing)}")
    speller = _Speller(dialect, program, constants, options)
    text = speller.text()
    check_limits(dialect, program, text, len(speller.names.scalars))
    return text


class _Speller:
    def __init__(
        self, dialect: Dialect, program: Program, constants: Mapping[str, int], options: Options
    ) -> None:
        self.dialect = dialect
        self.program = program
        self.options = options
        self.names = Names(dialect, program, options.prefix)
        self.constants = {
            **constants,
            "variable_prefix": self.names.prefix.replace("_", dialect.naming.underscore),
        }
        self.texts = {key: str(value) for key, value in self.constants.items()}
        self.lines: list[Line] = []
        self.pending: list[str] = []
        self.routine = ""
        self.fresh = 0
        self.spare = 0
        self.depth = 0
        self.silent = False

    # -- lines and labels

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

    def text(self) -> str:
        """Return the whole program."""
        self.remarks(self.program.remarks[: 1 if self.dialect.brief else None])
        self.silent = self.dialect.brief
        if self.program.library is not None:
            self.say("include", file=self.program.library_file, name=self.names.file)
        guide_at = len(self.lines)
        if self.dialect.definitions_first:
            self.define_first()
            self.insert_guide(guide_at)
            return self.resolve()
        if not self.dialect.procedures:
            self.dims()
        start = len(self.lines)
        if self.program.main:
            if self.program.library is not None:
                self.dims()
            self.block(self.program.main)
            if not self.dialect.numbered:
                self.say("end")
        for routine in self.program.routines:
            self.spell_routine(routine)
        self.share_names(start)
        self.data()
        if self.dialect.numbered:
            self.say("end")
        self.insert_guide(guide_at)
        return self.resolve()

    def define_first(self) -> None:
        """Add tables, arrays and routines, and the main part after them."""
        self.data()
        start = len(self.lines)
        self.dims()
        for routine in callees_first(self.program):
            self.spell_routine(routine)
        if self.program.main:
            self.block(self.program.main)
            self.say("end")
        self.share_names(start)

    def share_names(self, place: int) -> None:
        """Put the lines that make variables known to all routines at a place, where the dialect has them."""
        if not self.dialect.statements.get("global"):
            return
        body, self.lines = self.lines[place:], self.lines[:place]
        included, library = self.names.included, self.program.library
        theirs = self.names_of_words(library) if library is not None else []
        names = [
            s for (routine, name), s in self.names.scalars.items() if not routine and name not in included
        ]
        names += [name for name in self.names_of_words() if name not in theirs]
        for part in wrap(", ".join(names), self.dialect.limits.line_length - 40):
            self.say("global", names=part.replace(" ", "").rstrip(","))
        self.lines += body

    def insert_guide(self, place: int) -> None:
        """Put what a user calls and must not name otherwise, as spelled here, near the top."""
        if self.silent or self.program.library is not None:
            return
        body, self.lines = self.lines, []
        width = min(self.dialect.limits.line_length, 100) - 14
        self.remarks(["Routines for your program:"])
        for name, meaning in self.program.entry_points:
            self.guide_line(f"{self.how_to_call(name)}: {meaning}", width)
        self.remarks(["Names it uses:"])
        used = [(n, spelled) for (routine, n), spelled in self.names.scalars.items() if not routine]
        arrays = [(n, f"{name}({base})" if base else name) for n, (name, base) in self.names.arrays.items()]
        short = self.dialect.naming.style == "short"
        texts = [f"{n} {spelled}" if short else spelled for n, spelled in [*used, *arrays]]
        texts += self.names_of_words()
        self.guide_line(", ".join(texts) + ".", width)
        body[place:place] = self.lines
        self.lines = body

    def names_of_words(self, library: Program | None = None) -> list[str]:
        """Return the names that spellings of the words of the program, or its library, use for themselves."""
        program = library or self.program
        bodies = [program.main, *(routine.body for routine in program.routines)]
        words = {s.word for body in bodies for s in walk(body) if isinstance(s, Word)}
        found = {name for word in words for name in OWN_NAME.findall(self.dialect.words[word])}
        return sorted(f"{self.constants['variable_prefix']}{name}" for name in found)

    def guide_line(self, text: str, width: int) -> None:
        """Add a comment, indented; a label in it counts as four digits."""
        for part in wrap(text, width) or [""]:
            self.say("remark", text=f"  {part}")

    def how_to_call(self, name: str) -> str:
        """Return how a routine is called."""
        parameters = self.program.routine(name).parameters
        spelled = [self.names.scalar(name, parameter) for parameter in parameters]
        if self.dialect.procedures:
            form = "call" if parameters else "call_plain"
            text = self.dialect.statements[form]
            return text.format(**self.texts, name=self.names.routine(name), arguments=",".join(spelled))
        call = self.dialect.statements["call_plain"].format(
            **{**self.texts, "line": f"\x00routine:{name}\x00", "name": ""}
        )
        if not parameters:
            return call
        sets = ", ".join(f"{s} to {p}" for p, s in zip(parameters, spelled, strict=True))
        return f"set {sets}, then {call}"

    def remarks(self, texts: Iterable[str]) -> None:
        """Add comment lines, wrapped to the line length."""
        if self.silent:
            return
        width = min(self.dialect.limits.line_length, 100) - 12 - 2 * self.depth
        for text in texts:
            for part in wrap(text, width) or [""]:
                self.say("remark", text=part)

    def dims(self) -> None:
        """Add the declarations of all arrays."""
        naming = self.dialect.naming
        if naming.one_array:
            size = max(self.names.total_items, 1)
            self.say("dim", name=naming.one_array, last=str(size - 1), size=str(size))
            return
        for name, size in self.program.arrays:
            largest = max(size, 1)
            self.say("dim", name=self.names.arrays[name][0], last=str(largest - 1), size=str(largest))

    def data(self) -> None:
        """Add the tables as DATA lines."""
        self.pending.append(DATA_LABEL)
        if "data_start" in self.dialect.statements:
            self.say("data_start")
        for table in self.program.tables:
            if not table.values:
                continue
            self.remarks([f"{table.name}: {table.remark}" if table.remark else table.name])
            for items in self.data_lines(table.values):
                self.say("data", items=items)
        for text in self.texts_of(self.program.packed):
            self.say("data", items=f'"{text}"')

    def texts_of(self, packed: str) -> Iterable[str]:
        """Yield the packed tables as texts, each as long as a line and a text may be."""
        sample = self.dialect.statements.get("data", "").format(**self.texts, items='""')
        limits = self.dialect.limits
        room = limits.line_length - len(sample) - (6 if self.dialect.numbered else 0)
        most = min(room, limits.text_length or room)
        every, left = limits.text_avoid
        if every and most % every == left:
            most -= 1
        for place in range(0, len(packed), most):
            text = packed[place : place + most]
            yield text + "0" if every and len(text) % every == left else text

    def data_lines(self, values: tuple[int, ...]) -> Iterable[str]:
        """Yield the items of DATA lines, as many to a line as fit."""
        sample = self.dialect.statements.get("data", "").format(**self.texts, items="")
        room = self.dialect.limits.line_length - len(sample) - (6 if self.dialect.numbered else 0)
        most = self.dialect.limits.data_items or 1_000_000
        items: list[str] = []
        used = 0
        for value in values:
            text = str(value)
            if items and (used + len(text) + 1 > room or len(items) == most):
                yield ",".join(items)
                items, used = [], 0
            items.append(text)
            used += len(text) + 1
        yield ",".join(items)

    def resolve(self) -> str:
        """Put numbers to lines and to the labels that lines point to."""
        step, first = self.options.line_step, self.options.first_line
        place = {label: index for index, line in enumerate(self.lines) for label in line.labels}
        texts = []
        for index, line in enumerate(self.lines):
            text = LABEL.sub(lambda match, i=index: self.target(match.group(1), place, i), line.text)  # type: ignore[misc]
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

    def target(self, label: str, place: Mapping[str, int], here: int) -> str:
        """Return what stands for a label: a line number, or how many lines further on it is."""
        if label.startswith("+"):
            return str(place[label[1:]] - here)
        return str(self.options.first_line + place[label] * self.options.line_step)

    # -- routines and statements

    def spell_routine(self, routine: Routine) -> None:
        """Add a routine."""
        self.routine = routine.name
        self.remarks(routine.remarks)
        if self.dialect.procedures:
            parameters = ",".join(self.names.scalar(routine.name, name) for name in routine.parameters)
            name = self.names.routine(routine.name)
            if parameters:
                self.say("routine", name=name, parameters=parameters)
            else:
                self.say("routine_plain", name=name)
            self.depth = 1
            if routine.locals:
                names = ",".join(self.names.scalar(routine.name, name) for name in routine.locals)
                self.say("local", names=names)
            if routine.name == "load" and not self.dialect.definitions_first:
                self.dims()
            self.block(routine.body)
            self.depth = 0
        else:
            self.pending.append(f"routine:{routine.name}")
            self.block(routine.body)
        self.say("end_routine")
        self.routine = ""

    def block(self, statements: tuple[Statement, ...]) -> None:
        """Add statements."""
        for statement in statements:
            self.statement(statement)

    def statement(self, statement: Statement) -> None:
        """Add one statement."""
        match statement:
            case Assign(target, value):
                place = (
                    target
                    if isinstance(target, Name)
                    else Element(target.array, self.fitting(target.index, 30))
                )
                value = self.fitting(value, len(self.expression(place)) + 12)
                self.say("assign", target=self.expression(place), value=self.expression(value))
            case For():
                self.loop(statement)
            case While(condition, body):
                self.while_loop(condition, body)
            case If():
                self.choice(statement)
            case Call(routine, arguments):
                self.call(routine, arguments)
            case Word(word, arguments):
                self.word(word, arguments)
            case Return():
                self.say("return")
            case Remark(text):
                self.remarks([text])
            case Count():
                raise DialectError("counting statements must be expanded before a program is spelled")

    def inner(self, statements: tuple[Statement, ...]) -> None:
        """Add statements one step further in."""
        self.depth += 1
        self.block(statements)
        self.depth -= 1

    def loop(self, loop: For) -> None:
        """Add a counted loop, guarded where the dialect would run it once too often."""
        known = isinstance(loop.first, Number) and isinstance(loop.last, Number)
        if self.dialect.loops_once and not (known and loop.first.value <= loop.last.value):  # type: ignore[union-attr]
            guard = Binary(">=", loop.last, loop.first)
            self.choice(If(guard, (loop,)), guarded=True)
            return
        self.counted(loop)

    def counted(self, loop: For) -> None:
        """Add a counted loop as it stands."""
        variable = self.names.scalar(self.routine, loop.variable)
        self.say("for", variable=variable, first=self.expression(loop.first), last=self.expression(loop.last))
        self.inner(loop.body)
        self.say("next", variable=variable)

    def while_loop(self, condition: Expression, body: tuple[Statement, ...]) -> None:
        """Add a loop under a condition."""
        if self.dialect.blocks:
            self.say("while", condition=self.expression(condition))
            self.inner(body)
            self.say("end_while")
            return
        top, out = self.label(), self.label()
        self.pending.append(top)
        self.jump_unless(condition, out)
        self.block(body)
        self.say("goto", line=f"\x00{top}\x00")
        self.pending.append(out)

    def choice(self, choice: If, guarded: bool = False) -> None:
        """Add a choice; `guarded` marks the guard of a loop that stands as its only statement."""
        if self.dialect.blocks:
            self.say("if", condition=self.expression(choice.condition))
            self.depth += 1
            self.counted(choice.body[0]) if guarded else self.block(choice.body)  # type: ignore[arg-type]
            self.depth -= 1
            if choice.otherwise:
                self.say("else")
                self.inner(choice.otherwise)
            self.say("end_if")
            return
        other, out = self.label(), self.label()
        self.jump_unless(choice.condition, other)
        self.counted(choice.body[0]) if guarded else self.block(choice.body)  # type: ignore[arg-type]
        if choice.otherwise:
            self.say("goto", line=f"\x00{out}\x00")
        self.pending.append(other)
        self.block(choice.otherwise)
        self.pending.append(out)

    def jump_unless(self, condition: Expression, label: str) -> None:
        """Add jumps to a label that are taken when a condition does not hold."""
        assert isinstance(condition, Binary)
        if condition.operator == "and":
            self.jump_unless(condition.left, label)
            self.jump_unless(condition.right, label)
        elif condition.operator == "or":
            inside = self.label()
            self.jump_if(condition.left, inside)
            self.jump_unless(condition.right, label)
            self.pending.append(inside)
        else:
            self.jump(Binary(NEGATED[condition.operator], condition.left, condition.right), label)

    def jump_if(self, condition: Expression, label: str) -> None:
        """Add jumps to a label that are taken when a condition holds."""
        assert isinstance(condition, Binary)
        if condition.operator == "or":
            self.jump_if(condition.left, label)
            self.jump_if(condition.right, label)
        elif condition.operator == "and":
            outside = self.label()
            self.jump_unless(condition.left, outside)
            self.jump_if(condition.right, label)
            self.pending.append(outside)
        else:
            self.jump(condition, label)

    def jump(self, comparison: Binary, label: str) -> None:
        """Add one jump under one comparison."""
        left = self.fitting(comparison.left, len(self.expression(comparison.right)) + 20)
        right = self.fitting(comparison.right, len(self.expression(left)) + 20)
        comparison = Binary(comparison.operator, left, right)
        self.say("if_goto", condition=self.expression(comparison), line=f"\x00{label}\x00")

    def call(self, routine: str, arguments: tuple[Expression, ...]) -> None:
        """Add a call; without procedures the arguments are assigned first."""
        if self.dialect.procedures:
            name = self.names.routine(routine)
            if arguments:
                inner = ",".join(self.argument(argument) for argument in arguments)
                self.say("call", name=name, arguments=inner)
            else:
                self.say("call_plain", name=name)
            return
        parameters = self.program.routine(routine).parameters
        for parameter, argument in zip(parameters, arguments, strict=True):
            target = self.names.scalar(routine, parameter)
            self.say("assign", target=target, value=self.expression(argument))
        self.say("call_plain", line=f"\x00routine:{routine}\x00", name="")

    def argument(self, value: Expression) -> str:
        """Return an argument; where variables are handed over themselves, their value instead."""
        text = self.expression(value)
        form = self.dialect.statements.get("argument")
        return form.format(value=text) if form and isinstance(value, Name | Element) else text

    def word(self, word: str, arguments: tuple[Expression, ...]) -> None:
        """Add the lines of a word."""
        parameters = WORDS[word].parameters
        if len(parameters) != len(arguments):
            raise DialectError(f"word {word}: {len(arguments)} arguments; takes {len(parameters)}")
        parts = self.word_lines(word, arguments)
        while any(self.too_long(part) for part in parts):
            longest = max(arguments, key=lambda a: len(self.expression(a)) if isinstance(a, Binary) else 0)
            if not isinstance(longest, Binary):
                break
            name = self.spare_for(longest)
            arguments = tuple(name if argument == longest else argument for argument in arguments)
            parts = self.word_lines(word, arguments)
        for part in parts:
            self.emit(part)

    def word_lines(self, word: str, arguments: tuple[Expression, ...]) -> list[str]:
        """Return the lines of a word."""
        values = {p: self.operand(a) for p, a in zip(WORDS[word].parameters, arguments, strict=True)}
        texts = {**self.texts, **values}
        texts["lines"] = f"\x00+{DATA_LABEL}\x00"
        texts["line"] = f"\x00{DATA_LABEL}\x00"
        return [part.format(**texts) for part in self.dialect.words[word].split("\n") if part]

    def too_long(self, text: str) -> bool:
        """Say whether a line with its number or its indentation is too long."""
        beside = 6 if self.dialect.numbered else 2 * self.depth
        return len(text) + beside > self.dialect.limits.line_length

    def spare_for(self, value: Expression) -> Name:
        """Assign a value to a new spare variable."""
        self.spare += 1
        name = Name(f"spare{self.spare}")
        self.statement(Assign(name, value))
        return name

    # -- expressions

    def fitting(self, value: Expression, beside: int) -> Expression:
        """Return an expression short enough for a line with some characters beside it.

        Parts of one that is too long are assigned to spare variables first.
        """
        while len(self.expression(value)) + beside > self.dialect.limits.line_length:
            parts = [part for part in _operations(value) if part is not value]
            if not parts:
                break
            part = max(parts, key=lambda p: len(self.expression(p)))
            name = self.spare_for(part)
            value = _replaced(value, part, name)
        return value

    def operand(self, value: Expression) -> str:
        """Return an expression that can stand beside any operator."""
        text = self.expression(value)
        negative = isinstance(value, Number) and value.value < 0
        return f"({text})" if isinstance(value, Binary) or negative else text

    def expression(self, value: Expression) -> str:
        """Return an expression."""
        match value:
            case Number(number):
                return str(number)
            case Name(name):
                return self.names.scalar(self.routine, name)
            case Text(text):
                return text
            case Element(array, index):
                return self.element(array, index)
            case Binary(operator, left, right):
                return self.binary(operator, left, right)

    def element(self, array: str, index: Expression) -> str:
        """Return an array element."""
        name, base = self.names.arrays[array]
        place = self.expression(index)
        if base and isinstance(index, Number):
            place = str(base + index.value)
        elif base and isinstance(index, Binary) and index.operator == "+" and isinstance(index.right, Number):
            place = f"{base + index.right.value}+{self.expression(index.left)}"
        elif base:
            place = f"{base}+{place}"
        return self.dialect.statements.get("element", "{name}({index})").format(name=name, index=place)

    def binary(self, operator: str, left: Expression, right: Expression) -> str:
        """Return an operation, with as few brackets as the neutral precedence needs."""
        level = precedence(operator)
        a, b = self.expression(left), self.expression(right)
        tight = operator in ("div", "mod")
        # A sign binds looser than + in some BASICs, so a negative number stands in brackets.
        if (isinstance(left, Binary) and (precedence(left.operator) < level or tight)) or a.startswith("-"):
            a = f"({a})"
        if (isinstance(right, Binary) and (precedence(right.operator) <= level or tight)) or b.startswith(
            "-"
        ):
            b = f"({b})"
        return self.dialect.operators[operator].format(a=a, b=b)


def callees_first(program: Program) -> tuple[Routine, ...]:
    """Return the routines of a program, each one after those that it calls."""
    ordered: dict[str, Routine] = {}
    known = {routine.name for routine in program.routines}

    def place(routine: Routine) -> None:
        if routine.name not in ordered:
            for statement in walk(routine.body):
                if isinstance(statement, Call) and statement.routine in known:
                    place(program.routine(statement.routine))
            ordered[routine.name] = routine

    for routine in program.routines:
        place(routine)
    return tuple(ordered.values())


def _operations(value: Expression) -> list[Binary]:
    """Return every operation within an expression."""
    match value:
        case Binary(_, left, right):
            return [value, *_operations(left), *_operations(right)]
        case Element(_, index):
            return _operations(index)
    return []


def _replaced(value: Expression, part: Expression, name: Name) -> Expression:
    """Return an expression with a part of it, wherever it stands, replaced by a variable."""
    if value == part:
        return name
    match value:
        case Binary(operator, left, right):
            return Binary(operator, _replaced(left, part, name), _replaced(right, part, name))
        case Element(array, index):
            return Element(array, _replaced(index, part, name))
    return value

"""Spells statements and routines, with jumps where a dialect has no blocks."""

from scenekit.dialects.expressions import Expressions, operations, replaced
from scenekit.dialects.lines import Lines, pointed
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
    While,
    Word,
)
from scenekit.routines.words import WORDS

DATA_LABEL = "data"


class Statements:
    """Adds the lines of statements."""

    def __init__(self, lines: Lines, names: Names, program: Program) -> None:
        self.lines = lines
        self.dialect = lines.dialect
        self.names = names
        self.program = program
        self.spelled = Expressions(lines.dialect, names)
        self.spare = 0

    def dims(self) -> None:
        """Add the declarations of all arrays."""
        naming = self.dialect.naming
        if naming.one_array:
            size = max(self.names.total_items, 1)
            self.lines.say("dim", name=naming.one_array, last=str(size - 1), size=str(size))
            return
        for name, size in self.program.arrays:
            largest = max(size, 1)
            self.lines.say("dim", name=self.names.arrays[name][0], last=str(largest - 1), size=str(largest))

    def routine(self, routine: Routine) -> None:
        """Add a routine."""
        self.spelled.routine = routine.name
        self.lines.remarks(routine.remarks)
        if self.dialect.procedures:
            parameters = ",".join(self.names.scalar(routine.name, name) for name in routine.parameters)
            name = self.names.routine(routine.name)
            if parameters:
                self.lines.say("routine", name=name, parameters=parameters)
            else:
                self.lines.say("routine_plain", name=name)
            self.lines.depth = 1
            if routine.locals:
                names = ",".join(self.names.scalar(routine.name, name) for name in routine.locals)
                self.lines.say("local", names=names)
            if routine.name == "load" and not self.dialect.definitions_first:
                self.dims()
            self.block(routine.body)
            self.lines.depth = 0
        else:
            self.lines.pending.append(f"routine:{routine.name}")
            self.block(routine.body)
        self.lines.say("end_routine")
        self.spelled.routine = ""

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
                text = self.spelled.text(place)
                value = self.fitting(value, len(text) + 12)
                self.lines.say("assign", target=text, value=self.spelled.text(value))
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
                self.lines.say("return")
            case Remark(text):
                self.lines.remarks([text])
            case Count():
                raise DialectError("counting statements must be expanded before a program is spelled")

    def inner(self, statements: tuple[Statement, ...]) -> None:
        """Add statements one step further in."""
        self.lines.depth += 1
        self.block(statements)
        self.lines.depth -= 1

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
        variable = self.spelled.scalar(loop.variable)
        self.lines.say(
            "for", variable=variable, first=self.spelled.text(loop.first), last=self.spelled.text(loop.last)
        )
        self.inner(loop.body)
        self.lines.say("next", variable=variable)

    def while_loop(self, condition: Expression, body: tuple[Statement, ...]) -> None:
        """Add a loop under a condition."""
        if self.dialect.blocks:
            self.lines.say("while", condition=self.spelled.text(condition))
            self.inner(body)
            self.lines.say("end_while")
            return
        top, out = self.lines.label(), self.lines.label()
        self.lines.pending.append(top)
        self.jump_unless(condition, out)
        self.block(body)
        self.lines.say("goto", line=pointed(top))
        self.lines.pending.append(out)

    def choice(self, choice: If, guarded: bool = False) -> None:
        """Add a choice; `guarded` marks the guard of a loop that stands as its only statement."""
        if self.dialect.blocks:
            self.lines.say("if", condition=self.spelled.text(choice.condition))
            self.lines.depth += 1
            self.counted(choice.body[0]) if guarded else self.block(choice.body)  # type: ignore[arg-type]
            self.lines.depth -= 1
            if choice.otherwise:
                self.lines.say("else")
                self.inner(choice.otherwise)
            self.lines.say("end_if")
            return
        other, out = self.lines.label(), self.lines.label()
        self.jump_unless(choice.condition, other)
        self.counted(choice.body[0]) if guarded else self.block(choice.body)  # type: ignore[arg-type]
        if choice.otherwise:
            self.lines.say("goto", line=pointed(out))
        self.lines.pending.append(other)
        self.block(choice.otherwise)
        self.lines.pending.append(out)

    def jump_unless(self, condition: Expression, label: str) -> None:
        """Add jumps to a label that are taken when a condition does not hold."""
        assert isinstance(condition, Binary)
        if condition.operator == "and":
            self.jump_unless(condition.left, label)
            self.jump_unless(condition.right, label)
        elif condition.operator == "or":
            inside = self.lines.label()
            self.jump_if(condition.left, inside)
            self.jump_unless(condition.right, label)
            self.lines.pending.append(inside)
        else:
            self.jump(Binary(NEGATED[condition.operator], condition.left, condition.right), label)

    def jump_if(self, condition: Expression, label: str) -> None:
        """Add jumps to a label that are taken when a condition holds."""
        assert isinstance(condition, Binary)
        if condition.operator == "or":
            self.jump_if(condition.left, label)
            self.jump_if(condition.right, label)
        elif condition.operator == "and":
            outside = self.lines.label()
            self.jump_unless(condition.left, outside)
            self.jump_if(condition.right, label)
            self.lines.pending.append(outside)
        else:
            self.jump(condition, label)

    def jump(self, comparison: Binary, label: str) -> None:
        """Add one jump under one comparison."""
        left = self.fitting(comparison.left, len(self.spelled.text(comparison.right)) + 20)
        right = self.fitting(comparison.right, len(self.spelled.text(left)) + 20)
        comparison = Binary(comparison.operator, left, right)
        self.lines.say("if_goto", condition=self.spelled.text(comparison), line=pointed(label))

    def call(self, routine: str, arguments: tuple[Expression, ...]) -> None:
        """Add a call; without procedures the arguments are assigned first."""
        if self.dialect.procedures:
            name = self.names.routine(routine)
            if arguments:
                inner = ",".join(self.spelled.argument(argument) for argument in arguments)
                self.lines.say("call", name=name, arguments=inner)
            else:
                self.lines.say("call_plain", name=name)
            return
        parameters = self.program.routine(routine).parameters
        for parameter, argument in zip(parameters, arguments, strict=True):
            target = self.names.scalar(routine, parameter)
            self.lines.say("assign", target=target, value=self.spelled.text(argument))
        self.lines.say("call_plain", line=pointed(f"routine:{routine}"), name="")

    def word(self, word: str, arguments: tuple[Expression, ...]) -> None:
        """Add the lines of a word."""
        parameters = WORDS[word].parameters
        if len(parameters) != len(arguments):
            raise DialectError(f"word {word}: {len(arguments)} arguments; takes {len(parameters)}")
        parts = self.word_lines(word, arguments)
        while any(self.lines.too_long(part) for part in parts):
            longest = max(arguments, key=lambda a: len(self.spelled.text(a)) if isinstance(a, Binary) else 0)
            if not isinstance(longest, Binary):
                break
            name = self.spare_for(longest)
            arguments = tuple(name if argument == longest else argument for argument in arguments)
            parts = self.word_lines(word, arguments)
        for part in parts:
            self.lines.emit(part)

    def word_lines(self, word: str, arguments: tuple[Expression, ...]) -> list[str]:
        """Return the lines of a word."""
        values = {p: self.spelled.operand(a) for p, a in zip(WORDS[word].parameters, arguments, strict=True)}
        texts = {**self.lines.texts, **values}
        texts["lines"] = pointed(f"+{DATA_LABEL}")
        texts["line"] = pointed(DATA_LABEL)
        return [part.format(**texts) for part in self.dialect.words[word].split("\n") if part]

    def spare_for(self, value: Expression) -> Name:
        """Assign a value to a new spare variable."""
        self.spare += 1
        name = Name(f"spare{self.spare}")
        self.statement(Assign(name, value))
        return name

    def fitting(self, value: Expression, beside: int) -> Expression:
        """Return an expression short enough for a line with some characters beside it.

        Parts of one that is too long are assigned to spare variables first.
        """
        while len(self.spelled.text(value)) + beside > self.dialect.limits.line_length:
            parts = [part for part in operations(value) if part is not value]
            if not parts:
                break
            part = max(parts, key=lambda p: len(self.spelled.text(p)))
            name = self.spare_for(part)
            value = replaced(value, part, name)
        return value

"""The neutral language: its statements as records, read from and written as text.

A program is routines over whole numbers and one-dimensional arrays:

    routine NAME(a, b)          a routine; names in brackets are its own
      local c                   further names of its own
      x = a + 2 * table(c)      assignment; also  table(c) = x
      for i = 0 to n - 1        counts up; runs not at all when the end lies below the start
      while x < 9
      if x = 1 and y <> 2       with an optional  else
      do OTHER(x, 3)            calls a routine; routines never call themselves
      count blit, w * h         adds a call and pixels of an operation, in counting programs only
      WORD x, y, "text"         a word that the target has: see words.py
      return
    end                         closes each of these

`div` and `mod` take operands that are not negative. Comparisons stand only in conditions.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from scenekit.errors import DialectError


@dataclass(frozen=True, slots=True)
class Number:
    """A whole number."""

    value: int


@dataclass(frozen=True, slots=True)
class Name:
    """A variable."""

    name: str


@dataclass(frozen=True, slots=True)
class Element:
    """An element of an array, counted from 0."""

    array: str
    index: "Expression"


@dataclass(frozen=True, slots=True)
class Binary:
    """Two operands: + - * div mod, comparisons, and, or."""

    operator: str
    left: "Expression"
    right: "Expression"


@dataclass(frozen=True, slots=True)
class Text:
    """A literal text, only as an argument of a word."""

    text: str


Expression = Number | Name | Element | Binary | Text


@dataclass(frozen=True, slots=True)
class Assign:
    """target = value."""

    target: Name | Element
    value: Expression


@dataclass(frozen=True, slots=True)
class For:
    """A counted loop."""

    variable: str
    first: Expression
    last: Expression
    body: tuple["Statement", ...]


@dataclass(frozen=True, slots=True)
class While:
    """A loop under a condition."""

    condition: Expression
    body: tuple["Statement", ...]


@dataclass(frozen=True, slots=True)
class If:
    """A choice."""

    condition: Expression
    body: tuple["Statement", ...]
    otherwise: tuple["Statement", ...] = ()


@dataclass(frozen=True, slots=True)
class Call:
    """A call of a routine."""

    routine: str
    arguments: tuple[Expression, ...]


@dataclass(frozen=True, slots=True)
class Word:
    """A word of the target with its arguments."""

    word: str
    arguments: tuple[Expression, ...]


@dataclass(frozen=True, slots=True)
class Count:
    """Counts one call of an operation and its pixels, in counting programs."""

    operation: str
    pixels: Expression


@dataclass(frozen=True, slots=True)
class Return:
    """Leaves the routine."""


@dataclass(frozen=True, slots=True)
class Remark:
    """A comment line."""

    text: str


Statement = Assign | For | While | If | Call | Word | Count | Return | Remark


@dataclass(frozen=True, slots=True)
class Routine:
    """A routine with its parameters and own names."""

    name: str
    parameters: tuple[str, ...]
    locals: tuple[str, ...]
    body: tuple[Statement, ...]
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Table:
    """A named run of integers that the program reads into an array."""

    name: str
    values: tuple[int, ...]
    remark: str = ""


@dataclass(frozen=True, slots=True)
class Program:
    """A whole program: arrays with sizes, a main part (may be empty), routines, tables in order.

    entry_points   routines for a user to call, each with what it does
    packed         encoded tables as one text; then `tables` holds only what stands in DATA as numbers
    """

    name: str
    remarks: tuple[str, ...]
    arrays: tuple[tuple[str, int], ...]
    main: tuple[Statement, ...]
    routines: tuple[Routine, ...]
    tables: tuple[Table, ...] = ()
    entry_points: tuple[tuple[str, str], ...] = ()
    packed: str = ""

    def routine(self, name: str) -> Routine:
        """Return a routine by name."""
        return next(routine for routine in self.routines if routine.name == name)


TOKEN = re.compile(r'\s*(?:(\d+)|([a-z_][a-z0-9_]*)|"([^"]*)"|(<=|>=|<>|[-+*=<>(),]))')
COMPARISONS = ("=", "<>", "<", "<=", ">", ">=")
LEVELS: tuple[tuple[str, ...], ...] = (("or",), ("and",), COMPARISONS, ("+", "-"), ("*", "div", "mod"))
NEGATED = {"=": "<>", "<>": "=", "<": ">=", ">=": "<", ">": "<=", "<=": ">"}
DEEPEST_BLOCKS = 16
DEEPEST_BRACKETS = 40
LONGEST_NUMBER = 18
KEYWORDS = (
    "routine",
    "end",
    "local",
    "for",
    "to",
    "while",
    "if",
    "else",
    "do",
    "count",
    "return",
    "div",
    "mod",
)


class _Tokens:
    """The tokens of one line."""

    def __init__(self, text: str, where: str) -> None:
        self.where = where
        self.tokens: list[tuple[str, str]] = []
        position = 0
        while text[position:].strip():
            match = TOKEN.match(text, position)
            if not match:
                raise DialectError(f"{where}: cannot read {text[position:].strip()!r}")
            kind = ("number", "name", "text", "sign")[match.lastindex - 1 if match.lastindex else 0]
            self.tokens.append((kind, match.group(match.lastindex or 0)))
            position = match.end()
        self.at = 0
        self.depth = 0

    def peek(self) -> str:
        return self.tokens[self.at][1] if self.at < len(self.tokens) else ""

    def take(self, expected: str = "") -> tuple[str, str]:
        if self.at >= len(self.tokens) or (expected and self.peek() != expected):
            raise DialectError(
                f"{self.where}: expected {expected or 'more'!r}, got {self.peek() or 'the end'!r}"
            )
        self.at += 1
        return self.tokens[self.at - 1]

    def name(self) -> str:
        kind, text = self.take()
        if kind != "name" or text in KEYWORDS:
            raise DialectError(f"{self.where}: {text!r} is no name")
        return text

    def finish(self) -> None:
        if self.at < len(self.tokens):
            raise DialectError(f"{self.where}: {self.peek()!r} is too much")


def _expression(tokens: _Tokens, level: int = 0) -> Expression:
    if level == len(LEVELS):
        return _operand(tokens)
    left = _expression(tokens, level + 1)
    while tokens.peek() in LEVELS[level]:
        operator = tokens.take()[1]
        left = Binary(operator, left, _expression(tokens, level + 1))
    return left


def _operand(tokens: _Tokens) -> Expression:
    tokens.depth += 1
    if tokens.depth > DEEPEST_BRACKETS:
        raise DialectError(f"{tokens.where}: more than {DEEPEST_BRACKETS} brackets within each other")
    value = _operand_inside(tokens)
    tokens.depth -= 1
    return value


def _operand_inside(tokens: _Tokens) -> Expression:
    kind, text = tokens.take()
    if kind == "number":
        if len(text) > LONGEST_NUMBER:
            raise DialectError(f"{tokens.where}: a number of {len(text)} digits; at most {LONGEST_NUMBER}")
        return Number(int(text))
    if kind == "text":
        return Text(text)
    if text == "-":
        inner = _operand(tokens)
        return Number(-inner.value) if isinstance(inner, Number) else Binary("-", Number(0), inner)
    if text == "(":
        inner = _expression(tokens)
        tokens.take(")")
        return inner
    if kind != "name" or text in KEYWORDS:
        raise DialectError(f"{tokens.where}: {text!r} is no value")
    if tokens.peek() == "(":
        tokens.take("(")
        index = _expression(tokens)
        tokens.take(")")
        return Element(text, index)
    return Name(text)


def _arguments(tokens: _Tokens) -> tuple[Expression, ...]:
    arguments: list[Expression] = []
    while tokens.at < len(tokens.tokens) and tokens.peek() != ")":
        if arguments:
            tokens.take(",")
        arguments.append(_expression(tokens))
    return tuple(arguments)


class _Lines:
    """Lines of a text with their numbers."""

    def __init__(self, text: str, label: str) -> None:
        self.lines = [(n + 1, line.strip()) for n, line in enumerate(text.splitlines()) if line.strip()]
        self.label = label
        self.at = 0
        self.depth = 0

    def more(self) -> bool:
        return self.at < len(self.lines)

    def take(self) -> tuple[str, str]:
        if not self.more():
            raise DialectError(f"{self.label}: ends within a routine or block")
        number, line = self.lines[self.at]
        self.at += 1
        return line, f"{self.label}: line {number}"


def parse_routines(text: str, label: str) -> tuple[Routine, ...]:
    """Read routines from text.

    raises   DialectError: with the line
    """
    lines = _Lines(text, label)
    routines, remarks = [], list[str]()
    while lines.more():
        line, where = lines.take()
        if line.startswith("'"):
            remarks.append(line[1:].strip())
            continue
        routines.append(_routine(line, where, lines, tuple(remarks)))
        remarks = []
    return tuple(routines)


def parse_statements(text: str, label: str) -> tuple[Statement, ...]:
    """Read statements up to the end of the text."""
    lines = _Lines(text + "\nend", label)
    body, _ = _block(lines, [])
    return body


def _routine(line: str, where: str, lines: _Lines, remarks: tuple[str, ...]) -> Routine:
    tokens = _Tokens(line, where)
    tokens.take("routine")
    name = tokens.name()
    parameters: list[str] = []
    if tokens.peek() == "(":
        tokens.take("(")
        while tokens.peek() != ")":
            if parameters:
                tokens.take(",")
            parameters.append(tokens.name())
        tokens.take(")")
    tokens.finish()
    own: list[str] = []
    body, _ = _block(lines, own)
    return Routine(name, tuple(parameters), tuple(own), body, remarks)


def _block(lines: _Lines, own: list[str]) -> tuple[tuple[Statement, ...], str]:
    """Read statements up to `end` or `else`; returns them and which of the two it was."""
    body: list[Statement] = []
    lines.depth += 1
    while True:
        line, where = lines.take()
        if lines.depth > DEEPEST_BLOCKS:
            raise DialectError(f"{where}: more than {DEEPEST_BLOCKS} blocks within each other")
        if line in ("end", "else"):
            lines.depth -= 1
            return tuple(body), line
        if line.startswith("'"):
            body.append(Remark(line[1:].strip()))
            continue
        statement = _statement(_Tokens(line, where), lines, own)
        if statement is not None:
            body.append(statement)


def _statement(tokens: _Tokens, lines: _Lines, own: list[str]) -> Statement | None:
    kind, first = tokens.take()
    if kind != "name":
        raise DialectError(f"{tokens.where}: {first!r} begins no statement")
    if first == "local":
        own.extend(argument.name for argument in _arguments(tokens) if isinstance(argument, Name))
        return None
    if first in ("for", "while", "if"):
        return _compound(first, tokens, lines, own)
    if first == "return":
        tokens.finish()
        return Return()
    if first == "do":
        name = tokens.name()
        arguments: tuple[Expression, ...] = ()
        if tokens.peek() == "(":
            tokens.take("(")
            arguments = _arguments(tokens)
            tokens.take(")")
        tokens.finish()
        return Call(name, arguments)
    if first == "count":
        operation = tokens.name()
        if tokens.peek() == "-":
            tokens.take("-")
            operation += "-" + tokens.name()
        tokens.take(",")
        statement: Statement = Count(operation, _expression(tokens))
    elif tokens.peek() == "=":
        tokens.take("=")
        statement = Assign(Name(first), _expression(tokens))
    elif tokens.peek() == "(" and (target := _element(tokens)) is not None:
        tokens.take("=")
        statement = Assign(target, _expression(tokens))
    else:
        statement = Word(first, _arguments(tokens))
    tokens.finish()
    return statement


def _element(tokens: _Tokens) -> Element | None:
    """Read the element that is assigned to, or nothing when the bracket begins a word's first argument."""
    start = tokens.at
    tokens.at -= 1
    target = _operand(tokens)
    if isinstance(target, Element) and tokens.peek() == "=":
        return target
    tokens.at = start
    return None


def _compound(first: str, tokens: _Tokens, lines: _Lines, own: list[str]) -> Statement:
    if first == "for":
        variable = tokens.name()
        tokens.take("=")
        start = _expression(tokens)
        tokens.take("to")
        last = _expression(tokens)
        tokens.finish()
        return For(variable, start, last, _block(lines, own)[0])
    condition = _expression(tokens)
    tokens.finish()
    body, closing = _block(lines, own)
    if first == "while":
        return While(condition, body)
    otherwise = _block(lines, own)[0] if closing == "else" else ()
    return If(condition, body, otherwise)


def precedence(operator: str) -> int:
    """Return how tightly an operator binds; higher is tighter."""
    return next(i for i, level in enumerate(LEVELS) if operator in level)


def expression_text(value: Expression, outer: int = -1) -> str:
    """Return an expression as neutral text."""
    match value:
        case Number(number):
            return str(number) if number >= 0 or outer < 0 else f"({number})"
        case Name(name):
            return name
        case Text(text):
            return f'"{text}"'
        case Element(array, index):
            return f"{array}({expression_text(index)})"
        case Binary(operator, left, right):
            level = precedence(operator)
            text = f"{expression_text(left, level - 1)} {operator} {expression_text(right, level)}"
            return f"({text})" if level <= outer else text


def statement_lines(statements: tuple[Statement, ...], depth: int = 1) -> Iterator[str]:
    """Yield statements as neutral text, indented."""
    pad = "  " * depth
    for statement in statements:
        match statement:
            case Assign(target, value):
                yield f"{pad}{expression_text(target)} = {expression_text(value)}"
            case For(variable, first, last, body):
                yield f"{pad}for {variable} = {expression_text(first)} to {expression_text(last)}"
                yield from statement_lines(body, depth + 1)
                yield f"{pad}end"
            case While(condition, body):
                yield f"{pad}while {expression_text(condition)}"
                yield from statement_lines(body, depth + 1)
                yield f"{pad}end"
            case If(condition, body, otherwise):
                yield f"{pad}if {expression_text(condition)}"
                yield from statement_lines(body, depth + 1)
                if otherwise:
                    yield f"{pad}else"
                    yield from statement_lines(otherwise, depth + 1)
                yield f"{pad}end"
            case Call(routine, arguments):
                inner = ", ".join(expression_text(argument) for argument in arguments)
                yield f"{pad}do {routine}({inner})" if inner else f"{pad}do {routine}"
            case Word(word, arguments):
                yield (pad + word + " " + ", ".join(expression_text(a) for a in arguments)).rstrip()
            case Count(operation, pixels):
                yield f"{pad}count {operation}, {expression_text(pixels)}"
            case Return():
                yield f"{pad}return"
            case Remark(text):
                yield f"{pad}' {text}"


def routine_lines(routine: Routine) -> Iterator[str]:
    """Yield a routine as neutral text."""
    for remark in routine.remarks:
        yield f"' {remark}"
    inner = ", ".join(routine.parameters)
    yield f"routine {routine.name}({inner})" if inner else f"routine {routine.name}"
    if routine.locals:
        yield f"  local {', '.join(routine.locals)}"
    yield from statement_lines(routine.body)
    yield "end"


Change = Callable[[Statement], tuple[Statement, ...]]
"""What stands in a statement's place: nothing, one or several statements."""


def map_statements(statements: tuple[Statement, ...], change: Change) -> tuple[Statement, ...]:
    """Return statements with each one, innermost first, replaced by what `change` gives for it."""
    result: list[Statement] = []
    for statement in statements:
        if isinstance(statement, For | While):
            statement = replace(statement, body=map_statements(statement.body, change))
        elif isinstance(statement, If):
            body = map_statements(statement.body, change)
            statement = replace(statement, body=body, otherwise=map_statements(statement.otherwise, change))
        result.extend(change(statement))
    return tuple(result)


def walk(statements: tuple[Statement, ...]) -> Iterator[Statement]:
    """Yield every statement, outer ones first."""
    for statement in statements:
        yield statement
        if isinstance(statement, For | While | If):
            yield from walk(statement.body)
        if isinstance(statement, If):
            yield from walk(statement.otherwise)

"""Reads the neutral language from text."""

import re

from scenekit.errors import DialectError
from scenekit.routines.language import (
    LEVELS,
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
    Remark,
    Return,
    Routine,
    Statement,
    Text,
    While,
    Word,
)

TOKEN = re.compile(r'\s*(?:(\d+)|([a-z_][a-z0-9_]*)|"([^"]*)"|(<=|>=|<>|[-+*=<>(),]))')
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


LONGEST_NAME = 60
LONGEST_SHOWN = 40


class _Tokens:
    """The tokens of one line."""

    def __init__(self, text: str, where: str) -> None:
        self.where = where
        self.tokens: list[tuple[str, str]] = []
        position = 0
        while text[position:].strip():
            match = TOKEN.match(text, position)
            if not match:
                raise DialectError(f"{where}: cannot read {text[position:].strip()[:LONGEST_SHOWN]!r}")
            kind = ("number", "name", "text", "sign")[match.lastindex - 1 if match.lastindex else 0]
            token = match.group(match.lastindex or 0)
            if kind == "name" and len(token) > LONGEST_NAME:
                raise DialectError(
                    f"{where}: name {token[:LONGEST_SHOWN]}...: at most {LONGEST_NAME} characters"
                )
            self.tokens.append((kind, token))
            position = match.end()
        self.at = 0
        self.depth = 0

    def peek(self) -> str:
        return self.tokens[self.at][1] if self.at < len(self.tokens) else ""

    def take(self, expected: str = "") -> tuple[str, str]:
        if self.at >= len(self.tokens) or (expected and self.peek() != expected):
            got = self.peek()[:LONGEST_SHOWN] or "the end"
            raise DialectError(f"{self.where}: expected {expected or 'more'!r}, got {got!r}")
        self.at += 1
        return self.tokens[self.at - 1]

    def name(self) -> str:
        kind, text = self.take()
        if kind != "name" or text in KEYWORDS:
            raise DialectError(f"{self.where}: {text[:LONGEST_SHOWN]!r} is no name")
        return text

    def finish(self) -> None:
        if self.at < len(self.tokens):
            raise DialectError(f"{self.where}: {self.peek()[:LONGEST_SHOWN]!r} is too much")


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
        raise DialectError(f"{tokens.where}: {text[:LONGEST_SHOWN]!r} is no value")
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
    body, closing = _block(lines, [])
    if closing == "else" or lines.more():
        raise DialectError(f"{label}: line {lines.lines[lines.at - 1][0]}: {closing!r} closes nothing")
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
        raise DialectError(f"{tokens.where}: {first[:LONGEST_SHOWN]!r} begins no statement")
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

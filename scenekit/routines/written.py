"""Writes the neutral language as text."""

from collections.abc import Iterator

from scenekit.routines.language import (
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
    precedence,
)


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

"""Turns the text of a neutral program into Python that the executor runs."""

import re
from collections.abc import Iterator
from pathlib import Path

from scenekit.errors import DialectError, VerifyError
from scenekit.routines.language import (
    Assign,
    Binary,
    Call,
    Element,
    Expression,
    For,
    If,
    Name,
    Number,
    Return,
    Routine,
    Statement,
    Text,
    While,
    Word,
)
from scenekit.routines.parse import parse_routines, parse_statements
from scenekit.routines.words import WORDS

OPERATORS = {"div": "//", "mod": "%", "=": "==", "<>": "!="}
INCLUDE = re.compile(r'^include "([\w.-]+)"$', re.MULTILINE)
BLOCKS = ("for ", "while ", "if ")


def with_included(folder: Path, text: str, largest_bytes: int) -> str:
    """Return a program with the files that it includes behind it.

    raises   VerifyError: no such file beside the program, or a larger one
    """
    names = INCLUDE.findall(text)
    parts = [INCLUDE.sub("", text)]
    for name in names:
        path = folder / name
        if not path.is_file() or path.stat().st_size > largest_bytes:
            raise VerifyError(f"include: got {name!r}; must be a file beside the program")
        parts.append(path.read_bytes().decode("ascii", "replace"))
    return "\n".join(parts)


def split_program(
    text: str, label: str
) -> tuple[tuple[Statement, ...], tuple[Routine, ...], tuple[int | str, ...]]:
    """Return the main part, the routines and the values of a neutral program's text.

    raises   DialectError: with the line
    """
    data: list[int | str] = []
    main: list[str] = []
    routines: list[str] = []
    depth = 0
    for line in text.splitlines():
        stripped = line.strip()
        if stripped.startswith("data "):
            data.extend(_values(stripped[5:], label))
            main.append("")
            routines.append("")
        elif depth or stripped.startswith("routine "):
            depth += stripped.startswith(("routine ", *BLOCKS)) - (stripped == "end")
            routines.append(line)
            main.append("")
        else:
            main.append(line)
            routines.append("")
    return (
        parse_statements("\n".join(main), label),
        parse_routines("\n".join(routines), label),
        tuple(data),
    )


def _values(text: str, label: str) -> Iterator[int | str]:
    packed = re.fullmatch(r'"([!#-~]*)"', text.strip())
    if packed:
        yield packed.group(1)
        return
    for item in text.split(","):
        if not re.fullmatch(r"\s*-?\d{1,12}\s*", item):
            raise DialectError(f"{label}: data: got {item[:20]!r}; must be a whole number")
        yield int(item)


def python_lines(main: tuple[Statement, ...], routines: tuple[Routine, ...]) -> Iterator[str]:
    """Yield Python source for a program; every name is marked, so that none can be Python's own."""
    for routine in (Routine("", (), (), main), *routines):
        own = {*routine.parameters, *routine.locals}
        changed = sorted(_assigned(routine.body) - own)
        name = f"r_{routine.name}" if routine.name else "main"
        yield f"def {name}({', '.join('v_' + p for p in routine.parameters)}):"
        if changed:
            yield "    global " + ", ".join("v_" + name for name in changed)
        yield from _lines(routine.body, 1)
        yield "    return"


def _assigned(statements: tuple[Statement, ...]) -> set[str]:
    """Return the variables that statements assign."""
    names: set[str] = set()
    for statement in statements:
        match statement:
            case Assign(Name(name), _):
                names.add(name)
            case For(variable, _, _, body):
                names |= {variable} | _assigned(body)
            case While(_, body):
                names |= _assigned(body)
            case If(_, body, otherwise):
                names |= _assigned(body) | _assigned(otherwise)
            case Word("array", (Name(name), _)):
                names.add("array_" + name)
            case Word(word, arguments):
                place = WORDS[word].sets if word in WORDS else None
                if place is not None and isinstance(arguments[place], Name):
                    names.add(arguments[place].name)  # type: ignore[union-attr]
    return names


def _lines(statements: tuple[Statement, ...], depth: int) -> Iterator[str]:
    pad = "    " * depth
    for statement in statements:
        match statement:
            case Assign(target, value):
                yield f"{pad}{_value(target)} = {_value(value)}"
            case For(variable, first, last, body):
                yield f"{pad}for v_{variable} in range({_value(first)}, {_value(last)} + 1):"
                yield from _lines(body, depth + 1)
                yield f"{pad}    turn()"
            case While(condition, body):
                yield f"{pad}while {_value(condition)}:"
                yield from _lines(body, depth + 1)
                yield f"{pad}    turn()"
            case If(condition, body, otherwise):
                yield f"{pad}if {_value(condition)}:"
                yield from _lines(body, depth + 1)
                yield f"{pad}    pass"
                if otherwise:
                    yield f"{pad}else:"
                    yield from _lines(otherwise, depth + 1)
            case Call(routine, arguments):
                yield f"{pad}r_{routine}({', '.join(_value(argument) for argument in arguments)})"
            case Word(word, arguments):
                yield pad + _word(word, arguments)
            case Return():
                yield f"{pad}return"


def _word(word: str, arguments: tuple[Expression, ...]) -> str:
    if word == "array" and len(arguments) == 2 and isinstance(arguments[0], Name):
        return f"v_array_{arguments[0].name} = w_array({_value(arguments[1])})"
    if word not in WORDS:
        raise DialectError(f"executor: unknown word {word!r}")
    place = WORDS[word].sets
    if place is None:
        return f"w_{word}({', '.join(_value(argument) for argument in arguments)})"
    others = ", ".join(_value(argument) for number, argument in enumerate(arguments) if number != place)
    return f"{_value(arguments[place])} = w_{word}({others})"


def _value(value: Expression) -> str:
    match value:
        case Number(number):
            return str(number)
        case Name(name):
            return f"v_{name}"
        case Text(text):
            return repr(text)
        case Element(array, index):
            return f"v_array_{array}[{_place(index)}]"
        case Binary(operator, left, right):
            return f"({_value(left)} {OPERATORS.get(operator, operator)} {_value(right)})"


def _place(index: Expression) -> str:
    """Return an array place that is never below 0, since Python would count that from the end."""
    if isinstance(index, Number) and index.value >= 0:
        return str(index.value)
    return f"k if (k := {_value(index)}) >= 0 else below(k)"

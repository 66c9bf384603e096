"""Reads a program of the user's own, in neutral words, that calls the routines of an exported library."""

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from scenekit.errors import DialectError
from scenekit.model.project import Project
from scenekit.programs.numbers import number_of
from scenekit.routines.language import (
    COMPARISONS,
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
    map_statements,
    names_set,
    walk,
)
from scenekit.routines.parse import parse_routines, parse_statements
from scenekit.routines.words import WORDS

LARGEST_TEXT = 200_000
LARGEST_NUMBER = 32_767
LONGEST_NAME = 24
LARGEST_ARRAY, MOST_ARRAYS = 10_000, 50
OWN_NAME = re.compile(r"[a-z][0-9]?")
SIGNS = re.compile(r"[\n -~]*")
CONDITIONS = (*COMPARISONS, "and", "or")
TAKES_FILE = "file"


def read_own(text: str, label: str, project: Project, library: Program) -> Program:
    """Return the user's program: a main part, then routines; names of the project in quotes become numbers.

    label    what messages call it
    library  what its calls, arrays and further names belong to
    raises   DialectError: with the line or routine
    """
    if len(text) > LARGEST_TEXT:
        raise DialectError(f"{label}: {len(text)} characters; at most {LARGEST_TEXT}")
    text = text.replace("\r\n", "\n").expandtabs()
    if not SIGNS.fullmatch(text):
        raise DialectError(f"{label}: must be plain ASCII text")
    first, rest = _parted(text)
    main = parse_statements(first, label)
    routines = parse_routines(rest, label)
    arrays, main = _with_own_arrays(main, label, library)
    program = Program(
        name=label,
        remarks=_title(main),
        arrays=arrays,
        main=_without_title(main),
        routines=routines,
        library=library,
    )
    program = _with_numbers(program, label, project)
    both = sorted({name for name, _ in arrays} & names_set(program))
    if both:
        raise DialectError(f"{label}: {both[0]}: is an array, and a variable too; must be one of them")
    for name, own, body in _bodies(program):
        _check_body(f"{label}: {name}", body, own, program)
    _check_calls(label, program)
    return program


def _parted(text: str) -> tuple[str, str]:
    """Return the text of the main part and that of the routines, lines counted from the same place."""
    lines = text.split("\n")
    at = next((n for n, line in enumerate(lines) if line.strip().startswith("routine ")), len(lines))
    while at and lines[at - 1].strip().startswith("'"):
        at -= 1
    return "\n".join(lines[:at]), "\n" * at + "\n".join(lines[at:])


def _title(main: Sequence[Statement]) -> tuple[str, ...]:
    title = []
    for statement in main:
        if not isinstance(statement, Remark):
            break
        title.append(statement.text)
    return tuple(title)


def _without_title(main: tuple[Statement, ...]) -> tuple[Statement, ...]:
    return main[len(_title(main)) :]


def _with_own_arrays(
    main: tuple[Statement, ...], label: str, library: Program
) -> tuple[tuple[tuple[str, int], ...], tuple[Statement, ...]]:
    """Return the arrays that a main part asks for, such as `array visited, 40`, and the rest of it."""
    arrays: dict[str, int] = {}
    rest = []
    taken = names_set(library) | {name for name, _ in library.arrays} | {r.name for r in library.routines}
    for statement in main:
        match statement:
            case Word("array", (Name(name), Number(size))):
                if name in taken or name in arrays or name in WORDS or len(name) > LONGEST_NAME:
                    raise DialectError(
                        f"{label}: array {name[:LONGEST_NAME]}: must be a name of its own of at most "
                        f"{LONGEST_NAME} characters"
                    )
                if not 1 <= size <= LARGEST_ARRAY or len(arrays) == MOST_ARRAYS:
                    raise DialectError(
                        f"{label}: array {name}: got {size} places; must be 1 to {LARGEST_ARRAY}, "
                        f"and at most {MOST_ARRAYS} arrays"
                    )
                arrays[name] = size
            case _:
                rest.append(statement)
    return tuple(arrays.items()), tuple(rest)


def _bodies(program: Program) -> Iterator[tuple[str, frozenset[str], tuple[Statement, ...]]]:
    yield "main part", frozenset(), program.main
    for routine in program.routines:
        yield f"routine {routine.name}", frozenset((*routine.parameters, *routine.locals)), routine.body


def _with_numbers(program: Program, label: str, project: Project) -> Program:
    """Return a program in which names of the project are its numbers."""

    def number(value: Expression) -> Expression:
        match value:
            case Text(text):
                return Number(number_of(project, text, label))
            case Binary(operator, left, right):
                return Binary(operator, number(left), number(right))
            case Element(array, index):
                return Element(array, number(index))
        return value

    def change(statement: Statement) -> tuple[Statement, ...]:
        return (with_expressions(statement, number),)

    routines = tuple(replace(r, body=map_statements(r.body, change)) for r in program.routines)
    return replace(program, main=map_statements(program.main, change), routines=routines)


def with_expressions(statement: Statement, change: Callable[[Expression], Expression]) -> Statement:
    """Return a statement with each of its own expressions changed; those of statements within it stay."""
    match statement:
        case Assign(Element(array, index), value):
            return Assign(Element(array, change(index)), change(value))
        case Assign(target, value):
            return Assign(target, change(value))
        case For(variable, first, last, body):
            return For(variable, change(first), change(last), body)
        case While(condition, body):
            return While(change(condition), body)
        case If(condition, body, otherwise):
            return If(change(condition), body, otherwise)
        case Call(routine, arguments):
            return Call(routine, tuple(change(argument) for argument in arguments))
        case Word(word, arguments) if word not in WORDS or TAKES_FILE not in WORDS[word].parameters:
            return Word(word, tuple(change(argument) for argument in arguments))
    return statement


def _check_body(where: str, body: tuple[Statement, ...], own: frozenset[str], program: Program) -> None:
    """Refuse what no dialect could spell, or what names things that are not there."""
    for name in own:
        if not OWN_NAME.fullmatch(name):
            raise DialectError(f"{where}: own name {name}: must be a small letter, or one and a digit")
    known = own | names_set(program)
    if program.library is not None:
        known |= names_set(program.library)
    given = (program.library.arrays if program.library is not None else ()) + program.arrays
    arrays = {name for name, _ in given}
    for statement in walk(body):
        if isinstance(statement, Count):
            raise DialectError(f"{where}: count: only scenekit's own routines count")
        if isinstance(statement, Word):
            _check_word(where, statement)
        conditions, values = _expressions(statement)
        for value in values:
            _check_value(where, value, known, arrays)
        for condition in conditions:
            _check_condition(where, condition, known, arrays)


def _check_word(where: str, statement: Word) -> None:
    fact = WORDS.get(statement.word)
    if statement.word == "array":
        raise DialectError(
            f"{where}: array: stands in the main part, outside of blocks, as array name, places: "
            "a name and a number"
        )
    if fact is None:
        raise DialectError(f"{where}: {statement.word}: no such word; scenekit port lists them all")
    if TAKES_FILE in fact.parameters:
        raise DialectError(f"{where}: {statement.word}: takes a file, which only scenekit's own routines do")
    if len(statement.arguments) != len(fact.parameters):
        raise DialectError(
            f"{where}: {statement.word}: got {len(statement.arguments)} values; takes {len(fact.parameters)}"
        )
    if fact.sets is not None and not isinstance(statement.arguments[fact.sets], Name | Element):
        raise DialectError(f"{where}: {statement.word}: needs a variable for the value it gives")


def _expressions(statement: Statement) -> tuple[tuple[Expression, ...], tuple[Expression, ...]]:
    """Return the conditions and the values of a statement itself."""
    match statement:
        case While(condition, _) | If(condition, _, _):
            return (condition,), ()
        case Assign(target, value):
            return (), (target, value)
        case For(variable, first, last, _):
            return (), (Name(variable), first, last)
        case Call(_, arguments) | Word(_, arguments):
            return (), arguments
    return (), ()


def _check_condition(where: str, value: Expression, known: frozenset[str], arrays: set[str]) -> None:
    if not isinstance(value, Binary) or value.operator not in CONDITIONS:
        raise DialectError(f"{where}: a condition must compare, such as x = 1")
    for part in (value.left, value.right):
        if value.operator in ("and", "or"):
            _check_condition(where, part, known, arrays)
        else:
            _check_value(where, part, known, arrays)


def _check_value(where: str, value: Expression, known: frozenset[str], arrays: set[str]) -> None:
    match value:
        case Number(number) if abs(number) > LARGEST_NUMBER:
            raise DialectError(f"{where}: got {number}; must be -{LARGEST_NUMBER} to {LARGEST_NUMBER}")
        case Name(name) if len(name) > LONGEST_NAME:
            raise DialectError(f"{where}: name {name[:LONGEST_NAME]}...: at most {LONGEST_NAME} characters")
        case Name(name) if name not in known:
            raise DialectError(f"{where}: {name}: is never given a value")
        case Element(array, _) if array not in arrays:
            raise DialectError(f"{where}: {array}: no such array; the library lists its names at the top")
        case Element(_, index):
            _check_value(where, index, known, arrays)
        case Binary(operator, _, _) if operator in CONDITIONS:
            raise DialectError(f"{where}: {operator}: only a condition compares")
        case Binary(_, left, right):
            _check_value(where, left, known, arrays)
            _check_value(where, right, known, arrays)


def _check_calls(label: str, program: Program) -> None:
    """Refuse calls of what is not there, of itself, and names that the library has taken."""
    theirs = {routine.name: routine for routine in program.library.routines} if program.library else {}
    own: dict[str, Routine] = {}
    for routine in program.routines:
        if routine.name in theirs or routine.name in own or len(routine.name) > LONGEST_NAME:
            raise DialectError(
                f"{label}: routine {routine.name}: must be a name of its own of at most {LONGEST_NAME} "
                "characters, which neither the library nor another routine has"
            )
        own[routine.name] = routine
    for name, _, body in _bodies(program):
        for statement in walk(body):
            if isinstance(statement, Call):
                called = own.get(statement.routine) or theirs.get(statement.routine)
                if called is None:
                    raise DialectError(f"{label}: {name}: do {statement.routine}: no such routine")
                if len(called.parameters) != len(statement.arguments):
                    raise DialectError(
                        f"{label}: {name}: do {statement.routine}: got {len(statement.arguments)} values; "
                        f"takes {len(called.parameters)}"
                    )
            if isinstance(statement, Return) and name == "main part":
                raise DialectError(f"{label}: {name}: return: only a routine can be left")
    _check_circles(label, own)


def _check_circles(label: str, own: dict[str, Routine]) -> None:
    """Refuse routines that call themselves, also by way of others."""
    calls = {
        name: {s.routine for s in walk(routine.body) if isinstance(s, Call)} & set(own)
        for name, routine in own.items()
    }
    while calls:
        ready = [name for name, called in calls.items() if not called & set(calls)]
        if not ready:
            raise DialectError(f"{label}: routine {min(calls)}: calls itself, by way of others perhaps")
        for name in ready:
            del calls[name]

"""The neutral language: its statements as records.

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

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from scenekit.routines.words import WORDS


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
    library        the program whose routines and names this one uses, in a file of its own
    library_file   that file's name
    """

    name: str
    remarks: tuple[str, ...]
    arrays: tuple[tuple[str, int], ...]
    main: tuple[Statement, ...]
    routines: tuple[Routine, ...]
    tables: tuple[Table, ...] = ()
    entry_points: tuple[tuple[str, str], ...] = ()
    packed: str = ""
    library: "Program | None" = None
    library_file: str = ""

    def routine(self, name: str) -> Routine:
        """Return a routine by name."""
        return next(routine for routine in self.routines if routine.name == name)


def names_set(program: Program) -> frozenset[str]:
    """Return the variables that a program gives values, own names of its routines left out."""
    found: set[str] = set()
    bodies = [(frozenset[str](), program.main)]
    bodies += [(frozenset((*r.parameters, *r.locals)), r.body) for r in program.routines]
    for own, body in bodies:
        for statement in walk(body):
            match statement:
                case Assign(Name(name), _) | For(name, _, _, _):
                    found |= {name} - own
                case Word(word, arguments) if word in WORDS and WORDS[word].sets is not None:
                    targets = arguments[WORDS[word].sets : (WORDS[word].sets or 0) + 1]
                    found |= {target.name for target in targets if isinstance(target, Name)} - own
    return frozenset(found)


COMPARISONS = ("=", "<>", "<", "<=", ">", ">=")
LEVELS: tuple[tuple[str, ...], ...] = (("or",), ("and",), COMPARISONS, ("+", "-"), ("*", "div", "mod"))
NEGATED = {"=": "<>", "<>": "=", "<": ">=", ">=": "<", ">": "<=", "<=": ">"}


def precedence(operator: str) -> int:
    """Return how tightly an operator binds; higher is tighter."""
    return next(i for i, level in enumerate(LEVELS) if operator in level)


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

"""Makes programs report numbered records with sums, for proof on a board that runs nowhere else."""

from collections.abc import Container, Sequence
from dataclasses import replace

from scenekit.routines.language import (
    Assign,
    Binary,
    Call,
    Element,
    Expression,
    For,
    Name,
    Number,
    Program,
    Routine,
    Statement,
    Table,
    Word,
    map_statements,
)
from scenekit.routines.library import gather
from scenekit.routines.parse import parse_routines

SUMS = ("sum_one", "sum_two")

BAND_ROWS = 16
"""Rows of the screen that share two sums."""


def reporting(
    program: Program,
    tables: Sequence[Table],
    screen: tuple[int, int] | None = None,
    own: Sequence[str] = (),
) -> Program:
    """Return a playing program that reports records: two sums of each table, then every value as before.

    screen   (width, height): at each stop two sums of every 16 rows are reported, in place of a saved screen
    own      names of the tables that each of several scenes has to itself
    """
    made = {"say_tables": _table_sums(tables), "say_scene": _scene_sums(own)}
    routines = [made.get(routine.name) or _recording(routine) for routine in program.routines]
    more = list(gather(["report"]))
    if screen is not None:
        routines = [replace(r, body=map_statements(r.body, _summed)) for r in routines]
        more.append(_row_sums(*screen))
    return replace(program, routines=(*routines, *more))


def only_saved_by(program: Program, words: Container[str]) -> Program:
    """Return a program that saves screens only where a dialect spells how."""
    if "save_screen" in words:
        return program
    return replace(
        program, routines=tuple(replace(r, body=map_statements(r.body, _dropped)) for r in program.routines)
    )


def _dropped(statement: Statement) -> tuple[Statement, ...]:
    return () if isinstance(statement, Word) and statement.word == "save_screen" else (statement,)


def _summed(statement: Statement) -> tuple[Statement, ...]:
    if isinstance(statement, Word) and statement.word == "save_screen":
        return (Call("say_rows", ()),)
    return (statement,)


def _row_sums(width: int, height: int) -> Routine:
    text = f"""' Reports two sums of every {BAND_ROWS} rows of the screen.
routine say_rows
local x, y, c
sum_one = 1
sum_two = 1
for y = 0 to {height - 1}
for x = 0 to {width - 1}
see c, x, y
do add_to_sum(c)
end
if y mod {BAND_ROWS} = {BAND_ROWS - 1} or y = {height - 1}
do report(sum_one)
do report(sum_two)
sum_one = 1
sum_two = 1
end
end
end
"""
    return parse_routines(text, "say_rows")[0]


def recorded(statement: Statement) -> tuple[Statement, ...]:
    """Return what stands for a statement where values are reported as records."""
    if isinstance(statement, Word) and statement.word == "say":
        return (Call("report", statement.arguments),)
    return (statement,)


def _recording(routine: Routine) -> Routine:
    return replace(routine, body=map_statements(routine.body, recorded))


def _table_sums(tables: Sequence[Table]) -> Routine:
    body: list[Statement] = [Assign(Name("reported"), Number(0))]
    for table in tables:
        if table.values:
            body += _sums_of(table.name, Number(len(table.values) - 1))
    return Routine("say_tables", (), ("i",), tuple(body), ("Reports two sums of every table.",))


def _scene_sums(own: Sequence[str]) -> Routine:
    body: list[Statement] = []
    for place, name in enumerate(own):
        body += _sums_of(name, Binary("-", Element("table_count", Number(place)), Number(1)))
    return Routine("say_scene", (), ("i",), tuple(body), ("Reports two sums of every table of the scene.",))


def _sums_of(table: str, last: Expression) -> list[Statement]:
    """Return what reports two sums of a table up to a place."""
    add = Call("add_to_sum", (Element(table, Name("i")),))
    sums: list[Statement] = [Assign(Name(name), Number(1)) for name in SUMS]
    return [*sums, For("i", Number(0), last, (add,)), *(Call("report", (Name(name),)) for name in SUMS)]

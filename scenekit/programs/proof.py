"""Makes programs report numbered records with sums, for proof on a board that runs nowhere else."""

from collections.abc import Sequence
from dataclasses import replace

from scenekit.routines.language import (
    Assign,
    Call,
    Element,
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

SUMS = ("sum_one", "sum_two")


def reporting(program: Program, tables: Sequence[Table]) -> Program:
    """Return a playing program that reports records: two sums of each table, then every value as before."""
    routines = [
        _table_sums(tables) if routine.name == "say_tables" else _recording(routine)
        for routine in program.routines
    ]
    return replace(program, routines=(*routines, *gather(["report"])))


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
            add = Call("add_to_sum", (Element(table.name, Name("i")),))
            body += [Assign(Name(name), Number(1)) for name in SUMS]
            body.append(For("i", Number(0), Number(len(table.values) - 1), (add,)))
            body += [Call("report", (Name(name),)) for name in SUMS]
    return Routine("say_tables", (), ("i",), tuple(body), ("Reports two sums of every table.",))

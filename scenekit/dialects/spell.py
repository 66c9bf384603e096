"""Spells a neutral program in a dialect."""

from collections.abc import Mapping

from scenekit.dialects.datalines import add_data
from scenekit.dialects.dialect import Dialect
from scenekit.dialects.guide import Guide
from scenekit.dialects.limits import check_limits
from scenekit.dialects.lines import Lines, Options
from scenekit.dialects.names import Names
from scenekit.dialects.statements import Statements
from scenekit.errors import DialectError
from scenekit.routines.language import Call, Program, Routine, Word, walk

__all__ = ["Options", "missing_words", "spell"]


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
    names = Names(dialect, program, options.prefix)
    prefix = names.prefix.replace("_", dialect.naming.underscore)
    lines = Lines(dialect, options, {**constants, "variable_prefix": prefix})
    _add_program(lines, names, program)
    text = lines.resolve()
    check_limits(dialect, program, text, len(names.scalars))
    return text


def _add_program(lines: Lines, names: Names, program: Program) -> None:
    """Add the lines of a whole program, in the order that its dialect needs."""
    dialect = lines.dialect
    statements, guide = Statements(lines, names, program), Guide(lines, names, program)
    lines.remarks(program.remarks[: 1 if dialect.brief else None])
    lines.silent = dialect.brief
    if program.library is not None:
        lines.say("include", file=program.library_file, name=names.file)
    guide_at = len(lines.lines)
    if dialect.definitions_first:
        add_data(lines, program)
    start = len(lines.lines)
    if dialect.definitions_first or not dialect.procedures:
        statements.dims()
    if dialect.definitions_first:
        for routine in callees_first(program):
            statements.routine(routine)
        _add_main(statements, ends=True)
        guide.share_names(start)
    else:
        start = len(lines.lines)
        if program.main and program.library is not None:
            statements.dims()
        _add_main(statements, ends=not dialect.numbered)
        for routine in program.routines:
            statements.routine(routine)
        guide.share_names(start)
        add_data(lines, program)
        if dialect.numbered:
            lines.say("end")
    guide.insert(guide_at)


def _add_main(statements: Statements, ends: bool) -> None:
    """Add the main part, and the end of the program behind it where that is to stand there."""
    if statements.program.main:
        statements.block(statements.program.main)
        if ends:
            statements.lines.say("end")


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

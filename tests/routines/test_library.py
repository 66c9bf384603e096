"""The routines that every program is made of: well formed, all of use, and never calling themselves."""

import re

import pytest

from scenekit.programs.assemble import ENTRY_POINTS
from scenekit.routines.language import (
    Assign,
    Binary,
    Call,
    Count,
    Element,
    For,
    If,
    Name,
    Number,
    Return,
    Text,
    While,
    Word,
    walk,
)
from scenekit.routines.library import gather, library_names, routines_of
from scenekit.routines.parse import parse_routines
from scenekit.routines.words import WORDS
from scenekit.routines.written import routine_lines

FILES = library_names()
STANDING = ["camera", "no_keep", "no_sleep", "no_spans", "no_held"]
DRAWING = ["scene", *STANDING, "no_turns", "everything", "no_note", "map_memory", "map_flags", "draw"]
CHANGING = [*DRAWING, "panel", "values", "change", "play_scenes"]
UNPACKING = ["unpack_number", "unpack_raw", "unpack_bits", "unpack_runs", "unpack_delta", "unpack_rows"]
UNPACKING += ["unpack_dictionary"]
PROGRAMS = {
    "blits, entries recoloured": [*DRAWING, "no_scenes", "blit", "recolour", "no_values", "no_panel", "play"],
    "blits, a panel, values": [*DRAWING, "no_scenes", "blit", "recolour", "values", "panel", "play"],
    "blits, colours as drawn": [*DRAWING, "no_scenes", "blit", "redraw", "no_values", "panel", "play"],
    "runs, entries recoloured": [
        *DRAWING,
        "no_scenes",
        "runs",
        "unpack",
        "recolour",
        "values",
        "no_panel",
        "play",
    ],
    "runs, colours as drawn": [*DRAWING, "no_scenes", "runs", "unpack", "redraw", "values", "panel", "play"],
    "a hidden page": [*DRAWING, "no_scenes", "blit", "art_page", "recolour", "values", "panel", "play"],
    "tables in radix text": ["unpack_radix", *UNPACKING],
    "tables in hexadecimal text": ["unpack_hexadecimal", *UNPACKING],
    "tables in packed numbers": ["unpack_decimal", *UNPACKING],
    "tables": ["scene", *STANDING, "no_view", "no_note", "map_flags", "none", "no_values", "check"],
    "tables with values": [
        "scene",
        "camera_limits",
        "keep",
        "no_sleep",
        "no_held",
        "spans",
        "no_view",
        "no_note",
        "map_flags",
        "none",
        "values",
        "check",
    ],
    "scenes of blits": [*CHANGING, "blit", "recolour", "change_recolour", "no_blank"],
    "scenes of runs": [*CHANGING, "runs", "unpack", "redraw", "change_redraw", "no_blank"],
    "scenes drawn in sight": [*CHANGING, "blit", "art_page", "recolour", "change_recolour", "blank"],
    "scenes of tables": [
        *("scene", *STANDING, "no_view", "no_note", "map_flags", "none", "values"),
        *("change", "change_redraw", "no_blank", "check_scenes"),
    ],
    "scenes in files": ["unpack_file", "next_table", *UNPACKING],
    "scenes in text": ["unpack_radix", "next_table", "skip_text", *UNPACKING],
    "scenes in packed numbers": ["unpack_decimal", "next_table", "skip_read", *UNPACKING],
    "scenes in plain numbers": ["next_table_read", "skip_read"],
}
PROGRAMS["a camera that keeps a sprite"] = ["scene", "camera_limits", "keep", *PROGRAMS["a hidden page"][3:]]
PROGRAMS["a map in a file"] = ["map_file" if n == "map_memory" else n for n in DRAWING if n != "map_flags"]
PROGRAMS["tiles take turns"] = ["turns" if n == "no_turns" else n for n in PROGRAMS["blits, a panel, values"]]
PROGRAMS["a map in a file"] += ["no_scenes", "blit", "recolour", "no_values", "no_panel", "play"]
MOVING = ["scene", *STANDING, "no_turns", "map_memory", "map_flags", "draw", "changes"]
PROGRAMS["moved along, colours as drawn"] = [
    *MOVING,
    "no_scenes",
    "changes_colours",
    "see_turned",
    "runs",
    "unpack",
    "redraw",
    "no_values",
    "no_panel",
    "play",
]
PROGRAMS["moved along, entries recoloured"] = [
    *MOVING,
    "no_scenes",
    "changes_entries",
    "no_note",
    "see_frame",
    "blit",
    "recolour",
    "values",
    "panel",
    "play",
]
MADE = ("load", "load_scene", "unpack", "say_tables", "say_scene", "say_counts", "reset_counts")
"""Routines that are made for each scene."""
MADE += ("take_turn", "to_screen")
"""What becomes statements at the place where it is called."""


def calls(routine):
    return [s.routine for s in walk(routine.body) if isinstance(s, Call)]


def expressions(statement):
    """Yield the expressions that stand directly in a statement."""
    match statement:
        case Assign(target, value):
            yield from (target, value)
        case For(_, first, last, _):
            yield from (first, last)
        case While(condition, _) | If(condition, _, _):
            yield condition
        case Call(_, arguments) | Word(_, arguments):
            yield from arguments
        case Count(_, pixels):
            yield pixels


def parts(expression):
    yield expression
    match expression:
        case Binary(_, left, right):
            yield from parts(left)
            yield from parts(right)
        case Element(_, index):
            yield from parts(index)


def test_every_program_uses_files_that_exist():
    """`turned` comes in where a machine cannot mirror, `steer` where a dialect knows keys; `held` and `sleep`
    stand around routines of the same names; benchmarks are programs of their own; `report` is called by
    proofs that come back from a board."""
    apart = {
        name
        for name in FILES
        if name.startswith(("bench", "turned", "report", "sleep", "held", "steer", "play_timed", "pace"))
    }
    assert {name for files in PROGRAMS.values() for name in files} | apart == set(FILES)


@pytest.mark.parametrize("name", FILES)
def test_text_and_records_are_two_forms_of_the_same(name):
    routines = routines_of(name)
    assert routines
    text = "\n".join(line for routine in routines for line in routine_lines(routine)) + "\n"
    assert parse_routines(text, "again") == routines
    assert "\n".join(line for r in parse_routines(text, "again") for line in routine_lines(r)) + "\n" == text


@pytest.mark.parametrize("name", FILES)
def test_every_routine_says_what_it_does(name):
    for routine in routines_of(name):
        assert routine.remarks, routine.name
        assert routine.remarks[-1].endswith("."), routine.name


@pytest.mark.parametrize("program", PROGRAMS)
def test_every_call_finds_its_routine_with_as_many_arguments(program):
    routines = gather(PROGRAMS[program])
    names = [routine.name for routine in routines]
    assert len(names) == len(set(names))
    by_name = {routine.name: routine for routine in routines}
    for routine in routines:
        for call in walk(routine.body):
            if isinstance(call, Call) and call.routine not in MADE:
                assert len(call.arguments) == len(by_name[call.routine].parameters), (routine.name, call)


@pytest.mark.parametrize("program", PROGRAMS)
def test_every_routine_is_called_or_an_entry_point(program):
    routines = gather(PROGRAMS[program])
    called = {name for routine in routines for name in calls(routine)}
    made = {
        "take_turn",
        "start_panel",
        "set_palette",
        "load_pieces",
        "load_art",
        "say_state",
        "play",
        "prove",
    }
    made |= {"next_table", "skip", "read_art", "read_pieces", "show_rest"}
    made |= {name for name in UNPACKING if name != "unpack_number"}
    for routine in routines:
        assert routine.name in called | set(ENTRY_POINTS) | made, routine.name


def test_every_entry_point_exists():
    names = {routine.name for routine in gather(FILES)}
    assert set(ENTRY_POINTS) <= names | set(MADE)


@pytest.mark.parametrize("program", PROGRAMS)
def test_routines_never_call_themselves(program):
    graph = {routine.name: calls(routine) for routine in gather(PROGRAMS[program])}

    def visit(name, above):
        assert name not in above, " > ".join([*above, name])
        for other in graph.get(name, ()):
            visit(other, [*above, name])

    for name in graph:
        visit(name, [])


@pytest.mark.parametrize("name", FILES)
def test_no_return_within_a_loop(name):
    """Many BASICs keep the loop open when a routine is left within it."""
    for routine in routines_of(name):
        for loop in walk(routine.body):
            if isinstance(loop, For | While):
                assert not any(isinstance(s, Return) for s in walk(loop.body)), routine.name


@pytest.mark.parametrize("name", FILES)
def test_loops_do_not_change_their_own_variable(name):
    for routine in routines_of(name):
        for loop in walk(routine.body):
            if isinstance(loop, For):
                for inner in walk(loop.body):
                    changed = inner.target if isinstance(inner, Assign) else None
                    assert changed != Name(loop.variable), routine.name
                    assert not (isinstance(inner, For) and inner.variable == loop.variable), routine.name


@pytest.mark.parametrize("name", FILES)
def test_every_word_is_known_and_has_its_arguments(name):
    for routine in routines_of(name):
        for word in walk(routine.body):
            if isinstance(word, Word):
                assert word.word in WORDS, routine.name
                assert len(word.arguments) == len(WORDS[word.word].parameters), (routine.name, word)
                place = WORDS[word.word].sets
                if place is not None:
                    assert isinstance(word.arguments[place], Name | Element)


@pytest.mark.parametrize("name", FILES)
def test_comparisons_stand_only_in_conditions_and_texts_only_in_words(name):
    for routine in routines_of(name):
        for statement in walk(routine.body):
            condition = isinstance(statement, While | If)
            for expression in expressions(statement):
                for part in parts(expression):
                    if isinstance(part, Binary) and part.operator in (
                        "=",
                        "<>",
                        "<",
                        "<=",
                        ">",
                        ">=",
                        "and",
                        "or",
                    ):
                        assert condition, routine.name
                    if isinstance(part, Text):
                        assert isinstance(statement, Word), routine.name
                    if isinstance(part, Binary) and part.operator in ("div", "mod"):
                        assert not (isinstance(part.right, Number) and part.right.value <= 0)


@pytest.mark.parametrize("name", FILES)
def test_names_of_loops_and_locals_are_declared(name):
    """A loop's variable belongs to its routine, so that no caller's is lost."""
    for routine in routines_of(name):
        own = {*routine.parameters, *routine.locals}
        assert len(own) == len(routine.parameters) + len(routine.locals)
        for statement in walk(routine.body):
            if isinstance(statement, For):
                assert statement.variable in own, routine.name
        used = {
            n
            for s in walk(routine.body)
            for e in expressions(s)
            for p in parts(e)
            if isinstance(p, Name)
            for n in [p.name]
        }
        used |= {s.variable for s in walk(routine.body) if isinstance(s, For)}
        assert set(routine.locals) <= used, f"{routine.name}: unused locals"
        assert not routine.body or set(routine.parameters) <= used, f"{routine.name}: unused parameters"


def test_words_have_facts_that_a_dialect_can_spell():
    for word, fact in WORDS.items():
        assert re.fullmatch(r"[a-z_]+", word)
        assert fact.meaning.endswith(".")
        assert len(set(fact.parameters)) == len(fact.parameters)
        assert fact.sets is None or fact.sets < len(fact.parameters)

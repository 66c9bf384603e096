"""Assembles the neutral program of a scene: its library, and the program that plays and proves it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from scenekit.machines.abilities import DRAWING, ROUTINE_WORK
from scenekit.plan.schemes import BLIT, PAGE, RUNS, Abilities, Scheme
from scenekit.programs.unpack import START_OF_PACKED, Packed, unpack_routines
from scenekit.routines.language import (
    Assign,
    Binary,
    Call,
    Change,
    Count,
    Element,
    Expression,
    For,
    If,
    Name,
    Number,
    Program,
    Routine,
    Statement,
    Table,
    Text,
    Word,
    map_statements,
    walk,
)
from scenekit.routines.library import gather
from scenekit.tables.bundle import Bundle

ENTRY_POINTS = {
    "load": "first of all: reads the tables, opens the display, loads the art",
    "start": "puts everything to tick 0",
    "step": "goes on by one tick: camera, planes, sprites, animations, palette",
    "draw": "draws the whole view and shows it",
    "camera_to": "moves the camera",
    "keep_sprite": "moves the camera no more than it takes to have its sprite in the zone",
    "wake": "wakes a sprite that sleeps",
    "lull": "lets a sprite sleep, out of sight",
    "face": "turns a sprite",
    "act": "gives a sprite another animation",
    "animate": "plays one sprite's animation on",
    "turn_cycle": "turns one cycle",
    "see_maps": "reads what the view shows of large maps; needed before draw_plane, part of draw",
    "draw_plane": "draws one plane",
    "forget_pages": "lets the next pictures be drawn whole, after you drew into the view yourself",
    "draw_actor": "draws one sprite",
    "draw_frame": "draws any frame anywhere",
    "draw_string": "draws a string anywhere",
    "draw_number": "draws a number anywhere",
    "hit_box": "finds a sprite's hit box in the view: hit_left, hit_top, hit_wide, hit_high",
    "touch": "finds whether two sprites' hit boxes overlap: touching",
    "touch_rows": "finds whether what is drawn of two sprites shares a pixel, by rows: touching",
    "tile_at": "finds the flags of the map cell at a pixel of a plane: flags",
    "set_value": "sets a value; panel items that show it are redrawn",
}
COUNTED = (*(operation for operation in DRAWING if operation != "plot"), *ROUTINE_WORK)


@dataclass(frozen=True, slots=True, kw_only=True)
class Parts:
    """What a program is assembled from.

    size      (width, height) of the screen
    art_file  name of the file that holds the pieces, or ""
    packed    the encoded tables, where that is shorter than their numbers in DATA
    counting  whether calls and pixels of every operation are counted and reported
    changes   whether only what changed is drawn, and the rest moved along
    map_file  name of the file that holds large maps, or ""
    """

    name: str
    title: tuple[str, ...]
    scheme: Scheme
    abilities: Abilities
    bundle: Bundle
    size: tuple[int, int]
    art_file: str
    counting: bool = False
    packed: Packed | None = None
    changes: bool = False
    map_file: str = ""


def library_program(parts: Parts) -> Program:
    """Return the library: every routine and table, and no main part."""
    return _program(parts, (), ())


def play_program(parts: Parts) -> Program:
    """Return the program that plays the scene, or, given stops, saves and reports each of them."""
    draws = parts.scheme.draws
    idle: tuple[Statement, ...] = (Call("play", ()),) if draws else (Word("say", (Number(0),)),)
    prove = If(Binary(">=", Name("stop"), Number(0)), (Call("prove", (Name("stop"),)),), idle)
    main = (
        Call("load", ()),
        Call("start", ()),
        *(_reset_counts() if parts.counting and draws else ()),
        Word("stops_open", ()),
        Word("stop_next", (Name("stop"),)),
        prove,
        Word("quit", ()),
    )
    extra = gather(["play" if draws else "check"])
    counts = (_say_counts(parts.counting),) if draws else ()
    return _program(parts, main, (*extra, _say_tables(parts.bundle.tables), *counts))


def own_program(parts: Parts, main: tuple[Statement, ...], routines: Sequence[Routine]) -> Program:
    """Return a program of one's own around the library: a main part and further routines."""
    return _program(parts, main, routines)


def _program(parts: Parts, main: tuple[Statement, ...], extra: Sequence[Routine]) -> Program:
    files = ["scene", *parts.scheme.routines]
    palette = "recolour" if parts.abilities.recolours else "redraw"
    files.append(palette if parts.scheme.draws else "none")
    bundle = parts.bundle
    known = dict(bundle.variables)
    files.append("values" if "values" in known else "no_values")
    files.append("camera_limits" if "camera_left" in known else "camera")
    files.append("keep" if "kept" in known else "no_keep")
    bordered = "screen_w" in known
    if parts.scheme.draws:
        files.append("panel" if bordered else "no_panel")
    turned = any(table.name == "frame_turned" for table in bundle.tables)
    files += redraw_files(parts, turned)
    files += (
        ["map_file"] if parts.map_file else ["map_flags", *(["map_memory"] if parts.scheme.draws else [])]
    )
    sleepers = "wake_groups" in known
    files.append("turns" if "turns" in known else "no_turns")
    spans = any(table.name == "span_rows" for table in bundle.tables)
    files += ["spans" if spans else "no_spans", "sleep" if sleepers else "no_sleep"]
    files += ["sleep_spans"] if spans and sleepers else []
    gathered = list(gather(files))
    if sleepers:
        asked = ("pose", "hit_box", *(["touch_rows"] if spans else []))
        gathered = renamed_first(gathered, asked, "_awake")
    if turned and parts.scheme.draws:
        gathered = [replace(r, name="place_frame") if r.name == "draw_frame" else r for r in gathered]
        gathered += gather(["turned"])
    routines = [_load(parts), *gathered, *extra]
    if not main:
        routines = [routine for routine in routines if routine.name != "say_state"]
    if parts.packed is not None:
        routines += unpack_routines(parts.packed)
    change = _expansion(
        parts.counting and parts.scheme.draws,
        parts.abilities.direct,
        parts.art_file,
        bordered or parts.changes,
        "turns" in known,
    )
    finished = without_empty(
        tuple(
            Routine(r.name, r.parameters, r.locals, map_statements(r.body, change), r.remarks)
            for r in routines
        )
    )
    names = {routine.name for routine in finished if routine.body}
    tables = tuple((table.name, max(1, len(table.values))) for table in bundle.tables)
    if parts.packed is not None:
        tables += (("unpacked", max(len(table.values) for table in bundle.tables)),)
    arrays = [pair for pair in bundle.arrays if parts.abilities.recolours or pair[0] != "shown"]
    return Program(
        name=parts.name,
        remarks=(*parts.title, *_remarks(parts)),
        arrays=(*tables, *arrays),
        main=map_statements(main, change),
        routines=_used(finished, main),
        tables=bundle.tables if parts.packed is None else parts.packed.tables,
        packed="" if parts.packed is None else parts.packed.text,
        entry_points=tuple((name, about) for name, about in ENTRY_POINTS.items() if name in names),
    )


def redraw_files(parts: Parts, turned: bool) -> list[str]:
    """Return the files of routines by which a picture follows the one before."""
    if not parts.changes:
        return ["everything", "no_note"] if parts.scheme.draws else ["no_view", "no_note"]
    colours = ["changes_entries", "no_note"] if parts.abilities.recolours else ["changes_colours"]
    return ["changes", "see_turned" if turned else "see_frame", *colours]


def renamed_first(routines: Sequence[Routine], names: Sequence[str], ending: str) -> list[Routine]:
    """Return routines of which the first of each name gets another one, for a later one to call."""
    waiting, found = list(names), []
    for routine in routines:
        if routine.name in waiting:
            waiting.remove(routine.name)
            routine = replace(routine, name=routine.name + ending)
        found.append(routine)
    return found


def without_empty(routines: tuple[Routine, ...]) -> tuple[Routine, ...]:
    """Leave out calls of routines that do nothing."""
    empty = {routine.name for routine in routines if not routine.body}

    def change(statement: Statement) -> tuple[Statement, ...]:
        return () if isinstance(statement, Call) and statement.routine in empty else (statement,)

    return tuple(replace(routine, body=map_statements(routine.body, change)) for routine in routines)


def _used(routines: tuple[Routine, ...], main: tuple[Statement, ...]) -> tuple[Routine, ...]:
    """Leave out routines that neither the main part nor a user needs."""
    by_name = {routine.name: routine for routine in routines}
    wanted = [name for name in ENTRY_POINTS if name in by_name and by_name[name].body] + _calls(main)
    seen: list[str] = []
    while wanted:
        name = wanted.pop(0)
        if name not in seen:
            seen.append(name)
            wanted += _calls(by_name[name].body)
    return tuple(routine for routine in routines if routine.name in seen)


def _calls(statements: tuple[Statement, ...]) -> list[str]:
    return [statement.routine for statement in walk(statements) if isinstance(statement, Call)]


def _remarks(parts: Parts) -> list[str]:
    if parts.scheme.draws:
        drawn = "what changed only, the rest moved along" if parts.changes else "everything in every picture"
        return [f"Drawing: {parts.scheme.name}, since {parts.scheme.reason}.", f"Drawn is {drawn}."]
    return [f"No drawing: {parts.scheme.reason}."]


def _load(parts: Parts) -> Routine:
    """Return the routine that reads the tables, opens the display and loads the art."""
    body: list[Statement] = [Assign(Name(name), Number(value)) for name, value in parts.bundle.variables]
    body.append(Word("rewind", ()))
    if parts.packed is not None:
        body += [Assign(Name(name), Number(value)) for name, value in START_OF_PACKED]
    for table in parts.bundle.tables:
        if table.values:
            fill: Statement = Word("read", (Element(table.name, Name("i")),))
            if parts.packed is not None:
                body.append(Call("unpack", (Number(len(table.values)),)))
                fill = Assign(Element(table.name, Name("i")), Element("unpacked", Name("i")))
            body.append(For("i", Number(0), Number(len(table.values) - 1), (fill,)))
    if parts.map_file:
        body.append(Word("map_open", (Text(parts.map_file),)))
    body.append(Assign(Name("pages"), Number(parts.abilities.pages)))
    if parts.scheme.draws:
        mode = "mode_direct" if parts.abilities.direct else "mode"
        body.append(Word(mode, (Number(parts.size[0]), Number(parts.size[1]))))
    if parts.scheme is BLIT:
        body.append(Assign(Name("art"), Number(0)))
        body.append(Word("load_image", (Name("art"), Text(parts.art_file))))
        body.append(Word("keyed_entry", (Name("transparent"),)))
    if parts.scheme is PAGE:
        body.append(Assign(Name("art"), Number(0)))
        body.append(Call("load_art", ()))
    if parts.scheme is RUNS:
        body.append(Call("load_pieces", ()))
    body.append(Call("set_palette", ()))
    if parts.counting and parts.scheme.draws:
        body += _reset_counts()
    return Routine(
        "load", (), ("i",), tuple(body), ("Reads the tables, opens the display and loads the art.",)
    )


def _counters(operation: str) -> tuple[Name, Name]:
    name = operation.replace("-", "_")
    return Name(f"calls_{name}"), Name(f"pixels_{name}")


def _reset_counts() -> list[Statement]:
    return [Assign(name, Number(0)) for operation in COUNTED for name in _counters(operation)]


def _say_counts(counting: bool) -> Routine:
    """Return the routine that reports calls and pixels of every operation since the last stop."""
    body: list[Statement] = []
    if counting:
        body = [Word("say", (name,)) for operation in COUNTED for name in _counters(operation)]
        body += _reset_counts()
    return Routine("say_counts", (), (), tuple(body), ("Reports what was counted since the last stop.",))


def _say_tables(tables: Sequence[Table]) -> Routine:
    """Return the routine that reports every table as it was read."""
    body: list[Statement] = []
    for table in tables:
        if table.values:
            say = Word("say", (Element(table.name, Name("i")),))
            body.append(For("i", Number(0), Number(len(table.values) - 1), (say,)))
    return Routine("say_tables", (), ("i",), tuple(body), ("Reports every table.",))


PLACED = {"blit": (5,), "blit_keyed": (5,), "run": (0,), "fill": (0,), "move_part": (0, 4)}
"""Words that draw, and which of their parameters are x; y follows each."""


def _expansion(counting: bool, direct: bool, art_file: str, bordered: bool, turning: bool) -> Change:
    """Return the change that expands counts, colours of direct modes, the art file's name, tiles in turn."""

    def change(statement: Statement) -> tuple[Statement, ...]:
        if isinstance(statement, Count):
            return _counting(statement) if counting else ()
        if isinstance(statement, Call) and statement.routine == "take_turn":
            cell = statement.arguments[0]
            assert isinstance(cell, Name)
            now = Assign(cell, Element("turn_now", Binary("-", cell, Name("turn_base"))))
            return (If(Binary(">=", cell, Name("turn_base")), (now,)),) if turning else ()
        if isinstance(statement, Word) and statement.word in PLACED and bordered:
            return (_moved(statement),)
        if isinstance(statement, Word) and statement.word == "ink" and direct:
            shown: Expression = Element("now", statement.arguments[0])
            return (Word("ink_rgb", tuple(Element(name, shown) for name in ("red", "green", "blue"))),)
        if isinstance(statement, Word) and statement.word == "file_open":
            return (Word("file_open", (Text(art_file),)),)
        return (statement,)

    return change


def _moved(word: Word) -> Word:
    """Return a word that draws, its place counted from the view's corner."""
    arguments = list(word.arguments)
    for x in PLACED[word.word]:
        for place, name in ((x, "view_x"), (x + 1, "view_y")):
            here = Name(name)
            arguments[place] = here if arguments[place] == Number(0) else Binary("+", arguments[place], here)
    return Word(word.word, tuple(arguments))


def _counting(count: Count) -> tuple[Statement, ...]:
    calls, pixels = _counters(count.operation)
    return (
        Assign(calls, Binary("+", calls, Number(1))),
        Assign(pixels, Binary("+", pixels, count.pixels)),
    )

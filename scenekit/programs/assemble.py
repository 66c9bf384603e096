"""Assembles the neutral program of a scene: its library, and the program that plays and proves it."""

from collections.abc import Sequence
from dataclasses import replace

from scenekit.plan.schemes import BLIT
from scenekit.programs.changing import (
    STOP_LIST,
    Changing,
    from_two_images,
    many_scenes,
    say_scene,
    scene_routines,
    to_stops,
)
from scenekit.programs.expansion import expansion
from scenekit.programs.loading import one_scene
from scenekit.programs.pacing import playing_routines, timing_routines
from scenekit.programs.parts import COUNTED, Loading, Parts, counters, reset_counts
from scenekit.routines.language import (
    Binary,
    Call,
    Element,
    For,
    If,
    Name,
    Number,
    Program,
    Routine,
    Statement,
    Table,
    Word,
    map_statements,
    walk,
)
from scenekit.routines.library import gather
from scenekit.tables.holding import EVERY

__all__ = [
    "COUNTED",
    "ENTRY_POINTS",
    "Parts",
    "game_library",
    "game_player",
    "library_program",
    "own_program",
    "play_program",
]

ENTRY_POINTS = {
    "load": "first of all: reads the tables, opens the display, loads the art",
    "enter": "changes to a scene, counted from 0: puts everything to its tick 0; values stay",
    "start": "puts everything to tick 0",
    "step": "goes on by one tick: camera, planes, sprites, animations, palette",
    "draw": "draws the whole view and shows it",
    "camera_to": "moves the camera",
    "let_go": "takes a sprite, or with -1 the camera, off its path, for you to move",
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
    "steer": "finds the keys that are held: steer_left, steer_right, steer_up, steer_down, steer_act",
    "steer_by": "takes a number for them, as from a script: left 1, right 2, up 4, down 8, action 16",
    "set_value": "sets a value; panel items that show it are redrawn",
    "start_clock": "begins to keep time: no refresh is missed yet",
    "keep_time": "waits for the end of an update, then does look_at_clock; after draw, in your own loop",
    "look_at_clock": "counts refreshes missed: missed; finds how often to step next: ticks_due",
    "forget_late": "lets the time until now not count as late, after loading",
}


def library_program(parts: Parts) -> Program:
    """Return the library: every routine and table, and no main part."""
    return _program(parts, (), _timing(parts))


def play_program(parts: Parts) -> Program:
    """Return the program that plays the scene, or, given stops, saves and reports each of them."""
    draws = parts.scheme.draws
    idle: tuple[Statement, ...] = (Call("play", ()),) if draws else (Word("say", (Number(0),)),)
    prove = If(Binary(">=", Name("stop"), Number(0)), (Call("prove", (Name("stop"),)),), idle)
    main = (
        Call("load", ()),
        Call("start", ()),
        *(reset_counts() if parts.counting and draws else ()),
        Word("stops_open", ()),
        Word("stop_next", (Name("stop"),)),
        prove,
        Word("quit", ()),
    )
    extra = playing_routines("play", parts.pace) if draws else gather(["check"])
    counts = (_say_counts(parts.counting),) if draws else ()
    return _program(parts, main, (*extra, _say_tables(parts.bundle.tables), *counts))


def game_library(parts: Parts, changing: Changing) -> Program:
    """Return the library of several scenes: every routine, and no main part."""
    return _program(parts, (), _timing(parts), changing)


def game_player(parts: Parts, changing: Changing) -> Program:
    """Return the program that plays several scenes, or, given stops, changes scenes and reports each stop."""
    draws = parts.scheme.draws
    idle: tuple[Statement, ...] = (Call("play", ()),) if draws else (Word("say", (Number(0),)),)
    main = (
        Call("load", ()),
        *to_stops(changing),
        Word("stops_open", ()),
        Word("stop_next", (Name("stop"),)),
        If(Binary("<>", Name("stop"), Number(-1)), (Call("prove", (Name("stop"),)),), idle),
        Word("quit", ()),
    )
    played = playing_routines("play_scenes", parts.pace) if draws else gather(["check_scenes"])
    extra = [*played, _say_tables(parts.bundle.tables), say_scene(changing.tables)]
    if draws:
        extra += [_say_counts(parts.counting), *scene_routines(parts.counting)]
    return _program(parts, main, extra, changing)


def own_program(parts: Parts, main: tuple[Statement, ...], routines: Sequence[Routine]) -> Program:
    """Return a program of one's own around the library: a main part and further routines."""
    return _program(parts, main, routines)


def _timing(parts: Parts) -> list[Routine]:
    """Return the routines that keep time, for a library whose dialect has a clock."""
    return timing_routines(parts.pace) if parts.pace is not None and parts.scheme.draws else []


def _program(
    parts: Parts,
    main: tuple[Statement, ...],
    extra: Sequence[Routine],
    changing: Changing | None = None,
) -> Program:
    loading = one_scene(parts) if changing is None else many_scenes(parts, changing)
    known = dict(parts.bundle.variables)
    gathered = _gathered(parts, loading, known)
    if changing is not None and parts.scheme is BLIT:
        gathered = [from_two_images(r) if r.name == "draw_piece" else r for r in gathered]
    routines = [*loading.routines, *gathered, *extra]
    if not main:
        routines = [routine for routine in routines if routine.name != "say_state"]
    change = expansion(
        parts.counting and parts.scheme.draws,
        parts.abilities.direct,
        parts.art_file,
        "screen_w" in known or parts.changes,
        "turns" in known,
    )
    finished = without_empty(
        tuple(
            Routine(r.name, r.parameters, r.locals, map_statements(r.body, change), r.remarks)
            for r in routines
        )
    )
    names = {routine.name for routine in finished if routine.body}
    left_out = {*(() if parts.abilities.recolours else ("shown",)), *(() if main else (STOP_LIST,))}
    return Program(
        name=parts.name,
        remarks=(*parts.title, *_remarks(parts)),
        arrays=tuple(pair for pair in loading.arrays if pair[0] not in left_out),
        main=map_statements(main, change),
        routines=_used(finished, main),
        tables=loading.tables,
        packed=loading.packed,
        entry_points=tuple((name, about) for name, about in ENTRY_POINTS.items() if name in names),
    )


def _gathered(parts: Parts, loading: Loading, known: dict[str, int]) -> list[Routine]:
    """Return the routines of a scene; one that does more than another calls it by a new name."""
    arrays = {name for name, _ in loading.arrays}
    turned, spans, held = "frame_turned" in arrays, "span_rows" in arrays, EVERY in arrays
    files = [*_files(parts, known, turned, spans), "held" if held else "no_held", *loading.files]
    gathered = list(gather(files))
    if held:
        gathered = renamed_first(gathered, ("camera_by", "drift"), "_at_once")
    if "wake_groups" in known:
        asked = ("pose", "hit_box", *(["touch_rows"] if spans else []))
        gathered = renamed_first(gathered, asked, "_awake")
    if turned and parts.scheme.draws:
        gathered = [replace(r, name="place_frame") if r.name == "draw_frame" else r for r in gathered]
        gathered += gather(["turned"])
    return gathered


def _files(parts: Parts, known: dict[str, int], turned: bool, spans: bool) -> list[str]:
    """Return the files of routines of a scene."""
    files = ["scene", *parts.scheme.routines]
    palette = "recolour" if parts.abilities.recolours else "redraw"
    files.append(palette if parts.scheme.draws else "none")
    files.append("values" if "values" in known else "no_values")
    files += ["steer"] if parts.keys else []
    files.append("camera_limits" if "camera_left" in known else "camera")
    files.append("keep" if "kept" in known else "no_keep")
    if parts.scheme.draws:
        files.append("panel" if "screen_w" in known else "no_panel")
    files += redraw_files(parts, turned)
    files += (
        ["map_file"] if parts.map_file else ["map_flags", *(["map_memory"] if parts.scheme.draws else [])]
    )
    sleepers = "wake_groups" in known
    files.append("turns" if "turns" in known else "no_turns")
    files += ["spans" if spans else "no_spans", "sleep" if sleepers else "no_sleep"]
    return [*files, *(["sleep_spans"] if spans and sleepers else [])]


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


def _say_counts(counting: bool) -> Routine:
    """Return the routine that reports calls and pixels of every operation since the last stop."""
    body: list[Statement] = []
    if counting:
        body = [Word("say", (name,)) for operation in COUNTED for name in counters(operation)]
        body += reset_counts()
    return Routine("say_counts", (), (), tuple(body), ("Reports what was counted since the last stop.",))


def _say_tables(tables: Sequence[Table]) -> Routine:
    """Return the routine that reports every table as it was read."""
    body: list[Statement] = []
    for table in tables:
        if table.values:
            say = Word("say", (Element(table.name, Name("i")),))
            body.append(For("i", Number(0), Number(len(table.values) - 1), (say,)))
    return Routine("say_tables", (), ("i",), tuple(body), ("Reports every table.",))

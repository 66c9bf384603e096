"""The stages that write programs and credits."""

from collections.abc import Sequence
from dataclasses import replace

from scenekit.building.own import own_files
from scenekit.building.state import Build
from scenekit.dialects.dialect import Dialect
from scenekit.dialects.spell import Options, spell
from scenekit.errors import ExportError
from scenekit.findings import Finding
from scenekit.model.credits import NO_ADVICE, licence_asks
from scenekit.programs.assemble import Parts, library_program, play_program
from scenekit.programs.pacing import Pace
from scenekit.programs.proof import only_saved_by, reporting
from scenekit.registry import choose
from scenekit.routines.language import Program
from scenekit.tiles.flags import flag_values

STOPS_FILE = "stops.txt"


def number_lists(build: Build) -> list[str]:
    """Return lines that say which number each plane, sprite and animation has in the program."""
    scene = build.scene
    sprites = dict.fromkeys(placed.sprite for placed in scene.placed)
    lists = [("Planes", [plane.name for plane in scene.planes]), ("Sprites", [p.name for p in scene.placed])]
    for name in sprites:
        animations = [animation.name for animation in build.project.sprite(name).animations]
        lists.append((f"Animations of {name}", animations))
    lists.append(("Values", [value.name for value in build.project.values]))
    lists.append(("Frames", [f"{frame.sheet}/{frame.name}" for frame in build.pieces.frames]))
    lines = [
        f"{title}: {', '.join(f'{n} {x}' for n, x in enumerate(names))}." for title, names in lists if names
    ]
    flags = flag_values(build.project)
    if flags:
        lines.append(f"Tile flags: {', '.join(f'{n} {name}' for name, n in flags.items())}.")
    return lines


def write_programs(build: Build) -> None:
    """Spell the library, and the playing program when asked for; both depend on no content of files."""
    parts = Parts(
        name=build.name,
        title=(
            f"{build.project.name}: scene {build.name} for target {build.target.name}, written by scenekit",
            *number_lists(build),
        ),
        scheme=build.scheme,
        abilities=build.abilities,
        bundle=replace(build.bundle, files={}),
        size=build.screen,
        art_file=build.art_file,
        counting=build.options.counting,
        packed=build.packed,
        changes=build.changes,
        map_file=build.extras.map_file,
        keys="keys_held" in build.dialect.words,
        pace=pace_of([build]),
    )
    constants, sums = spelled_constants(build), build.options.row_sums and build.scheme.draws
    given = build.dialect, parts, constants, build.options
    library, text = build.kept.get("library", build.label, given, lambda: _library(build, parts, constants))
    build.arrays = library.arrays
    build.files = {build.program_file: text, **build.bundle.files}
    build.own_files = own_files(
        build.project, build.options, build.dialect, library, build.program_file, constants, build.files
    )
    if build.options.play:
        if build.options.report and sums:
            check_sums(build)
        stops, words = build.options.report, build.dialect.words
        text = build.kept.get("play", build.label, given, lambda: _playing(build, parts, constants, sums))
        if words.get("stops_open"):
            build.files[STOPS_FILE] = "".join(f"{tick}\n" for tick in stops).encode("ascii")
        build.files[build.play_file] = text


def _library(build: Build, parts: Parts, constants: dict[str, int]) -> tuple[Program, bytes]:
    options = Options(prefix=build.options.prefix, first_line=build.options.first_line)
    library = library_program(parts)
    return library, spell(build.dialect, library, constants, options).encode("ascii")


def _playing(build: Build, parts: Parts, constants: dict[str, int], sums: bool) -> bytes:
    """Return the playing program, with its list of stops where it does not read them from a file."""
    program, stops = play_program(parts), build.options.report
    if stops:
        program = reporting(program, build.bundle.tables, build.screen if sums else None)
    program = only_saved_by(program, build.dialect.words)
    options = Options(prefix=build.options.prefix, first_line=build.options.first_line)
    text = spell(build.dialect, program, constants, options)
    if not build.dialect.words.get("stops_open"):
        text = add_stops(text, build.dialect, stops)
    return text.encode("ascii")


def pace_of(builds: Sequence[Build]) -> Pace | None:
    """Return how a playing program keeps time in some scenes; a note where its dialect has no clock.

    raises   ExportError: missed refreshes are to be counted without a clock
    """
    first = builds[0]
    caught = tuple(build.scene.missed == "catch-up" for build in builds)
    refresh_us = round(1000 * first.mode.timing.period_ms)
    shown = missed_value(builds)
    pace = Pace(refresh_us=refresh_us, catch_up=caught, report=first.options.missed, shown=shown)
    if "clock" in first.dialect.words:
        return pace
    if not (first.options.play and pace.timed):
        return None
    if pace.report:
        raise ExportError(
            f"dialect {first.dialect.name}: no word clock, by which missed refreshes are counted"
        )
    text = f"dialect {first.dialect.name} has no clock: late pictures slow the game down there"
    for build, late in zip(builds, caught, strict=True):
        if late:
            build.findings.append(Finding(level="note", code="no-clock", where=build.scene.name, text=text))
    return None


def missed_value(builds: Sequence[Build]) -> int | None:
    """Return the number of the value by which refreshes missed are shown, or None where nobody asks for it.

    raises   UnknownNameError; ExportError: no panel shows it
    """
    project, name = builds[0].project, builds[0].options.missed_value
    if not name:
        return None
    number = choose("refreshes missed: value", name, {v.name: n for n, v in enumerate(project.values)})
    panels = [build.scene.panel for build in builds if build.scene.panel is not None]
    if not any(item.value == name for panel in panels for item in panel.items):
        raise ExportError(f"refreshes missed: value {name}: must be shown by an item of a panel")
    return number


def spelled_constants(build: Build) -> dict[str, int]:
    """Return what spellings may use as numbers: sizes of the screen, the hidden page and the pieces."""
    width, height = build.screen
    return {
        "screen_width": width,
        "screen_height": height,
        "bottom": 2 * (height - 1),
        "art_height": build.pieces.packed.shape[0],
        "widest": max((p.shape[1] for p in build.pieces.pictures), default=1),
        "highest": max((p.shape[0] for p in build.pieces.pictures), default=1),
    }


def check_sums(build: Build) -> None:
    """Check that sums of the screen's rows can be reported and foretold.

    raises   ExportError
    """
    if "see" not in build.dialect.words:
        raise ExportError(
            f"dialect {build.dialect.name}: no word see, which reads a pixel; save screens instead of sums"
        )
    if build.mode.indexed and not build.abilities.recolours and build.planner.moving:
        raise ExportError(
            f"target {build.target.name}: its screen does not recolour what is drawn, so entries of moving "
            "colours are not known; save screens instead of sums"
        )


def add_stops(text: str, dialect: Dialect, stops: Sequence[int] = ()) -> str:
    """Put the list of stops, in marked lines of DATA, after the tables.

    raises   ExportError: the dialect must read them from a file
    """
    if dialect.definitions_first or "{variable_prefix}" in dialect.statements["data"]:
        raise ExportError(
            f"dialect {dialect.name}: words stops_open and stop_next must read a file, "
            "since its tables cannot take more values at their end"
        )
    lines = text.splitlines()
    remark = dialect.statements["remark"].format(text="STOPS: TICKS TO REPORT, -1 ENDS THE LIST")
    added = [remark, *_data_lines(stops, dialect)]
    if not dialect.numbered:
        return "\n".join([*lines, *added]) + "\n"
    last = int(lines[-1].split()[0])
    added.append(dialect.statements["end"])
    return "\n".join([*lines[:-1], *(f"{last + n} {line}" for n, line in enumerate(added))]) + "\n"


def _data_lines(stops: Sequence[int], dialect: Dialect) -> list[str]:
    """Return lines of DATA with a list of stops and its end, as many to a line as fit."""
    data, rows = dialect.statements["data"], [[-1]]
    for stop in reversed(stops):
        items = ",".join(str(number) for number in (stop, *rows[0]))
        if len(data.format(items=items)) + 6 > dialect.limits.line_length:
            rows.insert(0, [])
        rows[0].insert(0, stop)
    return [data.format(items=",".join(str(number) for number in row)) for row in rows]


def write_credits(build: Build) -> None:
    """Add a file that says whose art the export holds."""
    lines = [f"Art in {build.project.name}, scene {build.name}:", ""]
    used = {frame.sheet for frame in build.pieces.frames}
    sheets = [(s.file, s.author, s.licence, s.source) for s in build.project.sheets if s.name in used]
    planes = [(p.picture or p.map, p.author, p.licence, p.source) for p in build.scene.planes]
    for file, author, licence, source in dict.fromkeys([*sheets, *planes]):
        whose = f"{author or 'author not recorded'}; {licence or 'licence not recorded'}"
        lines.append(f"{file}: {whose}; from {source or 'a source not recorded'}")
        lines += [f"  {licence} {ask} ({NO_ADVICE})" for ask in licence_asks(licence)]
        if not (author and licence):
            text = "no author or licence on record; add them, so that the export can name them"
            build.findings.append(Finding(level="note", code="no-credit", where=file, text=text))
    build.files["CREDITS.txt"] = ("\n".join(lines) + "\n").encode("utf-8")

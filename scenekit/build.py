"""Builds a scene for a target: every stage in order, from art to files."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from scenekit.chosen import choose_for
from scenekit.colour.depth import parse as parse_depth
from scenekit.colour.dither import Dither
from scenekit.colour.given import colours_of_file
from scenekit.costs.loading import unpacking_saved_by_plain
from scenekit.costs.memory import Filled, Item, lay_out
from scenekit.costs.redraw import is_cheaper
from scenekit.dialects.dialect import Dialect
from scenekit.dialects.spell import Options, spell
from scenekit.errors import ExportError, MachineError, ProjectError
from scenekit.findings import Finding
from scenekit.images.art import Art, load_art
from scenekit.images.reduced import MOST_ENTRIES, ReducedArt, reduce_art
from scenekit.machines.machine import DisplayMode, Machine
from scenekit.model.arrays import Indices, Pixels
from scenekit.model.credits import NO_ADVICE, licence_asks
from scenekit.model.palette import Colour
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.model.store import inside
from scenekit.model.target import Target
from scenekit.motion.expand import expand_project
from scenekit.motion.shown import Looks
from scenekit.plan.changes import MOST_BOXES
from scenekit.plan.drawplan import DrawPlanner
from scenekit.plan.schemes import (
    BLIT,
    PAGE,
    RUNS,
    Abilities,
    Scheme,
    allowed_flips,
    can_move,
)
from scenekit.programs.assemble import Parts, library_program, play_program
from scenekit.programs.proof import reporting, unsaved
from scenekit.programs.unpack import Packed, pack_tables
from scenekit.render.screen import render_screen
from scenekit.routines.language import Table
from scenekit.routines.library import is_wide
from scenekit.tables.bundle import Bundle, blit_tables, build_bundle, needs_border, run_arrays
from scenekit.tables.changes import change_parts
from scenekit.tables.image_files import indexed_file, page_file, raw_file
from scenekit.tables.mapfile import WORDS as MAP_WORDS
from scenekit.tables.mapfile import Windows, keep_in_file, windows_of
from scenekit.tables.packed import Choice, encode_tables
from scenekit.tables.pieces import EMPTY, Pieces, gather_pieces, restored
from scenekit.tables.spans import span_tables, spanned_frames
from scenekit.tables.turning import turning_parts
from scenekit.tables.waking import waking_parts
from scenekit.tiles.flags import FlagMap, flag_maps, flag_values
from scenekit.tiles.turning import first_pictures, project_turning

Progress = Callable[[str, int, int], None]
STOPS_FILE = "stops.txt"


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildOptions:
    """What the user may choose about an export.

    prefix      before names in generated code
    first_line  of numbered dialects
    play        also write the program that plays the scene
    counting    count calls and pixels of every operation
    encode      "auto" encodes tables where that is shorter, "always", "never"
    report      stops at which the playing program reports numbered records with sums, for proof on a board
    row_sums    it reports sums of the screen's rows there, and saves no screen
    """

    prefix: str = "sk_"
    first_line: int = 1000
    play: bool = False
    counting: bool = False
    encode: str = "auto"
    report: tuple[int, ...] = ()
    row_sums: bool = False


@dataclass(slots=True)
class Build:
    """A build in progress; each stage adds its results.

    together   all scenes that are to be drawn in one way
    common     pieces that several of them share
    """

    project: Project
    scene: Scene
    target: Target
    options: BuildOptions
    together: tuple[Scene, ...] = ()
    common: tuple[Indices, ...] = ()
    findings: list[Finding] = field(default_factory=list)
    flags: tuple[FlagMap | None, ...] = ()
    machine: Machine = None  # type: ignore[assignment]
    mode: DisplayMode = None  # type: ignore[assignment]
    dialect: Dialect = None  # type: ignore[assignment]
    abilities: Abilities = None  # type: ignore[assignment]
    scheme: Scheme = None  # type: ignore[assignment]
    art: Art = None  # type: ignore[assignment]
    reduced: ReducedArt = None  # type: ignore[assignment]
    pieces: Pieces = None  # type: ignore[assignment]
    planner: DrawPlanner = None  # type: ignore[assignment]
    changes: bool = False
    windows: Windows = ()
    looks: Looks | None = None
    bundle: Bundle = None  # type: ignore[assignment]
    choices: tuple[Choice, ...] = ()
    packed: Packed | None = None
    art_file: str = ""
    map_file: str = ""
    files: dict[str, bytes] = field(default_factory=dict)
    memory: tuple[Filled, ...] = ()

    @property
    def size(self) -> tuple[int, int]:
        """Return (width, height) of the view in pixels."""
        return self.view[2], self.view[3]

    @property
    def view(self) -> tuple[int, int, int, int]:
        """Return (x, y, width, height) of the part of the screen that scrolls."""
        return self.target.view or (0, 0, *self.screen)

    @property
    def screen(self) -> tuple[int, int]:
        """Return (width, height) of the screen in pixels."""
        return self.mode.width_px, self.mode.height_px

    def picture(self, tick: int) -> Pixels:
        """Return the whole screen at a tick, (H, W, 3) uint8, from the reference renderer."""
        return render_screen(self.project, self.scene, self.reduced, self.screen, self.view, tick)

    @property
    def name(self) -> str:
        """Return the stem of the exported files."""
        return self.scene.name

    @property
    def program_file(self) -> str:
        """Return the name of the library file."""
        return f"{self.name}{self.dialect.file_ending}"

    @property
    def play_file(self) -> str:
        """Return the name of the playing program's file."""
        return f"{self.name}-play{self.dialect.file_ending}"


def find_target(build: Build) -> None:
    """Look up machine, display mode and dialect, and what they can do together."""
    chosen = choose_for(build.project, build.scene, build.target, build.together)
    build.machine, build.mode, build.dialect = chosen.machine, chosen.mode, chosen.dialect
    build.abilities, build.scheme = chosen.abilities, chosen.scheme


def expand_motion(build: Build) -> None:
    """Sample shapes of paths, let facings follow, and part planes with bands."""
    build.project = expand_project(build.project)
    build.scene = build.project.scene(build.scene.name)


def read_art(build: Build) -> None:
    """Read every picture of the project."""
    build.art = load_art(build.project)
    build.findings += build.art.findings


def reduce_colours(build: Build) -> None:
    """Reduce all pictures to the palette of the target."""
    target, mode = build.target, build.mode
    most = mode.entries if mode.indexed else MOST_ENTRIES
    entries = min(most, target.colours or most)
    if target.transparent >= entries:
        raise ProjectError(
            f"target {target.name}: transparent: got {target.transparent}; "
            f"must be 0 to {entries - 1} in this mode"
        )
    for entry, _ in target.reserved:
        if entry >= entries or entry == target.transparent:
            raise ProjectError(
                f"target {target.name}: reserved entry {entry}: must be 0 to {entries - 1} "
                "and not the transparent one"
            )
    if mode.palette:
        raise MachineError(
            f"mode {mode.name}: fixed palettes are not used yet; choose a mode whose entries can be set"
        )
    build.reduced = reduce_art(
        build.project,
        build.art,
        entries=entries,
        depth=parse_depth(mode.depth),
        transparent=target.transparent,
        given=given_colours(build),
        reserved=dict(target.reserved),
        dither=Dither(kind=target.dither, strength_percent=target.dither_percent),
        view=build.size,
    )
    turning = project_turning(build.project, build.art.maps)
    if turning:
        planes = first_pictures(build.project, turning, build.reduced.planes, build.reduced.sheets)
        build.reduced = replace(build.reduced, turning=turning, planes=planes)


def given_colours(build: Build) -> tuple[Colour, ...]:
    """Return the colours of the palette that the target takes as given, none when it takes none."""
    palette = next((p for p in build.project.palettes if p.name == build.target.palette), None)
    if palette is None:
        return ()
    if not palette.file:
        return palette.colours
    return colours_of_file(inside(build.project.folder, palette.file))


def cut_pieces(build: Build) -> None:
    """Cut planes into tiles and trim frames; equal ones are shared, flips too."""
    flips = allowed_flips(build.scheme, build.abilities)
    build.flags = flag_maps(build.project, build.scene, build.art.maps)
    build.pieces = gather_pieces(
        build.project,
        build.scene,
        build.reduced,
        flips,
        width_px=build.mode.width_px if build.scheme is PAGE else 0,
        common=build.common,
    )
    for number, plane in enumerate(build.scene.planes):
        whole = build.reduced.planes[build.scene.name, plane.name].astype(np.int16)
        again = restored(build.pieces, number)
        if not np.array_equal(np.where(again == EMPTY, build.reduced.transparent, again), whole):
            raise AssertionError(f"plane {plane.name}: tiles do not give the picture again")


def plan_drawing(build: Build) -> None:
    """Make the planner that knows what each tick takes."""
    if build.looks is None or build.looks.scene != build.scene:
        build.looks = Looks(build.project, build.scene)
    wanted = "memory" if not build.scheme.draws else build.target.maps
    if not build.abilities.words >= MAP_WORDS:
        if wanted == "file":
            raise ProjectError(
                f"target {build.target.name}: maps: got 'file'; must be 'memory' or 'auto', since dialect "
                f"{build.dialect.name} does not read files at any place"
            )
        wanted = "memory"
    wraps = [plane.wrap for plane in build.scene.planes]
    build.windows = windows_of(build.pieces, wraps, build.size, wanted)
    build.planner = make_planner(build)
    if build.together:
        return  # a program of several scenes draws everything in every picture
    turning = any(build.planner.turning)
    if turning and build.target.redraw == "changes":
        raise ProjectError(
            f"target {build.target.name}: redraw: got 'changes'; must be 'everything' or 'auto' for scene "
            f"{build.scene.name}, in which tiles take turns"
        )
    if not turning and can_move(
        build.target, build.machine.name, build.dialect.name, build.scheme, build.abilities
    ):
        numbered = any("{page}" in build.dialect.words.get(word, "") for word in ("begin_frame", "end_frame"))
        abilities = build.abilities if numbered else replace(build.abilities, pages=1)
        moving = make_planner(build, abilities, True)
        prices = build.machine.costs_in(build.mode.name)
        if build.target.redraw == "changes" or is_cheaper(moving, build.planner, prices, build.scene):
            build.changes, build.abilities, build.planner = True, abilities, moving


def make_planner(build: Build, abilities: Abilities | None = None, changes: bool = False) -> DrawPlanner:
    """Return a planner that draws everything in each picture, or only what changed."""
    return DrawPlanner(
        build.project,
        build.scene,
        build.reduced,
        build.pieces,
        build.scheme,
        abilities or build.abilities,
        build.size,
        build.looks,
        bordered=needs_border(build.scene, build.view, build.screen),
        screen=build.screen,
        changes=changes,
        windows=build.windows,
    )


def basic_bundle(build: Build) -> Bundle:
    """Return the tables and variables of a scene that every way to draw has."""
    bundle = build_bundle(
        build.project,
        build.scene,
        build.reduced,
        build.pieces,
        build.view,
        build.screen,
        build.planner.clears,
        build.flags,
    )
    tables, variables, arrays = waking_parts(build.scene)
    turn_tables, turn_variables, turn_arrays = turning_parts(build.pieces.turns)
    tables, variables, arrays = tables + turn_tables, variables + turn_variables, arrays + turn_arrays
    tables += span_tables(build.pieces, spanned_frames(build.project, build.scene), build.reduced.transparent)
    return replace(
        bundle,
        tables=bundle.tables + tables,
        variables=bundle.variables + variables,
        arrays=bundle.arrays + arrays,
    )


def make_tables(build: Build) -> None:
    """Turn everything into integer tables and image files."""
    bundle = basic_bundle(build)
    if any(build.windows):
        build.map_file = f"{build.name}-maps.raw"
        bundle = keep_in_file(bundle, build.pieces, build.flags, build.windows, build.map_file)
    tables, arrays, files = bundle.tables, bundle.arrays, dict(bundle.files)
    if build.scheme is BLIT:
        build.art_file = f"{build.name}-art.{build.abilities.image_format}"
        tables += blit_tables(build.pieces)
        palette = build.reduced.palette
        files[build.art_file] = indexed_file(build.pieces.packed, palette, build.abilities.image_format)
    variables = bundle.variables
    if build.changes:
        more, sizes = change_parts(build.scene, build.abilities.pages, dict(variables), MOST_BOXES)
        variables, arrays = variables + more, arrays + sizes
    if build.scheme is PAGE:
        build.art_file = f"{build.name}-art.raw"
        tables += blit_tables(build.pieces)
        variables += page_variables(build)
        files[build.art_file] = page_file(build.pieces.packed)
    if build.scheme is RUNS:
        build.art_file = f"{build.name}-art.raw"
        arrays += run_arrays(build.pieces, build.reduced.transparent)
        files[build.art_file] = raw_file(build.pieces)
    build.bundle = Bundle(tables=tables, arrays=arrays, variables=variables, files=files)
    check_values(build.dialect, tables)


def check_values(dialect: Dialect, tables: Sequence[Table]) -> None:
    """Refuse values that the numbers of a dialect cannot hold.

    raises   ExportError: with the table
    """
    limits = dialect.limits
    for table in tables:
        high = limits.wide_high if is_wide(table.name) else limits.integer_high
        for value in table.values:
            if abs(value) > high:
                raise ExportError(
                    f"table {table.name}: {value} is beyond the integers of dialect {dialect.name} ({high})"
                )


def page_variables(build: Build) -> tuple[tuple[str, int], ...]:
    """Return what loading the art into a hidden page needs to know.

    raises   ExportError: the art and its masks do not fit the page
    """
    height, width = build.pieces.packed.shape
    if 2 * height > build.mode.height_px or width > build.mode.width_px:
        raise ExportError(
            f"art: {width} x {height} px packed; a hidden page of {build.mode.width_px} x "
            f"{build.mode.height_px} px holds {build.mode.width_px} x {build.mode.height_px // 2} px and "
            "as much for masks; use fewer or smaller frames and tiles"
        )
    return (
        ("art_w", width),
        ("art_h", height),
        ("all_bits", build.mode.entries - 1),
    )


def encode_bundle(build: Build) -> None:
    """Encode every table the way that makes it smallest, and decode it again.

    Where costs are known, tables whose unpacking would take too long stay plain numbers.
    """
    rows = {"map_cell": max((c.columns for c in build.pieces.planes), default=0)}
    build.choices = encode_tables(build.bundle.tables, rows)
    wanted = build.target.encode if build.options.encode == "auto" else build.options.encode
    if wanted == "never":
        return
    packed = pack_tables(build.choices, build.dialect.words, build.dialect.limits.wide_high)
    if packed is not None and (wanted == "always" or packed.saves):
        build.packed = packed
    if build.packed is not None and wanted == "auto":
        prices, limits = build.machine.costs_in(build.mode.name), build.dialect.limits
        size = sum(choice.decimal_bytes for choice in build.choices)
        fits = not limits.program_bytes or size < limits.program_bytes // 2
        slower = unpacking_saved_by_plain(prices, build.choices, build.packed.form)
        if fits and slower is not None:
            build.packed = None
            build.findings.append(
                Finding(
                    level="note",
                    code="plain-tables",
                    where=f"scene {build.scene.name}",
                    text=f"tables are plain numbers: unpacking would take {slower[0]:.0f} s when the game "
                    f"starts, reading them {slower[1]:.0f} s",
                )
            )


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
    """Spell the library, and the playing program when asked for."""
    parts = Parts(
        name=build.name,
        title=(
            f"{build.project.name}: scene {build.name} for target {build.target.name}, written by scenekit",
            *number_lists(build),
        ),
        scheme=build.scheme,
        abilities=build.abilities,
        bundle=build.bundle,
        size=build.screen,
        art_file=build.art_file,
        counting=build.options.counting,
        packed=build.packed,
        changes=build.changes,
        map_file=build.map_file,
    )
    constants = spelled_constants(build)
    options = Options(prefix=build.options.prefix, first_line=build.options.first_line)
    library = spell(build.dialect, library_program(parts), constants, options)
    build.files = {build.program_file: library.encode("ascii"), **build.bundle.files}
    if build.options.play:
        program, stops = play_program(parts), build.options.report
        if stops:
            sums = build.options.row_sums and build.scheme.draws
            if sums:
                check_sums(build)
            program = reporting(program, build.bundle.tables, build.screen if sums else None)
        if "save_screen" not in build.dialect.words:
            program = unsaved(program)
        text = spell(build.dialect, program, constants, options)
        if build.dialect.words.get("stops_open"):
            build.files[STOPS_FILE] = "".join(f"{tick}\n" for tick in stops).encode("ascii")
        else:
            text = add_stops(text, build.dialect, stops)
        build.files[build.play_file] = text.encode("ascii")


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
    """Put the list of stops, one marked DATA line, after the tables.

    raises   ExportError: the stops do not fit a line, or the dialect must read them from a file
    """
    if dialect.definitions_first or "{variable_prefix}" in dialect.statements["data"]:
        raise ExportError(
            f"dialect {dialect.name}: words stops_open and stop_next must read a file, "
            "since its tables cannot take more values at their end"
        )
    lines = text.splitlines()
    remark = dialect.statements["remark"].format(text="STOPS: TICKS TO REPORT, -1 ENDS THE LIST")
    data = dialect.statements["data"].format(items=",".join(str(tick) for tick in (*stops, -1)))
    if len(data) + 6 > dialect.limits.line_length:
        raise ExportError(
            f"{len(stops)} stops do not fit one DATA line of {dialect.limits.line_length} characters"
        )
    if not dialect.numbered:
        return "\n".join([*lines, remark, data]) + "\n"
    last = int(lines[-1].split()[0])
    end = dialect.statements["end"]
    return "\n".join([*lines[:-1], f"{last} {remark}", f"{last + 1} {data}", f"{last + 2} {end}"]) + "\n"


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
            text = "has no author or licence on record; add them, so that the export can name them"
            build.findings.append(Finding(level="note", code="no-credit", where=file, text=text))
    build.files["CREDITS.txt"] = ("\n".join(lines) + "\n").encode("utf-8")


def lay_memory(build: Build) -> None:
    """Lay everything that the machine must keep into its memories."""
    dialect, pieces = build.dialect, build.pieces
    items = []
    if build.scheme.draws:
        items.append(
            Item(
                name="pages",
                kind="pages",
                size_bytes=build.mode.page_bytes * build.abilities.pages,
                shared=True,
            )
        )
    if build.scheme.copies and "art_page" not in build.scheme.routines:
        bits = build.mode.bits_per_pixel
        tiles = sum(picture.size for picture in pieces.pictures[: pieces.tiles]) * bits // 8
        whole = pieces.packed.size * bits // 8
        items.append(Item(name="art of sprites", kind="art", size_bytes=whole - tiles, shared=True))
        items.append(Item(name="art of planes", kind="art", size_bytes=tiles))
    tables = sum(
        max(1, len(table.values)) * dialect.bytes_of(is_wide(table.name)) for table in build.bundle.tables
    )
    arrays = sum(size * dialect.bytes_of(is_wide(name)) for name, size in build.bundle.arrays)
    items.append(Item(name="tables", kind="tables", size_bytes=tables))
    items.append(Item(name="working arrays", kind="tables", size_bytes=arrays))
    items.append(Item(name="program text", kind="program", size_bytes=len(build.files[build.program_file])))
    build.memory, findings = lay_out(build.machine, items)
    build.findings += findings


STAGES = (
    ("target", find_target),
    ("motion", expand_motion),
    ("art", read_art),
    ("colours", reduce_colours),
    ("pieces", cut_pieces),
    ("plan", plan_drawing),
    ("tables", make_tables),
    ("encode", encode_bundle),
    ("programs", write_programs),
    ("credits", write_credits),
    ("memory", lay_memory),
)


def run_stages(
    project: Project,
    target: str | None = None,
    scene: str | None = None,
    *,
    last: str = "memory",
    options: BuildOptions | None = None,
    progress: Progress | None = None,
    shared: Build | None = None,
    together: tuple[Scene, ...] = (),
) -> Build:
    """Run the stages up to the last one asked for.

    shared   a finished build of the same project, of which is used again what stays the same: art for
             every target, colours for the same one, motion for the same scene
    together scenes that are to be drawn in one way with this one
    raises   SceneKitError: something in the project does not fit
    """
    build = Build(
        project=project,
        scene=project.scene(scene),
        target=project.target(target),
        options=options or BuildOptions(),
        together=together,
    )
    if shared is not None:
        build.looks = shared.looks
    names = [name for name, _ in STAGES]
    for number, (name, stage) in enumerate(STAGES[: names.index(last) + 1]):
        if progress is not None:
            progress(name, number, names.index(last) + 1)
        if shared is not None and name == "art":
            build.art = shared.art
            build.findings += build.art.findings
            continue
        if shared is not None and name == "colours" and shared.target == build.target:
            build.reduced = shared.reduced
            continue
        stage(build)
    return build

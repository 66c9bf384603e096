"""Builds all scenes of a game for a target as one: one library, shared art once, the rest on a change."""

from dataclasses import dataclass, field

from scenekit.build import (
    STOPS_FILE,
    Build,
    BuildOptions,
    Kept,
    Progress,
    add_stops,
    check_sums,
    check_values,
    cut_pieces,
    needed_extras,
    number_lists,
    own_files,
    pace_of,
    plan_drawing,
    run_stages,
    spelled_constants,
    write_credits,
)
from scenekit.costs.loading import load_ms
from scenekit.costs.memory import Filled, Item, lay_out
from scenekit.dialects.spell import Options, spell
from scenekit.findings import Finding
from scenekit.gamefiles import art_files, place_art, shared_sizes
from scenekit.model.arrays import Indices
from scenekit.model.project import Project
from scenekit.plan.schemes import PAGE, allowed_flips
from scenekit.programs.assemble import Parts, game_library, game_player
from scenekit.programs.changing import Changing
from scenekit.programs.proof import only_saved_by, reporting
from scenekit.programs.streams import encode_one, stream_tables
from scenekit.routines.language import Program
from scenekit.routines.library import is_wide
from scenekit.tables.bundle import Bundle
from scenekit.tables.pieces import common_pictures, pack
from scenekit.tables.scenes import SceneTables, merge_bundles


@dataclass(slots=True)
class Game:
    """All scenes of a project, built for one target.

    scenes    the build of each, in order, its pieces beginning with the common ones
    common    pieces that two scenes or more share
    tables    of all scenes
    own_files the user's program, written once and theirs from then on
    arrays    every array of the library with its size, tables included
    change_ms what reading each scene's files takes, None while unknown
    """

    project: Project
    options: BuildOptions
    scenes: tuple[Build, ...]
    common: tuple[Indices, ...]
    tables: SceneTables
    changing: Changing
    files: dict[str, bytes]
    own_files: dict[str, bytes] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)
    arrays: tuple[tuple[str, int], ...] = ()
    memory: tuple[Filled, ...] = ()
    change_ms: tuple[float | None, ...] = ()

    @property
    def first(self) -> Build:
        """Return the build of the first scene, which stands for what all have in common."""
        return self.scenes[0]

    @property
    def program_file(self) -> str:
        """Return the name of the library file."""
        return f"{self.project.name}{self.first.dialect.file_ending}"

    @property
    def play_file(self) -> str:
        """Return the name of the playing program's file."""
        return f"{self.project.name}-play{self.first.dialect.file_ending}"

    def scene_number(self, name: str) -> int:
        """Return the number of a scene."""
        return next(number for number, build in enumerate(self.scenes) if build.scene.name == name)


def build_game(
    project: Project,
    target: str | None = None,
    *,
    options: BuildOptions | None = None,
    progress: Progress | None = None,
    kept: Kept | None = None,
) -> Game:
    """Build every scene of a project for a target, and the programs that change between them.

    kept     what builds before this one made; only what depends on a change is made again
    raises   SceneKitError: something in the project does not fit
    """
    options, kept = options or BuildOptions(), kept or Kept()
    kept.made.clear()
    builds: list[Build] = []
    for number, scene in enumerate(project.scenes):
        if progress is not None:
            progress(scene.name, number, len(project.scenes))
        builds.append(
            run_stages(
                project,
                target,
                scene.name,
                last="pieces",
                options=options,
                shared=builds[-1] if builds else None,
                together=project.scenes,
                kept=kept,
            )
        )
    common: tuple[Indices, ...] = ()
    if builds[0].scheme.draws:
        flips = allowed_flips(builds[0].scheme, builds[0].abilities)
        common = common_pictures([build.pieces.pictures for build in builds], flips)
    for build in builds:
        build.common = common
        cut_pieces(build)
        plan_drawing(build)
    extras = needed_extras(builds, f"{project.name}-maps.raw")
    for build in builds:
        build.extras = extras
    return _assemble(project, options, tuple(builds), common)


def _assemble(
    project: Project, options: BuildOptions, builds: tuple[Build, ...], common: tuple[Indices, ...]
) -> Game:
    first = builds[0]
    rows = place_art(builds, common)
    facts = {"ticks": [build.scene.ticks for build in builds]}
    tables = merge_bundles([build.bundle for build in builds], facts, shared_sizes(first, common))
    for some in (tables.shared, *tables.scenes):
        check_values(first.dialect, some)
    widths = [max((c.columns for c in build.pieces.planes), default=0) for build in builds]
    streams = stream_tables(
        tables,
        widths,
        words=first.dialect.words,
        high=first.dialect.limits.wide_high,
        plain=options.encode == "never",
        encode=lambda part, table, row: first.kept.get(
            "table", (part, first.target.name, table.name), (table, row), lambda: encode_one(part, table, row)
        ),
    )
    files, changing = art_files(project, builds, common, tables, streams, rows)
    game = Game(
        project=project,
        options=options,
        scenes=builds,
        common=common,
        tables=tables,
        changing=changing,
        files=files,
    )
    _write_programs(game)
    _write_credits(game)
    game.findings = list(dict.fromkeys(finding for build in builds for finding in build.findings))
    _lay_memory(game)
    game.change_ms = tuple(
        load_ms(first.machine, {name: game.files[name] for name in scene_files(game, number)})
        for number in range(len(builds))
    )
    return game


def scene_files(game: Game, number: int) -> tuple[str, ...]:
    """Return the names of the files that entering a scene reads."""
    named = (game.changing.files[number], game.changing.images[number])
    return tuple(name for name in named if name)


def _parts(game: Game) -> Parts:
    build = game.first
    names = ", ".join(f"{n} {b.scene.name}" for n, b in enumerate(game.scenes))
    title = [f"{game.project.name} for target {build.target.name}, written by scenekit", f"Scenes: {names}."]
    for number, scene in enumerate(game.scenes):
        title += [f"Scene {number}, {scene.scene.name}:", *number_lists(scene)]
    return Parts(
        name=game.project.name,
        title=tuple(title),
        scheme=build.scheme,
        abilities=build.abilities,
        bundle=Bundle(
            tables=game.tables.shared,
            arrays=game.tables.arrays,
            variables=(*game.tables.variables, *((name, 0) for name in game.tables.varying)),
            files={},
        ),
        size=build.screen,
        art_file="",
        map_file=build.extras.map_file,
        counting=game.options.counting,
        keys="keys_held" in build.dialect.words,
        pace=pace_of(game.scenes),
    )


def spelling_constants(game: Game) -> dict[str, int]:
    """Return what spellings may use as numbers, large enough for every scene."""
    each = [spelled_constants(build) for build in game.scenes]
    found = {name: max(constants[name] for constants in each) for name in each[0]}
    if game.first.scheme is PAGE:
        found["art_height"] = max(game.changing.rows)
    return found


def _write_programs(game: Game) -> None:
    """Spell the library, and the playing program when asked for.

    raises   DialectError, ExportError: with how many of the scenes fit where all do not
    """
    dialect, parts = game.first.dialect, _parts(game)
    options = Options(prefix=game.options.prefix, first_line=game.options.first_line)
    constants, kept, name = spelling_constants(game), game.first.kept, game.first.target.name
    given = dialect, parts, game.changing, constants, game.options

    def spelled(program: Program) -> tuple[Program, str]:
        return program, spell(dialect, program, constants, options)

    library, text = kept.get("library", name, given, lambda: spelled(game_library(parts, game.changing)))
    game.arrays = library.arrays
    game.files = {game.program_file: text.encode("ascii"), **game.files}
    game.own_files = own_files(
        game.project, game.options, dialect, library, game.program_file, constants, game.files
    )
    if game.options.play:
        sums = _checked_sums(game)
        _, text = kept.get("play", name, given, lambda: spelled(_player(game, parts, sums)))
        stops = game.options.report
        if dialect.words.get("stops_open"):
            game.files[STOPS_FILE] = "".join(f"{stop}\n" for stop in stops).encode("ascii")
        else:
            text = add_stops(text, dialect, stops)
        game.files[game.play_file] = text.encode("ascii")


def _checked_sums(game: Game) -> bool:
    """Say whether sums of rows are reported.

    raises   ExportError: they cannot be foretold
    """
    sums = bool(game.options.report) and game.options.row_sums and game.first.scheme.draws
    for build in game.scenes if sums else ():
        check_sums(build)
    return sums


def _player(game: Game, parts: Parts, sums: bool) -> Program:
    """Return the playing program, which reports records where stops are given for a proof."""
    player = game_player(parts, game.changing)
    if game.options.report:
        player = reporting(player, game.tables.shared, parts.size if sums else None, game.tables.names)
    return only_saved_by(player, game.first.dialect.words)


def _write_credits(game: Game) -> None:
    texts = []
    for build in game.scenes:
        build.files = {}
        write_credits(build)
        texts.append(build.files["CREDITS.txt"])
    game.files["CREDITS.txt"] = b"\n".join(texts)


def _lay_memory(game: Game) -> None:
    """Lay everything that the machine must keep at one time into its memories: the largest scene counts."""
    build, items = game.first, list[Item]()
    if build.scheme.draws:
        size = build.mode.page_bytes * build.abilities.pages
        items.append(Item(name="pages", kind="pages", size_bytes=size, shared=True))
    if build.scheme.copies:
        bits = build.mode.bits_per_pixel
        shared = pack(game.common, build.reduced.transparent)[1].size if game.common else 0
        largest = max(b.pieces.packed.size for b in game.scenes)
        items.append(Item(name="shared art", kind="art", size_bytes=shared * bits // 8, shared=True))
        items.append(Item(name="art of the largest scene", kind="art", size_bytes=largest * bits // 8))
    size = sum(size * build.dialect.bytes_of(is_wide(name)) for name, size in game.arrays)
    items.append(Item(name="tables and arrays", kind="tables", size_bytes=size, shared=True))
    text = len(game.files[game.program_file])
    items.append(Item(name="program text", kind="program", size_bytes=text, shared=True))
    game.memory, findings = lay_out(build.machine, items)
    game.findings += findings

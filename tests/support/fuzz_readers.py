"""Readers that need more than a path: targets from answers, logs, games, builds, copies of unsaved work."""

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path

from invented_log import invented_log

from scenekit.build import Build, BuildOptions, Kept, run_stages
from scenekit.calibration.benchmark import read_log, read_numbers, write_benchmark
from scenekit.calibration.benchscene import bench_build
from scenekit.calibration.costs import calibrate
from scenekit.chosen import choose_for
from scenekit.cli.commands.target_command import _write, load_parts
from scenekit.dialects.answers import questions, read_answers
from scenekit.dialects.dialect import Dialect
from scenekit.dialects.selftest import grade_test, records_of
from scenekit.dialects.spell import Options, spell
from scenekit.editor.recovery import keep, left_copies, recovery_file
from scenekit.errors import SceneKitError
from scenekit.export import LEDGER, write_export
from scenekit.game import _parts, build_game, spelling_constants
from scenekit.inspection import document_findings
from scenekit.model.project import Project
from scenekit.model.store import load
from scenekit.programs.assemble import game_library
from scenekit.programs.own import read_own
from scenekit.programs.records import numbers_in, read_log_file, record_sums
from scenekit.routines.language import Program
from scenekit.verify.board import awaited, judge
from scenekit.verify.wordtests import all_tests

DEMO = Path(__file__).parents[2] / "demo_assets"
MOST_BUILT_TICKS = 200
STOPS = (0, 9)
KEPT = Path(__file__).parents[1] / "kept" / "sample-2"
Reader = Callable[[Path], object]


def read_document(path: Path) -> None:
    """Look over a project of several scenes without its pictures."""
    folder = path.parent.parent if path.parent.name == "scenes" else path.parent
    project = load(folder)
    list(document_findings(project))
    for target in project.targets:
        for scene in project.scenes:
            choose_for(project, scene, target, project.scenes)


def examples() -> bytes:
    """Return answers to every question: its example."""
    rows = ((question.key, question.example) for question in questions())
    return "".join(f"{key} = '''{text}'''\n" for key, text in rows if text).encode("utf-8")


def make_target(path: Path) -> None:
    """Make a target from answers, as `target new` does."""
    _write(load(path.parent), "mine", read_answers(path), None, None)


@cache
def _proved(seed: Path) -> Build:
    return run_stages(load(seed), options=BuildOptions(play=True, report=STOPS))


def proof_log(seed: Path) -> bytes:
    """Return the log of a board on which all goes well, with sums of the screen's rows."""
    values = [value for _, part in awaited(_proved(seed), STOPS, True) for value in part]
    records = [(number, value, *record_sums(number, value)) for number, value in enumerate(values, 1)]
    return ("RUN\n" + "".join(f"{number}\n" for record in records for number in record)).encode("ascii")


def judge_log(seed: Path) -> Reader:
    """Return a reader that judges a log with sums, as `verify --from` does."""
    return lambda path: judge(_proved(seed), STOPS, [numbers_in(read_log_file(path))], {}, True)


def grade_log(seed: Path) -> Reader:
    """Return a reader that grades tests of words, as `target check --from` does."""
    project = load(seed)
    tests, _ = all_tests(*load_parts(project, project.targets[0]), board=True)

    def read(path: Path) -> None:
        records = records_of(tests, [numbers_in(read_log_file(path))])
        for test in tests:
            grade_test(test, records, None)

    return read


def bench_log() -> bytes:
    """Return the log of a benchmark."""
    return invented_log(KEPT).encode("ascii")


def calibrate_log(folder: Path) -> Reader:
    """Return a reader that fits costs to a log, as `calibrate --from` does; its art goes into a folder."""
    folder.mkdir()
    project = load(KEPT)
    bench = write_benchmark(bench_build(project, project.target(None), folder), 1)

    def read(path: Path) -> None:
        calibrate(bench, read_log(bench, read_numbers(read_log_file(path))), "measured: here")

    return read


@cache
def _libraries() -> tuple[Project, tuple[tuple[Dialect, Program, dict[str, int]], ...]]:
    """Return the demo, and the library of all its scenes in the dialects of two targets."""
    demo = load(DEMO)
    games = [build_game(demo, target) for target in ("board", "brandy-colour")]
    return demo, tuple(
        (game.first.dialect, game_library(_parts(game), game.changing), spelling_constants(game))
        for game in games
    )


def read_game(path: Path) -> None:
    """Read a program over the demo's libraries, and spell it."""
    text = path.read_bytes().decode("latin-1")
    demo, libraries = _libraries()
    for dialect, library, constants in libraries:
        program = read_own(text, path.name, demo, library)
        program = replace(program, library_file=f"lamplighter{dialect.file_ending}")
        spelled = spell(dialect, program, constants, Options())
        assert spelled.isascii()
        assert all(line.isprintable() for line in spelled.splitlines())


def build_again() -> Reader:
    """Return a reader that builds with what earlier builds kept and from nothing, and compares the files."""
    kept = Kept()

    def read(path: Path) -> None:
        project = load(path.parent.parent if path.parent.name == "scenes" else path.parent)
        if sum(scene.ticks for scene in project.scenes) > MOST_BUILT_TICKS:
            return
        again, anew = _built(project, kept), _built(project, None)
        assert again == anew, "a build with kept parts differs from one from nothing"
        if isinstance(anew, str):
            raise SceneKitError(anew)

    return read


def _built(project: Project, kept: Kept | None) -> dict[str, bytes] | str:
    try:
        return run_stages(project, options=BuildOptions(play=True), kept=kept).files
    except SceneKitError as error:
        return str(error)


def unsaved(seed: Path) -> bytes:
    """Return a copy of unsaved work."""
    keep(load(seed), "seed")
    return recovery_file(seed, "seed").read_bytes()


def read_unsaved(path: Path) -> None:
    """Offer what a crash left behind, as the window does."""
    left_copies(path.parent)


def ledger(folder: Path) -> bytes:
    """Return the list of files that an export wrote into a folder."""
    write_export(folder, {"a.txt": b"1", "b.txt": b"2"})
    return (folder / LEDGER).read_bytes()


def export_again(path: Path) -> None:
    """Export into a folder whose list of files somebody else wrote."""
    write_export(path.parent, {"a.txt": b"1", "b.txt": b"3"})

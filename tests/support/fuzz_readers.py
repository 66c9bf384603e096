"""Readers that need more than a path: answers made into a target, logs graded, copies of unsaved work."""

from collections.abc import Callable
from functools import cache
from pathlib import Path

from invented_log import invented_log

from scenekit.build import Build, BuildOptions, run_stages
from scenekit.calibration.benchmark import read_log, read_numbers, write_benchmark
from scenekit.calibration.benchscene import bench_build
from scenekit.calibration.costs import calibrate
from scenekit.chosen import choose_for
from scenekit.cli.commands.target_command import _write, load_parts
from scenekit.dialects.answers import questions, read_answers
from scenekit.dialects.selftest import grade_test, records_of
from scenekit.editor.recovery import keep, left_copies, recovery_file
from scenekit.export import LEDGER, write_export
from scenekit.inspection import document_findings
from scenekit.model.store import load
from scenekit.programs.records import numbers_in, read_log_file, record_sums
from scenekit.verify.board import awaited, judge
from scenekit.verify.wordtests import all_tests

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

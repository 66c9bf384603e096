"""Runs the tests of a dialect's words in its interpreter, or grades what a board sent back."""

import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path

from scenekit.dialects.dialect import Dialect
from scenekit.dialects.selfscreen import Display, art_constants, screen_drafts
from scenekit.dialects.selftest import (
    FAILED,
    Grade,
    SelfTest,
    grade_test,
    language_drafts,
    plain_drafts,
    records_of,
    self_tests,
    ungraded,
)
from scenekit.errors import ImageReadError, VerifyError
from scenekit.interpreters import readers
from scenekit.interpreters.outcome import Reader, Run
from scenekit.model.arrays import Pixels
from scenekit.registry import choose

TIME_LIMIT_S = 20.0


def all_tests(
    dialect: Dialect, display: Display | None, board: bool = False
) -> tuple[tuple[SelfTest, ...], tuple[Grade, ...]]:
    """Return every test of a dialect on a display, and grades of those that cannot be written.

    board   each test saves its screen under its own number
    """
    drafts = [*language_drafts(), *plain_drafts(dialect, "" if display is None else display.opening)]
    constants = {"screen_width": 320, "screen_height": 200, "bottom": 398, **art_constants()}
    if display is not None:
        width, height = display.size
        constants.update(screen_width=width, screen_height=height, bottom=2 * (height - 1))
        drafts += screen_drafts(dialect, display)
    return self_tests(dialect, drafts, constants, board)


def run_tests(dialect: Dialect, display: Display | None) -> tuple[Grade, ...]:
    """Run every test in the dialect's interpreter, each in a folder of its own.

    raises   UnknownNameError: the dialect names a way to run that is not known
    """
    tests, grades = all_tests(dialect, display)
    reader = choose("reader", dialect.reader, readers())
    found = [*grades, *(_run_one(test, dialect, display, reader) for test in tests)]
    return (*found, *ungraded(dialect, found))


def _run_one(test: SelfTest, dialect: Dialect, display: Display | None, reader: Reader) -> Grade:
    with tempfile.TemporaryDirectory(prefix="scenekit-") as folder:
        write_test(Path(folder), test)
        screens = 0 if test.screen is None else 1
        task = Run(
            folder=Path(folder),
            program=test.program_file,
            dialect=dialect,
            screens=screens,
            time_limit_s=TIME_LIMIT_S,
            flips=display.flips if display is not None else frozenset({0}),
        )
        try:
            outcome = reader.run(task)
        except (VerifyError, ImageReadError) as error:
            return Grade(word=test.word, grade=FAILED, why=str(error))
    records = records_of([test], [outcome.said])
    return grade_test(test, records, outcome.screens[0] if screens else None, whole=True)


def write_test(folder: Path, test: SelfTest) -> None:
    """Write a test and what must lie beside it."""
    (folder / test.program_file).write_text(test.text, encoding="ascii", newline="\n")
    for name, data in test.files.items():
        (folder / name).write_bytes(data)


def files_of(tests: Sequence[SelfTest]) -> dict[str, bytes]:
    """Return every file of a folder of tests for a board."""
    files: dict[str, bytes] = {}
    for test in tests:
        files[test.program_file] = test.text.encode("ascii")
        files.update(test.files)
    return files


def grade_logs(
    dialect: Dialect,
    display: Display | None,
    logs: Sequence[Sequence[int]],
    screens: Mapping[int, Pixels],
) -> tuple[Grade, ...]:
    """Grade what a board sent back; what is not in it is unproven.

    screens   number of the test -> what was on show at its end
    """
    tests, grades = all_tests(dialect, display, board=True)
    records = records_of(tests, logs)
    found = [*grades, *(grade_test(test, records, screens.get(test.number)) for test in tests)]
    return (*found, *ungraded(dialect, found))

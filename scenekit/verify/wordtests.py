"""Runs the tests of a dialect's words in its interpreter, or grades what a board sent back."""

import shutil
import tempfile
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

from scenekit.dialects.dialect import Dialect
from scenekit.dialects.drafts import language_drafts, library_draft, plain_drafts
from scenekit.dialects.painter import Display
from scenekit.dialects.selfscreen import art_constants, screen_drafts
from scenekit.dialects.selftest import (
    FAILED,
    UNPROVEN,
    Grade,
    SelfTest,
    blamed,
    grade_test,
    records_of,
    self_tests,
    ungraded,
)
from scenekit.errors import ImageReadError, TimeLimitError, VerifyError
from scenekit.interpreters import readers
from scenekit.interpreters.outcome import Reader, Run
from scenekit.model.arrays import Pixels
from scenekit.registry import choose

TIME_LIMIT_S = 20.0
MOST_HUNG = 2


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
    return self_tests(dialect, [*drafts, library_draft()], constants, board)


def run_tests(
    dialect: Dialect, display: Display | None, tell: Callable[[Grade], None] = lambda grade: None
) -> tuple[Grade, ...]:
    """Run every test in the dialect's interpreter, each in a folder of its own.

    After two tests that did not end in time no further one is run, and their folders stay.
    tell     is called with the grade of each test that was run
    raises   UnknownNameError: the dialect names a way to run that is not known
    """
    tests, grades = all_tests(dialect, display)
    reader = choose("reader", dialect.reader, readers())
    found, hung = [*grades], 0
    for test in tests:
        if hung >= MOST_HUNG:
            why = f"not run, since {MOST_HUNG} tests before it did not end"
            found.append(Grade(word=test.word, grade=UNPROVEN, why=why))
            continue
        grade, ended = _run_one(test, dialect, display, reader)
        hung += not ended
        found.append(grade)
        tell(grade)
    return (*blamed(tests, found), *ungraded(dialect, found))


def _run_one(test: SelfTest, dialect: Dialect, display: Display | None, reader: Reader) -> tuple[Grade, bool]:
    """Return the grade of a test, and whether it ended in time."""
    folder, ended = Path(tempfile.mkdtemp(prefix="scenekit-")), True
    try:
        write_test(folder, test)
        outcome = reader.run(_task(test, dialect, display, folder))
    except TimeLimitError as error:
        ended = False
        why = f"{error}; often a BASIC waits behind a message of an error: run it yourself in {folder}"
        return Grade(word=test.word, grade=FAILED, why=why), False
    except (VerifyError, ImageReadError) as error:
        return Grade(word=test.word, grade=FAILED, why=str(error)), True
    finally:
        if ended:
            shutil.rmtree(folder, ignore_errors=True)
    records = records_of([test], [outcome.said])
    screen = None if test.screen is None else outcome.screens[0]
    return grade_test(test, records, screen, whole=True), True


def _task(test: SelfTest, dialect: Dialect, display: Display | None, folder: Path) -> Run:
    return Run(
        folder=folder,
        program=test.program_file,
        dialect=dialect,
        screens=0 if test.screen is None else 1,
        time_limit_s=TIME_LIMIT_S,
        flips=display.flips if display is not None else frozenset({0}),
    )


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
    return (*blamed(tests, found), *ungraded(dialect, found))

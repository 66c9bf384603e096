"""One small program for each neutral word, what it must report and show, and grades for what came back."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from scenekit.dialects.dialect import Dialect
from scenekit.dialects.drafts import Draft
from scenekit.dialects.spell import Options, missing_words, spell
from scenekit.errors import DialectError
from scenekit.model.arrays import Pixels
from scenekit.programs.proof import recorded
from scenekit.programs.records import Records, find_records
from scenekit.routines.language import Assign, Name, Number, Program, Statement, Word, map_statements, walk
from scenekit.routines.library import gather
from scenekit.routines.parse import parse_routines, parse_statements
from scenekit.routines.words import WORDS

PASSED, FAILED, UNPROVEN = "passed", "failed", "unproven"
EACH = 100
"""Records that a test may have; record 100 n + 1 is the first one of test n."""
NEVER_BY_LOG = ("quit",)
PLACING = ("fill", "run", "move_part", "art_fill", "art_run", "blit", "blit_keyed")
"""Words that say where something is drawn."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SelfTest:
    """A test of one word.

    word      neutral word, or "language: ..." for statements and operators
    program   file name and text
    said      values that it must report, in order; none after the last
    screen    (H, W, 3) uint8 that must be on show at its end, or None
    files     what must lie beside it
    uses      every other word of its program
    hint      what is said besides where it does not pass
    """

    number: int
    word: str
    program_file: str
    text: str
    said: tuple[int, ...]
    screen: Pixels | None
    files: Mapping[str, bytes]
    uses: frozenset[str] = frozenset()
    hint: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade:
    """How a word did: "passed", "failed" or "unproven", and why.

    misplaced  it failed since the right colours stood at wrong places
    """

    word: str
    grade: str
    why: str
    misplaced: bool = False

    def as_dict(self) -> dict[str, str]:
        """Return the grade as plain JSON data."""
        return {"word": self.word, "grade": self.grade, "why": self.why}


def self_tests(
    dialect: Dialect, drafts: Iterable[Draft], constants: Mapping[str, int], board: bool = False
) -> tuple[tuple[SelfTest, ...], tuple[Grade, ...]]:
    """Spell the tests of every word that a dialect spells.

    board     each test saves its screen under its own number
    returns   the tests, and grades of those that cannot be written
    """
    tests, grades = [], []
    for number, draft in enumerate(drafts, 1):
        if draft.word in WORDS and draft.word not in dialect.words:
            continue
        if draft.library and "include" not in dialect.statements:
            continue
        try:
            program = _program(draft, number, board, dialect.file_ending)
            missing = missing_words(dialect, program)
            if missing:
                grades.append(_unproven(draft.word, f"its test needs {', '.join(missing)}"))
                continue
            text = spell(dialect, program, constants, Options())
            files = dict(draft.files)
            if program.library is not None:
                library = spell(dialect, program.library, constants, Options())
                files[program.library_file] = library.encode("ascii")
        except DialectError as error:
            grades.append(Grade(word=draft.word, grade=FAILED, why=str(error)))
            continue
        except (KeyError, IndexError, ValueError) as error:
            grades.append(Grade(word=draft.word, grade=FAILED, why=f"cannot be spelled: {error}"))
            continue
        tests.append(
            SelfTest(
                number=number,
                word=draft.word,
                program_file=f"test{number:02d}{dialect.file_ending}",
                text=text,
                said=draft.said,
                screen=draft.screen,
                files=files,
                uses=_words_of(program) - {draft.word},
                hint=draft.hint,
            )
        )
    return tuple(tests), tuple(grades)


def _program(draft: Draft, number: int, board: bool, ending: str) -> Program:
    shot = number if board else 0
    main = parse_statements(draft.main.replace("save_screen 0", f"save_screen {shot}"), draft.word)
    start: tuple[Statement, ...] = (Assign(Name("reported"), Number(EACH * number)), Word("say_open", ()))
    finish = (Word("say_close", ()), Word("quit", ()))
    load = parse_routines("routine load\nspare = 0\nend\n", "load")
    library = None
    if draft.library:
        name = f"lib{number:02d}"
        theirs = (*load, *parse_routines(draft.library, draft.word))
        library = Program(name=name, remarks=(name,), arrays=draft.arrays, main=(), routines=theirs)
        load = ()
    return Program(
        name=f"test{number:02d}",
        remarks=(f"Test {number}: {draft.word}",),
        arrays=draft.arrays if library is None else (),
        main=(
            *parse_statements("do load", "load"),
            *start,
            *map_statements(main, recorded),
            *finish,
        ),
        routines=(*load, *parse_routines(draft.routines, draft.word), *gather(["report"])[:1]),
        tables=draft.tables,
        packed=draft.packed,
        library=library,
        library_file="" if library is None else f"{library.name}{ending}",
    )


def _words_of(program: Program) -> frozenset[str]:
    bodies = [program.main, *(routine.body for routine in program.routines)]
    return frozenset(s.word for body in bodies for s in walk(body) if isinstance(s, Word))


def _unproven(word: str, why: str) -> Grade:
    return Grade(word=word, grade=UNPROVEN, why=why)


def records_of(tests: Sequence[SelfTest], logs: Iterable[Sequence[int]]) -> Records:
    """Find the records of tests in logs; one record beyond each test's last is looked for too."""
    allowed = [EACH * test.number + n for test in tests for n in range(1, len(test.said) + 2)]
    return find_records(logs, allowed)


def grade_test(test: SelfTest, records: Records, screen: Pixels | None, whole: bool = False) -> Grade:
    """Grade one test by what came back.

    screen   what was on show at its end, or None where nobody sent it
    whole    the program was seen to end, and all that it reported is here
    """
    first = EACH * test.number + 1
    numbers = range(first, first + len(test.said))
    wrong = [
        n for n, wanted in zip(numbers, test.said, strict=True) if records.values.get(n, wanted) != wanted
    ]
    torn = [n for n in (*numbers, numbers.stop) if n in records.torn]
    if wrong or torn:
        n = (wrong or torn)[0]
        if n in records.torn:
            return Grade(word=test.word, grade=FAILED, why=f"record {n} came with two different values")
        why = f"record {n}: got {records.values[n]}; must be {test.said[n - first]}"
        return Grade(word=test.word, grade=FAILED, why=why)
    if numbers.stop in records.values:
        return Grade(word=test.word, grade=FAILED, why="it went on after its end")
    missing = [n for n in numbers if n not in records.values]
    if missing:
        shown = ", ".join(str(n) for n in missing[:6])
        return _unproven(test.word, f"record {shown} {'is' if len(missing) == 1 else 'are'} missing")
    if test.screen is not None:
        if screen is None:
            return _unproven(test.word, "its screen was not sent")
        fault = _screen_fault(test.screen, screen)
        if fault:
            misplaced = np.array_equal(_colours(test.screen), _colours(screen))
            return Grade(word=test.word, grade=FAILED, why=fault, misplaced=misplaced)
    if test.word in NEVER_BY_LOG and not whole:
        return _unproven(test.word, "a log cannot show that nothing came after it")
    return Grade(word=test.word, grade=PASSED, why="")


def _colours(screen: Pixels) -> Pixels:
    """Return each colour of a screen once, in order."""
    return np.unique(screen.reshape(-1, 3), axis=0)


def _screen_fault(wanted: Pixels, got: Pixels) -> str:
    if wanted.shape != got.shape:
        return f"screen of {got.shape[1]} x {got.shape[0]} px; must be {wanted.shape[1]} x {wanted.shape[0]}"
    rows, columns = np.nonzero((wanted != got).any(axis=-1))
    if not len(rows):
        return ""
    y, x = int(rows[0]), int(columns[0])
    colours = tuple(int(c) for c in got[y, x]), tuple(int(c) for c in wanted[y, x])
    return f"{len(rows)} pixels differ, the first at {x}, {y}: got {colours[0]}; must be {colours[1]}"


def blamed(tests: Sequence[SelfTest], grades: Iterable[Grade]) -> tuple[Grade, ...]:
    """Return grades in which a test that failed blames its word only where all that it rests on passed.

    A test rests on the other words in its program. Where two words rest on each other, the one is cleared
    that a test which passed used too; else, where only places are wrong, the one that draws is blamed; else
    both are.
    """
    given = tuple(grades)
    by_word = {test.word: test for test in tests}
    passed = [by_word[grade.word] for grade in given if grade.grade == PASSED and grade.word in by_word]
    cleared = {word for test in passed for word in test.uses}
    failed = [grade for grade in given if grade.grade == FAILED and grade.word in by_word]
    found = []
    for grade in given:
        test = by_word.get(grade.word)
        if test is not None and grade.grade != PASSED:
            doubtful = [other for other in failed if other.word not in cleared]
            cause = next((o.word for o in doubtful if _causes(o, grade, by_word, cleared)), "")
            if cause and grade.grade == FAILED:
                grade = _unproven(grade.word, f"its test rests on {cause}, which failed ({grade.why})")
            elif test.hint:
                grade = replace(grade, why=f"{grade.why}; {test.hint}")
        found.append(grade)
    return tuple(found)


def _causes(other: Grade, grade: Grade, tests: Mapping[str, SelfTest], cleared: Collection[str]) -> bool:
    """Say whether a word that failed is to blame for what another one's test showed."""
    if other.word not in tests[grade.word].uses:
        return False
    if other.misplaced and grade.misplaced and (other.word in PLACING) != (grade.word in PLACING):
        return other.word in PLACING
    return grade.word in cleared or grade.word not in tests[other.word].uses


def ungraded(dialect: Dialect, graded: Iterable[Grade]) -> tuple[Grade, ...]:
    """Return grades for words that a dialect spells and no test covers."""
    done = {grade.word for grade in graded}
    return tuple(
        _unproven(word, "there is no test of it for this target")
        for word in dialect.words
        if word not in done
    )

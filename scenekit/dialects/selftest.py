"""One small program for each neutral word, what it must report and show, and grades for what came back."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from scenekit.dialects.dialect import Dialect
from scenekit.dialects.spell import Options, missing_words, spell
from scenekit.errors import DialectError
from scenekit.model.arrays import Pixels
from scenekit.programs.proof import recorded
from scenekit.programs.records import Records, find_records
from scenekit.routines.language import Assign, Name, Number, Program, Statement, Table, Word, map_statements
from scenekit.routines.library import gather
from scenekit.routines.parse import parse_routines, parse_statements
from scenekit.routines.words import WORDS

PASSED, FAILED, UNPROVEN = "passed", "failed", "unproven"
EACH = 100
"""Records that a test may have; record 100 n + 1 is the first one of test n."""
NEVER_BY_LOG = ("quit",)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SelfTest:
    """A test of one word.

    word      neutral word, or "language: ..." for statements and operators
    program   file name and text
    said      values that it must report, in order; none after the last
    screen    (H, W, 3) uint8 that must be on show at its end, or None
    files     what must lie beside it
    """

    number: int
    word: str
    program_file: str
    text: str
    said: tuple[int, ...]
    screen: Pixels | None
    files: Mapping[str, bytes]


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade:
    """How a word did: "passed", "failed" or "unproven", and why."""

    word: str
    grade: str
    why: str

    def as_dict(self) -> dict[str, str]:
        """Return the grade as plain JSON data."""
        return {"word": self.word, "grade": self.grade, "why": self.why}


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A test before it is spelled; the main part is neutral text that reports with `say`."""

    word: str
    main: str
    said: tuple[int, ...] = ()
    tables: tuple[Table, ...] = ()
    packed: str = ""
    routines: str = ""
    arrays: tuple[tuple[str, int], ...] = ()
    screen: Pixels | None = None
    files: tuple[tuple[str, bytes], ...] = ()


def language_drafts() -> tuple[Draft, ...]:
    """Return tests of what every program is made of."""
    sums = """a = 7 - 12
say a
say (3 + 4) * 5 - 2 * (9 - 4)
say 0 - (2 - 9)
say 83 div 19 * 19 + 83 mod 19
say 83 mod 19
say (20 + 3) div 5
"""
    choice = """for i = 1 to 4
if i = 2 or i > 3
say i
else
say 0 - i
end
end
if 2 >= 3 and 1 <> 2
say 99
end
n = 0
for i = 1 to 3
if i < 2
n = n + 1
end
if i <= 2
n = n + 4
end
if i > 2
n = n + 16
end
if i >= 2
n = n + 64
end
if i = 2
n = n + 256
end
if i <> 2
n = n + 1024
end
end
say n
"""
    loop = """n = 0
for i = 3 to 6
n = n + i
end
say n
for i = n to 5
n = 1000
end
say n
k = 1
while k < 50
k = k * 3
end
say k
"""
    array = """for i = 0 to 5
list(i) = i * i
end
list(2) = list(5) - list(list(2))
say list(0)
say list(2)
say list(5)
"""
    call = "do twice(4, 3)\nsay held\ndo twice(held, 2)\nsay held\ndo nothing\nsay held\n"
    twice = "routine twice(a, b)\nheld = 2 * a + b\nif held > 20\nreturn\nend\nheld = held + 1\nend\n"
    nothing = "routine nothing\nheld = held - 1\nend\n"
    return (
        Draft(word="language: sums", main=sums, said=(-5, 25, 7, 83, 7, 4)),
        Draft(word="language: choices", main=choice, said=(-1, 2, -3, 4, 2457)),
        Draft(word="language: loops", main=loop, said=(18, 18, 81)),
        Draft(word="language: arrays", main=array, said=(0, 9, 25), arrays=(("list", 6),)),
        Draft(word="language: routines", main=call, said=(12, 26, 25), routines=twice + nothing),
    )


def plain_drafts(dialect: Dialect, opening: str = "") -> tuple[Draft, ...]:
    """Return tests of words that do not draw.

    opening   neutral text that opens the screen, without which some BASICs know no keys
    """
    high = min(dialect.limits.integer_high, 32_000)
    numbers = Table("numbers", (5, -3, high - 1), "numbers to read")
    listed = "stops_open\nfor i = 1 to 3\nstop_next stop\nsay stop\nend\n"
    in_program = dialect.words.get("stops_open") == ""
    stops = Table("stops", (4, 9, -1), "the list of stops")
    again = "rewind\nread a\nread b\nrewind\nread b\nsay b\nsay a\n"
    signs = "rewind\ntake_text n\nsay n\ntext_code a, 1\nsay a\ntext_code a, 3\nsay a\n"
    octets = bytes((0, 7, 26, 13, 10, 255))
    file = 'file_open "TEST.BIN"\nfor i = 1 to 6\nfile_byte a\nsay a\nend\nfile_close\n'
    places = (
        'map_open "TEST.BIN"\nmap_at 3\nmap_byte a\nsay a\nmap_byte a\nsay a\nmap_at 0\nmap_byte a\nsay a\n'
    )
    ending = 'file_open "SHORT.BIN"\nfor i = 1 to 3\nfile_byte a\nfile_end b\nsay b\nend\nfile_close\n'
    ticking = """clock clock_last
clock_now = clock_last
for i = 1 to 3000
if clock_now = clock_last
for k = 1 to 300
n = k
end
clock clock_now
end
end
if clock_now > clock_last
say 1
else
say 0
end
"""
    text = "7Kq"
    return (
        Draft(word="say_open", main="say 12\n", said=(12,)),
        Draft(word="say", main=f"say 7\nsay 0 - 12\nsay {high}\nsay 0\n", said=(7, -12, high, 0)),
        Draft(word="say_close", main="say 13\n", said=(13,)),
        Draft(
            word="read",
            main="rewind\nread a\nsay a\nread a\nsay a\nread a\nsay a\n",
            said=numbers.values,
            tables=(numbers,),
        ),
        Draft(word="rewind", main=again, said=(5, 5), tables=(numbers,)),
        *(
            Draft(
                word=word,
                main=("rewind\n" if in_program else "") + listed,
                said=(4, 9, -1),
                tables=(stops,) if in_program else (),
                files=() if in_program else (("stops.txt", b"4\n9\n"),),
            )
            for word in ("stops_open", "stop_next")
        ),
        Draft(word="take_text", main=signs, said=(3, ord("7"), ord("q")), packed=text),
        Draft(word="text_code", main=signs, said=(3, ord("7"), ord("q")), packed=text),
        *(
            Draft(word=word, main=file, said=tuple(octets), files=(("TEST.BIN", octets),))
            for word in ("file_open", "file_byte", "file_close")
        ),
        *(
            Draft(word=word, main=places, said=(13, 10, 0), files=(("TEST.BIN", octets),))
            for word in ("map_open", "map_at", "map_byte")
        ),
        Draft(word="file_end", main=ending, said=(0, 0, 1), files=(("SHORT.BIN", octets[:3]),)),
        Draft(word="key", main=opening + "key k\nsay k\n", said=(0,)),
        Draft(word="clock", main=ticking, said=(1,)),
        Draft(word="quit", main="say 1\nsay_close\nquit\nsay_open\nsay 2\n", said=(1,)),
    )


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
        try:
            program = _program(draft, number, board)
            missing = missing_words(dialect, program)
            if missing:
                grades.append(_unproven(draft.word, f"its test needs {', '.join(missing)}"))
                continue
            text = spell(dialect, program, constants, Options())
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
                files=dict(draft.files),
            )
        )
    return tuple(tests), tuple(grades)


def _program(draft: Draft, number: int, board: bool) -> Program:
    shot = number if board else 0
    main = parse_statements(draft.main.replace("save_screen 0", f"save_screen {shot}"), draft.word)
    start: tuple[Statement, ...] = (Assign(Name("reported"), Number(EACH * number)), Word("say_open", ()))
    finish = (Word("say_close", ()), Word("quit", ()))
    arrays = draft.arrays
    load = parse_routines("routine load\nspare = 0\nend\n", "load")
    return Program(
        name=f"test{number:02d}",
        remarks=(f"Test {number}: {draft.word}",),
        arrays=arrays,
        main=(
            *parse_statements("do load", "load"),
            *start,
            *map_statements(main, recorded),
            *finish,
        ),
        routines=(*load, *parse_routines(draft.routines, draft.word), *gather(["report"])[:1]),
        tables=draft.tables,
        packed=draft.packed,
    )


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
            return Grade(word=test.word, grade=FAILED, why=fault)
    if test.word in NEVER_BY_LOG and not whole:
        return _unproven(test.word, "a log cannot show that nothing came after it")
    return Grade(word=test.word, grade=PASSED, why="")


def _screen_fault(wanted: Pixels, got: Pixels) -> str:
    if wanted.shape != got.shape:
        return f"screen of {got.shape[1]} x {got.shape[0]} px; must be {wanted.shape[1]} x {wanted.shape[0]}"
    rows, columns = np.nonzero((wanted != got).any(axis=-1))
    if not len(rows):
        return ""
    y, x = int(rows[0]), int(columns[0])
    colours = tuple(int(c) for c in got[y, x]), tuple(int(c) for c in wanted[y, x])
    return f"{len(rows)} pixels differ, the first at {x}, {y}: got {colours[0]}; must be {colours[1]}"


def ungraded(dialect: Dialect, graded: Iterable[Grade]) -> tuple[Grade, ...]:
    """Return grades for words that a dialect spells and no test covers."""
    done = {grade.word for grade in graded}
    return tuple(
        _unproven(word, "there is no test of it for this target")
        for word in dialect.words
        if word not in done
    )

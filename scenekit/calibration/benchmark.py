"""Writes a benchmark program in the BASIC of a target, and reads what it reports."""

import zlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from scenekit.build import Build, spelled_constants
from scenekit.calibration.measures import Measure, measures_of
from scenekit.dialects.spell import Options, spell
from scenekit.errors import MachineError
from scenekit.programs.assemble import Parts, own_program
from scenekit.programs.records import numbers_in
from scenekit.routines.language import Assign, Call, Name, Number, Statement, Table, Word
from scenekit.routines.library import gather
from scenekit.tables.bundle import Bundle

REPEATS = 5
MOST_TURNS = 5_000_000
RECORD = 4
LARGEST_LOG_CHARACTERS = 4_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Benchmark:
    """A benchmark for a target.

    identity  number by which a log names the benchmark it belongs to
    files     everything to bring to the machine, by name
    """

    build: Build
    measures: tuple[Measure, ...]
    repeats: int
    identity: int
    program_file: str
    files: dict[str, bytes]

    def seconds(self, grain_ms: float = 10.0) -> float:
        """Return about how long it runs with a clock so coarse."""
        return len(self.measures) * (1 + 1.5 * self.repeats) * (40 + 8 * grain_ms) / 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class Log:
    """What a benchmark reported.

    grain_ms  how coarse the clock is
    runs      measure -> (turns, ms) of each run
    missing   numbers of the records that are not in the log
    notes     what is wrong with it, in words
    """

    grain_ms: int
    runs: dict[int, tuple[tuple[int, int], ...]]
    missing: tuple[int, ...]
    notes: tuple[str, ...]


def write_benchmark(build: Build, repeats: int = REPEATS) -> Benchmark:
    """Spell the benchmark of a build in its dialect.

    raises   DialectError: the dialect has no clock, or a line does not fit
    """
    measures = measures_of(build)
    identity = zlib.crc32(repr([(m.kind, m.terms, m.work) for m in measures]).encode("ascii")) % 9973
    seconds = len(measures) * (1 + 1.5 * repeats) * 0.12
    parts = parts_of(build, _tables(measures), (("bench_turn", len(measures)),))
    parts = replace(
        parts,
        name="bench",
        title=(
            f"Benchmark {identity} for target {build.target.name}, written by scenekit.",
            f"It runs for about {seconds / 60:.0f} minutes where the clock counts in hundredths of a second.",
            "It reports numbers only. What it reported when it is stopped early can be used too.",
        ),
    )
    main = (
        Call("load", ()),
        Call("start", ()),
        *_set(
            bench_id=identity,
            bench_count=len(measures),
            bench_repeats=repeats,
            bench_most=min(MOST_TURNS, build.dialect.limits.integer_high // 4),
            bench_took=0,
            bench_grain=0,
            bench_least=0,
        ),
        Word("say_open", ()),
        Call("bench_all", ()),
        Word("say_close", ()),
        Word("quit", ()),
    )
    palette = "bench_recolour" if build.abilities.recolours else "bench_redraw"
    changes = "bench_changes" if build.changes else "bench_no_changes"
    maps = "bench_maps" if build.extras.map_file else "bench_no_maps"
    text = spell_program(build, parts, main, ("bench", palette, changes, maps))
    program_file = f"bench{build.dialect.file_ending}"
    return Benchmark(
        build=build,
        measures=measures,
        repeats=repeats,
        identity=identity,
        program_file=program_file,
        files={program_file: text, **build.bundle.files},
    )


def _set(**values: int) -> tuple[Statement, ...]:
    return tuple(Assign(Name(name), Number(value)) for name, value in values.items())


def _tables(measures: Sequence[Measure]) -> tuple[Table, ...]:
    kinds = Table("bench_kind", tuple(m.kind for m in measures), "what each measure does")
    letters = "abcd"
    return (
        kinds,
        *(Table(f"bench_{letters[n]}", tuple(m.terms[n] for m in measures), "") for n in range(4)),
    )


def parts_of(build: Build, tables: tuple[Table, ...] = (), arrays: tuple[tuple[str, int], ...] = ()) -> Parts:
    """Return the parts of a program around the library of a build, with further tables and arrays."""
    bundle = build.bundle
    return Parts(
        name=build.name,
        title=(f"{build.project.name}: scene {build.name}, timed by scenekit",),
        scheme=build.scheme,
        abilities=build.abilities,
        bundle=Bundle(
            tables=(*bundle.tables, *tables),
            arrays=(*bundle.arrays, *arrays),
            variables=bundle.variables,
            files=bundle.files,
        ),
        size=build.screen,
        art_file=build.art_file,
        changes=build.changes,
        map_file=build.extras.map_file,
    )


def spell_program(
    build: Build, parts: Parts, main: tuple[Statement, ...], routines: tuple[str, ...]
) -> bytes:
    """Spell a program around the library of a build, with routines of further files."""
    options = Options(prefix=build.options.prefix, first_line=build.options.first_line)
    return spell(
        build.dialect, own_program(parts, main, gather(routines)), spelled_constants(build), options
    ).encode("ascii")


def read_numbers(text: str) -> tuple[int, ...]:
    """Return the whole numbers that stand alone on lines of a log, prompts and other lines left out."""
    if len(text) > LARGEST_LOG_CHARACTERS:
        raise MachineError(f"log: {len(text)} characters; at most {LARGEST_LOG_CHARACTERS}")
    return numbers_in(text)


def read_log(bench: Benchmark, numbers: Sequence[int]) -> Log:
    """Find the records of a benchmark among numbers, of one run or of several.

    A record that stands there again with other figures is of another run, and counts as one more round.
    raises   MachineError: no record, another benchmark's log, a clock that stood still or ran backwards
    """
    runs: dict[int, list[tuple[int, int]]] = {}
    head: tuple[int, int] | None = None
    seen: set[tuple[int, int, int]] = set()
    backwards = twice = at = 0
    last = len(bench.measures) * bench.repeats
    while at + RECORD <= len(numbers):
        number, turns, took, check = numbers[at : at + RECORD]
        if not 0 <= number <= last or check != checksum(number, turns, took):
            at += 1
            continue
        at += RECORD
        if number == 0:
            head = (turns, took)
        elif (number, turns, took) in seen:
            twice += 1
        elif took < 0:
            backwards += 1
        elif turns > 0:
            seen.add((number, turns, took))
            runs.setdefault((number - 1) % len(bench.measures), []).append((turns, took))
    _refuse_untimed(bench, head, runs, backwards > 0)
    came = {number for number, _, _ in seen}
    missing = tuple(number for number in range(1, last + 1) if number not in came)
    notes = _log_notes(missing, last, backwards, twice)
    if head is None:
        notes.insert(0, "the first record is missing, so that it may be another benchmark's log")
    return Log(
        grain_ms=max(0, head[1]) if head is not None else 1,
        runs={measure: tuple(done) for measure, done in sorted(runs.items())},
        missing=missing,
        notes=tuple(notes),
    )


def _refuse_untimed(
    bench: Benchmark,
    head: tuple[int, int] | None,
    runs: Mapping[int, Sequence[tuple[int, int]]],
    backwards: bool,
) -> None:
    """Refuse a log that is another benchmark's, or in which nothing was timed."""
    if head is not None and head[0] != bench.identity:
        raise MachineError(
            f"log: of benchmark {head[0]}, not of {bench.identity}; write the benchmark for this target again"
        )
    longest = max((took for done in runs.values() for _, took in done), default=0)
    if longest == 0 and (runs or backwards or (head is not None and head[1] <= 0)):
        raise MachineError(
            "log: the clock stood still or ran backwards, so that nothing was timed; "
            "the dialect's word clock must count thousandths of a second"
        )
    if not runs:
        raise MachineError("log: no record in it; send what the program reported, line by line")
    if head is not None and head[1] > longest:
        raise MachineError(
            f"log: a clock that goes in steps of {head[1]} ms; its longest run took {longest} ms, so that "
            "nothing was timed"
        )


def _log_notes(missing: Sequence[int], last: int, backwards: int, twice: int) -> list[str]:
    """Say in words which of the records are missing, and which were passed over."""
    notes = []
    if missing:
        names = ", ".join(str(number) for number in missing[:8])
        more = "" if len(missing) <= 8 else f" and {len(missing) - 8} more"
        notes.append(f"{len(missing)} of {last} records are missing: {names}{more}")
    if backwards:
        notes.append(f"the clock ran backwards in {backwards} runs, which are left out")
    if twice:
        notes.append(f"{twice} records stand twice and count once")
    return notes


def checksum(number: int, turns: int, took: int) -> int:
    """Return the sum that ends a record, as the program reckons it."""
    time = max(0, took)
    return (
        number % 997 * 13 + turns % 251 * 11 + turns // 251 % 251 * 3 + time % 241 * 5 + time // 241 % 241 * 7
    )

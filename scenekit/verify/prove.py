"""Runs an exported scene and proves, or disproves, that it draws what the preview shows."""

import shutil
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from scenekit.build import Build
from scenekit.errors import VerifyError
from scenekit.export import write_export
from scenekit.findings import Finding
from scenekit.interpreters import readers
from scenekit.interpreters.outcome import Outcome, Run
from scenekit.model.arrays import Pixels
from scenekit.programs.assemble import COUNTED
from scenekit.registry import choose
from scenekit.verify.compare import (
    TickResult,
    compare_screen,
    difference_picture,
    state_values,
    table_values,
)
from scenekit.verify.folders import LONGEST_REST_S, run_folder
from scenekit.verify.stops import write_stops

Seen = Callable[[int, Pixels, Pixels], None]
"""Takes a tick and two pictures, (H, W, 3) uint8: what the preview shows, and what the program drew."""

PICTURE_FILE = "different-{scene}-{target}-{tick}.png"


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """What a run proved.

    values, different  reported values compared, and how many differ
    counts_different   counted calls and pixels that differ from the draw plan
    pictures           names of the pictures of differences
    """

    target: str
    scene: str
    dialect: str
    interpreter: str
    version: str
    ticks: tuple[TickResult, ...]
    values: int
    different: int
    counts: int
    counts_different: int
    seconds: float
    pictures: tuple[str, ...]
    findings: tuple[Finding, ...]

    @property
    def passed(self) -> bool:
        """Say whether everything compared is equal, and something was compared."""
        wrong = self.different + self.counts_different + sum(tick.different for tick in self.ticks)
        return wrong == 0 and self.values > 0

    def as_dict(self) -> dict[str, object]:
        """Return the proof as plain JSON data."""
        return {
            "target": self.target,
            "scene": self.scene,
            "dialect": self.dialect,
            "interpreter": self.interpreter,
            "version": self.version,
            "ticks": [tick.as_dict() for tick in self.ticks],
            "tables": {"values": self.values, "different": self.different},
            "counts": {"values": self.counts, "different": self.counts_different},
            "passed": self.passed,
            "seconds": round(self.seconds, 3),
            "pictures": list(self.pictures),
            "findings": [finding.as_dict() for finding in self.findings],
        }


def can_run(build: Build) -> bool:
    """Say whether the interpreter of a build's dialect is on this machine."""
    reader = build.dialect.reader
    return bool(reader) and choose("reader", reader, readers()).available(build.dialect)


def prove(
    build: Build,
    ticks: Sequence[int],
    *,
    exported: Path | None = None,
    pictures: Path | None = None,
    time_limit_s: float | None = None,
    seen: Seen | None = None,
    stopped: Callable[[], bool] = bool,
) -> Proof:
    """Run a build's playing program to each tick and compare screens, values and counts.

    ticks     stops, in rising order
    exported  a folder with the exported files; default: the build's own files
    pictures  folder for a picture of each difference
    time_limit_s  default: what the work should take at the most, many times over
    seen      is given each tick, what it should look like, and what the screen showed
    stopped   says whether the proof is no longer wanted
    raises    VerifyError: cannot be run, no time left, nothing fresh to read; StoppedError: no longer wanted
    """
    started = time.monotonic()
    stops = tuple(sorted(set(ticks)))
    if build.scheme.draws and "save_screen" not in build.dialect.words:
        raise VerifyError(
            f"dialect {build.dialect.name}: no word save_screen, so no picture can be compared here; "
            "export with --proof TICKS --sums, run that, and verify --from LOG --sums"
        )
    if not stops or stops[0] < 0 or stops[-1] > 10_000_000:
        raise VerifyError(f"ticks: got {list(ticks)[:8]}; must be whole numbers from 0 to 10000000")
    with run_folder() as folder:
        copy_files(build.files, build.play_file, exported, folder)
        write_stops(folder, build.play_file, stops, build.dialect.limits.line_length)
        reader = choose("reader", build.dialect.reader, readers())
        screens = len(stops) if build.scheme.draws else 0
        outcome = reader.run(
            Run(
                folder=folder,
                program=build.play_file,
                dialect=build.dialect,
                screens=screens,
                flips=build.abilities.flips,
                time_limit_s=time_limit_s or usual_limit_s(build, stops),
                rest_s=0 if time_limit_s else LONGEST_REST_S,
                stopped=stopped,
            )
        )
    proof = _judge(build, stops, outcome, pictures, seen)
    return replace(proof, seconds=time.monotonic() - started)


def copy_files(files: Mapping[str, bytes], play_file: str, exported: Path | None, folder: Path) -> None:
    """Put exported files into a folder of their own: those of a folder, or as they were built.

    raises   VerifyError: they cannot be copied, or the playing program is not among them or is no text
    """
    if exported is None:
        write_export(folder, files)
    else:
        try:
            shutil.copytree(exported, folder)
        except OSError as error:
            raise VerifyError(f"{exported}: cannot be copied: {error.strerror or 'see its files'}") from None
    program = folder / play_file
    if not program.is_file():
        raise VerifyError(f"{exported or 'export'}: no {play_file}; export with the playing program first")
    if not program.read_bytes().isascii():
        raise VerifyError(f"{play_file}: must be plain ASCII text; export it again")


def usual_limit_s(build: Build, stops: Sequence[int]) -> float:
    """Return a time limit from the values to read, ticks to step and pixels to draw; ten times a slow run."""
    values = sum(len(table.values) for table in build.bundle.tables)
    width, height = build.screen
    moving = len(build.scene.planes) + len(build.scene.placed)
    pixels = len(stops) * width * height * len(build.scene.planes)
    return 240.0 + values / 500 + stops[-1] * moving / 50 + pixels / 1_000_000


def _judge(
    build: Build, stops: tuple[int, ...], outcome: Outcome, pictures: Path | None, seen: Seen | None
) -> Proof:
    ticks, names = [], []
    for number, tick in enumerate(stops[: len(outcome.screens)]):
        wanted = build.picture(tick)
        result = compare_screen(tick, wanted, outcome.screens[number])
        ticks.append(result)
        if seen is not None:
            seen(tick, wanted, outcome.screens[number])
        if result.different and pictures is not None:
            names.append(save_difference(build, pictures, tick, wanted, outcome.screens[number]))
    values, counts = _wanted_values(build, stops)
    got = list(outcome.said)
    said_counts = [got[n] for n in counts if n < len(got)]
    different = count_different(
        [values[n] for n in range(len(values)) if n not in counts], _without(got, counts)
    )
    return Proof(
        target=build.target.name,
        scene=build.scene.name,
        dialect=build.dialect.name,
        interpreter=build.dialect.command[0] if build.dialect.command else build.dialect.reader,
        version=outcome.version,
        ticks=tuple(ticks),
        values=len(values) - len(counts),
        different=different,
        counts=len(counts),
        counts_different=count_different([values[n] for n in sorted(counts)], said_counts),
        seconds=0.0,
        pictures=tuple(names),
        findings=(),
    )


def _without(values: list[int], places: dict[int, str]) -> list[int]:
    return [value for n, value in enumerate(values) if n not in places]


def count_different(wanted: list[int], got: list[int]) -> int:
    """Return how many values differ, one missing or too much being different."""
    equal = sum(a == b for a, b in zip(wanted, got, strict=False))
    return max(len(wanted), len(got)) - equal


def _wanted_values(build: Build, stops: tuple[int, ...]) -> tuple[list[int], dict[int, str]]:
    """Return every value that the program must report, and which of them are counts."""
    frames = build.planner.numbers
    values = table_values(build.bundle)
    counts: dict[int, str] = {}
    before = 0
    for number, tick in enumerate(stops):
        values += state_values(
            build.project, build.scene, build.reduced, build.bundle, frames, build.flags, tick
        )
        if build.options.counting and build.scheme.draws:
            older = number - build.abilities.pages
            work = build.planner.plan(tick, before if number else -1, stops[older] if older >= 0 else -1)
            for operation in COUNTED:
                done = [w for w in work if w.operation == operation]
                for total in (sum(w.calls for w in done), sum(w.pixels for w in done)):
                    counts[len(values)] = operation
                    values.append(total)
        before = tick
    return values, counts


def save_difference(build: Build, folder: Path, tick: int, wanted: Pixels, got: Pixels) -> str:
    """Write a picture of a difference and return its name."""
    from PIL import Image

    folder.mkdir(parents=True, exist_ok=True)
    name = PICTURE_FILE.format(scene=build.scene.name, target=build.target.name, tick=tick)
    Image.fromarray(difference_picture(wanted, got), "RGB").save(folder / name)
    return name

"""Calibrates each interpreter, then foretells scenes that the fit never saw and times them.

    python3 tools/bench/prediction.py [--only brandy] [--seeds 1,2,3] [--scenes 10] [--out FOLDER]
    python3 tools/bench/prediction.py --readme FOLDER/prediction.json ...     puts every row into README.md

Every scene is drawn from its seed: 1 to 6 planes, 0 to 60 sprites, flips, tall and wide shapes. Its time is
printed by the exported program. All scenes of a seed are timed, then all again, in four passes of three
rounds (pcbasic: one), and the second shortest of each counts, or of fewer than five rounds the shortest, as
in the calibration: other work adds to times, for seconds on end, and the machine's clock was seen to jump.

A rented machine may run at half its speed for minutes while a neighbour works. So a fixed loop of Python,
the yardstick, is timed before and after each pass; a pass counts where both took at most 5 % longer than the
yardstick's best in the whole run, and passes go on, up to a bound, until two do (pcbasic: one). A scene
for which fewer do keeps all its passes: other work only adds. Runs of the benchmark that calibrates count in
the same way. Every row is printed, with all its rounds, yardsticks and the load.

Real-time priority is refused, and a pass under it does not count: brandy keeps TIME by a thread of its own,
which starves on one core beside a program that never waits (`chrt -r 10 taskset -c 1`: steps of 100 ms seen,
where 10 ms are usual), and no yardstick shows it.
"""

import argparse
import json
import os
import random
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from fractions import Fraction
from pathlib import Path
from statistics import median

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from PIL import Image

from scenekit.build import Build, run_stages
from scenekit.calibration.benchmark import read_log, write_benchmark
from scenekit.calibration.benchscene import bench_build
from scenekit.calibration.costs import SECOND_FROM, calibrate
from scenekit.calibration.scenetime import Foretold, foretell, timing_program
from scenekit.cli.main import stop_on_request
from scenekit.dialects.dialect import load_dialect
from scenekit.interpreters import readers
from scenekit.interpreters.outcome import Run
from scenekit.machines.machine import Machine
from scenekit.model.project import Project
from scenekit.model.scene import Camera, Placed, Plane, Scene, Segment
from scenekit.model.scene import Path as Route
from scenekit.model.sprites import Animation, Facing, Frame, Sheet, Sprite, Step
from scenekit.model.store import save
from scenekit.model.target import Target

INTERPRETERS = {
    "brandy": ("brandy-pc", "320x200-colour"),
    "sdlbrt": ("sdlbrt-pc", "320x200"),
    "yabasic": ("yabasic-pc", "160x100"),
    "pcbasic": ("pcbasic-pc", "640x350"),
}
ROUNDS = 3
ROUND_MS = 200.0
PASSES = 4
BENCH_ROUNDS = {"brandy": 9, "sdlbrt": 12, "yabasic": 12, "pcbasic": 3}
CALIBRATIONS = {"pcbasic": (1, 2)}
"""Runs of the benchmark that must have met a quick machine, and the most there are; else 2 and 4."""

LARGEST = {name: (120, 64) if name == "pcbasic" else (400, 220) for name in INTERPRETERS}
"""Largest pictures of planes; pcbasic holds all art in a page of 640 x 175 px."""
QUICK = 1.05
"""A pass counts where the yardstick took at most so many times its best."""

QUICK_PASSES = 2
MOST_PASSES = {name: 4 if name == "pcbasic" else 24 for name in INTERPRETERS}
SLOW = {"pcbasic": (2000.0, 1)}
"""Milliseconds a round, and passes, where a clock is coarse and loading takes long."""
VIEWS = {"pcbasic": (0, 0, 160, 96)}
"""Views smaller than the screen, for interpreters that take seconds a picture."""


def art(chosen: random.Random, size: tuple[int, int], clear: float, run: int) -> Image.Image:
    """Return a picture of runs of colours that are this scene's own."""
    colours = [tuple(chosen.randrange(256) for _ in range(3)) for _ in range(10)]
    pixels = bytearray()
    for _ in range(size[1]):
        left = size[0]
        while left:
            length = min(left, 1 + int(chosen.expovariate(1 / run)))
            shown = chosen.random() >= clear
            pixels += bytes((*chosen.choice(colours), 255) if shown else (0, 0, 0, 0)) * length
            left -= length
    return Image.frombytes("RGBA", size, bytes(pixels))


def speed(chosen: random.Random) -> tuple[Fraction, Fraction]:
    return Fraction(chosen.randint(-8, 8), 4), Fraction(chosen.randint(-4, 4), 4)


def route(chosen: random.Random) -> Route:
    if chosen.random() < 0.3:
        return Route()
    segments = tuple(Segment(ticks=chosen.randint(5, 60), speed=speed(chosen)) for _ in range(3))
    return Route(segments=segments, repeat="from-start")


def random_project(folder: Path, seed: str, name: str, view: tuple[int, int]) -> Project:
    """Write a random project for one interpreter."""
    chosen = random.Random(seed)
    machine, mode = INTERPRETERS[name]
    frames, top = [], 0
    shapes = [(chosen.randint(4, 40), chosen.randint(4, 40)) for _ in range(4)] + [(6, 44), (46, 7)]
    sheet = Image.new("RGBA", (48, sum(h for _, h in shapes)))
    for number, (w, h) in enumerate(shapes):
        sheet.paste(art(chosen, (w, h), chosen.choice((0, 0.3, 0.6)), chosen.choice((2, 5, 10))), (0, top))
        pivot = (w // 2, h // 2)
        frames.append(Frame(name=f"f{number}", box=(0, top, w, h), pivot=pivot))
        top += h
    sheet.save(folder / "sheet.png")
    sprites = tuple(
        Sprite(
            name=f"k{number}",
            animations=(
                Animation(
                    name="go",
                    sheet="sheet",
                    play="loop",
                    steps=tuple(
                        Step(
                            frame=f"f{(number + n) % 6}",
                            ticks=chosen.randint(1, 9),
                            flip=chosen.choice((0, 0, 1, 2)),
                        )
                        for n in range(3)
                    ),
                ),
            ),
            facings=(Facing(facing="right", flip=0), Facing(facing="left", flip=1)),
        )
        for number in range(6)
    )
    planes = []
    for number in range(chosen.randint(1, 6)):
        size = (chosen.randint(40, LARGEST[name][0]), chosen.randint(40, LARGEST[name][1]))
        clear = 0.0 if number == 0 else chosen.choice((0.2, 0.5, 0.9))
        art(chosen, size, clear, chosen.choice((2, 5, 12, 40))).save(folder / f"p{number}.png")
        tile = chosen.choice(((8, 8), (16, 16), (32, 16), (16, 32), (24, 24), (32, 32)))
        planes.append(
            Plane(
                name=f"p{number}",
                picture=f"p{number}.png",
                ratio=(Fraction(chosen.randint(0, 8), 4), Fraction(chosen.randint(0, 2), 2)),
                wrap=(chosen.random() < 0.7, chosen.random() < 0.5),
                tile=tile,
                offset=(chosen.randint(-20, 20), chosen.randint(-20, 60)),
            )
        )
    placed = tuple(
        Placed(
            name=f"s{number}",
            sprite=f"k{chosen.randrange(6)}",
            over=chosen.choice(planes).name,
            moves_with=chosen.choice(("screen", planes[0].name)),
            at=(chosen.randint(0, view[0]), chosen.randint(0, view[1])),
            facing=chosen.choice(("right", "left")),
            path=route(chosen),
        )
        for number in range(chosen.randint(0, 60))
    )
    scene = Scene(
        name="one",
        ticks=600,
        ticks_per_update=chosen.choice((1, 1, 2)),
        missed="slow",
        backdrop=(9, 9, 30),
        camera=Camera(path=route(chosen)),
        planes=tuple(planes),
        placed=placed,
        events=(),
    )
    target = Target(
        name="t",
        machine=machine,
        mode=mode,
        dialect=name,
        colours=64 if name != "pcbasic" else 16,
        view=VIEWS.get(name),
    )
    sheets = (Sheet(name="sheet", file="sheet.png", frames=tuple(frames)),)
    project = Project(
        folder=folder, name="guess", sheets=sheets, sprites=sprites, targets=(target,), scenes=(scene,)
    )
    save(project)
    return project


def run_files(files: dict[str, bytes], program: str, build: Build, limit_s: float) -> tuple[int, ...]:
    with tempfile.TemporaryDirectory(prefix="scenekit-") as temporary:
        folder = Path(temporary) / "run"
        folder.mkdir()
        for name, data in files.items():
            (folder / name).write_bytes(data)
        reader = readers()[build.dialect.reader]
        task = Run(folder=folder, program=program, dialect=build.dialect, screens=0, time_limit_s=limit_s)
        return reader.run(task).said


def calibrated(name: str) -> tuple[Machine, dict[str, object]]:
    machine, mode = INTERPRETERS[name]
    with tempfile.TemporaryDirectory(prefix="scenekit-") as temporary:
        empty = Project(folder=Path(temporary) / "none", name="none")
        folder = Path(temporary) / "bench"
        folder.mkdir()
        build = bench_build(
            empty, Target(name="t", machine=machine, mode=mode, dialect=name, view=VIEWS.get(name)), folder
        )
        bench = write_benchmark(build, BENCH_ROUNDS.get(name, 5))
        started = time.monotonic()
        runs = calibration_runs(
            lambda: run_files(bench.files, bench.program_file, build, 1500), *CALIBRATIONS.get(name, (2, 4))
        )
        log = read_log(bench, [number for run in runs for number in run.said])
        done = calibrate(bench, log, "measured: for this bench")
        priced = {cost.operation for cost in done.costs}
        kept = tuple(cost for cost in build.machine.prices if cost.operation not in priced)
        measured = replace(build.machine, prices=(*kept, *done.costs), residual_percent=done.spread_percent)
        about = {
            "seconds": round(time.monotonic() - started, 1),
            "runs": len(runs),
            "runs_that_count": sum(run.quick for run in runs),
            "verdict": done.verdict,
            "residual_percent": round(done.residual_percent, 2),
            "yardsticks_ms": [round(run.yardstick_ms, 2) for run in runs],
            "drift_percent": round(done.drift_percent, 2),
            "notes": done.notes,
        }
        return measured, about


def real_time() -> bool:
    """Say whether this process, and so all that it starts, runs with real-time priority."""
    return os.sched_getscheduler(0) in (os.SCHED_FIFO, os.SCHED_RR)


def low(times: list[int]) -> int:
    """Return the second shortest, or of few rounds the shortest, as the calibration does."""
    return sorted(times)[1 if len(times) >= SECOND_FROM else 0]


class Yardstick:
    """How quick this machine is now, by a fixed loop."""

    def __init__(self) -> None:
        self.seen: list[float] = []

    def read(self) -> float:
        """Return how many ms the loop takes now, the shortest of three."""
        times = []
        for _ in range(3):
            started, total = time.perf_counter(), 0
            for number in range(200_000):
                total += number * number % 7
            times.append((time.perf_counter() - started) * 1000)
        self.seen.append(min(times))
        return self.seen[-1]

    @property
    def best(self) -> float:
        return sorted(self.seen)[1]


YARDSTICK = Yardstick()


@dataclass(frozen=True)
class Pass:
    """Rounds that a program reported, and the slower yardstick around them."""

    said: tuple[int, ...]
    yardstick_ms: float
    real_time: bool = False

    @property
    def quick(self) -> bool:
        return not self.real_time and self.yardstick_ms <= QUICK * YARDSTICK.best


def one_pass(run: Callable[[], tuple[int, ...]]) -> Pass:
    """Run a program between two looks at the yardstick."""
    before, hurried = YARDSTICK.read(), real_time()
    said = run()
    return Pass(said, max(before, YARDSTICK.read()), hurried or real_time())


def counted(passes: list[Pass], needed: int) -> list[Pass]:
    """Return the passes that count; where too few met a quick machine, all but hurried ones."""
    quick = [done for done in passes if done.quick]
    if len(quick) >= needed:
        return quick
    return [done for done in passes if not done.real_time] or passes


def calibration_runs(run: Callable[[], tuple[int, ...]], needed: int, most: int) -> list[Pass]:
    """Run a benchmark until enough runs met a quick machine, or until a bound; return those that count."""
    done: list[Pass] = []
    while len(done) < most and sum(each.quick for each in done) < needed:
        done.append(one_pass(run))
    return counted(done, needed)


@dataclass
class Timed:
    """A scene, what is foretold of it, and what its rounds took."""

    seed: str
    build: Build
    pictures: int
    told: Foretold
    needed: int
    """So many passes must have met a quick machine."""
    passes: list[Pass] = field(default_factory=list)

    def run(self) -> None:
        files = timing_program(self.build, self.pictures, ROUNDS)
        program = next(file for file in files if file.startswith("time"))
        self.passes.append(one_pass(lambda: run_files(files, program, self.build, 600)))

    @property
    def quick_passes(self) -> int:
        return sum(done.quick for done in self.passes)

    def row(self) -> dict[str, object]:
        rounds = [took for done in counted(self.passes, self.needed) for took in done.said]
        took, told, pictures, scene = low(rounds), self.told, self.pictures, self.build.scene
        if took <= 0:
            raise RuntimeError(f"{self.seed}: rounds took {rounds} ms")
        return {
            "seed": self.seed,
            "planes": len(scene.planes),
            "sprites": len(scene.placed),
            "changes": self.build.changes,
            "pictures": pictures,
            "foretold_ms": round(told.time_ms / pictures, 4),
            "half_width_ms": round(told.half_width_ms / pictures, 4),
            "took_ms": round(took / pictures, 4),
            "error_percent": round((told.time_ms / took - 1) * 100, 1),
            "inside": abs(told.time_ms - took) <= told.half_width_ms,
            "rounds_ms": [done.said for done in self.passes],
            "yardsticks_ms": [round(done.yardstick_ms, 2) for done in self.passes],
            "passes_that_count": self.quick_passes,
        }


def pictures_of(build: Build, machine: Machine, round_ms: float) -> int:
    """Return how many pictures should last a round; the first is dearer than those after it."""
    pictures = 1
    for _ in range(2):
        told = foretell(build, machine, pictures).time_ms
        pictures = max(1, min(400, round(pictures * round_ms / max(told, 0.01))))
    return pictures


def scenes(name: str, seed: str, count: int, machine: Machine, folder: Path) -> list[Timed]:
    mode = machine.mode(INTERPRETERS[name][1])
    round_ms, passes = SLOW.get(name, (ROUND_MS, PASSES))
    found = []
    for number in range(count):
        inner = folder / f"{seed}-{number}"
        inner.mkdir()
        project = random_project(
            inner, f"{name}-{seed}-{number}", name, VIEWS.get(name, (0, 0, mode.width_px, mode.height_px))[2:]
        )
        build = run_stages(project, last="tables")
        pictures = pictures_of(build, machine, round_ms)
        told = foretell(build, machine, pictures)
        found.append(Timed(f"{name}-{seed}-{number}", build, pictures, told, min(passes, QUICK_PASSES)))
    for _ in range(passes):
        for scene in found:
            scene.run()
    for _ in range(passes, MOST_PASSES[name]):
        for scene in found:
            if scene.quick_passes < scene.needed:
                scene.run()
    return found


START, END = "<!-- predictions -->", "<!-- end of predictions -->"


def readme_table(rows: list[dict[str, object]]) -> str:
    """Return every row as a table: a line for each interpreter and seed, an error for each scene."""
    lines = [
        "| interpreter, seed | errors of its scenes in %; * outside of the margin that was stated "
        "| median | worst | inside | half width |",
        "|---|---|---|---|---|---|",
    ]
    groups: dict[str, list[dict[str, object]]] = {}
    for row in rows:
        groups.setdefault(str(row["seed"]).rpartition("-")[0].replace("-", ", "), []).append(row)
    for name, mine in groups.items():
        errors = [float(str(row["error_percent"])) for row in mine]
        shown = [
            f"{error:+.1f}{'' if row['inside'] else '*'}" for error, row in zip(errors, mine, strict=True)
        ]
        widths = [float(str(r["half_width_ms"])) / float(str(r["foretold_ms"])) * 100 for r in mine]
        sizes = [abs(error) for error in errors]
        inside = sum(bool(row["inside"]) for row in mine)
        lines.append(
            f"| {name} | {', '.join(shown)} | {median(sizes):.1f} | {max(sizes):.1f} "
            f"| {inside} of {len(mine)} | {median(widths):.1f} |"
        )
    return "\n".join(lines)


def write_readme(files: list[Path]) -> None:
    """Put the rows of some results between the marks in README.md."""
    rows = [row for file in files for row in json.loads(file.read_text())]
    path = Path(__file__).resolve().parents[2] / "README.md"
    before, _, rest = path.read_text(encoding="utf-8").partition(START)
    _, _, after = rest.partition(END)
    path.write_text(f"{before}{START}\n{readme_table(rows)}\n{END}{after}", encoding="utf-8")


def main() -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--only", default="")
    parser.add_argument("--seeds", default="1")
    parser.add_argument("--scenes", type=int, default=10)
    parser.add_argument("--out", type=Path)
    parser.add_argument("--readme", type=Path, nargs="+", help="results to put into README.md")
    options = parser.parse_args()
    if options.readme:
        write_readme(options.readme)
        return 0
    if real_time():
        print("prediction: started with real-time priority; clocks kept by a thread are starved by it")
        return 2
    rows: list[dict[str, object]] = []
    for name in options.only.split(",") if options.only else INTERPRETERS:
        try:
            dialect = load_dialect(name, Path())
        except Exception as error:
            print(f"{name}: not tried: {error}")
            continue
        if not readers()[dialect.reader].available(dialect):
            print(f"{name}: not tried: not installed")
            continue
        print(f"{name}: load {os.getloadavg()}", flush=True)
        YARDSTICK.seen.clear()
        for _ in range(5):
            YARDSTICK.read()
        machine, about = calibrated(name)
        print(f"{name}: {about}", flush=True)
        for seed in options.seeds.split(","):
            mine = []
            with tempfile.TemporaryDirectory(prefix="scenekit-") as temporary:
                for scene in scenes(name, seed, options.scenes, machine, Path(temporary)):
                    row = {"interpreter": name, **scene.row(), "load": round(os.getloadavg()[0], 1)}
                    mine.append(row)
                    print(json.dumps(row), flush=True)
            rows += mine
            errors = [abs(float(str(row["error_percent"]))) for row in mine]
            widths = [float(str(r["half_width_ms"])) / float(str(r["foretold_ms"])) * 100 for r in mine]
            print(
                f"{name} seed {seed}: median error {median(errors):.1f} %, worst {max(errors):.1f} %, "
                f"{sum(bool(row['inside']) for row in mine)} of {len(mine)} inside, "
                f"median half width {median(widths):.1f} %",
                flush=True,
            )
    if options.out:
        options.out.mkdir(parents=True, exist_ok=True)
        (options.out / "prediction.json").write_text(json.dumps(rows, indent=1) + "\n")
    return 0


if __name__ == "__main__":
    stop_on_request()
    sys.exit(main())

"""scenekit calibrate."""

import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

import click

from scenekit.cli.shared import Progress, print_json, project_argument, save_picture
from scenekit.errors import MachineError, VerifyError

if TYPE_CHECKING:
    from scenekit.calibration.benchmark import Benchmark
    from scenekit.calibration.costs import Calibration
    from scenekit.machines.cost import Cost
    from scenekit.model.project import Project
    from scenekit.model.target import Target

LARGEST_LOG_BYTES = 4_000_000


@click.command()
@project_argument
@click.option("--target", help="Target by name; the first when left out.")
@click.option("--write", type=click.Path(path_type=Path), help="Folder to write the benchmark program into.")
@click.option(
    "--from",
    "logs",
    multiple=True,
    type=click.Path(path_type=Path),
    help="Log to fit; repeatable, for parts of a run or for several runs.",
)
@click.option(
    "--music",
    "loud",
    multiple=True,
    type=click.Path(path_type=Path),
    help="Log of the same benchmark, run while your music plays; repeatable.",
)
@click.option("--run", "runs", is_flag=True, help="Run the benchmark in the interpreter on this computer.")
@click.option("--date", default="", help="When it was measured, such as 2026-03-01, for the record.")
@click.option("--driver", default="", help="What it was measured on, in a few words, for the record.")
@click.option("--profile", "name", default="", help="Name of the profile to write into PROJECT.")
@click.option("--use", "uses", is_flag=True, help="Let the target use the profile from now on.")
@click.option("--plot", type=click.Path(path_type=Path), help="PNG to write: how well the costs fit.")
@click.option(
    "--rounds", type=click.IntRange(1, 50), default=5, show_default=True, help="How often all is timed."
)
@click.option(
    "--seconds", type=click.FloatRange(1, 36000), default=1800, show_default=True, help="Time limit."
)
@click.option("--trust", is_flag=True, help="Run the command that a dialect file of the project names.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON instead of text.")
def command(
    project: Path,
    target: str | None,
    write: Path | None,
    logs: tuple[Path, ...],
    loud: tuple[Path, ...],
    runs: bool,
    date: str,
    driver: str,
    name: str,
    uses: bool,
    plot: Path | None,
    rounds: int,
    seconds: float,
    trust: bool,
    as_json: bool,
) -> int:
    """Measure what the machine of a target costs, by a program in its own BASIC.

    With --write, bring the program to the machine, run it there, and send back what it reports with --from.
    Music is measured by running the program once more while it plays, and sending that log with --music.
    """
    from scenekit.model.store import load

    _refuse_together(write is not None, bool(logs), runs, bool(loud))
    document = load(project)
    chosen = document.target(target)
    _check_words(date=date, driver=driver)
    with tempfile.TemporaryDirectory(prefix="scenekit-") as temporary:
        bench = _benchmark(document, chosen, Path(temporary), rounds)
        if write is not None:
            return _write(bench, write)
        numbers = _run(bench, seconds, trust, as_json) if runs else _read(logs)
        where = driver or (_interpreter(bench) if runs else "no driver given")
        record = f"measured: {date or 'no date given'}, {where}, benchmark {bench.identity}"
        done, music = _fitted(bench, numbers, loud, record)
    more = () if music is None else (music,)
    file = _save(document, chosen, done, name or f"{Path(chosen.machine).stem}-measured", uses, more)
    if plot is not None:
        _plot(f"{chosen.name}: {done.verdict}", done, plot)
    _tell(done, file, uses, as_json, None if not loud else 0.0 if music is None else music.share_percent)
    return 0


def _refuse_together(writes: bool, reads: bool, runs: bool, loud: bool) -> None:
    """Refuse options that do not go together."""
    if writes + reads + runs != 1:
        raise click.UsageError("one of --write, --from and --run is needed")
    if loud and writes:
        raise click.UsageError("--music goes with --from or --run")


def _plot(title: str, done: "Calibration", path: Path) -> None:
    """Write the picture of how well costs fit."""
    from scenekit.report.residuals import residual_plot

    save_picture(residual_plot(title, done.times_us, done.fitted_us, done.fit.outliers), path)


def _check_words(**values: str) -> None:
    for key, value in values.items():
        if len(value) > 80 or not value.isprintable() or '"' in value or "\\" in value:
            raise click.BadParameter("must be at most 80 plain characters", param_hint=f"--{key}")


def _benchmark(document: "Project", target: "Target", folder: Path, rounds: int) -> "Benchmark":
    from scenekit.calibration.benchmark import write_benchmark
    from scenekit.calibration.benchscene import bench_build

    return write_benchmark(bench_build(document, target, folder), rounds)


def _write(bench: "Benchmark", folder: Path) -> int:
    from scenekit.export import write_export

    click.echo(
        f"the benchmark runs for about {_minutes(bench)} where the clock counts in hundredths of a second"
    )
    write_export(folder, bench.files)
    click.echo(f"{folder / bench.program_file}: {len(bench.measures)} measures, each {bench.repeats} times")
    click.echo(
        "run it there, keep what it reports, and hand that over with --from; a part of it can be used too"
    )
    return 0


def _minutes(bench: "Benchmark") -> str:
    seconds = bench.seconds()
    return f"{seconds:.0f} seconds" if seconds < 100 else f"{seconds / 60:.0f} minutes"


def _run(bench: "Benchmark", seconds: float, trust: bool, quiet: bool) -> tuple[int, ...]:
    from scenekit.export import write_export
    from scenekit.interpreters import readers
    from scenekit.interpreters.outcome import Run
    from scenekit.registry import choose

    build = bench.build
    dialect = build.dialect
    if build.target.dialect.endswith(".toml") and dialect.command and not trust:
        raise VerifyError(
            f"dialect {build.target.dialect}: names a command of its own, {dialect.command[0]!r}; "
            "read it, then allow it with --trust"
        )
    if not dialect.command and dialect.reader != "executor":
        raise VerifyError(f"dialect {dialect.name}: runs only on the machine itself; use --write and --from")
    if dialect.reader == "executor":
        raise VerifyError(
            f"dialect {dialect.name}: the built-in executor is not the machine, so its times say nothing; "
            "use --write and --from"
        )
    if not quiet:
        click.echo(f"running for about {_minutes(bench)}", err=True)
    progress = Progress("calibrate")
    progress("running", 0, 1)
    with tempfile.TemporaryDirectory(prefix="scenekit-") as temporary:
        folder = Path(temporary) / "run"
        write_export(folder, bench.files)
        reader = choose("reader", dialect.reader, readers())
        task = Run(
            folder=folder, program=bench.program_file, dialect=dialect, screens=0, time_limit_s=seconds
        )
        said = reader.run(task).said
    progress.done()
    return said


def _interpreter(bench: "Benchmark") -> str:
    from scenekit.interpreters.process import version_of

    dialect = bench.build.dialect
    return " ".join(part for part in (dialect.command[0], version_of(dialect)) if part)


def _fitted(
    bench: "Benchmark", numbers: tuple[int, ...], loud: tuple[Path, ...], record: str
) -> "tuple[Calibration, Cost | None]":
    """Return the costs that fit a log, and what music takes where it was measured and can be told."""
    from scenekit.calibration.benchmark import read_log
    from scenekit.calibration.costs import calibrate
    from scenekit.calibration.music import music_cost

    log = read_log(bench, numbers)
    done = calibrate(bench, log, record)
    return done, music_cost(log, read_log(bench, _read(loud)), record) if loud else None


def _read(logs: tuple[Path, ...]) -> tuple[int, ...]:
    from scenekit.calibration.benchmark import read_numbers

    numbers: list[int] = []
    for path in logs:
        if not path.is_file():
            raise MachineError(f"{path}: no such file")
        with path.open("rb") as file:
            data = file.read(LARGEST_LOG_BYTES + 1)
        if len(data) > LARGEST_LOG_BYTES:
            raise MachineError(f"{path}: larger than {LARGEST_LOG_BYTES} bytes")
        numbers += read_numbers(data.decode("latin-1"))
    return tuple(numbers)


def _save(
    document: "Project",
    target: "Target",
    done: "Calibration",
    name: str,
    uses: bool,
    more: "tuple[Cost, ...]",
) -> str:
    """Write the profile into the project folder, and let the target use it when asked to."""
    import re
    from dataclasses import replace

    from scenekit.calibration.profiles import measured_profile
    from scenekit.machines.profile import PROFILES_FOLDER
    from scenekit.model.edits import put_target
    from scenekit.model.store import inside, save, write_atomically
    from scenekit.registry import choose, data_files

    if not re.fullmatch(r"[a-z0-9][a-z0-9-]{0,39}", name):
        raise click.BadParameter("must be small letters, digits and hyphens", param_hint="--profile")
    machine = target.machine
    known = data_files(PROFILES_FOLDER)
    path = (
        inside(document.folder, machine) if machine.endswith(".toml") else choose("machine", machine, known)
    )
    text = measured_profile(path.read_text(encoding="utf-8"), done, name, more)
    write_atomically(document.folder / f"{name}.toml", text.encode("utf-8"))
    if uses:
        save(put_target(document, replace(target, machine=f"{name}.toml")))
    return f"{name}.toml"


def _tell(done: "Calibration", file: str, uses: bool, as_json: bool, music: float | None) -> None:
    if as_json:
        costs = [
            {
                "operation": cost.operation,
                "per_call_us": cost.per_call_us,
                "per_row_us": cost.per_row_us,
                "per_pixel_us": cost.per_pixel_us,
                "standard_errors_us": list(cost.standard_errors_us),
            }
            for cost in done.costs
        ]
        print_json(
            {
                "profile": file,
                "verdict": done.verdict,
                "residual_percent": round(done.residual_percent, 4),
                "drift_percent": round(done.drift_percent, 4),
                "measures": len(done.rows),
                "music_percent": music,
                "notes": list(done.notes),
                "costs": costs,
            }
        )
        return
    click.echo(done.verdict)
    click.echo("  microseconds             a call       a row     a pixel")
    for cost in done.costs:
        figures = (cost.per_call_us, cost.per_row_us, cost.per_pixel_us)
        click.echo(f"  {cost.operation:<18}" + "".join(f"{figure:>12.5g}" for figure in figures))
    if music is not None:
        click.echo(
            f"music takes {music:.1f} % of all time" if music else "music takes no time that can be told"
        )
    for note in done.notes:
        click.echo(f"note: {note}", err=True)
    click.echo(f"{file}: written into the project" + ("; the target uses it now" if uses else ""))
    if not uses:
        click.echo(f'let a target use it with machine = "{file}", or run this again with --use')

"""scenekit simulate."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from scenekit.cli.shared import (
    Progress,
    exit_code,
    json_option,
    print_findings,
    print_json,
    project_argument,
    target_options,
)
from scenekit.findings import Finding

if TYPE_CHECKING:
    from scenekit.build import Build
    from scenekit.costs.estimate import Estimate
    from scenekit.costs.loading import TableTime
    from scenekit.costs.playing import TimeLine, Turns
    from scenekit.costs.worst import WorstCase


@click.command()
@project_argument
@target_options
@click.option(
    "--most",
    multiple=True,
    metavar="SPRITE=N",
    help="How many of a sprite there are at most; as many as the scene has when left out. Repeatable.",
)
@json_option
def command(
    project: Path, target: str | None, scene: str | None, most: tuple[str, ...], as_json: bool
) -> int:
    """Say what the worst picture of a game may take on a target, and how the scene plays.

    Worst: at most so many of each sprite, all wholly in view as their dearest frames, the camera anywhere it
    can go, every value of the panel changing.
    """
    from scenekit.build import run_stages
    from scenekit.costs.estimate import estimate
    from scenekit.costs.loading import load_ms, slow_tables, table_times
    from scenekit.costs.playing import time_line, ways_of_turns
    from scenekit.costs.worst import worst_case
    from scenekit.model.store import load

    progress = Progress("simulate")
    build = run_stages(load(project), target, scene, progress=progress)
    line = estimate(build.planner, build.machine, build.mode, build.scene, range(build.scene.ticks))
    worst = worst_case(
        build.project, build.scene, build.planner, build.machine, build.mode, line, _numbers(most)
    )
    played = time_line(line, build.scene)
    ways = ways_of_turns(line, build.scene, build.machine, build.mode, build.abilities.pages)
    reading = load_ms(build.machine, build.files)
    form = None if build.packed is None else build.packed.form
    filling = table_times(build.machine.costs_in(build.mode.name), build.choices, form)
    progress.done()
    findings = (
        *build.findings,
        *line.findings,
        *_findings(build, worst),
        *slow_tables(filling, build.scene.name),
    )
    if as_json:
        print_json(_data(build, line, worst, played, ways, reading, filling, findings))
    else:
        _describe(build, line, worst, played, ways, reading)
        _describe_filling(filling)
        print_findings(findings)
    return exit_code(findings)


def _numbers(most: tuple[str, ...]) -> dict[str, int]:
    """Return how many of each sprite there are at most."""
    found = {}
    for text in most:
        name, _, number = text.partition("=")
        if not name or not number.isascii() or not number.isdigit() or len(number) > 6:
            raise click.BadParameter(f"got {text!r}; must be such as hero=3", param_hint="--most")
        found[name] = int(number)
    return found


def _findings(build: "Build", worst: "WorstCase") -> tuple[Finding, ...]:
    if worst.spare_ms is None or worst.spare_ms >= 0:
        return ()
    text = f"the worst picture is {-worst.spare_ms:.2f} ms too slow; scenekit advise says what could change"
    where = f"scene {build.scene.name}"
    return (Finding(level="warning", code="worst-case-too-slow", where=where, text=text),)


def _data(
    build: "Build",
    line: "Estimate",
    worst: "WorstCase",
    played: "TimeLine | None",
    ways: "tuple[Turns, ...]",
    reading: float | None,
    filling: "tuple[TableTime, ...] | None",
    findings: tuple[Finding, ...],
) -> dict[str, Any]:
    """Return what was found as plain JSON data."""
    from scenekit.costs.pricing import rounded

    return {
        "target": build.target.name,
        "scene": build.scene.name,
        "worst": worst.as_dict(),
        "time_line": None if played is None else played.as_dict(),
        "worst_tick": {
            "tick": line.worst_tick,
            "work_ms": rounded(line.worst_ms),
            "costs": [cost.as_dict() for cost in line.worst],
        },
        "pages": [way.as_dict() for way in ways],
        "load_ms": rounded(reading),
        "tables_ms": None if filling is None else {time.table: rounded(time.time_ms) for time in filling},
        "memory": [memory.as_dict() for memory in build.memory],
        "findings": [finding.as_dict() for finding in findings],
    }


def _describe(
    build: "Build",
    line: "Estimate",
    worst: "WorstCase",
    played: "TimeLine | None",
    ways: "tuple[Turns, ...]",
    reading: float | None,
) -> None:
    allowed = line.period_ms * build.scene.ticks_per_update
    where = f"{build.scene.name} on {build.target.name} ({line.machine}, {line.mode})"
    if worst.work_ms is None or worst.spare_ms is None:
        click.echo(f"{where}: the worst picture is not known, since some costs are not")
    else:
        off = "" if worst.half_width_ms is None else f" +- {worst.half_width_ms:.2f}"
        click.echo(f"{where}: margin {worst.spare_ms:.2f}{off} ms of {allowed:.2f} ms in the worst picture")
        if worst.half_width_ms is None:
            click.echo(
                "  its costs are estimates, so how far off it is cannot be said; see scenekit calibrate"
            )
    looked = "every place" if worst.complete else f"{worst.places} places"
    click.echo(f"  camera at {worst.camera[0]}, {worst.camera[1]}, the dearest of {looked} it can take")
    numbers = ", ".join(f"{number} {name}" for name, number in worst.numbers)
    click.echo(f"  at most {numbers or 'no sprites'}, wholly in view; every value of the panel drawn anew")
    if played is not None:
        shares = ", ".join(f"{p} %: {value:.2f}" for p, value in played.percentiles_ms.items())
        click.echo(
            f"as it plays: {played.missed_a_minute:.1f} refreshes missed a minute; ms a picture {shares}"
        )
        _describe_ways(ways)
    if reading is not None:
        click.echo(f"reading its files takes {reading / 1000:.2f} s")


def _describe_ways(ways: "tuple[Turns, ...]") -> None:
    """Say how the scene plays by each way in which pages can take turns."""
    for way in ways:
        if way.missed_a_minute is None:
            continue
        seen = f", {way.in_sight} pictures seen half drawn" if way.in_sight else ""
        which = " (as exported)" if way.used else "" if way.possible else " (not on this machine)"
        click.echo(f"  {way.way}{which}: {way.missed_a_minute:.1f} missed a minute{seen}")


def _describe_filling(filling: "tuple[TableTime, ...] | None") -> None:
    """Say about how long the tables take to be filled, and which of them takes longest."""
    if filling:
        total = sum(time.time_ms for time in filling)
        slowest = max(filling, key=lambda time: time.time_ms)
        unit, size = ("s", 1000) if total >= 1000 else ("ms", 1)
        parts = f"{slowest.table} {slowest.time_ms / size:.2f} of it"
        click.echo(f"filling its tables takes at least about {total / size:.2f} {unit}, {parts}")

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
    from scenekit.costs.simulate import TimeLine, WorstCase


@click.command()
@project_argument
@target_options
@json_option
def command(project: Path, target: str | None, scene: str | None, as_json: bool) -> int:
    """Say what the worst picture of a game may take on a target, and how the scene plays.

    Worst: the camera anywhere it can go, every sprite in view as its dearest frame. Exported programs draw
    everything in every picture; other ways to redraw are not reckoned, since no program does them.
    """
    from scenekit.build import run_stages
    from scenekit.costs.estimate import estimate
    from scenekit.costs.simulate import load_ms, time_line, worst_case
    from scenekit.model.store import load

    progress = Progress("simulate")
    build = run_stages(load(project), target, scene, progress=progress)
    line = estimate(build.planner, build.machine, build.mode, build.scene, range(build.scene.ticks))
    worst = worst_case(build.project, build.scene, build.planner, build.machine, build.mode, line)
    played = time_line(line, build.scene)
    reading = load_ms(build.machine, build.files)
    progress.done()
    findings = (*build.findings, *line.findings, *_findings(build, worst))
    if as_json:
        print_json(_data(build, worst, played, reading, findings))
    else:
        _describe(build, line, worst, played, reading)
        print_findings(findings)
    return exit_code(findings)


def _findings(build: "Build", worst: "WorstCase") -> tuple[Finding, ...]:
    if worst.spare_ms is None or worst.spare_ms >= 0:
        return ()
    text = f"the worst picture is {-worst.spare_ms:.2f} ms too slow; scenekit advise says what could change"
    where = f"scene {build.scene.name}"
    return (Finding(level="warning", code="worst-case-too-slow", where=where, text=text),)


def _data(
    build: "Build",
    worst: "WorstCase",
    played: "TimeLine | None",
    reading: float | None,
    findings: tuple[Finding, ...],
) -> dict[str, Any]:
    def rounded(value: float | None) -> float | None:
        return None if value is None else round(value, 4)

    return {
        "target": build.target.name,
        "scene": build.scene.name,
        "worst": {
            "work_ms": rounded(worst.work_ms),
            "half_width_ms": rounded(worst.half_width_ms),
            "spare_ms": rounded(worst.spare_ms),
            "camera": list(worst.camera),
            "places": worst.places,
            "all_places": worst.complete,
            "costs": [cost.as_dict() for cost in worst.costs],
        },
        "time_line": None
        if played is None
        else {
            "pictures": played.pictures,
            "refreshes": played.refreshes,
            "missed_a_minute": rounded(played.missed_a_minute),
            "percentiles_ms": {str(p): rounded(value) for p, value in played.percentiles_ms.items()},
        },
        "load_ms": rounded(reading),
        "memory": [memory.as_dict() for memory in build.memory],
        "findings": [finding.as_dict() for finding in findings],
    }


def _describe(
    build: "Build",
    line: "Estimate",
    worst: "WorstCase",
    played: "TimeLine | None",
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
    if played is not None:
        shares = ", ".join(f"{p} %: {value:.2f}" for p, value in played.percentiles_ms.items())
        click.echo(
            f"as it plays: {played.missed_a_minute:.1f} refreshes missed a minute; ms a picture {shares}"
        )
    if reading is not None:
        click.echo(f"reading its files takes {reading / 1000:.2f} s, unpacking not counted")

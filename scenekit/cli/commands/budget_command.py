"""scenekit budget."""

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
    save_picture,
    target_options,
)

if TYPE_CHECKING:
    from scenekit.build import Build
    from scenekit.costs.estimate import Estimate


@click.command()
@project_argument
@target_options
@click.option(
    "--plot", type=click.Path(path_type=Path), help="PNG to write: work of every tick, costs, memory."
)
@click.option(
    "--ruler", type=click.Path(path_type=Path), help="PNG to write: the worst tick along the scan lines."
)
@json_option
def command(
    project: Path, target: str | None, scene: str | None, plot: Path | None, ruler: Path | None, as_json: bool
) -> int:
    """Say whether a scene of PROJECT holds its rate on a target, and whether it fits the memory."""
    from scenekit.build import run_stages
    from scenekit.costs.estimate import estimate
    from scenekit.model.store import load

    progress = Progress("budget")
    build = run_stages(load(project), target, scene, progress=progress)
    result = estimate(build.planner, build.machine, build.mode, build.scene, range(build.scene.ticks))
    progress.done()
    data = budget_data(build, result)
    if plot is not None:
        from scenekit.report.plots import budget_plot

        save_picture(budget_plot(picture_data(data), result.work_ms), plot)
    if ruler is not None:
        from scenekit.report.plots import raster_ruler

        title = f"{build.scene.name} on {build.target.name}, tick {result.worst_tick}"
        refreshes = build.scene.ticks_per_update
        costs = drawn_costs(data["worst"]["costs"])
        save_picture(raster_ruler(build.mode.timing, costs, title=title, refreshes=refreshes), ruler)
    findings = (*build.findings, *result.findings)
    if as_json:
        print_json(data)
    else:
        _describe(build, result)
        print_findings(findings)
    return exit_code(findings)


def budget_data(build: "Build", result: "Estimate") -> dict[str, Any]:
    """Return a budget as plain JSON data."""
    worst_ms = result.worst_ms
    return {
        "target": build.target.name,
        "scene": build.scene.name,
        "machine": result.machine,
        "mode": result.mode,
        "scheme": build.scheme.name,
        "refresh_hz": round(result.refresh_hz, 6),
        "period_ms": round(result.period_ms, 6),
        "ticks": build.scene.ticks,
        "ticks_per_update": build.scene.ticks_per_update,
        "worst": {
            "tick": result.worst_tick,
            "work_ms": None if worst_ms is None else round(worst_ms, 4),
            "costs": [priced.as_dict() for priced in result.worst],
        },
        "rate_hz": None if result.rate_hz is None else round(result.rate_hz, 4),
        "target_hz": round(result.target_hz, 6),
        "holds_target": result.holds_target,
        "memory": [memory.as_dict() for memory in build.memory],
        "findings": [finding.as_dict() for finding in (*build.findings, *result.findings)],
    }


def picture_data(data: dict[str, Any]) -> dict[str, Any]:
    """Return a budget's data with one cost for each thing, for pictures."""
    return {**data, "worst": {**data["worst"], "costs": drawn_costs(data["worst"]["costs"])}}


def drawn_costs(costs: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return one cost for each thing, for pictures: what its routines take is added to its drawing."""
    from scenekit.machines.abilities import ROUTINE_WORK

    merged: dict[str, list[dict[str, Any]]] = {}
    for cost in costs:
        merged.setdefault(cost["name"], []).append(cost)
    found = []
    for name, parts in merged.items():
        known = [part["ms"] for part in parts if part["ms"] is not None]
        largest = max(parts, key=lambda part: (part["pixels"] > 0, part["ms"] or 0.0))
        total = sum(known) if len(known) == len(parts) else None
        operation = "routines" if largest["operation"] in ROUTINE_WORK else largest["operation"]
        found.append({**largest, "operation": operation, "name": name, "ms": total})
    return found


def by_thing(result: "Estimate") -> "list[tuple[str, int, int, float | None]]":
    """Return (name, drawing calls, pixels, ms) of each thing of the worst tick, in drawing order."""
    sums: dict[str, tuple[int, int, float | None]] = {}
    for priced in result.worst:
        calls, pixels, time_ms = sums.get(priced.work.name, (0, 0, 0.0))
        known = None if time_ms is None or priced.time_ms is None else time_ms + priced.time_ms
        draws = priced.work.calls if priced.work.pixels else 0
        sums[priced.work.name] = (calls + draws, pixels + priced.work.pixels, known)
    return [(name, calls, pixels, time_ms) for name, (calls, pixels, time_ms) in sums.items()]


def _describe(build: "Build", result: "Estimate") -> None:
    where = f"{build.scene.name} on {build.target.name} ({result.machine}, {result.mode})"
    if result.rate_hz is None:
        click.echo(f"{where}: the rate is not known, since some costs are not")
    else:
        verdict = "holds" if result.holds_target else "does not hold"
        click.echo(f"{where}: {verdict} {result.target_hz:.2f} pictures a second; gets {result.rate_hz:.2f}")
    click.echo(f"worst tick {result.worst_tick}, of {result.period_ms:.2f} ms a refresh:")
    for name, calls, pixels, time_ms in by_thing(result):
        time = "unknown" if time_ms is None else f"{time_ms:.3f} ms"
        drawn = f"{calls} drawn, {pixels} px" if calls else ""
        click.echo(f"  {name:<20} {time:>11}  {drawn}".rstrip())
    for memory in build.memory:
        free = memory.capacity_bytes - memory.used_bytes
        click.echo(f"memory {memory.memory}: {memory.used_bytes} bytes used, {free} free")
        for item, taken in memory.items:
            kind = "shared by all scenes" if item.shared else "this scene"
            click.echo(f"  {item.name:<20} {taken:>9} bytes  {kind}")

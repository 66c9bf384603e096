"""scenekit demo."""

import json
import time
from pathlib import Path
from typing import TYPE_CHECKING

import click

from scenekit.cli.shared import Progress, save_picture
from scenekit.errors import ProjectError, SceneKitError

if TYPE_CHECKING:
    from scenekit.build import Build
    from scenekit.model.project import Project

PREVIEW_TICKS = (60, 300, 500)
MOVING_TICKS = 120
STOPS = {
    "quay": (0, 1, 61, 150, 246, 300, 411, 455, 480, 500, 640, 701, 739),
    "pier": (0, 1, 40, 97, 120, 181, 260, 344, 372, 400, 500, 600, 656),
}
STOPS_OF_TABLES = (0, 1, 30, 61)


@click.command()
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    default=Path("out/demo"),
    show_default=True,
    help="Folder for all that is built.",
)
@click.option("--copy", type=click.Path(path_type=Path), help="Copy the demo project to this folder instead.")
def command(out: Path, copy: Path | None) -> int:
    """Build the demo for all its targets: previews, budgets, programs, and their proof.

    A lamplighter rides a rail trolley along a harbour at dusk: two scenes, five planes, four targets.
    """
    from scenekit.model.store import load

    source = demo_folder()
    if copy is not None:
        _copy(source, copy)
        return 0
    started = time.monotonic()
    out.mkdir(parents=True, exist_ok=True)
    progress = Progress("demo")
    project = load(source)
    builds = _build_all(project, progress)
    _previews(builds[0], out, progress)
    rates = [_budget(build, out) for build in builds if build.scene == project.scenes[0]]
    built = time.monotonic() - started
    results = [_prove(build, out, progress) for build in builds]
    progress.done()
    click.echo(
        f"built in {built:.1f} s, proved in {time.monotonic() - started - built:.1f} s; all of it in {out}:"
    )
    click.echo("  look-*.png, look-quay.gif   what the scenes look like")
    click.echo("  budget-*.png, ruler-*.png   time and memory: " + "; ".join(rates))
    click.echo("  TARGET/                     programs, tables, image files, credits for each target")
    click.echo("  proof.json                  every run compared with the reference:")
    for line, _ in results:
        click.echo(f"    {line}")
    (out / "proof.json").write_text(
        json.dumps([data for _, data in results], indent=1) + "\n", encoding="utf-8"
    )
    return 0 if all(data.get("passed") is not False for _, data in results) else 1


def demo_folder() -> Path:
    """Return the folder of the demo project: beside the package in the sources, in it where it is installed.

    raises   ProjectError: it is in neither
    """
    import scenekit

    package = Path(scenekit.__file__).resolve().parent
    for folder in (package.parent / "demo_assets", package / "demo_assets"):
        if (folder / "project.toml").is_file():
            return folder
    raise ProjectError("the demo project is missing; install scenekit again")


def _copy(source: Path, copy: Path) -> None:
    import shutil

    if copy.exists():
        raise ProjectError(f"{copy}: exists already; choose a new folder")
    shutil.copytree(source, copy, ignore=shutil.ignore_patterns("out", "*.previous"))
    click.echo(f"{copy}: a copy of the demo; next: scenekit preview {copy} --tick 300 --out look.png")


def _build_all(project: "Project", progress: Progress) -> "list[Build]":
    """Build every scene for every target; scenes of one target share art and colours."""
    from scenekit.build import BuildOptions, run_stages

    builds: list[Build] = []
    shared = None
    for target in project.targets:
        for scene in project.scenes:
            progress(
                f"{scene.name} for {target.name}", len(builds), len(project.targets) * len(project.scenes)
            )
            options = BuildOptions(play=True)
            shared = run_stages(project, target.name, scene.name, options=options, shared=shared)
            builds.append(shared)
        shared = builds[0]
    return builds


def _previews(build: "Build", out: Path, progress: Progress) -> None:
    """Write still pictures of every scene and a moving one of the first, as the first target shows them."""
    from scenekit.build import run_stages
    from scenekit.cli.commands.preview_command import save_moving

    progress("previews", 0, 1)
    colour = next((t.name for t in build.project.targets if t.name.endswith("colour")), build.target.name)
    shared = None
    for scene in build.project.scenes:
        shared = run_stages(build.project, colour, scene.name, last="colours", shared=shared)
        for tick in PREVIEW_TICKS:
            picture = shared.picture(tick)
            save_picture(picture.repeat(3, axis=0).repeat(3, axis=1), out / f"look-{scene.name}-{tick}.png")
    save_moving(build, tuple(range(200, 200 + MOVING_TICKS)), out / f"look-{build.scene.name}.gif", 2)


def _budget(build: "Build", out: Path) -> str:
    """Write the pictures of a target's budget and return its rate in words."""
    from scenekit.cli.commands.budget_command import budget_data, picture_data
    from scenekit.costs.estimate import estimate
    from scenekit.report.plots import budget_plot, raster_ruler

    result = estimate(build.planner, build.machine, build.mode, build.scene, range(build.scene.ticks))
    data = picture_data(budget_data(build, result))
    name = build.target.name
    save_picture(budget_plot(data, result.work_ms), out / f"budget-{name}.png")
    title = f"{build.scene.name} on {name}, tick {result.worst_tick}"
    save_picture(
        raster_ruler(build.mode.timing, data["worst"]["costs"], title=title), out / f"ruler-{name}.png"
    )
    return f"{name} {'unknown' if result.rate_hz is None else f'{result.rate_hz:.0f} Hz'}"


def _prove(build: "Build", out: Path, progress: Progress) -> tuple[str, dict[str, object]]:
    """Export a build, run what was exported, and return a line and the proof's data."""
    from scenekit.export import write_export
    from scenekit.verify.prove import can_run, prove

    name = f"{build.scene.name} for {build.target.name}"
    progress(f"proving {name}", 0, 1)
    folder = out / build.target.name / build.scene.name
    write_export(folder, build.files)
    if not can_run(build):
        line = f"{name}: not proved here, its interpreter is missing; to install it: {build.dialect.package}"
        return line, {"target": build.target.name, "scene": build.scene.name, "passed": None}
    stops = STOPS[build.scene.name] if build.scheme.draws else STOPS_OF_TABLES
    try:
        proof = prove(build, stops, exported=folder, pictures=out)
    except SceneKitError as error:
        return f"{name}: FAILED: {error}", {"target": build.target.name, "passed": False}
    wrong = sum(tick.different for tick in proof.ticks)
    screens = f"{len(proof.ticks)} screens, {wrong} pixels differ; " if proof.ticks else ""
    verdict = "passed" if proof.passed else "FAILED"
    line = (
        f"{name}: {verdict} in {proof.interpreter}: {screens}{proof.values} values, {proof.different} differ"
    )
    return line, proof.as_dict()

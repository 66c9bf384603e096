"""scenekit flash."""

from pathlib import Path
from typing import TYPE_CHECKING

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

if TYPE_CHECKING:
    from scenekit.build import Build
    from scenekit.model.arrays import Pixels
    from scenekit.safety.viewing import Viewing

MOST_TICKS = 20_000


class Ticks:
    """Every tick of a scene as its picture, drawn when asked for."""

    def __init__(self, build: "Build", progress: Progress) -> None:
        self.build = build
        self.progress = progress

    def __len__(self) -> int:
        """Return how many ticks there are."""
        return self.build.scene.ticks

    def __getitem__(self, tick: int) -> "Pixels":
        """Return the picture of a tick."""
        if tick % 32 == 0:
            self.progress(f"tick {tick}", tick, len(self))
        return self.build.picture(tick)


@click.command()
@project_argument
@target_options
@click.option("--loop", is_flag=True, help="The scene repeats: look at its seam in time too.")
@click.option("--width-mm", type=float, help="Width of the picture on the viewer's screen.")
@click.option("--height-mm", type=float, help="Height of the picture on the viewer's screen.")
@click.option("--distance-mm", type=float, help="Distance of the viewer's eyes.")
@json_option
def command(
    project: Path,
    target: str | None,
    scene: str | None,
    loop: bool,
    width_mm: float | None,
    height_mm: float | None,
    distance_mm: float | None,
    as_json: bool,
) -> int:
    """Look every tick of a scene of PROJECT over for flashes, by WCAG 2.3.1, and for moving stripes.

    Without sizes the picture is taken to fill a usual screen. This is no certificate.
    """
    from scenekit.build import run_stages
    from scenekit.errors import ProjectError
    from scenekit.model.store import load
    from scenekit.safety.flash import CAUTION, analyse
    from scenekit.safety.stripes import moving_stripes, stripe_findings

    viewing = _viewing(width_mm, height_mm, distance_mm)
    build = run_stages(load(project), target, scene, last="colours")
    if build.scene.ticks > MOST_TICKS:
        raise ProjectError(
            f"scene {build.scene.name}: {build.scene.ticks} ticks; at most {MOST_TICKS} are looked at"
        )
    progress = Progress("flash")
    frames = Ticks(build, progress)
    refresh_hz = float(build.mode.timing.refresh_hz)
    report = analyse(frames, refresh_hz=refresh_hz, viewing=viewing, looping=loop)
    stripes = moving_stripes(frames, refresh_hz)
    progress.done()
    where = f"scene {build.scene.name} for {build.target.name}"
    findings = (*report.findings(where, lambda *span: cause(build, *span)), *stripe_findings(stripes, where))
    if as_json:
        data = {
            "target": build.target.name,
            "scene": build.scene.name,
            "passed": report.passed,
            "ticks": report.ticks,
        }
        print_json({**data, "findings": [f.as_dict() for f in findings], "caution": CAUTION})
    else:
        verdict = "no flashes beyond the limits" if report.passed else "flashes beyond the limits"
        click.echo(f"{where}: {verdict} in {report.ticks} ticks at {refresh_hz:.2f} Hz")
        print_findings(findings)
        click.echo(CAUTION)
    return exit_code(findings)


def _viewing(width_mm: float | None, height_mm: float | None, distance_mm: float | None) -> "Viewing | None":
    """Return how the picture is looked at, or None where no size is given."""
    from scenekit.safety.viewing import Viewing

    if width_mm is not None and height_mm is not None and distance_mm is not None:
        return Viewing(width_mm=width_mm, height_mm=height_mm, distance_mm=distance_mm)
    if any(size is not None for size in (width_mm, height_mm, distance_mm)):
        raise click.UsageError("--width-mm, --height-mm and --distance-mm go together")
    return None


def cause(build: "Build", first: int, last: int, box: tuple[int, int, int, int]) -> str:
    """Return the names of what changes colours between two ticks."""
    names = []
    for event in build.reduced.changes[build.scene.name]:
        end = event.tick + event.ticks_per_step * len(event.colours)
        if event.tick <= last and end >= first:
            names.append(f"event {event.name}")
    for transition in build.scene.transitions:
        if transition.tick <= last and transition.tick + transition.ticks >= first:
            names.append(f"transition {transition.name}")
    fast = build.mode.timing.refresh_hz / 6
    names += [f"cycle {cycle.name}" for cycle in build.reduced.cycles if cycle.ticks <= fast]
    return " or ".join(names)

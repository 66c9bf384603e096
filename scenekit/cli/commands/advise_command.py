"""scenekit advise."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from scenekit.cli.shared import Progress, json_option, print_json, project_argument, target_options

if TYPE_CHECKING:
    from scenekit.advice.scene import Advice, Outcome

NOTHING_FITS = 1


@click.command()
@project_argument
@target_options
@click.option(
    "--least",
    type=click.Choice(["time", "memory"]),
    default="time",
    show_default=True,
    help="What to take least of, where several ways fit.",
)
@click.option("--keep-smooth", is_flag=True, help="Do not propose planes that are held for some ticks.")
@click.option("--keep-rate", is_flag=True, help="Do not propose fewer pictures a second.")
@click.option("--keep-view", is_flag=True, help="Do not propose a smaller view.")
@click.option("--keep-mode", is_flag=True, help="Do not propose another display mode.")
@click.option("--apply", "applies", is_flag=True, help="Write the changes into PROJECT.")
@json_option
def command(
    project: Path,
    target: str | None,
    scene: str | None,
    least: str,
    keep_smooth: bool,
    keep_rate: bool,
    keep_view: bool,
    keep_mode: bool,
    applies: bool,
    as_json: bool,
) -> int:
    """Say which changes make a scene's worst picture fit a target, or show that none does.

    Weighed together are the tiles of every plane, the rearmost one's holes, mirrored art drawn so or stored
    as copies, how tables are encoded, and, where the worst picture is late, drawing everything rather than
    looking for changes. Where none of that suffices, planes held for some ticks in turn, fewer pictures a
    second, a smaller view and other display modes are tried, in this order. What is proposed was built and
    reckoned again, so that its figures are those that budget and simulate give.
    """
    from scenekit.advice.scene import advise
    from scenekit.model.store import load, save

    progress = Progress("advise")
    advice = advise(
        load(project),
        target,
        scene,
        memory_first=least == "memory",
        held=not keep_smooth,
        slower=not keep_rate,
        smaller=not keep_view,
        modes=not keep_mode,
        progress=progress,
    )
    progress.done()
    if applies and advice.project is not None and advice.changes:
        save(advice.project)
    if as_json:
        print_json(_data(advice, applies))
    else:
        _describe(advice, applies)
    return NOTHING_FITS if advice.after is None else 0


def _figures(outcome: "Outcome | None") -> dict[str, Any] | None:
    if outcome is None:
        return None
    work = outcome.worst.work_ms
    return {
        "worst_ms": None if work is None else round(work, 4),
        "allowed_ms": round(outcome.allowed_ms, 4),
        "memory": {name: used for name, used, _ in outcome.memory},
        "fits": outcome.fits,
    }


def _data(advice: "Advice", applied: bool) -> dict[str, Any]:
    return {
        "before": _figures(advice.before),
        "after": _figures(advice.after),
        "changes": list(advice.changes),
        "proof": list(advice.proof),
        "applied": applied and advice.project is not None and bool(advice.changes),
    }


def _describe(advice: "Advice", applied: bool) -> None:
    click.echo(f"as it is: {_words(advice.before)}")
    if advice.after is None:
        click.echo("no choice suffices:")
        for line in advice.proof:
            click.echo(f"  {line}")
        return
    if not advice.changes:
        click.echo("nothing is better than what it has")
        return
    for line in advice.proof:
        click.echo(f"  {line}")
    for change in advice.changes:
        click.echo(f"  {change}")
    click.echo(f"then:     {_words(advice.after)}")
    click.echo("written into the project" if applied else "--apply writes this into the project")


def _words(outcome: "Outcome") -> str:
    memory = ", ".join(f"{name} {used} of {capacity} bytes" for name, used, capacity in outcome.memory)
    fits = "fits" if outcome.fits else "does not fit"
    return f"{fits}; worst picture {outcome.worst.work_ms or 0:.2f} of {outcome.allowed_ms:.2f} ms; {memory}"

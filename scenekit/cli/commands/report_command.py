"""scenekit report."""

from pathlib import Path

import click

from scenekit.cli.shared import Progress, project_argument, target_options

PARTS = 9


@click.command()
@project_argument
@target_options
@click.option("--out", type=click.Path(path_type=Path), required=True, help="HTML file to write.")
@click.option("--prove", metavar="T,T,...", help="Run the program too, and show its screens at these ticks.")
@click.option("--no-advice", is_flag=True, help="Leave out the search for changes that help.")
def command(
    project: Path, target: str | None, scene: str | None, out: Path, prove: str | None, no_advice: bool
) -> None:
    """Write one page of HTML that shows a scene of PROJECT and all that is known about it.

    Frames, animations that play, planes, palette and cycles, time along the scan lines and over all ticks,
    memory, advice, proof, flashes with the caution, and credits. The page holds everything it shows, asks for
    nothing from a network and runs no program. Where the reader's system asks for less motion, nothing moves
    until they let it.
    """
    from scenekit.build import BuildOptions, run_stages
    from scenekit.cli import reporting
    from scenekit.cli.shared import ticks
    from scenekit.model.store import load, write_atomically
    from scenekit.report.page import page

    reporting.write_page(out.parent)
    progress = Progress("report")
    stops = () if prove is None else ticks(prove, "--prove")
    build = run_stages(load(project), target, scene, options=BuildOptions(play=True))
    flashes, calm = reporting.flash_section(build, progress)
    sections = [reporting.scene_section(build, calm)]
    for made in (reporting.sheets_section, reporting.animations_section, reporting.planes_section):
        progress(made.__name__.partition("_")[0], len(sections), PARTS)
        sections.append(made(build))
    sections.append(reporting.colours_section(build))
    sections += reporting.budget_sections(build)
    if not no_advice:
        progress("advice", len(sections), PARTS)
        sections.append(reporting.advice_section(build))
    progress("proof", len(sections), PARTS)
    sections += [reporting.proof_section(build, stops), flashes, reporting.credits_section(build)]
    progress.done()
    under = (
        f"Scene {build.scene.name} for target {build.target.name}: {build.machine.name}, {build.mode.name}"
    )
    html = page(build.project.name, under, sections, quiet=not calm)
    write_atomically(out, html.encode("utf-8"))
    click.echo(f"{out}: {len(html)} characters, {len(sections)} sections")

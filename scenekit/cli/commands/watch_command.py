"""scenekit watch."""

from pathlib import Path

import click

from scenekit.cli.shared import game_options, project_argument


@click.command()
@project_argument
@game_options
@click.option(
    "--to", type=click.Path(path_type=Path), required=True, help="Card or folder to keep up to date."
)
@click.option("--play", is_flag=True, help="Also write a program that plays the scene.")
@click.option(
    "--every", type=click.FloatRange(0.1, 60), default=0.5, show_default=True, help="Seconds between looks."
)
@click.option("--looks", type=click.IntRange(1), help="Stop after so many looks.")
def command(
    project: Path,
    target: str | None,
    scene: str | None,
    to: Path,
    play: bool,
    every: float,
    looks: int | None,
) -> int:
    """Build PROJECT again whenever a file of it changes, copy what differs, and say what it costs.

    All scenes make one library, as in an export; with --scene, one scene alone.

    Ends with Ctrl-C. A project that cannot be built is said in a line, and looked at again when it changes.
    """
    from time import sleep

    from scenekit.build import BuildOptions
    from scenekit.model.store import PROJECT_FILE
    from scenekit.watch import Watcher, watch

    folder = project.parent if project.name == PROJECT_FILE else project
    watcher = Watcher(folder, to, target, scene, BuildOptions(play=play))
    built = watch(watcher, click.echo, lambda: sleep(every), looks)
    click.echo(f"stopped after {built} builds; nothing is half written", err=True)
    return 0

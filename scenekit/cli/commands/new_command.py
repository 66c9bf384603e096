"""scenekit new."""

from pathlib import Path

import click

from scenekit.errors import ProjectError


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--name", help="Name of the game; the folder's name when left out.")
@click.option("--machine", default="indexed-board", show_default=True, help="See: scenekit list machines")
@click.option("--mode", default="320x200", show_default=True, help="Display mode of that machine.")
@click.option("--dialect", default="plain", show_default=True, help="See: scenekit list dialects")
@click.option("--scene", default="first", show_default=True, help="Name of its scene.")
def command(folder: Path, name: str | None, machine: str, mode: str, dialect: str, scene: str) -> None:
    """Make an empty project in FOLDER, with one target called main.

    The folder holds project.toml, a folder for scenes, and your art. Scenes come to life with
    their first plane: scenekit add plane.
    """
    from scenekit.dialects.dialect import load_dialect
    from scenekit.machines.profile import load_machine
    from scenekit.model.fields import NAME_PATTERN
    from scenekit.model.project import Project
    from scenekit.model.store import PROJECT_FILE, save
    from scenekit.model.target import Target

    if (folder / PROJECT_FILE).exists():
        raise ProjectError(f"{folder}: holds a project already")
    load_machine(machine).mode(mode)
    load_dialect(dialect, folder)
    title = name or folder.resolve().name
    if not NAME_PATTERN.fullmatch(title):
        raise ProjectError(f"name: got {title!r}; must be letters, digits, - and _, at most 40 characters")
    folder.mkdir(parents=True, exist_ok=True)
    target = Target(name="main", machine=machine, mode=mode, dialect=dialect)
    save(Project(folder=folder, name=title, targets=(target,)))
    click.echo(f"{folder}: a project for {machine}, {mode}, in dialect {dialect}")
    click.echo(f"next: scenekit slice SHEET.png --into {folder}")

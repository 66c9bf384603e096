"""scenekit list."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from scenekit.cli.shared import json_option, print_json

if TYPE_CHECKING:
    from scenekit.machines.machine import DisplayMode

Rows = list[dict[str, Any]]


def machines(project: Path | None) -> Rows:
    """List the machines that ship, with their display modes."""
    from scenekit.machines.profile import load_machine, machine_names

    rows: Rows = []
    for name in machine_names():
        machine = load_machine(name)
        modes = [f"{mode.name} ({_colours(mode)})" for mode in machine.modes.values()]
        rows.append({"name": name, "about": machine.summary, "modes": modes})
    return rows


def _colours(mode: "DisplayMode") -> str:
    if not mode.indexed:
        return mode.depth
    return f"{mode.entries} fixed colours, not used yet" if mode.palette else f"{mode.entries} entries"


def dialects(project: Path | None) -> Rows:
    """List the dialects that ship."""
    from scenekit.dialects.dialect import dialect_names, load_dialect
    from scenekit.interpreters import readers

    rows: Rows = []
    for name in dialect_names():
        dialect = load_dialect(name, Path())
        runs = bool(dialect.reader) and readers()[dialect.reader].available(dialect)
        state = "can be proved here" if runs else f"cannot be proved here; to install: {dialect.package}"
        rows.append({"name": name, "about": dialect.summary, "proof": state})
    return rows


def methods(project: Path | None) -> Rows:
    """List the ways to cut a sheet."""
    from scenekit.slicing import slicing_methods

    return [{"name": name, "about": method.summary} for name, method in slicing_methods().items()]


def words(project: Path | None) -> Rows:
    """List the neutral words and which dialects spell them."""
    from scenekit.dialects.dialect import dialect_names, load_dialect
    from scenekit.routines.words import WORDS

    spoken = {name: load_dialect(name, Path()).words for name in dialect_names()}
    return [
        {
            "name": word,
            "about": fact.meaning,
            "parameters": list(fact.parameters),
            "dialects": [name for name, spelled in spoken.items() if word in spelled],
        }
        for word, fact in WORDS.items()
    ]


def _document(project: Path | None) -> Any:
    from scenekit.model.store import load

    if project is None:
        raise click.UsageError("name the project, such as: scenekit list frames GAME")
    return load(project)


def targets(project: Path | None) -> Rows:
    """List a project's targets."""
    found = _document(project).targets
    return [{"name": t.name, "about": f"{t.machine}, {t.mode}, dialect {t.dialect}"} for t in found]


def scenes(project: Path | None) -> Rows:
    """List a project's scenes with their planes and sprites."""
    return [
        {
            "name": scene.name,
            "about": f"{scene.ticks} ticks",
            "planes": [plane.name for plane in scene.planes],
            "placed": [placed.name for placed in scene.placed],
        }
        for scene in _document(project).scenes
    ]


def sheets(project: Path | None) -> Rows:
    """List a project's sheets."""
    found = _document(project).sheets
    return [{"name": s.name, "about": f"{s.file}, {len(s.frames)} frames"} for s in found]


def frames(project: Path | None) -> Rows:
    """List a project's frames."""
    return [
        {"name": f"{sheet.name}/{frame.name}", "about": f"box {list(frame.box)}, pivot {list(frame.pivot)}"}
        for sheet in _document(project).sheets
        for frame in sheet.frames
    ]


def sprites(project: Path | None) -> Rows:
    """List a project's sprites with their animations and facings."""
    return [
        {
            "name": sprite.name,
            "about": "",
            "animations": [animation.name for animation in sprite.animations],
            "facings": [facing.facing for facing in sprite.facings],
        }
        for sprite in _document(project).sprites
    ]


KINDS: dict[str, Callable[[Path | None], Rows]] = {
    "machines": machines,
    "dialects": dialects,
    "methods": methods,
    "words": words,
    "targets": targets,
    "scenes": scenes,
    "sheets": sheets,
    "sprites": sprites,
    "frames": frames,
}


@click.command()
@click.argument("kind", type=click.Choice(list(KINDS)))
@click.argument("project", type=click.Path(path_type=Path), required=False)
@json_option
def command(kind: str, project: Path | None, as_json: bool) -> None:
    """List machines, dialects, methods or words; or targets, scenes, sheets, sprites or frames of PROJECT."""
    rows = KINDS[kind](project)
    if as_json:
        print_json(rows)
        return
    width = max((len(row["name"]) for row in rows), default=0)
    for row in rows:
        click.echo(f"{row['name']:<{width}}  {row['about']}".rstrip())
        for key, value in row.items():
            if key not in ("name", "about") and value:
                text = ", ".join(value) if isinstance(value, list) else value
                click.echo(f"{'':<{width}}  {key}: {text}")

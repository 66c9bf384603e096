"""scenekit credits."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from scenekit.cli.shared import json_option, print_json, project_argument

if TYPE_CHECKING:
    from scenekit.model.credits import Credit
    from scenekit.model.project import Project


@click.command()
@project_argument
@click.option("--of", "what", metavar="NAME", help="Sheet or plane to record something about.")
@click.option("--author", help="Who drew it.")
@click.option("--licence", help="Under which licence, such as CC0-1.0 or CC-BY-SA-4.0.")
@click.option("--source", help="Where it comes from.")
@json_option
def command(
    project: Path,
    what: str | None,
    author: str | None,
    licence: str | None,
    source: str | None,
    as_json: bool,
) -> None:
    """Say whose art PROJECT holds, what is missing on record, and what licences ask for.

    With --of NAME and --author, --licence or --source it is put on record. Exports carry the list as
    CREDITS.txt. What is said of licences is information, not legal advice.
    """
    from scenekit.model.credits import NO_ADVICE, is_known, ledger
    from scenekit.model.store import load, save

    document = load(project)
    given = {"author": author, "licence": licence, "source": source}
    known = {name: text for name, text in given.items() if text is not None}
    if bool(known) != (what is not None):
        raise click.UsageError("to record something give --of NAME and --author, --licence or --source")
    if what is not None:
        document = _recorded(document, what, known)
        save(document)
    lines = ledger(document)
    if as_json:
        print_json({"credits": [_data(line) for line in lines], "note": NO_ADVICE})
        return
    for line in lines:
        click.echo(f"{line.what} ({line.file})")
        for name in ("author", "licence", "source"):
            click.echo(f"  {name:<8} {getattr(line, name) or 'not on record'}")
        for ask in line.asks:
            click.echo(f"  {line.licence} {ask}")
        if line.licence and not is_known(line.licence):
            click.echo("  this licence is not known here; read it")
    if any(line.licence for line in lines):
        click.echo(f"({NO_ADVICE})")


def _data(line: "Credit") -> dict[str, object]:
    """Return a line of the ledger as plain JSON data."""
    return {
        "what": line.what,
        "file": line.file,
        "author": line.author or None,
        "licence": line.licence or None,
        "source": line.source or None,
        "missing": list(line.missing),
        "asks": list(line.asks),
    }


def _recorded(document: "Project", what: str, known: dict[str, str]) -> "Project":
    """Return the document with something recorded about every sheet or plane of a name."""
    from scenekit.errors import UnknownNameError
    from scenekit.model.edits import checked

    sheets = tuple(replace(s, **known) if s.name == what else s for s in document.sheets)  # type: ignore[arg-type]
    scenes = tuple(
        replace(
            scene,
            planes=tuple(
                replace(plane, **known) if plane.name == what else plane  # type: ignore[arg-type]
                for plane in scene.planes
            ),
        )
        for scene in document.scenes
    )
    names = [sheet.name for sheet in document.sheets]
    names += [plane.name for scene in document.scenes for plane in scene.planes]
    if what not in names:
        raise UnknownNameError("--of", what, set(names))
    return checked(replace(document, sheets=sheets, scenes=scenes))

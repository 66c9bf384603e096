"""scenekit check."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from scenekit.cli.shared import exit_code, json_option, print_findings, print_json, project_argument
from scenekit.findings import Finding

if TYPE_CHECKING:
    from scenekit.model.project import Project


@click.command()
@project_argument
@json_option
def command(project: Path, as_json: bool) -> int:
    """Look a PROJECT over: its files, names, art, scenes and targets.

    What was found is remembered until a file of the project, or scenekit itself, changes.
    """
    from scenekit.cli.remembered import recall, remember

    folder = project.parent if project.name == "project.toml" else project
    result = recall(folder)
    if result is None:
        from scenekit.model.store import load

        document = load(project)
        result = looked_over(document)
        remember(folder, files_of(document), result)
    findings = tuple(Finding(**finding) for finding in result["findings"])
    if as_json:
        print_json(result)
    else:
        count = result["counts"]
        words = ", ".join(_many(count[what], what) for what in ("sheets", "sprites", "scenes", "targets"))
        click.echo(f"{result['project']}: {words}; {_many(len(findings), 'findings')}")
        print_findings(findings)
    return exit_code(findings)


def _many(number: int, things: str) -> str:
    return f"{number} {things.removesuffix('s') if number == 1 else things}"


def looked_over(document: "Project") -> dict[str, Any]:
    """Return what there is to say about a project, as plain data."""
    kinds = ("sheets", "sprites", "scenes", "targets")
    return {
        "project": document.name,
        "counts": {kind: len(getattr(document, kind)) for kind in kinds},
        "findings": [finding.as_dict() for finding in _findings(document)],
    }


def files_of(document: "Project") -> list[str]:
    """Return every file, from the project's folder, on which the findings depend."""
    from scenekit.model.pending import PENDING_FILE

    files = ["project.toml", PENDING_FILE, *(f"scenes/{scene.name}.toml" for scene in document.scenes)]
    files += [sheet.file for sheet in document.sheets]
    files += [plane.picture or plane.map for scene in document.scenes for plane in scene.planes]
    files += [palette.file for palette in document.palettes]
    files += [name for target in document.targets for name in (target.machine, target.dialect)]
    files += [f"{target.dialect}.toml" for target in document.targets]
    return sorted({name for name in files if name})


def _findings(document: "Project") -> list[Finding]:
    from scenekit.errors import SceneKitError
    from scenekit.images.art import load_art
    from scenekit.images.moving_colours import moving_colour_findings
    from scenekit.inspection import document_findings

    findings = list(document_findings(document))
    try:
        art = load_art(document)
        findings += [*art.findings, *moving_colour_findings(document, art)]
    except SceneKitError as error:
        findings.append(Finding(level="error", code="art", where="art", text=str(error)))
    findings += _target_findings(document)
    return findings


def _target_findings(document: "Project") -> list[Finding]:
    from scenekit.chosen import choose_for
    from scenekit.errors import SceneKitError

    findings = []
    for target in document.targets:
        for scene in document.scenes:
            try:
                choose_for(document, scene, target)
            except SceneKitError as error:
                where = f"target {target.name}, scene {scene.name}"
                findings.append(Finding(level="error", code="target", where=where, text=str(error)))
    return findings

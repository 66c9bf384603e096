"""scenekit check."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from scenekit.cli.shared import exit_code, json_option, print_findings, print_json, project_argument

if TYPE_CHECKING:
    from scenekit.findings import Finding
    from scenekit.model.project import Project


@click.command()
@project_argument
@json_option
def command(project: Path, as_json: bool) -> int:
    """Look a PROJECT over: its files, names, art, scenes and targets."""
    from scenekit.model.store import load

    document = load(project)
    findings = tuple(_findings(document))
    if as_json:
        print_json({"project": document.name, "findings": [finding.as_dict() for finding in findings]})
    else:
        counts = (
            f"{len(document.sheets)} sheets, {len(document.sprites)} sprites, {len(document.scenes)} scenes"
        )
        click.echo(f"{document.name}: {counts}, {len(document.targets)} targets; {len(findings)} findings")
        print_findings(findings)
    return exit_code(findings)


def _findings(document: "Project") -> "list[Finding]":
    from scenekit.errors import SceneKitError
    from scenekit.findings import Finding
    from scenekit.images.art import load_art
    from scenekit.inspection import document_findings

    findings = list(document_findings(document))
    try:
        findings += load_art(document).findings
    except SceneKitError as error:
        findings.append(Finding(level="error", code="art", where="art", text=str(error)))
    findings += _target_findings(document)
    return findings


def _target_findings(document: "Project") -> "list[Finding]":
    from scenekit.build import run_stages
    from scenekit.errors import SceneKitError
    from scenekit.findings import Finding

    findings = []
    for target in document.targets:
        for scene in document.scenes:
            try:
                run_stages(document, target.name, scene.name, last="target")
            except SceneKitError as error:
                where = f"target {target.name}, scene {scene.name}"
                findings.append(Finding(level="error", code="target", where=where, text=str(error)))
    return findings

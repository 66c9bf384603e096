"""scenekit export."""

from collections.abc import Collection
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from scenekit.cli.shared import (
    Progress,
    exit_code,
    game_options,
    json_option,
    print_findings,
    print_json,
    project_argument,
    proof_stops,
)

if TYPE_CHECKING:
    from scenekit.build import Build
    from scenekit.cli.delivering import Way
    from scenekit.model.project import Project


@click.command()
@project_argument
@game_options
@click.option("--out", type=click.Path(path_type=Path), help="Folder for the files.")
@click.option(
    "--to",
    type=click.Path(path_type=Path),
    help="Card or folder of the board: names and line ends as its dialect's [transfer] says.",
)
@click.option("--check", is_flag=True, help="With --to: add a program that checks the files on the board.")
@click.option("--play", is_flag=True, help="Also write a program that plays the scene.")
@click.option(
    "--count", "counting", is_flag=True, help="Make that program count calls and pixels at its stops."
)
@click.option(
    "--missed", is_flag=True, help="Make that program report how many refreshes it missed, at its end."
)
@click.option(
    "--missed-value", metavar="VALUE", help="With --missed: also show them in the panel, as this value."
)
@click.option(
    "--proof",
    metavar="TICKS",
    help="Make that program report at these stops, such as 0,1,60, or auto; see verify --from.",
)
@click.option(
    "--sums", is_flag=True, help="With --proof: sums of the screen's rows, in place of saved screens."
)
@click.option("--prefix", default="sk_", show_default=True, help="Before names of variables and routines.")
@click.option(
    "--first-line",
    type=click.IntRange(1, 9000),
    default=1000,
    show_default=True,
    help="First line number, where lines have numbers.",
)
@click.option(
    "--program",
    type=click.Path(path_type=Path),
    help="Also write this program of yours, in neutral words, over the library: once, then it is kept.",
)
@click.option(
    "--encode",
    type=click.Choice(["auto", "always", "never"]),
    default="auto",
    show_default=True,
    help="Whether tables stand packed in the program.",
)
@json_option
def command(
    project: Path,
    target: str | None,
    scene: str | None,
    out: Path | None,
    to: Path | None,
    check: bool,
    play: bool,
    counting: bool,
    missed: bool,
    missed_value: str | None,
    proof: str | None,
    sums: bool,
    prefix: str,
    first_line: int,
    program: Path | None,
    encode: str,
    as_json: bool,
) -> int:
    """Write PROJECT for a target: routines in its BASIC, tables, image files, credits.

    All scenes make one library that changes between them; with --scene, one scene alone.
    Only files that an earlier export wrote and nobody edited are replaced.
    """
    from scenekit.build import BuildOptions, run_stages
    from scenekit.cli.delivering import Way, read_program
    from scenekit.cli.games import export_game
    from scenekit.model.store import load

    way = Way(out=out, to=to, check=check)
    alone = missed_value is not None and not missed
    _refuse_together(way, proof is not None, counting, sums, program is not None, alone)
    document = load(project)
    options = BuildOptions(
        prefix=prefix,
        first_line=first_line,
        play=play or counting or missed or proof is not None,
        missed=missed,
        missed_value=missed_value or "",
        counting=counting,
        encode=encode,
        report=_stops(document, scene, proof),
        row_sums=sums,
        program=read_program(program) if program is not None else None,
    )
    progress = Progress("export")
    if scene is None and len(document.scenes) > 1:
        return export_game(document, target, options, progress, way, as_json)
    build = run_stages(document, target, scene, options=options, progress=progress)
    return _deliver(build, way, progress, as_json)


def _stops(document: "Project", scene: str | None, proof: str | None) -> tuple[int, ...]:
    """Return the ticks at which the program reports, of one scene or counted on through all of them."""
    from scenekit.cli.games import game_stops

    if proof is None:
        return ()
    if scene is None and len(document.scenes) > 1:
        return game_stops(document, proof)
    return proof_stops(proof, document.scene(scene))


def _deliver(build: "Build", way: "Way", progress: Progress, as_json: bool) -> int:
    """Write what was built of one scene, say what was written, and return the exit code."""
    from scenekit.cli.delivering import deliver

    delivery = deliver(build.files, build.own_files, build.dialect, way)
    progress.done()
    if as_json:
        print_json({**_data(build, delivery.changed or ()), **delivery.as_dict()})
        return exit_code(build.findings)
    click.echo(
        f"{way.out or way.to}: {build.scene.name} for {build.target.name} in dialect {build.dialect.name}"
    )
    _describe(build, delivery.changed)
    delivery.describe()
    print_findings(build.findings)
    return exit_code(build.findings)


def _refuse_together(
    way: "Way", proof: bool, counting: bool, sums: bool, program: bool, missed_value_alone: bool
) -> None:
    """Refuse options that do not go together.

    raises   click.UsageError
    """
    wrong = {
        "name a folder with --out, or a card with --to": way.out is None and way.to is None,
        "--program and --proof do not go together": program and proof,
        "--check goes with --to": way.check and way.to is None,
        "--proof and --count do not go together": proof and counting,
        "--sums goes with --proof": sums and not proof,
        "--missed-value goes with --missed": missed_value_alone,
    }
    for words, found in wrong.items():
        if found:
            raise click.UsageError(words)


def _data(build: "Build", changed: Collection[str]) -> dict[str, Any]:
    """Return what was built as plain JSON data."""
    tables = [
        {
            "name": choice.table,
            "encoding": choice.encoding,
            "values": choice.values,
            "decimal_bytes": choice.decimal_bytes,
            "bytes": len(choice.data),
        }
        for choice in build.choices
    ]
    files = [
        {"name": name, "bytes": len(data), "changed": name in changed} for name, data in build.files.items()
    ]
    return {
        "target": build.target.name,
        "scene": build.scene.name,
        "dialect": build.dialect.name,
        "scheme": build.scheme.name,
        "reason": build.scheme.reason,
        "tables": tables,
        "packed": build.packed is not None,
        "files": files,
        "findings": [finding.as_dict() for finding in build.findings],
    }


def _describe(build: "Build", changed: Collection[str] | None) -> None:
    """Say how it draws, how large the tables are, and which files were written, if any were."""
    click.echo(f"drawing by {build.scheme.name}: {build.scheme.reason}")
    values = sum(choice.values for choice in build.choices)
    plain = sum(choice.decimal_bytes for choice in build.choices)
    packed = sum(len(choice.data) for choice in build.choices)
    how = f"packed into {packed} bytes" if build.packed is not None else "as plain numbers"
    click.echo(f"tables: {len(build.choices)} with {values} values, {plain} bytes as plain DATA; {how}")
    if changed is None:
        return
    for name, data in build.files.items():
        click.echo(f"  {name:<24} {len(data):>9} bytes{'' if name in changed else '  unchanged'}")

"""scenekit port."""

from pathlib import Path

import click

from scenekit.cli.shared import json_option, print_json


@click.command()
@click.option("--dialect", "chosen", multiple=True, help="Only these; all that ship when left out.")
@click.option(
    "--project", type=click.Path(path_type=Path), help="Project whose own dialect files may be named too."
)
@click.option("--word", "words", multiple=True, help="Only these words.")
@click.option("--html", type=click.Path(path_type=Path), help="HTML page to write instead of printing.")
@json_option
def command(
    chosen: tuple[str, ...], project: Path | None, words: tuple[str, ...], html: Path | None, as_json: bool
) -> None:
    """List how each dialect spells every word, and what it does otherwise with the same one."""
    from dataclasses import replace

    from scenekit.dialects.dialect import dialect_names, load_dialect
    from scenekit.dialects.porting import porting_sheet, sheet_html, sheet_text
    from scenekit.errors import ProjectError
    from scenekit.model.store import write_atomically
    from scenekit.registry import choose

    folder = project if project is not None else Path()
    dialects = [load_dialect(name, folder) for name in chosen or dialect_names()]
    sections = porting_sheet(dialects)
    if words:
        known = {row.name: row for section in sections for row in section.rows}
        wanted = {choose("word", word, known).name for word in words}
        sections = tuple(
            replace(section, rows=tuple(row for row in section.rows if row.name in wanted))
            for section in sections
        )
        sections = tuple(section for section in sections if section.rows)
    if html is not None:
        if not html.parent.is_dir():
            raise ProjectError(f"{html.parent}: no such folder")
        write_atomically(html, sheet_html(sections).encode("utf-8"))
        click.echo(
            f"{html}: {sum(len(section.rows) for section in sections)} lines, {len(dialects)} dialects"
        )
    elif as_json:
        print_json({section.title: [row.as_dict() for row in section.rows] for section in sections})
    else:
        click.echo(sheet_text(sections), nl=False)

"""scenekit manual."""

from pathlib import Path

import click

from scenekit.errors import UnknownNameError

PAGES = {
    "example": "From a zip of sheets to a program on the board.",
    "sheets": "Cutting sheets into frames, and an artist's new version.",
    "motion": "Animations, facings, paths and the camera.",
    "planes": "Parallax planes, ratios, loops and judder.",
    "game_parts": "Several scenes, maps, panels, collisions, and what your program calls.",
    "files": "Every key of project.toml and of a scene's file.",
    "colours": "Palettes, cycles, events and the display's own DAC.",
    "budget": "How time and memory are reckoned, and where that can be wrong.",
    "calibrate": "Measuring your machine.",
    "export": "What is written, and the way to the board.",
    "proof": "Running what was written, here or on the board.",
    "window": "The window, station by station.",
    "own_machine": "Describing a machine of your own.",
    "own_target": "Describing a BASIC of your own.",
    "report": "Contact sheets, moving pictures and the report.",
    "cautions": "Flashing pictures, licences, strangers' files, and what is promised.",
}


@click.command()
@click.argument("page", required=False)
@click.option("--out", type=click.Path(path_type=Path), help="Folder to write all pages into, as Markdown.")
def command(page: str | None, out: Path | None) -> None:
    """Print a PAGE of the manual, or list its pages."""
    if out is not None:
        from scenekit.model.store import write_atomically

        out.mkdir(parents=True, exist_ok=True)
        for name in PAGES:
            write_atomically(out / f"{name}.md", page_text(name).encode("utf-8"))
        click.echo(f"{out}: {len(PAGES)} pages")
        return
    if page is not None:
        click.echo(page_text(page), nl=False)
        return
    click.echo("Pages, in working order; read one with: scenekit manual PAGE")
    for name, about in PAGES.items():
        click.echo(f"  {name:12} {about}")


def page_text(name: str) -> str:
    """Return a page as Markdown.

    raises   UnknownNameError: no such page
    """
    import scenekit

    if name not in PAGES:
        raise UnknownNameError("page", name, PAGES)
    return (Path(scenekit.__file__).parent / "manual" / f"{name}.md").read_text(encoding="utf-8")

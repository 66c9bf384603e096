"""scenekit pack."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from scenekit.cli.shared import json_option, pair, print_json, project_argument
from scenekit.errors import ExportError

if TYPE_CHECKING:
    from scenekit.sheets.pages import Pages

LARGEST_PAGE_PX = 8192
MOST_PIXELS = 1 << 24
"""As many as a picture may have that is read."""


@click.command(
    epilog="""\b
places.csv has a first line with column names, then a frame a line:
  sheet, frame        names
  page, x, y, w, h    where what is drawn of it lies; pages count from 0
  offset_x, offset_y  of what is drawn from the top left of the frame's box
  pivot_x, pivot_y    from the top left of what is drawn
  flip                none, h, v or hv: mirror it so when drawing
  turned              1: lies on its side, a quarter turn to the right
"""
)
@project_argument
@click.option(
    "--out", required=True, type=click.Path(path_type=Path), help="Folder for pages and places.csv."
)
@click.option("--page", metavar="WxH", help="Size of a page; the first target's display mode when left out.")
@click.option("--width", type=click.IntRange(1, LARGEST_PAGE_PX), help="One page, as high as it takes.")
@click.option("--sheet", "sheets", multiple=True, help="Only frames of this sheet; may come again.")
@click.option(
    "--gutter", type=click.IntRange(0, 256), default=1, show_default=True, help="Empty pixels between frames."
)
@click.option(
    "--align", type=click.IntRange(1, 256), default=1, show_default=True, help="Places are multiples of this."
)
@click.option("--turn", is_flag=True, help="Frames may lie on their side.")
@click.option("--mirror", is_flag=True, help="Frames that are equal mirrored share a place.")
@click.option("--pages", "max_pages", type=click.IntRange(1, 999), help="How many pages there may be.")
@json_option
def command(
    project: Path,
    out: Path,
    page: str | None,
    width: int | None,
    sheets: tuple[str, ...],
    gutter: int,
    align: int,
    turn: bool,
    mirror: bool,
    max_pages: int | None,
    as_json: bool,
) -> None:
    """Pack the frames of PROJECT into pages, and list where each lies.

    Frames are trimmed to what is drawn, and equal ones lie there once. The same project gives the same
    pages every time. Writing again replaces only files that scenekit wrote and nobody edited.
    """
    from scenekit.export import write_export
    from scenekit.images.art import load_art
    from scenekit.model.store import load
    from scenekit.sheets.pages import pack_frames

    document = load(project)
    size = _size(project, page, width)
    art = load_art(document)
    wanted = [document.sheet(name) for name in dict.fromkeys(sheets)] if sheets else document.sheets
    pages = pack_frames(
        [(sheet, art.sheets[sheet.name]) for sheet in wanted],
        size[0],
        size[1],
        gutter=gutter,
        align=align,
        turn=turn,
        mirror=mirror,
        max_pages=max_pages or MOST_PIXELS // (size[0] * (size[1] or 1)),
    )
    if not pages.placed:
        raise ExportError(f"{document.name}: no frame to pack; cut a sheet first: scenekit slice")
    files = {f"page-{number:02d}.png": _png(picture) for number, picture in enumerate(pages.pages)}
    files["places.csv"] = pages.places_csv()
    changed = write_export(out, files)
    if as_json:
        print_json({**pages.as_dict(), "files": [{"name": n, "changed": n in changed} for n in files]})
        return
    _describe(out, pages)


def _describe(out: Path, pages: "Pages") -> None:
    """Say how many pages there are, how full they are, and which frames show nothing."""
    count, many = len(pages.placed), len(pages.pages)
    height, width = pages.pages[-1].shape[:2]
    click.echo(f"{out}: {count} frames on {many} page{'s' if many > 1 else ''} of {width} x {height} px")
    click.echo(
        f"{100 * pages.density:.1f} % of the rows used hold frames; {pages.shared} frames share a place"
    )
    if pages.empty:
        shown = ", ".join(pages.empty[:8]) + (", ..." if len(pages.empty) > 8 else "")
        click.echo(f"nothing is drawn in {shown}")


def _size(project: Path, page: str | None, width: int | None) -> tuple[int, int | None]:
    """Return width and height of a page; no height where it is as high as it takes."""
    if page is not None and width is not None:
        raise click.UsageError("--width: goes without --page")
    if width is not None:
        return width, None
    if page is None:
        return _mode_size(project)
    across, down = pair(page, "--page", "x")
    if not (1 <= across <= LARGEST_PAGE_PX and 1 <= down <= LARGEST_PAGE_PX):
        raise click.BadParameter(
            f"got {page!r}; must be 1 to {LARGEST_PAGE_PX} px a side", param_hint="--page"
        )
    return across, down


def _mode_size(project: Path) -> tuple[int, int]:
    from scenekit.model.store import load
    from scenekit.sheets.animations import first_mode

    mode = first_mode(load(project))
    return mode.width_px, mode.height_px


def _png(pixels: object) -> bytes:
    import io

    from PIL import Image

    buffer = io.BytesIO()
    Image.fromarray(pixels).save(buffer, "PNG")  # type: ignore[arg-type]
    return buffer.getvalue()

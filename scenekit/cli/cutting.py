"""What the commands that cut sheets share: options, reading, words, and the file in the project."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from scenekit.cli.shared import colour, pair, save_picture
from scenekit.errors import ProjectError, SliceError

if TYPE_CHECKING:
    from scenekit.model.project import Project
    from scenekit.model.sprites import Sheet
    from scenekit.sheets.source import Source
    from scenekit.slicing.cut import Cut, Grid, SliceOptions

F = TypeVar("F", bound=Callable[..., Any])

SURE = 0.9
"""Below this confidence hints are offered."""

CUT_OPTIONS = (
    click.option("--by", "method", help="How to cut; see: scenekit list methods"),
    click.option("--cell", metavar="WxH", help="Size of a cell."),
    click.option("--margin", metavar="X,Y", help="Empty border left of and above the first cell."),
    click.option("--gutter", metavar="X,Y", help="Empty pixels between cells."),
    click.option("--offset", metavar="X,Y", help="Shifts the whole grid."),
    click.option("--key", "keys", multiple=True, metavar="RRGGBB", help="Colour that stands for nothing."),
    click.option(
        "--merge", default=0, metavar="PIXELS", help="Parts with up to so many empty pixels between are one."
    ),
    click.option("--least", default=1, metavar="PIXELS", help="Leave out islands with fewer pixels."),
    click.option("--boxes", type=click.Path(path_type=Path), help="CSV or JSON list of boxes, see below."),
    click.option("--count", type=int, help="How many frames there are (a hint)."),
    click.option("--columns", type=int, help="How many columns there are (a hint)."),
    click.option("--rows", type=int, help="How many rows there are (a hint)."),
)

BOXES_HELP = """\b
A list of boxes, for --boxes:
  CSV    a first line with column names, then a box a line:
           name,x,y,w,h,pivot_x,pivot_y
           walk-01,0,0,16,24,8,23
  JSON   {"boxes": [{"name": "walk-01", "x": 0, "y": 0, "w": 16, "h": 24}]}
x, y, w, h are needed, in pixels; columns stand in any order. A pivot is counted
from the top left of its box; boxes without a name are named by row and column.
"""


def cut_options(function: F) -> F:
    """Add the options that say how to cut."""
    for option in reversed(CUT_OPTIONS):
        function = option(function)
    return function


def options_from(name: str, given: dict[str, Any]) -> "SliceOptions":
    """Return the options that were given on the command line."""
    from scenekit.slicing.cut import SliceOptions

    for hint in ("count", "columns", "rows"):
        if given[hint] is not None and not 1 <= given[hint] <= 65_536:
            raise click.BadParameter(f"got {given[hint]}; must be 1 to 65536", param_hint=f"--{hint}")
    return SliceOptions(
        where=f"sheet {name}",
        cell=pair(given["cell"], "--cell", "x") if given["cell"] else None,
        margin=pair(given["margin"] or "0,0", "--margin"),
        gutter=pair(given["gutter"] or "0,0", "--gutter"),
        offset=pair(given["offset"] or "0,0", "--offset"),
        keys=tuple(colour(key, "--key") for key in given["keys"]),
        merge_px=given["merge"],
        least_px=given["least"],
        box_file=given["boxes"],
        count=given["count"],
        columns=given["columns"],
        rows=given["rows"],
    )


def said_how(given: dict[str, Any]) -> bool:
    """Say whether anything but key colours was said about how to cut."""
    words = ("method", "cell", "margin", "gutter", "offset", "boxes", "count", "columns", "rows", "merge")
    return any(given[word] for word in words) or given["least"] != 1


def cut_source(source: "Source", options: "SliceOptions", given: dict[str, Any]) -> "Cut":
    """Cut a sheet as was said; several pictures in one source are a frame each."""
    from dataclasses import replace

    from scenekit.slicing import cut_sheet

    if source.boxes:
        if said_how(given):
            raise SliceError(
                f"{source.path}: holds {len(source.boxes)} pictures, and each becomes a frame; "
                "leave out how to cut, or cut the pictures one by one"
            )
        return cut_sheet(source.pixels, replace(options, boxes=source.boxes), method="boxes")
    for name in ("margin", "gutter", "offset"):
        if given[name] and options.cell is None:
            raise click.UsageError(f"--{name}: say the size of a cell too, such as --cell 16x16")
    return cut_sheet(source.pixels, options, method=given["method"])


def describe_cut(where: str, cut: "Cut") -> None:
    """Print what was found, how sure that is, what else it could be, and what would settle it."""
    size = f"{cut.size_px[0]} x {cut.size_px[1]} px"
    found = _reading(len(cut.frames), cut.method, cut.grid)
    click.echo(f"{where}: {size}, {found}")
    click.echo(f"confidence {cut.confidence:.2f}: {cut.reason}")
    told = {found}
    for other in cut.alternatives:
        words = _reading(other.count, other.method, other.grid)
        if words not in told:
            told.add(words)
            click.echo(f"  or: {words} (confidence {other.confidence:.2f})")
    if cut.confidence < SURE:
        click.echo(
            "not sure: look at it with --overlay FILE.png; one hint usually settles it, such as "
            "--cell WxH, --count, --columns, --key or --merge"
        )


def _reading(count: int, method: str, grid: "Grid | None") -> str:
    text = f"{count} frame{'s' if count != 1 else ''} by {method}"
    if grid is None:
        return text
    text += f", cells of {grid.cell[0]} x {grid.cell[1]} px, {grid.columns} across and {grid.rows} down"
    if any(grid.margin):
        text += f", margin {grid.margin[0]},{grid.margin[1]}"
    return text + (f", gutter {grid.gutter[0]},{grid.gutter[1]}" if any(grid.gutter) else "")


def sheet_file(source: "Source", cut: "Cut", name: str) -> str:
    """Return where a project keeps a sheet: as it came where it can, else as PNG."""
    kept = source.as_it_is and len(cut.background.colours) < 2
    return f"sheets/{name}{source.path.suffix.lower() if kept else '.png'}"


def sheet_key(cut: "Cut") -> tuple[int, int, int] | None:
    """Return the key colour that a project records; of several none, for they are cleared in its copy."""
    return cut.background.colours[0] if len(cut.background.colours) == 1 else None


def keep_sheet(project: "Project", sheet: "Sheet", source: "Source", cut: "Cut") -> None:
    """Store a sheet's picture and save the document; if that fails the old picture is put back."""
    from scenekit.images.samples import clear
    from scenekit.model.edits import checked
    from scenekit.model.store import inside, save, write_atomically

    checked(project)
    path = inside(project.folder, sheet.file)
    try:
        path.parent.mkdir(exist_ok=True)
    except OSError as error:
        raise ProjectError(f"{path.parent}: cannot be written: {error.strerror}") from None
    old = path.read_bytes() if path.is_file() else None
    if len(cut.background.colours) > 1:
        save_picture(clear(source.pixels.copy(), cut.background.colours), path)
    elif not source.as_it_is:
        save_picture(source.pixels, path)
    elif not path.exists() or path.resolve() != source.path.resolve():
        write_atomically(path, source.path.read_bytes())
    try:
        save(project)
    except ProjectError:
        if old is not None:
            write_atomically(path, old)
        raise
    if old is not None and old != path.read_bytes():
        write_atomically(path.with_name(path.name + ".previous"), old)


def whole_number(text: str, name: str, low: int, high: int) -> int:
    """Return a whole number of a range."""
    word = text.strip()
    if not (word.isascii() and word.isdigit() and len(word) < 9 and low <= int(word) <= high):
        raise click.BadParameter(
            f"got {text!r}; must be a whole number from {low} to {high}", param_hint=name
        )
    return int(word)


def kept_words(into: Path, sheet: "Sheet", again: bool) -> str:
    """Say what went into the project."""
    frames = [frame.name for frame in sheet.frames]
    names = f", {frames[0]} to {frames[-1]}" if len(frames) > 1 else f", {frames[0]}" if frames else ""
    count = f"{len(frames)} frame{'' if len(frames) == 1 else 's'}"
    return f"{into}: sheet {sheet.name}{' cut again' if again else ''}, {count}{names}"

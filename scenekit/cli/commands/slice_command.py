"""scenekit slice."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from scenekit.cli.shared import (
    colour,
    exit_code,
    json_option,
    pair,
    print_findings,
    print_json,
    save_picture,
)
from scenekit.errors import SliceError

if TYPE_CHECKING:
    from scenekit.findings import Finding
    from scenekit.model.arrays import Pixels
    from scenekit.model.sprites import Frame
    from scenekit.slicing.cut import Cut, SliceOptions


@click.command()
@click.argument("image", type=click.Path(path_type=Path))
@click.option("--by", "method", help="How to cut; see: scenekit list methods")
@click.option("--cell", metavar="WxH", help="Size of a cell.")
@click.option("--margin", default="0,0", metavar="X,Y", help="Empty border left of and above the first cell.")
@click.option("--gutter", default="0,0", metavar="X,Y", help="Empty pixels between cells.")
@click.option("--offset", default="0,0", metavar="X,Y", help="Shifts the whole grid.")
@click.option("--key", "keys", multiple=True, metavar="RRGGBB", help="Colour that stands for nothing.")
@click.option("--merge", default=0, metavar="PIXELS", help="Join islands with gaps up to this wide.")
@click.option("--least", default=1, metavar="PIXELS", help="Leave out islands with fewer pixels.")
@click.option(
    "--boxes", type=click.Path(path_type=Path), help="CSV or JSON list: name, x, y, w, h, pivot_x, pivot_y."
)
@click.option("--count", type=int, help="How many frames there are (a hint).")
@click.option("--columns", type=int, help="How many columns there are (a hint).")
@click.option("--rows", type=int, help="How many rows there are (a hint).")
@click.option(
    "--into", type=click.Path(path_type=Path), help="Project that the sheet and its frames go into."
)
@click.option("--name", help="Name of the sheet in the project; the file's name when left out.")
@click.option("--author", default="", help="Who drew it, for the credits.")
@click.option("--licence", default="", help="Under which licence, for the credits.")
@click.option("--source", default="", help="Where it comes from, for the credits.")
@click.option(
    "--overlay", type=click.Path(path_type=Path), help="PNG to write with boxes and numbers drawn in."
)
@json_option
def command(image: Path, into: Path | None, overlay: Path | None, as_json: bool, **given: object) -> int:
    """Cut IMAGE into frames and say what was found.

    A folder or zip of numbered pictures counts as one strip. With --into the picture is copied into the
    project and its frames are kept there, with a pivot at the foot of each and a hit box around it.
    """
    from scenekit.slicing import cut_sheet

    options = _options(image, given)
    pixels, findings, options = _read(image, options)
    cut = cut_sheet(pixels, options, method=given["method"])  # type: ignore[arg-type]
    findings = (*findings, *cut.findings)
    if overlay is not None:
        from scenekit.report.overlay import overlay_picture

        save_picture(overlay_picture(pixels, cut.frames), overlay)
    if into is not None:
        _keep(image, pixels, into, cut, given)
    if as_json:
        print_json({**cut.as_dict(), "findings": [finding.as_dict() for finding in findings]})
        return exit_code(findings)
    _describe(image, cut)
    print_findings(findings)
    return exit_code(findings)


def _read(image: Path, options: "SliceOptions") -> "tuple[Pixels, tuple[Finding, ...], SliceOptions]":
    """Read a picture, or several as one strip whose boxes are then given."""
    from dataclasses import replace

    from scenekit.images import read_pictures
    from scenekit.images.strip import frame_names, join_strip
    from scenekit.slicing.cut import GivenBox

    pictures = read_pictures(image, key=options.keys or None)
    findings = tuple(finding for picture in pictures for finding in picture.findings)
    if len(pictures) == 1:
        return pictures[0].pixels, findings, options
    pixels, boxes = join_strip(pictures)
    named = zip(boxes, frame_names(pictures), strict=True)
    return (
        pixels,
        findings,
        replace(options, boxes=tuple(GivenBox(box=box, name=name) for box, name in named)),
    )


def _options(image: Path, given: dict[str, object]) -> "SliceOptions":
    from scenekit.slicing.cut import SliceOptions

    cell = given["cell"]
    for hint in ("count", "columns", "rows"):
        value = given[hint]
        if isinstance(value, int) and not 1 <= value <= 65_536:
            raise click.BadParameter(f"got {value}; must be 1 to 65536", param_hint=f"--{hint}")
    return SliceOptions(
        where=f"sheet {image.name}",
        cell=pair(str(cell), "--cell", "x") if cell else None,
        margin=pair(str(given["margin"]), "--margin"),
        gutter=pair(str(given["gutter"]), "--gutter"),
        offset=pair(str(given["offset"]), "--offset"),
        keys=tuple(colour(key, "--key") for key in given["keys"]),  # type: ignore[attr-defined]
        merge_px=given["merge"],  # type: ignore[arg-type]
        least_px=given["least"],  # type: ignore[arg-type]
        box_file=given["boxes"],  # type: ignore[arg-type]
        count=given["count"],  # type: ignore[arg-type]
        columns=given["columns"],  # type: ignore[arg-type]
        rows=given["rows"],  # type: ignore[arg-type]
    )


def _describe(image: Path, cut: "Cut") -> None:
    grid = ""
    if cut.grid is not None:
        w, h = cut.grid.cell
        grid = f", cells of {w} x {h} px in {cut.grid.columns} columns and {cut.grid.rows} rows"
    click.echo(
        f"{image}: {cut.size_px[0]} x {cut.size_px[1]} px, {len(cut.frames)} frames by {cut.method}{grid}"
    )
    click.echo(f"confidence {cut.confidence:.2f}: {cut.reason}")
    for other in cut.alternatives:
        size = f", cells of {other.grid.cell[0]} x {other.grid.cell[1]} px" if other.grid else ""
        click.echo(f"  or: {other.count} frames by {other.method}{size} (confidence {other.confidence:.2f})")


def _keep(image: Path, pixels: "Pixels", into: Path, cut: "Cut", given: dict[str, object]) -> None:
    """Copy the picture into the project and store its frames."""
    from scenekit.model.edits import put_sheet
    from scenekit.model.fields import NAME_PATTERN
    from scenekit.model.sprites import Sheet
    from scenekit.model.store import inside, load, save, write_atomically

    project = load(into)
    name = str(given["name"] or image.stem)
    if not NAME_PATTERN.fullmatch(name):
        raise SliceError(f"--name: got {name!r}; must be letters, digits, - and _, at most 40 characters")
    if len(cut.background.colours) > 1:
        raise SliceError("a sheet in a project can have one key colour; repaint the other one first")
    joined = not image.is_file() or image.suffix.lower() == ".zip"
    sheet = Sheet(
        name=name,
        file=f"sheets/{name}{'.png' if joined else image.suffix.lower()}",
        key=cut.background.colours[0] if cut.background.kind == "key" else None,
        source=str(given["source"]),
        author=str(given["author"]),
        licence=str(given["licence"]),
        frames=_frames(cut),
    )
    changed = put_sheet(project, sheet)
    path = inside(project.folder, sheet.file)
    path.parent.mkdir(exist_ok=True)
    if joined:
        save_picture(pixels, path)
    elif not path.exists() or path.resolve() != image.resolve():
        write_atomically(path, image.read_bytes())
    save(changed)


def _frames(cut: "Cut") -> "tuple[Frame, ...]":
    """Return frames with pivots and hit boxes; cells of a grid share one pivot, so that nothing jumps."""
    from scenekit.model.sprites import Frame
    from scenekit.sprites.trim import default_hit_box, default_pivot

    same = len({found.box[2:] for found in cut.frames}) == 1
    foot = max((f.content[1] + f.content[3] - f.box[1] for f in cut.frames), default=1) - 1
    frames = []
    for found in cut.frames:
        shared = ((found.box[2] - 1) // 2, foot)
        pivot = found.pivot or (shared if same else default_pivot(found.box, found.content))
        hit = default_hit_box(found.box, found.content)
        frames.append(Frame(name=found.name, box=found.box, pivot=pivot, hit_box=hit))
    return tuple(frames)

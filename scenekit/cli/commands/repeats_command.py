"""scenekit repeats."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from scenekit.cli.cutting import BOXES_HELP, cut_options, cut_source, options_from, said_how
from scenekit.cli.shared import exit_code, json_option, print_findings, print_json

if TYPE_CHECKING:
    from scenekit.findings import Finding
    from scenekit.model.arrays import Pixels
    from scenekit.sheets.repeats import Repeats

    Frames = list[tuple[str, tuple[int, int, int, int]]]

LEVEL_WORDS = {
    "equal": "equal ones once",
    "h": "and mirrored left-right",
    "h, v, hv": "and mirrored up-down too",
    "quarter turns": "and by quarter turns too",
}
MOST_LINES = 12


@click.command(epilog=BOXES_HELP)
@click.argument("what", type=click.Path(path_type=Path))
@click.option("--sheet", "sheets", multiple=True, help="Only this sheet of the project; may come again.")
@click.option(
    "--up-to",
    type=click.Choice(["same", "h", "flips", "turns"]),
    default="flips",
    show_default=True,
    help="What your machine can do: nothing, mirror left-right, mirror both ways, turn too.",
)
@click.option(
    "--near",
    type=click.IntRange(0, 255),
    default=12,
    show_default=True,
    help="List as nearly equal up to this mean difference of samples; 0 lists none.",
)
@click.option("--trimmed", is_flag=True, help="Compare what is drawn, wherever it lies in its box.")
@cut_options
@json_option
def command(what: Path, sheets: tuple[str, ...], as_json: bool, **given: Any) -> int:
    """Say which frames repeat others, and what leaving them out saves.

    WHAT is a project, or a picture that is cut first. Counted are frames that are equal, equal when
    mirrored or turned, the same in other colours (one drawing and two palettes may do), and nearly equal
    (perhaps a slip of the pen). An empty frame is not counted, and a box that is listed twice counts once.
    """
    from scenekit.sheets.repeats import find_repeats

    read, findings = _read(what, sheets, given)
    found = find_repeats(read, up_to=given["up_to"], near_rms=given["near"], trimmed=given["trimmed"])
    if as_json:
        print_json({**found.as_dict(), "findings": [finding.as_dict() for finding in findings]})
    else:
        _describe(str(what), found)
        print_findings(findings)
    return exit_code(findings)


def _read(
    what: Path, sheets: tuple[str, ...], given: dict[str, Any]
) -> "tuple[list[tuple[str, Pixels, Frames]], list[Finding]]":
    """Return sheets with their frames: of a project, or of a picture that is cut."""
    from scenekit.model.store import PROJECT_FILE

    if what.name == PROJECT_FILE or (what / PROJECT_FILE).exists():
        if said_how(given) or given["keys"]:
            raise click.UsageError("a project's sheets are cut already; leave out how to cut")
        return _of_project(what, sheets)
    if sheets:
        raise click.UsageError("--sheet: names a sheet of a project, and this is no project folder")
    from scenekit.images.samples import clear
    from scenekit.sheets.source import read_source

    source = read_source(what)
    cut = cut_source(source, options_from(what.name, given), given)
    frames = [(frame.name, frame.box) for frame in cut.frames]
    pixels = clear(source.pixels.copy(), cut.background.colours)
    return [("", pixels, frames)], [*source.findings, *cut.findings]


def _of_project(
    what: Path, sheets: tuple[str, ...]
) -> "tuple[list[tuple[str, Pixels, Frames]], list[Finding]]":
    from scenekit.images.art import load_art
    from scenekit.model.store import load

    document = load(what)
    art = load_art(document)
    wanted = [document.sheet(name) for name in dict.fromkeys(sheets)] if sheets else document.sheets
    read = [(s.name, art.sheets[s.name], [(frame.name, frame.box) for frame in s.frames]) for s in wanted]
    return read, []


def _describe(what: str, found: "Repeats") -> None:
    data = found.as_dict()
    click.echo(f"{what}: {data['frames']} frames, {data['drawn']} with something drawn")
    for level in data["kept"]:
        words = LEVEL_WORDS[level["up_to"]]
        click.echo(f"  {words:<25} {level['distinct']:>6} frames {level['pixels']:>10} px")
    whole = data["kept"][0]["pixels"]
    share = f" ({100 * data['flips_save_px'] / whole:.0f} %)" if whole else ""
    click.echo(f"mirroring saves {data['flips_save_px']} px{share}")
    _list("equal", data["equal"], lambda row: _turned(row))
    _list("in other colours", data["recolours"], lambda row: f"{_turned(row)}, {len(row['colours'])} colours")
    _list("nearly equal", data["near"], _nearness)


def _list(title: str, rows: list[dict[str, Any]], words: Any) -> None:
    if rows:
        click.echo(f"{title}: {len(rows)}")
    for row in rows[:MOST_LINES]:
        click.echo(f"  {row['frame']} is {row['as']}{words(row)}")
    if len(rows) > MOST_LINES:
        click.echo(f"  and {len(rows) - MOST_LINES} more; --json lists all")


def _turned(row: dict[str, Any]) -> str:
    return "" if row["turned"] == "none" else f", turned {row['turned']}"


def _nearness(row: dict[str, Any]) -> str:
    apart = f"{row['pixels_different']} of {row['of_pixels']} px differ, by {row['largest']} at most"
    return f"{_turned(row)} but for little: {apart}"

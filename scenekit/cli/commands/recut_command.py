"""scenekit recut."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from scenekit.cli.cutting import (
    BOXES_HELP,
    cut_options,
    cut_source,
    describe_cut,
    keep_sheet,
    options_from,
    said_how,
    sheet_file,
    sheet_key,
)
from scenekit.cli.shared import (
    exit_code,
    json_option,
    print_findings,
    print_json,
    project_argument,
    save_picture,
)

if TYPE_CHECKING:
    from scenekit.model.arrays import Pixels
    from scenekit.model.sprites import Sheet
    from scenekit.sheets.recut import Recut
    from scenekit.sheets.source import Source
    from scenekit.slicing.cut import Cut
    from scenekit.slicing.reimport import Match

MOST_LINES = 40


@click.command(epilog=BOXES_HELP)
@project_argument
@click.argument("sheet")
@click.argument("picture", type=click.Path(path_type=Path))
@cut_options
@click.option("--changes", type=click.Path(path_type=Path), help="PNG to write: old and new sheet, marked.")
@click.option("--apply", "apply_it", is_flag=True, help="Take the new version into the project.")
@json_option
def command(
    project: Path,
    sheet: str,
    picture: Path,
    changes: Path | None,
    apply_it: bool,
    as_json: bool,
    **given: Any,
) -> int:
    """Take a new version of a SHEET of PROJECT from PICTURE; frames follow what they show.

    Each frame is looked for by what is drawn in it: equal art, the same in other colours, then what is most
    alike. Its name, pivot, hit box and flags stay with it, and so do the animations that use it. Without
    further word the new picture is cut into the same grid as the old one.

    Nothing is changed without --apply. Frames that are gone but used are an error that names them.
    """
    from scenekit.images.flat import read_picture
    from scenekit.model.store import inside, load
    from scenekit.sheets.recut import recut
    from scenekit.sheets.source import read_source

    document = load(project)
    old = document.sheet(sheet)
    old_pixels = read_picture(inside(document.folder, old.file), key=old.key).pixels
    source = read_source(picture)
    cut = _cut(old, old_pixels, source, given)
    result = recut(document, old, old_pixels, source.pixels, cut)
    findings = (*source.findings, *cut.findings, *result.findings)
    if changes is not None:
        from scenekit.slicing.changes import draw_changes

        save_picture(draw_changes(old_pixels, source.pixels, result.reimport.matches), changes)
    applied = apply_it and result.allowed
    if applied:
        _apply(project, old, source, cut, result)
    if as_json:
        print_json(_data(old, result, cut, applied, [finding.as_dict() for finding in findings]))
    else:
        describe_cut(str(picture), cut)
        _describe(result, applied, changes is not None)
        print_findings(findings)
    return exit_code(findings)


def _cut(old: "Sheet", old_pixels: "Pixels", source: "Source", given: dict[str, Any]) -> "Cut":
    """Cut the new picture as was said, else like the old one, or so with the grid moved as the art moved."""
    from dataclasses import replace

    from scenekit.sheets.recut import likest, moved_grid, options_like_before

    options = options_from(source.path.name, given)
    if not options.keys and old.key is not None:
        options = replace(options, keys=(old.key,))
    if not source.boxes and not said_how(given) and old.frames:
        like = options_like_before(old, options)
        height, width = source.pixels.shape[:2]
        if like is not None and like.cell is not None:
            ends = [like.margin[axis] + like.cell[axis] for axis in (0, 1)]
            if ends[0] <= width and ends[1] <= height:
                cut = replace(cut_source(source, like, given), reason="the grid of the old sheet")
                moved = moved_grid(like, old_pixels, source.pixels)
                if moved == like:
                    return cut
                reason = "the grid of the old sheet, moved as the art moved"
                other = replace(cut_source(source, moved, given), reason=reason)
                return likest(old, old_pixels, source.pixels, [cut, other])
    return cut_source(source, options, given)


def _apply(project: Path, old: "Sheet", source: "Source", cut: "Cut", result: "Recut") -> None:
    from scenekit.model.edits import put_sheet
    from scenekit.model.store import load
    from scenekit.sheets.recut import followed_sheet

    new = followed_sheet(old, result, sheet_file(source, cut, old.name), sheet_key(cut))
    keep_sheet(put_sheet(load(project), new), new, source, cut)


def _describe(result: "Recut", applied: bool, drawn: bool) -> None:
    from scenekit.slicing.reimport import KINDS

    found = result.reimport
    counts = [f"{found.count(kind)} {kind}" for kind in KINDS if found.count(kind)]
    click.echo("frames: " + (", ".join(counts) or "none"))
    changed = [match for match in found.matches if match.kind != "same"]
    for number, match in enumerate(changed[:MOST_LINES], 1):
        click.echo(f"  {number:>3}  {match.name}: {sentence(match)}")
    if len(changed) > MOST_LINES:
        click.echo(f"  and {len(changed) - MOST_LINES} more; --json lists all")
    if applied:
        click.echo("taken into the project; the picture before is kept beside it as .previous")
    elif not result.allowed:
        click.echo("nothing was changed")
    else:
        look = "" if drawn else "look at it with --changes FILE.png; "
        click.echo(f"nothing was changed yet; {look}--apply takes it into the project")


def sentence(match: "Match") -> str:
    """Say in words what became of a frame."""
    x, y = match.move
    ways = [f"{abs(x)} px {'right' if x > 0 else 'left'}"] if x else []
    ways += [f"{abs(y)} px {'down' if y > 0 else 'up'}"] if y else []
    moved = " and ".join(ways)
    alike = f"{match.score / 10:.0f} % alike"
    if match.kind == "moved":
        return f"moved {moved}"
    if match.kind == "new" and match.new is not None:
        x, y, w, h = match.new
        return f"new, {w} x {h} px at {x}, {y}"
    if match.kind == "gone":
        return "gone"
    also = f", moved {moved}" if moved else ""
    if match.kind == "recoloured":
        return f"in other colours{also}"
    if match.kind == "grown" and match.old is not None and match.new is not None:
        return f"drawn larger or smaller, {alike}{also}"
    return f"drawn anew, {alike}{also}"


def _data(
    old: "Sheet", result: "Recut", cut: "Cut", applied: bool, findings: list[dict[str, str]]
) -> dict[str, Any]:
    numbers = iter(range(1, len(result.reimport.matches) + 1))
    return {
        "sheet": old.name,
        "method": cut.method,
        "grid": cut.grid.as_dict() if cut.grid else None,
        "confidence": round(cut.confidence, 3),
        "frames": [
            {
                "number": None if match.kind == "same" else next(numbers),
                "name": match.name,
                "change": match.kind,
                "old": None if match.old is None else list(match.old),
                "new": None if match.new is None else list(match.new),
                "move": list(match.move),
                "alike": match.score / 1000,
            }
            for match in result.reimport.matches
        ],
        "applied": applied,
        "findings": findings,
    }

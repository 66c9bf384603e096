"""scenekit slice."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from scenekit.cli.cutting import (
    BOXES_HELP,
    cut_options,
    cut_source,
    describe_cut,
    keep_sheet,
    kept_words,
    options_from,
    sheet_file,
    sheet_key,
    whole_number,
)
from scenekit.cli.shared import exit_code, json_option, pair, print_findings, print_json, save_picture
from scenekit.errors import ProjectError, SliceError

if TYPE_CHECKING:
    from scenekit.model.project import Project
    from scenekit.model.sprites import Animation, Sheet
    from scenekit.sheets.source import Source
    from scenekit.slicing.cut import Cut
    from scenekit.slicing.grouping import FrameGroup

USUAL_TICKS = 6


@click.command(epilog=BOXES_HELP)
@click.argument("image", type=click.Path(path_type=Path))
@cut_options
@click.option(
    "--into", type=click.Path(path_type=Path), help="Project that the sheet and its frames go into."
)
@click.option("--name", help="Name of the sheet in the project; the file's name when left out.")
@click.option("--shrink", default="0,0", metavar="X,Y", help="Pixels taken off each side of hit boxes.")
@click.option("--sprite", help="Make an animation of the frames at once, for this sprite.")
@click.option("--animation", help="Its name; the sheet's when left out. With --groups names with commas.")
@click.option("--ticks", help="Refreshes each frame stays: one number, or one each; else the file's delays.")
@click.option(
    "--play",
    type=click.Choice(["loop", "once", "there-and-back"]),
    default="loop",
    show_default=True,
    help="How the animation goes on.",
)
@click.option("--groups", is_flag=True, help="See which frames belong together: one animation for each.")
@click.option(
    "--looks",
    type=click.Choice(["right", "left", "up", "down"]),
    help="With --groups: where the first of two mirrored rows looks; right when left out.",
)
@click.option("--outlines", is_flag=True, help="With --json: first pixel and length of every row of a frame.")
@click.option("--author", default="", help="Who drew it, for the credits.")
@click.option("--licence", default="", help="Under which licence, for the credits.")
@click.option("--source", default="", help="Where it comes from, for the credits.")
@click.option(
    "--overlay", type=click.Path(path_type=Path), help="PNG to write with boxes, numbers and pivots drawn in."
)
@json_option
def command(image: Path, into: Path | None, overlay: Path | None, as_json: bool, **given: Any) -> int:
    """Cut IMAGE into frames and say what was found.

    Without further word the way to cut is found out. An animated GIF, PNG or WebP, the layers of an
    OpenRaster file, a folder or a zip of numbered pictures become a strip with a frame for each picture.

    With --into the picture is copied into the project and its frames are kept there, each with a pivot on
    the line its feet stand on and a hit box around what is drawn. With --sprite they become an animation
    too; an animated file brings its own times, rounded to refreshes of the project's first target.
    """
    from scenekit.sheets.frames import outlines_of, pivots_of
    from scenekit.sheets.source import read_source

    _check_usage(into, {**given, "as_json": as_json})
    source = read_source(image)
    cut = cut_source(source, options_from(image.name, given), given)
    findings = (*source.findings, *cut.findings)
    if overlay is not None:
        from scenekit.report.overlay import overlay_picture

        save_picture(overlay_picture(source.pixels, cut.frames, pivots_of(source.pixels, cut)), overlay)
    made = _made(source, cut, into, given)
    if as_json:
        data = {**cut.as_dict(), "findings": [finding.as_dict() for finding in findings]}
        if given["outlines"]:
            data["outlines"] = [list(map(list, each.spans)) for each in outlines_of(source.pixels, cut)]
        print_json({**data, **made.as_dict()})
        return exit_code(findings)
    describe_cut(str(image), cut)
    for note in made.notes:
        click.echo(note)
    print_findings(findings)
    return exit_code(findings)


class _Made:
    """What was made of the frames beside cutting them."""

    def __init__(self) -> None:
        self.notes: list[str] = []
        self.groups: tuple[FrameGroup, ...] | None = None
        self.animations: tuple[Animation, ...] | None = None

    def as_dict(self) -> dict[str, Any]:
        """Return plain JSON data; nothing where nothing was asked for."""
        data: dict[str, Any] = {}
        if self.groups is not None:
            data["groups"] = [
                {
                    "name": group.name,
                    "frames": list(group.frames),
                    "alike": group.alike,
                    "reason": group.reason,
                    "mirrors": group.mirrors or None,
                    "flip": group.flip,
                }
                for group in self.groups
            ]
        if self.animations is not None:
            data["animations"] = [
                {"name": made.name, "steps": [[step.frame, step.ticks] for step in made.steps]}
                for made in self.animations
            ]
        return data


def _check_usage(into: Path | None, given: dict[str, Any]) -> None:
    if given["sprite"] and into is None:
        raise click.UsageError("--sprite: say which project it goes into: --into GAME")
    if given["outlines"] and not given["as_json"]:
        raise click.UsageError("--outlines: goes with --json")
    for word in ("animation", "ticks"):
        if given[word] and not given["sprite"]:
            raise click.UsageError(f"--{word}: say which sprite it is for: --sprite NAME")
    if given["looks"] and not given["groups"]:
        raise click.UsageError("--looks: goes with --groups")


def _made(source: "Source", cut: "Cut", into: Path | None, given: dict[str, Any]) -> _Made:
    """Find groups where asked for, and store what is to be kept."""
    made = _Made()
    if given["groups"]:
        from scenekit.slicing.grouping import group_frames

        made.groups = group_frames(source.pixels, cut)
    if into is not None:
        _keep(source, cut, into, given, made)
    elif made.groups is not None:
        made.notes = [
            f"{group.name}: {len(group.frames)} frames, {group.reason}"
            + (f"; {group.mirrors} mirrored" if group.mirrors and group.flip else "")
            for group in made.groups
        ]
    return made


def _keep(source: "Source", cut: "Cut", into: Path, given: dict[str, Any], made: _Made) -> None:
    """Store the picture, its frames and its animations."""
    from scenekit.model.edits import put_sheet
    from scenekit.model.store import load

    project = load(into)
    sheet = _sheet(project, source, cut, given)
    changed = put_sheet(project, sheet)
    again = any(other.name == sheet.name for other in project.sheets)
    made.notes.append(kept_words(into, sheet, again))
    if given["sprite"]:
        changed = _animate(changed, sheet, source, cut, given, made)
    keep_sheet(changed, sheet, source, cut)
    if len(cut.background.colours) > 1:
        made.notes.append(f"{sheet.file}: several key colours; they are cleared in the project's copy")


def _sheet(project: "Project", source: "Source", cut: "Cut", given: dict[str, Any]) -> "Sheet":
    """Return the new sheet; a sheet of that name with another picture is not replaced."""
    from scenekit.model.fields import NAME_PATTERN
    from scenekit.model.sprites import Sheet
    from scenekit.sheets.frames import frames_of

    name = str(given["name"] or source.path.stem)
    if not NAME_PATTERN.fullmatch(name):
        raise SliceError(f"--name: got {name!r}; must be letters, digits, - and _, at most 40 characters")
    shrink = pair(given["shrink"], "--shrink")
    if min(shrink) < 0:
        raise click.BadParameter(f"got {given['shrink']}; must not be negative", param_hint="--shrink")
    sheet = Sheet(
        name=name,
        file=sheet_file(source, cut, name),
        key=sheet_key(cut),
        source=given["source"],
        author=given["author"],
        licence=given["licence"],
        frames=frames_of(source.pixels, cut, shrink),
    )
    old = next((other for other in project.sheets if other.name == name), None)
    if old is None:
        return sheet
    _check_same(project, old, source, cut)
    known = {word: getattr(sheet, word) or getattr(old, word) for word in ("source", "author", "licence")}
    return replace(sheet, **known)


def _check_same(project: "Project", old: "Sheet", source: "Source", cut: "Cut") -> None:
    """Refuse another picture under a name that is taken."""
    import numpy as np

    from scenekit.errors import SceneKitError
    from scenekit.images.flat import read_picture
    from scenekit.images.samples import clear
    from scenekit.model.store import inside

    try:
        kept = read_picture(inside(project.folder, old.file), key=old.key).pixels
    except SceneKitError:
        return
    shown = clear(source.pixels.copy(), cut.background.colours)
    if not np.array_equal(kept, shown) and not np.array_equal(kept, source.pixels):
        raise ProjectError(
            f"sheet {old.name}: the project has another picture of that name; for its new version use "
            f"scenekit recut, else choose another --name"
        )


def _animate(
    project: "Project",
    sheet: "Sheet",
    source: "Source",
    cut: "Cut",
    given: dict[str, Any],
    made: _Made,
) -> "Project":
    """Add the animations that were asked for."""
    from scenekit.model.edits import put_animation
    from scenekit.model.sprites import Animation
    from scenekit.sheets.animations import animations_of_groups, steps_of

    if not sheet.frames:
        raise SliceError(f"sheet {sheet.name}: no frame was found, so there is nothing to animate")
    names = [part.strip() for part in (given["animation"] or "").split(",") if part.strip()]
    if made.groups is not None:
        grouped = animations_of_groups(
            sheet.name,
            cut.frames,
            made.groups,
            ticks=_numbers(given["ticks"], 1)[0] if given["ticks"] else USUAL_TICKS,
            play=given["play"],
            names=names,
            looks=given["looks"] or "",
        )
        if not grouped.animations:
            raise SliceError(
                f"sheet {sheet.name}: no frames seem to follow each other; leave out --groups to take all"
            )
        made.animations = grouped.animations
        made.notes += grouped.notes
        facings = grouped.facings
    else:
        ticks = _ticks(project, source, len(sheet.frames), given["ticks"], made)
        steps = steps_of([frame.name for frame in sheet.frames], ticks)
        name = names[0] if names else sheet.name
        made.animations = (Animation(name=name, sheet=sheet.name, play=given["play"], steps=steps),)
        facings = ()
    for animation in made.animations:
        project = put_animation(project, given["sprite"], animation, facings)
        total = sum(step.ticks for step in animation.steps)
        made.notes.append(
            f"{given['sprite']}: animation {animation.name}, {len(animation.steps)} steps, {total} ticks"
        )
    return project


def _ticks(project: "Project", source: "Source", count: int, text: str | None, made: _Made) -> list[int]:
    """Return ticks as given, else of the file's own delays, else the usual ones."""
    from scenekit.images.delays import delays_to_ticks, describe_ticks
    from scenekit.sheets.animations import first_mode

    if text:
        return _numbers(text, count)
    if not source.delays_ms or len(source.delays_ms) != count:
        return [USUAL_TICKS]
    rate = first_mode(project).timing.refresh_hz
    steps = delays_to_ticks(source.delays_ms, rate)
    made.notes.append(f"at {float(rate):.2f} refreshes a second: {describe_ticks(steps)}")
    return [step.ticks for step in steps]


def _numbers(text: str, count: int) -> list[int]:
    ticks = [whole_number(part, "--ticks", 1, 9999) for part in text.split(",")]
    if len(ticks) not in (1, count):
        wanted = "1" if count == 1 else f"1 or {count}"
        raise click.BadParameter(f"got {len(ticks)} numbers; must be {wanted}", param_hint="--ticks")
    return ticks

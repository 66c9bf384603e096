"""scenekit colours."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from scenekit.cli.shared import (
    json_option,
    print_findings,
    print_json,
    project_argument,
    save_picture,
    target_options,
)

if TYPE_CHECKING:
    from scenekit.build import Build
    from scenekit.colour.dac import Ladder
    from scenekit.findings import Finding

CHIP_PX, COLUMNS = 40, 16


@click.command()
@project_argument
@target_options
@click.option("--chart", type=click.Path(path_type=Path), help="PNG to write: the palette as a chart.")
@click.option("--errors", type=click.Path(path_type=Path), help="Folder for a map of errors of each picture.")
@click.option("--differ", multiple=True, metavar="N,N,...", help="Entries that everybody must tell apart.")
@click.option("--ladder", metavar="OHM,OHM,...", help="Resistors of each channel's DAC, highest bit first.")
@click.option("--supply", type=float, default=3.3, show_default=True, help="Volts of a bit that is on.")
@click.option("--tolerance", type=float, default=5.0, show_default=True, help="Of the resistors, in percent.")
@click.option(
    "--look", type=click.Path(path_type=Path), help="PNG to write: tick 0 as it looks behind the ladder."
)
@json_option
def command(
    project: Path,
    target: str | None,
    scene: str | None,
    chart: Path | None,
    errors: Path | None,
    differ: tuple[str, ...],
    ladder: str | None,
    supply: float,
    tolerance: float,
    look: Path | None,
    as_json: bool,
) -> None:
    """Show the palette of a target of PROJECT: each entry, its use, its error, and what moves it."""
    from scenekit.build import run_stages
    from scenekit.model.store import load

    build = run_stages(load(project), target, scene, last="colours")
    rows = entry_rows(build)
    findings = _findings(build, differ)
    if chart is not None:
        save_picture(chart_picture(rows), chart)
    if errors is not None:
        _error_maps(build, errors)
    behind = None if ladder is None else _ladder(ladder, supply, tolerance)
    if look is not None:
        if behind is None:
            raise click.UsageError("--look goes with --ladder")
        _look(build, behind, look)
    levels = None if behind is None else ladder_facts(behind)
    if as_json:
        data = {
            "target": build.target.name,
            "mean_error": round(build.reduced.mean_error, 3),
            "entries": rows,
            "ladder": levels,
        }
        print_json(
            {**data, "pictures": build.reduced.picture_error, "findings": [f.as_dict() for f in findings]}
        )
        return
    _tell(build, rows, levels)
    print_findings(findings)


def _tell(build: "Build", rows: Sequence[Mapping[str, Any]], levels: Mapping[str, Any] | None) -> None:
    """Print the entries of a palette, and what a ladder of resistors makes of it."""
    used, error = build.reduced.used, build.reduced.mean_error
    click.echo(f"{build.target.name}: {used} entries hold colours; mean error {error:.2f} (CIEDE2000)")
    for row in rows:
        entry = f"  {row['entry']:>3}  {row['colour']}  {row['pixels']:>9} px"
        click.echo(f"{entry}  error {row['error']:>5.2f}  {row['role']}".rstrip())
    if levels is not None:
        click.echo(f"ladder: {levels['full_scale_v']} V at full scale, {levels['verdict']}")
        click.echo("  levels shown, of 255: " + " ".join(str(level) for level in levels["levels"]))
        click.echo(
            "  darkest and brightest by tolerance: " + " ".join(f"{a}-{b}" for a, b in levels["spread"])
        )


def _ladder(text: str, supply: float, tolerance: float) -> "Ladder":
    from scenekit.colour.dac import Ladder

    try:
        ohms = tuple(float(part) for part in text.split(","))
    except ValueError:
        raise click.BadParameter(
            f"got {text!r}; must be ohms such as 510,1000,2000,4300", param_hint="--ladder"
        ) from None
    return Ladder(resistors_ohm=ohms, supply_v=supply, tolerance_percent=tolerance)


def ladder_facts(ladder: "Ladder") -> dict[str, Any]:
    """Return what a resistor ladder into 75 ohm shows."""
    from scenekit.colour.dac import linearity, shown_levels, shown_spread

    even = linearity(ladder)
    low, high = shown_spread(ladder)
    steady = "rises at every step" if even.rising else "does not rise at every step"
    always = "whatever the parts" if even.rising_always else "but not with every draw of parts"
    return {
        "full_scale_v": round(even.full_scale_v, 4),
        "verdict": f"{steady}, {always}" if even.rising else steady,
        "levels": [int(level) for level in shown_levels(ladder)],
        "spread": [[int(a), int(b)] for a, b in zip(low, high, strict=True)],
    }


def _look(build: "Build", ladder: "Ladder", out: Path) -> None:
    from scenekit.colour.dac import shown_picture

    save_picture(shown_picture(build.picture(0), (ladder, ladder, ladder)), out)


def entry_rows(build: "Build") -> list[dict[str, Any]]:
    """Return every entry that is used or reserved."""
    reduced = build.reduced
    roles = {reduced.transparent: "transparent"}
    for cycle in reduced.cycles:
        roles |= dict.fromkeys(range(cycle.first, cycle.first + cycle.count), f"cycle {cycle.name}")
    for name, changes in reduced.changes.items():
        for change in changes:
            for entry in change.entries:
                roles.setdefault(entry, f"event {change.name} of scene {name}")
    return [
        {
            "entry": entry,
            "colour": bytes(int(c) for c in reduced.palette[entry]).hex(),
            "pixels": reduced.counts[entry],
            "error": round(float(reduced.entry_error[entry]), 3),
            "role": roles.get(entry, ""),
        }
        for entry in range(len(reduced.palette))
        if reduced.counts[entry] or entry in roles
    ]


def _findings(build: "Build", differ: tuple[str, ...]) -> "list[Finding]":
    from scenekit.colour.depth import parse
    from scenekit.colour.error_map import PLAIN_DIFFERENCE
    from scenekit.colour.greys import tinted_greys
    from scenekit.colour.vision import must_differ
    from scenekit.findings import Finding
    from scenekit.images.reduced import picture_names

    found = []
    for name, error in sorted(build.reduced.picture_error.items(), key=lambda pair: (-pair[1], pair[0])):
        if error > PLAIN_DIFFERENCE:
            limit = f"above {PLAIN_DIFFERENCE:g} it is seen at a glance"
            text = f"mean colour error {error:.1f} (CIEDE2000); {limit}"
            found.append(Finding(level="note", code="colour-loss", where=name, text=text))
    pictures = dict(
        zip(picture_names(build.art), [*build.art.sheets.values(), *build.art.planes.values()], strict=True)
    )
    seen = [name for name in pictures if name in build.reduced.picture_error]
    found += tinted_greys(seen, [pictures[name] for name in seen], parse(build.mode.depth))
    count = len(build.reduced.palette)
    groups = [[_entry(part, count) for part in group.split(",")] for group in differ]
    groups += [list(group) for group in build.target.differ]
    return found + list(must_differ(build.reduced.palette, groups))


def _entry(text: str, count: int) -> int:
    if not text.strip().isascii() or not text.strip().isdigit() or int(text) >= count:
        raise click.BadParameter(
            f"got {text!r}; must be entries from 0 to {count - 1}", param_hint="--differ"
        )
    return int(text)


def chart_picture(rows: list[dict[str, Any]]) -> Any:
    """Return the palette as rows of chips, each as wide as it is numbered."""
    import numpy as np
    from PIL import Image, ImageDraw

    height = -(-len(rows) // COLUMNS) * CHIP_PX
    image = Image.new("RGB", (COLUMNS * CHIP_PX, height), (128, 128, 128))
    draw = ImageDraw.Draw(image)
    for number, row in enumerate(rows):
        x, y = number % COLUMNS * CHIP_PX, number // COLUMNS * CHIP_PX
        red, green, blue = bytes.fromhex(row["colour"])
        draw.rectangle((x, y, x + CHIP_PX - 2, y + CHIP_PX - 2), fill=(red, green, blue))
        light = 299 * red + 587 * green + 114 * blue > 128_000
        draw.text((x + 4, y + 3), str(row["entry"]), fill=(0, 0, 0) if light else (255, 255, 255))
        if row["role"]:
            draw.line(
                (x + 4, y + CHIP_PX - 8, x + CHIP_PX - 8, y + CHIP_PX - 8),
                fill=(0, 0, 0) if light else (255, 255, 255),
                width=2,
            )
    return np.asarray(image)


def _error_maps(build: "Build", folder: Path) -> None:
    from scenekit.colour.error_map import error_map

    folder.mkdir(parents=True, exist_ok=True)
    reduced = build.reduced
    for name, pixels in build.art.sheets.items():
        save_picture(
            error_map(pixels, reduced.palette, reduced.sheets[name]), folder / f"error-sheet-{name}.png"
        )
    for (scene, plane), pixels in build.art.planes.items():
        picture = error_map(pixels, reduced.palette, reduced.planes[scene, plane])
        save_picture(picture, folder / f"error-{scene}-{plane}.png")

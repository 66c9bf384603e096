"""What moves: the commands that put a sprite or a camera with its path into a scene."""

import re
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from scenekit.cli.shared import (
    check_free,
    four,
    fraction,
    pair,
    project_argument,
    recheck,
    replace_option,
    whole,
)

if TYPE_CHECKING:
    from scenekit.model.scene import Path as ScenePath

SEGMENT = re.compile(r"(\d{1,5}):([^,@]+),([^,@]+)(?:@([\w-]*))?(?:@(\w*))?")
PATH_HELP = "Stretches TICKS:X,Y[@ANIMATION[@FACING]] with spaces between: ticks, and pixels a tick."

repeat_option = click.option(
    "--repeat",
    type=click.Choice(["no", "from-start", "onward"]),
    default="no",
    show_default=True,
    help="After the last stretch: stay, begin again at the start place, or begin again from there.",
)


@click.command("placed")
@project_argument
@click.argument("sprite")
@click.option("--scene", help="Scene by name; the first when left out.")
@click.option("--name", help="Name in the scene; the sprite's name when left out.")
@click.option("--over", required=True, help="The plane it is drawn directly in front of.")
@click.option("--moves-with", help="The plane that carries it, or screen; the same plane when left out.")
@click.option(
    "--at", required=True, metavar="X,Y", help="Start place, in pixels of the plane that carries it."
)
@click.option("--animation", default="", help="Animation it starts with; the sprite's first when left out.")
@click.option("--facing", default="", help="right, left, up or down; see: scenekit add facing")
@click.option("--path", default="", help=PATH_HELP)
@click.option(
    "--asleep", is_flag=True, help="It does nothing, unseen, until the view comes to its start place."
)
@click.option(
    "--wakes", metavar="FROM,TO", help="Between which pixels of the view sleepers of the scene wake."
)
@repeat_option
@replace_option
def placed(project: Path, sprite: str, scene: str | None, path: str, repeat: str, **given: object) -> None:
    """Put SPRITE into a scene."""
    from scenekit.model.edits import put_placed, put_scene
    from scenekit.model.scene import Placed
    from scenekit.model.store import load, save

    document = load(project)
    chosen = document.scene(scene)
    document.sprite(sprite)
    new = Placed(
        name=str(given["name"] or sprite),
        sprite=sprite,
        over=str(given["over"]),
        moves_with=str(given["moves_with"] or given["over"]),
        at=pair(str(given["at"]), "--at"),
        animation=str(given["animation"]),
        facing=str(given["facing"]),
        path=parse_path(path, repeat),
        asleep=bool(given["asleep"]),
    )
    known = next((other for other in chosen.placed if other.name == new.name), None)
    what = f"scene {chosen.name}: placed sprite {new.name}"
    check_free(what, known not in (None, new), given["replacing"])
    if given["wakes"]:
        first, last = pair(str(given["wakes"]), "--wakes")
        chosen = replace(chosen, wakes=replace(chosen.wakes, start=first, end=last))
    changed = put_scene(document, put_placed(chosen, new))
    recheck(changed)
    save(changed)
    click.echo(f"scene {chosen.name}: {new.name} over {new.over} at {new.at[0]}, {new.at[1]}")


def parse_path(text: str, repeat: str) -> "ScenePath":
    """Return the path that a text such as '60:3/2,0@walk@right 20:0,0' describes."""
    from scenekit.model.scene import Path as ScenePath
    from scenekit.model.scene import Segment

    segments = []
    for part in text.split():
        match = SEGMENT.fullmatch(part)
        if not match:
            raise click.BadParameter(
                f"got {part!r}; must be TICKS:X,Y such as 60:3/2,0@walk@right", param_hint="--path"
            )
        segments.append(
            Segment(
                ticks=whole(match.group(1), "--path", 1, 30_000),
                speed=(fraction(match.group(2), "--path"), fraction(match.group(3), "--path")),
                animation=match.group(4) or "",
                facing=match.group(5) or "",
            )
        )
    return ScenePath(segments=tuple(segments), repeat=repeat)


@click.command("camera")
@project_argument
@click.option("--scene", help="Scene by name; the first when left out.")
@click.option("--start", default="0,0", metavar="X,Y", show_default=True, help="Where it starts.")
@click.option("--path", default="", help="Stretches TICKS:X,Y with spaces between: ticks, and pixels a tick.")
@repeat_option
@click.option("--ticks", type=click.IntRange(1, 1_000_000), help="Length of the scene.")
@click.option(
    "--limits", metavar="LEFT,TOP,RIGHT,BOTTOM", help="Where its corner may be; kept when left out."
)
@click.option("--keeps", default="", help="A placed sprite that it goes after, instead of a path.")
@click.option("--zone", metavar="X,Y,W,H", help="Part of the view within which that sprite moves freely.")
def camera(project: Path, scene: str | None, start: str, ticks: int | None, **given: str | None) -> None:
    """Set how the camera of a scene moves, and how long the scene is."""
    from scenekit.model.edits import put_scene
    from scenekit.model.store import load, save

    document = load(project)
    chosen = document.scene(scene)
    path = parse_path(given["path"] or "", given["repeat"] or "no")
    keeps, zone = given["keeps"] or "", (0, 0, 1, 1)
    if bool(keeps) != bool(given["zone"]):
        raise click.UsageError("--keeps and --zone belong together")
    if given["zone"]:
        zone = four(given["zone"], "--zone")
    moved = replace(chosen.camera, start=pair(start, "--start"), path=path, keeps=keeps, zone=zone)
    if given["limits"]:
        moved = replace(moved, limits=four(given["limits"], "--limits"))
    changed = put_scene(document, replace(chosen, camera=moved, ticks=ticks or chosen.ticks))
    recheck(changed)
    save(changed)
    way = f"keeps {keeps} in its zone" if keeps else f"{len(path.segments)} stretches"
    click.echo(f"scene {chosen.name}: camera from {start}, {way}")

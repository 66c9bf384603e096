"""How a sprite looks: the commands that give it animations and facings."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from scenekit.cli.shared import check_free, project_argument, recheck, replace_option, whole
from scenekit.errors import ProjectError

if TYPE_CHECKING:
    from scenekit.model.project import Project
    from scenekit.model.sprites import Sheet

OPPOSITE = {"left": ("right", "h"), "right": ("left", "h"), "up": ("down", "v"), "down": ("up", "v")}
"""For each direction the one it mirrors, and by which flip."""


@click.command("animation")
@project_argument
@click.argument("sprite")
@click.argument("name")
@click.option("--sheet", help="Sheet of the frames; may be left out when there is one only.")
@click.option("--frames", default="all", show_default=True, help="Names with commas, a range a..b, or all.")
@click.option(
    "--ticks", default="6", show_default=True, help="Refreshes each frame stays: one number, or one each."
)
@click.option(
    "--play",
    type=click.Choice(["loop", "once", "there-and-back"]),
    default="loop",
    show_default=True,
    help="How the animation goes on.",
)
@click.option("--mirror", is_flag=True, help="Facing left shows the art mirrored left-right.")
@click.option("--spans", is_flag=True, help="Rows of the sprite are exported, for exact collisions.")
@replace_option
def animation(
    project: Path,
    sprite: str,
    name: str,
    sheet: str | None,
    frames: str,
    ticks: str,
    play: str,
    mirror: bool,
    spans: bool,
    replacing: bool,
) -> None:
    """Make frames of a sheet an animation NAME of SPRITE; a new sprite is made when needed."""
    from scenekit.model.edits import put, put_animation, put_facing
    from scenekit.model.fields import NAME_PATTERN
    from scenekit.model.sprites import Animation, Facing, Step
    from scenekit.model.store import load, save

    for value in (sprite, name):
        if not NAME_PATTERN.fullmatch(value):
            raise ProjectError(
                f"name: got {value!r}; must be letters, digits, - and _, at most 40 characters"
            )
    document = load(project)
    source = _sheet(document, sheet)
    names = _frame_names(source, frames)
    counts = [whole(part, "--ticks", 1, 9999) for part in ticks.split(",")]
    if len(counts) not in (1, len(names)):
        raise click.BadParameter(
            f"got {len(counts)} numbers; must be 1 or {len(names)}", param_hint="--ticks"
        )
    counts = counts * len(names) if len(counts) == 1 else counts
    steps = tuple(Step(frame=f, ticks=t) for f, t in zip(names, counts, strict=True))
    new = Animation(name=name, sheet=source.name, play=play, steps=steps)
    old = next((s for s in document.sprites if s.name == sprite), None)
    known = next((a for a in old.animations if a.name == name), None) if old is not None else None
    check_free(f"{sprite}: animation {name}", known not in (None, new), replacing)
    changed = put_animation(document, sprite, new, ())
    if mirror:
        left = put_facing(changed.sprite(sprite), Facing(facing="left", flip=1))
        changed = replace(changed, sprites=put(changed.sprites, left))
    if spans:
        changed = replace(changed, sprites=put(changed.sprites, replace(changed.sprite(sprite), spans=True)))
    save(changed)
    click.echo(f"{sprite}: animation {name}, {len(steps)} steps, {sum(counts)} ticks")


def _sheet(document: "Project", name: str | None) -> "Sheet":
    if name is not None:
        return document.sheet(name)
    if len(document.sheets) != 1:
        known = ", ".join(sheet.name for sheet in document.sheets) or "none yet"
        raise click.UsageError(f"--sheet: name one of the project's sheets: {known}")
    return document.sheets[0]


def _frame_names(sheet: "Sheet", text: str) -> list[str]:
    known = [frame.name for frame in sheet.frames]
    if text == "all":
        names = known
    elif ".." in text:
        first, last = text.split("..", 1)
        for name in (first, last):
            if name not in known:
                raise click.BadParameter(f"sheet {sheet.name} has no frame {name!r}", param_hint="--frames")
        names = known[known.index(first) : known.index(last) + 1]
    else:
        names = [part.strip() for part in text.split(",")]
    if not names:
        raise click.BadParameter(f"got {text!r}; names no frame of sheet {sheet.name}", param_hint="--frames")
    return names


@click.command("facing")
@project_argument
@click.argument("sprite")
@click.argument("direction", type=click.Choice(list(OPPOSITE)))
@click.option(
    "--flip",
    type=click.Choice(["none", "h", "v", "hv"]),
    help="How its art is mirrored; left out, so that it is the opposite of the sprite's first facing.",
)
@click.option(
    "--own",
    default="",
    metavar="ANIMATION=ANIMATION,...",
    help="Animations that are drawn for this facing: walk=walk-up shows walk-up for walk.",
)
def facing(project: Path, sprite: str, direction: str, flip: str | None, own: str) -> None:
    """Let SPRITE face in a DIRECTION: mirrored, or by animations drawn for it."""
    from scenekit.model.edits import put, put_facing
    from scenekit.model.sprites import FLIPS, Facing
    from scenekit.model.store import load, save

    document = load(project)
    found = document.sprite(sprite)
    pairs = _own_pairs(own)
    if flip is None:
        opposite, mirrored = OPPOSITE[direction]
        first = found.facings[0].facing
        if not pairs and first != opposite:
            raise click.UsageError(
                f"{sprite} first faces {first}, of which {direction} is no mirror image; give --flip or --own"
            )
        flip = "none" if pairs else mirrored
    new = Facing(facing=direction, flip=FLIPS.index(flip), own=pairs)
    changed = replace(document, sprites=put(document.sprites, put_facing(found, new)))
    recheck(changed)
    save(changed)
    shown = ", ".join(f"{name} as {drawn}" for name, drawn in pairs)
    mirrored = "as drawn" if flip == "none" else f"flipped {flip}"
    click.echo(f"{sprite}: facing {direction}, {shown or mirrored}")


def _own_pairs(text: str) -> tuple[tuple[str, str], ...]:
    """Return (animation, animation drawn for the facing) from text such as `walk=walk-up`."""
    pairs: dict[str, str] = {}
    for part in filter(None, (part.strip() for part in text.split(","))):
        name, equals, drawn = (piece.strip() for piece in part.partition("="))
        if not (name and equals and drawn) or name in pairs:
            raise click.BadParameter(
                f"got {part[:60]!r}; must be ANIMATION=ANIMATION, each once", param_hint="--own"
            )
        pairs[name] = drawn
    return tuple(sorted(pairs.items()))

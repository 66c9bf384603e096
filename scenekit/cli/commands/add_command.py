"""scenekit add."""

from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, cast

import click

from scenekit.cli.moving import camera, placed
from scenekit.cli.posing import animation, facing
from scenekit.cli.shared import (
    check_free,
    colour,
    four,
    fraction,
    pair,
    project_argument,
    recheck,
    replace_option,
)
from scenekit.errors import ProjectError

if TYPE_CHECKING:
    from scenekit.machines.machine import Machine
    from scenekit.model.project import Project
    from scenekit.model.scene import Plane, Scene


@click.group()
def command() -> None:
    """Add a sprite's animation or facing, a plane, a placed sprite, a camera or a target to a project."""


@command.command("plane")
@project_argument
@click.argument("picture", type=click.Path(path_type=Path))
@click.option("--scene", help="Scene by name; the first when left out, made when new.")
@click.option("--name", help="Name of the plane; the file's name when left out.")
@click.option(
    "--ratio", default="1", show_default=True, help="Pixels it scrolls per pixel of camera, such as 1/4."
)
@click.option("--ratio-y", default="1", show_default=True, help="The same, up and down.")
@click.option("--at", default="0,0", metavar="X,Y", show_default=True, help="Where it stands at camera 0.")
@click.option("--drift", default="0", show_default=True, help="Pixels a tick that it moves by itself.")
@click.option(
    "--cadence", default="1,0", metavar="TICKS,FIRST", show_default=True,
    help="Every how many ticks it shows a new place, and the first of them.",
)  # fmt: skip
@click.option("--tile", default="16x16", metavar="WxH", show_default=True, help="Size of its tiles.")
@click.option("--key", metavar="RRGGBB", help="Colour that stands for nothing.")
@click.option("--once", is_flag=True, help="The picture does not repeat sideways.")
@click.option("--author", default="", help="Who drew it, for the credits.")
@click.option("--licence", default="", help="Under which licence, for the credits.")
@click.option("--source", default="", help="Where it comes from, for the credits.")
@replace_option
def plane(project: Path, picture: Path, scene: str | None, **given: object) -> None:
    """Put PICTURE into a scene as its nearest plane so far: add planes from back to front.

    The layers of an OpenRaster file give one plane each, the rearmost first; a folder or zip of numbered
    pictures gives one for each, in name order. With several, --ratio may name one for each, with commas,
    and --name begins their names.
    """
    from scenekit.model.edits import checked, put_plane, put_scene
    from scenekit.model.store import load, save

    document = load(project)
    changed = _scene(document, scene)
    ratios = str(given["ratio"]).split(",")
    layers = _layers(picture, given)
    if len(ratios) not in (1, len(layers)):
        wanted = "1" if len(layers) == 1 else f"1 or {len(layers)}"
        raise click.BadParameter(f"got {len(ratios)} numbers; must be {wanted}", param_hint="--ratio")
    pictures: dict[str, bytes | None] = {}
    for number, (name, suffix, data) in enumerate(layers):
        file = f"layers/{name}{suffix}"
        ratio = ratios[number % len(ratios)]
        new = _plane(name, file, {**given, "ratio": ratio})
        pictures[file] = _new_picture(document, changed.name, name, file, data)
        known = next((p for p in changed.planes if p.name == name), None)
        taken = known is not None and (known != new or pictures[file] is not None)
        check_free(f"scene {changed.name}: plane {name}", taken, given["replacing"])
        changed = put_plane(changed, new)
    whole = checked(put_scene(document, changed))
    for file, wanted_bytes in pictures.items():
        if wanted_bytes is not None:
            _write_picture(document.folder, file, wanted_bytes)
    save(whole)
    click.echo(
        f"scene {changed.name}: planes from back to front: {', '.join(p.name for p in changed.planes)}"
    )


def _layers(picture: Path, given: dict[str, object]) -> list[tuple[str, str, bytes]]:
    """Return name, suffix and bytes of each plane that a source holds."""
    import io

    from PIL import Image

    from scenekit.errors import ImageReadError
    from scenekit.images import image_kinds, read_pictures
    from scenekit.images.strip import frame_names

    kind = next((name for name, kind in image_kinds().items() if kind.accepts(picture)), None)
    key = None if given["key"] is None else colour(str(given["key"]), "--key")
    pictures = read_pictures(picture, kind=kind, key=key)
    if kind == "animated":
        raise ImageReadError(
            f"{picture}: holds an animation; a plane shows one picture: take one of its steps"
        )
    if kind == "flat":
        name = str(given["name"] or picture.stem)
        return [(name, picture.suffix.lower(), picture.read_bytes())]
    start = f"{given['name']}-" if given["name"] else ""
    layers = []
    for name, read in zip(frame_names(pictures), pictures, strict=True):
        buffer = io.BytesIO()
        Image.fromarray(read.pixels).save(buffer, "PNG")
        layers.append((start + name, ".png", buffer.getvalue()))
    return layers


def _new_picture(document: "Project", scene: str, plane: str, file: str, data: bytes) -> bytes | None:
    """Return what must be written for a plane, or None where it is there already.

    raises   ProjectError: another plane shows another picture of that name
    """
    from scenekit.model.store import inside

    path = inside(document.folder, file)
    if path.is_file() and path.read_bytes() == data:
        return None
    for other in document.scenes:
        for shown in other.planes:
            if shown.picture == file and (other.name, shown.name) != (scene, plane):
                raise ProjectError(
                    f"{file}: plane {shown.name} of scene {other.name} shows another picture of that name; "
                    "choose another --name"
                )
    return data


def _write_picture(folder: Path, file: str, data: bytes) -> None:
    from scenekit.model.store import inside, write_atomically

    path = inside(folder, file)
    try:
        path.parent.mkdir(exist_ok=True)
    except OSError as error:
        raise ProjectError(f"{path.parent}: cannot be written: {error.strerror}") from None
    if path.is_file():
        write_atomically(path.with_name(path.name + ".previous"), path.read_bytes())
    write_atomically(path, data)


def _scene(document: "Project", name: str | None) -> "Scene":
    from scenekit.model.fields import NAME_PATTERN
    from scenekit.model.scene import Camera, Scene

    if name is None and document.scenes:
        return document.scenes[0]
    found = next((scene for scene in document.scenes if scene.name == name), None)
    if found is not None:
        return found
    new = name or "first"
    if not NAME_PATTERN.fullmatch(new):
        raise ProjectError(f"--scene: got {new!r}; must be letters, digits, - and _, at most 40 characters")
    return Scene(
        name=new,
        ticks=600,
        ticks_per_update=1,
        missed="slow",
        backdrop=(0, 0, 0),
        camera=Camera(),
        planes=(),
        placed=(),
        events=(),
    )


def _plane(name: str, file: str, given: dict[str, object]) -> "Plane":
    from scenekit.model.fields import NAME_PATTERN
    from scenekit.model.planes import LONGEST_CADENCE
    from scenekit.model.scene import Plane

    if not NAME_PATTERN.fullmatch(name) or name == "screen":
        raise ProjectError(f"--name: got {name!r}; must be letters, digits, - and _, and not 'screen'")
    tile = pair(str(given["tile"]), "--tile", "x")
    if not all(4 <= side <= 256 for side in tile):
        raise click.BadParameter(f"got {given['tile']}; must be 4 to 256 px a side", param_hint="--tile")
    every, first = pair(str(given["cadence"]), "--cadence")
    if not 1 <= every <= LONGEST_CADENCE or not 0 <= first < every:
        wanted = f"ticks from 1 to {LONGEST_CADENCE} and a first tick below them"
        raise click.BadParameter(f"got {given['cadence']}; must be {wanted}", param_hint="--cadence")
    return Plane(
        name=name,
        picture=file,
        key=None if given["key"] is None else colour(str(given["key"]), "--key"),
        ratio=(fraction(str(given["ratio"]), "--ratio"), fraction(str(given["ratio_y"]), "--ratio-y")),
        drift=(fraction(str(given["drift"]), "--drift"), Fraction(0)),
        wrap=(not given["once"], False),
        offset=pair(str(given["at"]), "--at"),
        cadence=(every, first),
        tile=tile,
        source=str(given["source"]),
        author=str(given["author"]),
        licence=str(given["licence"]),
    )


@command.command("target")
@project_argument
@click.argument("name")
@click.option("--machine", required=True, help="See: scenekit list machines")
@click.option("--mode", required=True, help="Display mode of that machine.")
@click.option("--dialect", required=True, help="See: scenekit list dialects")
@click.option("--colours", type=click.IntRange(2, 256), help="Most palette entries to use.")
@click.option(
    "--view",
    metavar="X,Y,W,H",
    help="The part of the screen that scrolls; left out, that of a target with a screen of the same size.",
)
@replace_option
def target(project: Path, name: str, machine: str, mode: str, dialect: str, **given: object) -> None:
    """Add a target NAME: a machine, one of its display modes, and a dialect."""
    from scenekit.dialects.dialect import load_dialect
    from scenekit.model.edits import put_target
    from scenekit.model.store import load, save
    from scenekit.model.target import Target

    document = load(project)
    display = _machine(document, machine).mode(mode)
    screen = display.width_px, display.height_px
    load_dialect(dialect, document.folder)
    view = _known_view(document, screen) if given["view"] is None else _view(str(given["view"]), screen)
    colours = cast("int | None", given["colours"])
    new = Target(name=name, machine=machine, mode=mode, dialect=dialect, colours=colours, view=view)
    known = next((other for other in document.targets if other.name == name), None)
    check_free(f"target {name}", known not in (None, new), given["replacing"])
    changed = put_target(document, new)
    recheck(changed)
    save(changed)
    shown = f", view {', '.join(map(str, view))}" if view else ""
    click.echo(f"target {name}: {machine}, {mode}, dialect {dialect}{shown}")


def _view(text: str, screen: tuple[int, int]) -> tuple[int, int, int, int]:
    x, y, width, height = four(text, "--view")
    if x < 0 or y < 0 or width < 1 or height < 1 or x + width > screen[0] or y + height > screen[1]:
        wanted = f"X,Y,W,H within the screen of {screen[0]} x {screen[1]} px"
        raise click.BadParameter(f"got {text!r}; must be {wanted}", param_hint="--view")
    return x, y, width, height


def _known_view(document: "Project", screen: tuple[int, int]) -> tuple[int, int, int, int] | None:
    """Return the view of the first target whose screen has this size, None where it has none."""
    from scenekit.errors import SceneKitError

    for other in document.targets:
        try:
            mode = _machine(document, other.machine).mode(other.mode)
        except SceneKitError:  # what is wrong with other targets is theirs
            continue
        if (mode.width_px, mode.height_px) == screen:
            return other.view
    return None


def _machine(document: "Project", name: str) -> "Machine":
    from scenekit.machines.profile import load_machine
    from scenekit.model.store import inside

    return load_machine(inside(document.folder, name) if name.endswith(".toml") else name)


command.add_command(animation)
command.add_command(facing)
command.add_command(placed)
command.add_command(camera)

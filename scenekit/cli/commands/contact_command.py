"""scenekit contact."""

from pathlib import Path

import click

from scenekit.cli.shared import project_argument, save_picture
from scenekit.errors import SceneKitError

MOVING = {".gif": "gif", ".apng": "apng", ".webp": "webp"}


@click.command()
@project_argument
@click.option("--out", type=click.Path(path_type=Path), required=True, help="PNG; GIF, APNG or WEBP to play.")
@click.option("--animations", is_flag=True, help="Show the steps of animations, not the frames of sheets.")
@click.option("--play", "play", metavar="SPRITE:ANIMATION", help="Write one animation as a moving picture.")
@click.option("--facing", default="", help="Play it as this facing shows it.")
@click.option("--target", help="Whose refresh a tick lasts; the first one's where none is named, else 60 Hz.")
@click.option("--scale", type=click.IntRange(1, 16), default=1, show_default=True, help="Of what is played.")
def command(
    project: Path, out: Path, animations: bool, play: str | None, facing: str, target: str | None, scale: int
) -> None:
    """Write a contact sheet of PROJECT: every frame, or every step, with its name; or play an animation.

    A moving picture keeps every step, also one that looks like the step before. GIF counts time in
    hundredths of a second and shows nothing for less than two: APNG and WebP are exact to a millisecond.
    """
    from scenekit.images.art import load_art
    from scenekit.model.store import load
    from scenekit.report.contact import animation_groups, contact_sheet, sheet_groups

    kind = out.suffix.lower()
    if kind not in (MOVING if play else (".png",)):
        allowed = ", ".join(MOVING) if play else ".png"
        raise click.BadParameter(f"got {out.name!r}; must end in {allowed}", param_hint="--out")
    document = load(project)
    sheets = load_art(document).sheets
    if play is None:
        groups = (animation_groups if animations else sheet_groups)(document, sheets)
        if not groups:
            raise SceneKitError(f"{document.name}: nothing to show yet; cut a sheet first")
        save_picture(contact_sheet(groups, document.name), out)
        count = sum(len(group.pictures) for group in groups)
        click.echo(f"{out}: {count} pictures in {len(groups)} groups")
        return
    from scenekit.images.moving import moving_picture, step_times
    from scenekit.model.store import write_atomically
    from scenekit.report.contact import animation_steps, played

    name, _, wanted = play.partition(":")
    sprite = document.sprite(name)
    number = sprite.animation_number(wanted) if wanted else 0
    if number is None or not sprite.animations:
        raise SceneKitError(f"sprite {name}: no animation {wanted!r}")
    if facing and facing not in {f.facing for f in sprite.facings}:
        raise SceneKitError(f"sprite {name}: no facing {facing!r}")
    animation = sprite.animations[number]
    steps = animation_steps(document, sprite, animation, sheets, facing)
    period = _period_ms(project, target)
    times = step_times([step.ticks for step in played(animation)], period, 10 if kind == ".gif" else 1)
    large = [step.repeat(scale, axis=0).repeat(scale, axis=1) for step in steps]
    if not out.parent.is_dir():
        raise SceneKitError(f"{out.parent}: no such folder")
    write_atomically(out, moving_picture(MOVING[kind], large, times))
    click.echo(f"{out}: {len(steps)} steps, {sum(times)} ms a round")


def _period_ms(project: Path, target: str | None) -> float:
    from scenekit.chosen import choose_for
    from scenekit.model.store import load

    document = load(project)
    if target is None and (not document.targets or not document.scenes):
        return 1000 / 60
    chosen = choose_for(document, document.scene(None), document.target(target))
    return float(chosen.mode.timing.period_ms)

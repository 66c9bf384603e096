"""scenekit preview."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from scenekit.cli.shared import Progress, project_argument, save_picture, target_options, ticks
from scenekit.errors import SceneKitError

if TYPE_CHECKING:
    from scenekit.build import Build
    from scenekit.model.arrays import Pixels

MOST_FRAMES = 3000
MOVING = {".png": "apng", ".apng": "apng", ".gif": "gif", ".webp": "webp"}


@click.command()
@project_argument
@target_options
@click.option("--tick", type=click.IntRange(0, 100_000_000), help="One tick, as a PNG.")
@click.option("--ticks", "span", metavar="A:B", help="Ticks A up to, not including, B, as a moving picture.")
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    required=True,
    help="PNG; GIF, PNG, APNG or WEBP for moving pictures.",
)
@click.option("--scale", type=click.IntRange(1, 8), default=1, show_default=True, help="Enlarges each pixel.")
def command(
    project: Path,
    target: str | None,
    scene: str | None,
    tick: int | None,
    span: str | None,
    out: Path,
    scale: int,
) -> None:
    """Draw a tick of a scene of PROJECT as the target will show it, or many as a moving picture.

    A moving PNG or WebP keeps every tick. GIF counts time in hundredths of a second, so that it shows every
    second tick or so at the right speed. Moving palettes can flash: take care who watches.
    """
    from scenekit.build import run_stages
    from scenekit.model.store import load

    if (tick is None) == (span is None):
        raise click.UsageError("name either one --tick or a span --ticks A:B")
    kind = out.suffix.lower()
    if kind not in ((".png",) if span is None else MOVING):
        raise click.BadParameter(
            f"got {out.name!r}; must end in .png (or .gif, .apng, .webp for --ticks)", param_hint="--out"
        )
    build = run_stages(load(project), target, scene, last="colours")
    if tick is not None:
        picture = build.picture(tick)
        save_picture(picture.repeat(scale, axis=0).repeat(scale, axis=1), out)
        click.echo(f"{out}: tick {tick} of {build.scene.name} for {build.target.name}")
        return
    chosen = ticks(span or "")
    if len(chosen) > MOST_FRAMES:
        raise SceneKitError(f"--ticks: got {len(chosen)} ticks; at most {MOST_FRAMES} in one moving picture")
    count = save_moving(build, chosen, out, scale)
    click.echo(f"{out}: {count} pictures for ticks {chosen[0]} to {chosen[-1]} of {build.scene.name}")


def save_moving(build: "Build", chosen: tuple[int, ...], out: Path, scale: int) -> int:
    """Write a moving picture whose steps add up to the right time."""
    from scenekit.images.moving import moving_picture
    from scenekit.model.store import write_atomically

    kind = MOVING[out.suffix.lower()]
    unit_ms, least = (10, 2) if kind == "gif" else (1, 1)
    shown, durations = moving_steps(chosen, float(build.mode.timing.period_ms), unit_ms, least)
    if not out.parent.is_dir():
        raise SceneKitError(f"{out.parent}: no such folder")
    progress = Progress("preview")
    data = moving_picture(kind, Shown(build, shown, scale, progress), durations)
    progress.done()
    write_atomically(out, data)
    return len(shown)


class Shown(Sequence["Pixels"]):
    """Ticks of a scene as pictures, each drawn when asked for."""

    def __init__(self, build: "Build", ticks: Sequence[int], scale: int, progress: Progress) -> None:
        self.build, self.ticks, self.scale, self.progress = build, ticks, scale, progress

    def __len__(self) -> int:
        """Return how many there are."""
        return len(self.ticks)

    def __getitem__(self, number: int) -> "Pixels":  # type: ignore[override]
        """Return a picture, (H, W, 3) uint8."""
        self.progress(f"tick {self.ticks[number]}", number, len(self.ticks))
        return self.build.picture(self.ticks[number]).repeat(self.scale, axis=0).repeat(self.scale, axis=1)


def moving_steps(
    chosen: tuple[int, ...], period_ms: float, unit_ms: int, least: int
) -> tuple[list[int], list[int]]:
    """Return which ticks to show and each one's time in ms.

    A tick is shown when at least `least` units have passed since the one before; times are
    differences of rounded whole times, so that nothing adds up wrongly.
    """
    edges = [round(number * period_ms / unit_ms) for number in range(len(chosen) + 1)]
    shown, starts = [chosen[0]], [0]
    for number in range(1, len(chosen)):
        if edges[number] - starts[-1] >= least:
            shown.append(chosen[number])
            starts.append(edges[number])
    ends = [*starts[1:], max(edges[-1], starts[-1] + least)]
    return shown, [(end - start) * unit_ms for start, end in zip(starts, ends, strict=True)]

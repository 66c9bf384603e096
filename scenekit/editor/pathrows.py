"""A way through the scene as rows: ticks, speed, and what changes at the start of each stretch."""

from dataclasses import replace
from fractions import Fraction

from scenekit.editor.arithmetic import whole
from scenekit.editor.desk import Desk
from scenekit.editor.form import speed
from scenekit.editor.ui import Column
from scenekit.model.paths import REPEATS, Path, Segment


def draw_path(
    desk: Desk, column: Column, name: str, path: Path, hz: float, looks: tuple[list[str], list[str]] | None
) -> Path | None:
    """Draw a path as rows; return it changed. looks: animations and facings that a stretch may change to."""
    ui = desk.ui
    changed: Path | None = None
    row, gap = ui.px(28), ui.px(6)
    parts = [0.2, 0.2, 0.2] if looks else [0.3, 0.27, 0.27]
    words = ["ticks", "px a tick", "down", "shows", "faces"] if looks else ["ticks", "px a tick", "down"]
    shares = [*parts, 0.2, 0.2] if looks else parts
    inner = column.w - ui.px(30)
    x = column.x
    for word, share in zip(words, shares, strict=True):
        ui.label(x + 4, column.y + ui.px(8), word)
        x += inner * share
    column.y += ui.px(18)
    units = {"s": Fraction(round(hz * 1000), 1000), "ticks": Fraction(1)}
    for number, part in enumerate(path.segments):
        box = column.take(row, gap)
        x = box[0]
        places = []
        for share in shares:
            places.append((x, box[1], inner * share - 6, row))
            x += inner * share
        new: Segment | None = None
        ticks = ui.field(
            f"{name}:{number}:ticks",
            places[0],
            str(part.ticks),
            lambda t: whole(t, 1, 30_000, units),
            tip="How long: ticks, or seconds such as 2 s.",
        )
        if ticks is not None:
            new = replace(part, ticks=ticks)
        for axis in (0, 1):
            value = ui.field(
                f"{name}:{number}:{'xy'[axis]}",
                places[1 + axis],
                str(part.speed[axis]),
                speed,
                tip="Pixels a tick, exact: 3/4, -1, 0.5.",
            )
            if value is not None:
                pair = (value, part.speed[1]) if axis == 0 else (part.speed[0], value)
                new = replace(part, speed=pair)
        if looks:
            for place, key, options, now in (
                (places[3], "animation", looks[0], part.animation),
                (places[4], "facing", looks[1], part.facing),
            ):
                picked = ui.choice(
                    f"{name}:{number}:{key}", place, ["as before", *options], now or "as before"
                )
                if picked is not None:
                    value = "" if picked == "as before" else picked
                    new = (
                        replace(part, animation=value) if key == "animation" else replace(part, facing=value)
                    )
        if new is not None:
            changed = replace(path, segments=(*path.segments[:number], new, *path.segments[number + 1 :]))
        if ui.button(
            f"{name}:{number}:drop",
            (column.x + inner + 2, box[1], ui.px(26), row),
            "-",
            kind="quiet",
            tip="Take this stretch out.",
        ):
            changed = replace(path, segments=(*path.segments[:number], *path.segments[number + 1 :]))
    box = column.take(row, gap)
    if ui.button(f"{name}:add", (box[0], box[1], ui.px(110), row), "Add a stretch"):
        last = path.segments[-1] if path.segments else Segment(ticks=60, speed=(Fraction(1), Fraction(0)))
        changed = replace(path, segments=(*path.segments, replace(last, animation="", facing="")))
    picked = ui.segments(
        f"{name}:repeat",
        (box[0] + ui.px(118), box[1], box[2] - ui.px(118), row),
        REPEATS,
        path.repeat,
        tip="After the last stretch: stay, begin again, or go on from there.",
    )
    if picked is not None:
        changed = replace(path, repeat=picked)
    return changed

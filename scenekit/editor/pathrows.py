"""A way through the scene as rows: stretches of speed or of a shape, and what changes at each."""

from dataclasses import dataclass, replace
from fractions import Fraction

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.editor.form import Form, parted
from scenekit.editor.pathshapes import shape_fields, speed_fields
from scenekit.editor.ui import Column
from scenekit.model.paths import REPEATS, SHAPES, Path, Segment, Shape

KINDS = ("speed", *SHAPES)
FAR_PX = 200
ONE, NONE = Fraction(1), Fraction(0)
FRESH = {
    "ease": Shape(kind="ease", by=(60, 0), curve="ease-in-out"),
    "drive": Shape(kind="drive", by=(120, 0), top=Fraction(2), gain=Fraction(1, 16), brake=Fraction(1, 8)),
    "jump": Shape(kind="jump", push=8, pull=1),
    "circle": Shape(kind="circle", radius=24),
    "wave": Shape(kind="wave", radius=6, period=40),
}
"""Shapes as they begin."""

TIPS = {
    "speed": "So many ticks at one speed.",
    "ease": "So far along an easing curve: slow, faster, slow.",
    "drive": "So far from rest to rest: it gathers speed and brakes.",
    "jump": "Up with a push, pulled down again.",
    "circle": "Round a circle.",
    "wave": "Up and down while it goes on.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Looks:
    """Animations and facings that a stretch may change to."""

    animations: tuple[str, ...]
    facings: tuple[str, ...]


def fresh_segment(kind: str, last: Segment | None) -> Segment:
    """Return a new stretch of a kind; one of speed goes on as the last one."""
    if kind == "speed":
        plain = last is not None and last.shape is None
        return (
            replace(last, animation="", facing="") if plain and last else Segment(ticks=60, speed=(ONE, NONE))
        )
    timed = kind in ("ease", "circle", "wave")
    speed = (ONE, NONE) if kind in ("jump", "wave") else (NONE, NONE)
    return Segment(ticks=60 if timed else 0, speed=speed, shape=FRESH[kind])


def draw_path(
    desk: Desk, column: Column, name: str, path: Path, hz: float, looks: Looks | None
) -> Path | None:
    """Draw a path as rows; return it changed."""
    form = Form(desk.ui, column, name)
    ui = desk.ui
    units = {"s": Fraction(round(hz * 1000), 1000), "ticks": ONE}
    changed: Path | None = None
    if any(segment.shape is None for segment in path.segments):
        _heads(form, looks)
    for number, part in enumerate(path.segments):
        if part.shape is None and _far_off(desk, column.y):
            column.take(ui.px(28), ui.px(6))
            continue
        new = _stretch(form, number, part, looks, units)
        if new is not None:
            changed = replace(path, segments=(*path.segments[:number], *new, *path.segments[number + 1 :]))
    x, y, w, h = column.take(ui.px(28), ui.px(6))
    kind = desk.local.get("stretch-kind", "speed")
    left, right = parted((x, y, min(w, ui.px(250)), h), (1.2, 1))
    if form.button("add", left, "Add a stretch", tip=TIPS[kind]):
        last = path.segments[-1] if path.segments else None
        changed = replace(path, segments=(*path.segments, fresh_segment(kind, last)))
    picked = form.choice(
        "kind", right, KINDS, kind, tip="What the next stretch will be: one speed, or a shape."
    )
    if picked is not None:
        desk.local["stretch-kind"] = picked
    if not path.segments:
        return changed
    repeat = form.either(
        "repeat", form.line("then"), REPEATS, path.repeat,
        tip="After the last stretch: stay, begin again from the start place, or go on from there.",
    )  # fmt: skip
    if repeat is not None:
        changed = replace(path, repeat=repeat)
    return (_following(form, path, looks) if looks else None) or changed


def _far_off(desk: Desk, y: float) -> bool:
    """Say whether a row is far out of sight while the scene plays, and need not be drawn."""
    bottom = desk.ui.backend.surface.get_height()
    return desk.session.playing.plays and not -FAR_PX < y < bottom + FAR_PX


def _following(form: Form, path: Path, looks: Looks) -> Path | None:
    """Whether the facing follows the way, and what is played at each turn back."""
    left, right = form.split("faces", (1.3, 1))
    words = ("as said", "where it goes")
    picked = form.either(
        "follow", left, words, words[path.follow],
        tip="Where it goes: the facing follows the direction, and a turn can be played at each reversal.",
    )  # fmt: skip
    if picked is not None:
        follow = picked == words[1]
        return replace(path, follow=follow, turn=path.turn if follow else "")
    if not path.follow:
        return None
    none = "no turn"
    chosen = form.choice(
        "turn", right, (none, *looks.animations), path.turn or none,
        tip="The animation that is played whenever it turns back.",
    )  # fmt: skip
    return None if chosen is None else replace(path, turn="" if chosen == none else chosen)


def _shares(looks: Looks | None) -> tuple[float, ...]:
    return (1, 1, 1, 1, 1.3, 1.1, 0.6) if looks else (1, 1, 1, 0.6)


def _heads(form: Form, looks: Looks | None) -> None:
    ui, column = form.ui, form.column
    words = ("", "ticks", "px a tick", "down", "shows", "faces") if looks else ("ticks", "px a tick", "down")
    places = parted((column.x, column.y, column.w, ui.px(18)), _shares(looks))
    for word, place in zip(words, places, strict=False):
        ui.label(place[0] + 4, place[1] + ui.px(8), word, place[2])
    column.y += ui.px(18)


def _stretch(
    form: Form, number: int, part: Segment, looks: Looks | None, units: dict[str, Fraction]
) -> list[Segment] | None:
    """One stretch; return what stands in its place."""
    places = parted(form.column.take(form.ui.px(28), form.ui.px(6)), _shares(looks))
    new: Segment | None = None
    if looks:
        kind = part.shape.kind if part.shape is not None else "speed"
        picked = form.choice(f"{number}:kind", places[0], KINDS, kind, tip=TIPS[kind])
        if picked is not None:
            fresh = fresh_segment(picked, None)
            return [replace(fresh, animation=part.animation, facing=part.facing)]
        new = _changes(form, number, part, looks, places[4], places[5])
    if form.button(f"{number}:drop", places[-1], "Out", kind="quiet", tip="Take this stretch out."):
        return []
    if part.shape is None:
        new = speed_fields(form, number, part, places[1:4] if looks else places[:3], units) or new
    else:
        if not looks:
            x, y, _, h = places[0]
            form.ui.text(x + 4, y + h / 2, part.shape.kind)
        else:
            words = TIPS[part.shape.kind].rstrip(".").split(":")[0]
            x, y = places[1][:2]
            room = places[3][0] + places[3][2] - x
            form.ui.text(x + 4, y + places[1][3] / 2, words, "small", form.ui.look.quiet, room=room)
        new = shape_fields(form, number, part, units) or new
    return None if new is None else [new]


def _changes(form: Form, number: int, part: Segment, looks: Looks, shows: Box, faces: Box) -> Segment | None:
    none = "as before"
    picked = form.choice(
        f"{number}:animation", shows, (none, *looks.animations), part.animation or none,
        tip="The animation that begins with this stretch.",
    )  # fmt: skip
    if picked is not None:
        return replace(part, animation="" if picked == none else picked)
    picked = form.choice(
        f"{number}:facing", faces, (none, *looks.facings), part.facing or none,
        tip="Where it faces from here on.",
    )  # fmt: skip
    return None if picked is None else replace(part, facing="" if picked == none else picked)

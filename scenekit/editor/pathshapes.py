"""The fields of one stretch of a path: of one speed, or of each shape."""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from scenekit.editor.backend import Box
from scenekit.editor.form import Form, parted
from scenekit.model.paths import CORNERS, LONGEST_TICKS, Segment, Shape
from scenekit.motion.easing import parse_easing

FAR = 32_767
WIDE_FROM = 420
"""From this width on, unscaled px, a shape's fields stand in one row."""


def ticks_field(
    form: Form, number: int, part: Segment, box: Box, units: dict[str, Fraction], unit: str
) -> Segment | None:
    ticks = form.whole(
        f"{number}:ticks", box, part.ticks, 1, LONGEST_TICKS, unit=unit, units=units,
        tip="How long: ticks, or seconds such as 2 s.",
    )  # fmt: skip
    return None if ticks is None else replace(part, ticks=ticks)


def speed_fields(
    form: Form, number: int, part: Segment, places: list[Box], units: dict[str, Fraction], words: bool = False
) -> Segment | None:
    new = ticks_field(form, number, part, places[0], units, "ticks" if words else "")
    for axis in (0, 1):
        value = form.exact(
            f"{number}:{'xy'[axis]}", places[1 + axis], part.speed[axis],
            unit=("a tick", "down")[axis] if words else "", tip="Pixels a tick, exact: 3/4, -1, 0.5.",
        )  # fmt: skip
        if value is not None:
            new = replace(part, speed=(value, part.speed[1]) if axis == 0 else (part.speed[0], value))
    return new


def shape_fields(form: Form, number: int, part: Segment, units: dict[str, Fraction]) -> Segment | None:
    """The fields of a shape, in a row of their own."""
    assert part.shape is not None
    draw = {"ease": _ease, "drive": _drive, "jump": _jump, "circle": _circle, "wave": _wave}[part.shape.kind]
    return draw(form, number, part, part.shape, units)


def _room(form: Form, shares: tuple[float, ...]) -> list[Box]:
    """Return boxes for fields in one row, or in two where the column is narrow."""
    ui = form.ui
    if form.column.w >= ui.px(WIDE_FROM) or len(shares) < 4:
        return parted(form.column.take(ui.px(28), ui.px(6)), shares)
    half = (len(shares) + 1) // 2
    boxes = parted(form.column.take(ui.px(28), ui.px(4)), shares[:half])
    return boxes + parted(form.column.take(ui.px(28), ui.px(6)), shares[half:])


def _by(form: Form, number: int, part: Segment, shape: Shape, boxes: list[Box]) -> Segment | None:
    for axis, word in ((0, "across"), (1, "down")):
        by = form.whole(
            f"{number}:by-{word}",
            boxes[axis],
            shape.by[axis],
            -FAR,
            FAR,
            unit=f"px {word}",
            tip="How far it goes.",
        )
        if by is not None:
            way = (by, shape.by[1]) if axis == 0 else (shape.by[0], by)
            return replace(part, shape=replace(shape, by=way))
    return None


def _ease(form: Form, number: int, part: Segment, shape: Shape, units: dict[str, Fraction]) -> Segment | None:
    boxes = _room(form, (1, 1, 1, 1.5))
    new = ticks_field(form, number, part, boxes[0], units, "ticks") or _by(
        form, number, part, shape, boxes[1:3]
    )
    tip = "A curve of CSS: linear, ease, ease-in, ease-out, ease-in-out, steps(4, end), cubic-bezier(...)."
    curve = form.text(f"{number}:curve", boxes[3], shape.curve, _curve, tip=tip)
    return new if curve is None else replace(part, shape=replace(shape, curve=curve))


def _curve(text: str) -> str:
    parse_easing("curve", text.strip())
    return text.strip()


def _drive(
    form: Form, number: int, part: Segment, shape: Shape, units: dict[str, Fraction]
) -> Segment | None:
    boxes = _room(form, (1.2, 1.2, 1, 1, 1))
    new = _by(form, number, part, shape, boxes)
    rows: tuple[tuple[str, Fraction, str], ...] = (
        ("top", shape.top, "Pixels a tick at most."),
        ("gain", shape.gain, "Pixels a tick that each tick adds."),
        ("brake", shape.brake, "Pixels a tick that each tick takes away at the end."),
    )
    for box, (word, value, tip) in zip(boxes[2:], rows, strict=True):
        given = form.exact(f"{number}:{word}", box, value, unit=word, tip=tip, above=0)
        if given is not None:
            new = replace(part, shape=_with(shape, word, given))
    return new


def _with(shape: Shape, word: str, value: Fraction) -> Shape:
    make: dict[str, Callable[[], Shape]] = {
        "top": lambda: replace(shape, top=value),
        "gain": lambda: replace(shape, gain=value),
        "brake": lambda: replace(shape, brake=value),
    }
    return make[word]()


def _jump(form: Form, number: int, part: Segment, shape: Shape, units: dict[str, Fraction]) -> Segment | None:
    boxes = _room(form, (1, 1, 1))
    new: Segment | None = None
    push = form.whole(f"{number}:push", boxes[0], shape.push, 1, 1000, unit="push", tip="Px a tick upward.")
    pull = form.whole(
        f"{number}:pull",
        boxes[1],
        shape.pull,
        1,
        1000,
        unit="pull",
        tip="Px a tick that each tick takes off.",
    )
    across = form.exact(
        f"{number}:x", boxes[2], part.speed[0], unit="across", tip="Px a tick sideways meanwhile."
    )
    if push is not None or pull is not None:
        new = replace(part, shape=replace(shape, push=push or shape.push, pull=pull or shape.pull))
    return new if across is None else replace(part, speed=(across, part.speed[1]))


def _circle(
    form: Form, number: int, part: Segment, shape: Shape, units: dict[str, Fraction]
) -> Segment | None:
    boxes = _room(form, (1, 1, 1, 1.1))
    new = ticks_field(form, number, part, boxes[0], units, "ticks")
    radius = form.whole(f"{number}:radius", boxes[1], shape.radius, 1, 4000, unit="radius", tip="In pixels.")
    turns = form.exact(
        f"{number}:turns",
        boxes[2],
        shape.turns,
        unit="turns",
        tip="1/2 is half a circle; -1 runs the other way.",
    )
    corner = form.choice(f"{number}:corner", boxes[3], CORNERS, shape.corner, tip="The side it begins at.")
    if radius is not None:
        new = replace(part, shape=replace(shape, radius=radius))
    if turns:
        new = replace(part, shape=replace(shape, turns=turns))
    return new if corner is None else replace(part, shape=replace(shape, corner=corner))


def _wave(form: Form, number: int, part: Segment, shape: Shape, units: dict[str, Fraction]) -> Segment | None:
    boxes = _room(form, (1, 1, 1, 1, 1))
    new = speed_fields(form, number, part, [boxes[0], boxes[3], boxes[4]], units, words=True)
    radius = form.whole(
        f"{number}:radius",
        boxes[1],
        shape.radius,
        1,
        4000,
        unit="high",
        tip="Pixels up and down from its way.",
    )
    period = form.whole(
        f"{number}:period", boxes[2], shape.period, 2, LONGEST_TICKS, unit="period", tip="Ticks of one wave."
    )
    if radius is not None:
        new = replace(part, shape=replace(shape, radius=radius))
    return new if period is None else replace(part, shape=replace(shape, period=period))

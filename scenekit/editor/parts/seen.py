"""The scene as others see it: behind a resistor DAC, with three kinds of colour blindness, and its errors."""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from typing import Any

import numpy as np
from numpy.typing import NDArray

from scenekit.editor.desk import Desk
from scenekit.editor.form import Form
from scenekit.editor.moving import plain_project, plain_scene, steered
from scenekit.editor.ui import Column
from scenekit.errors import MachineError, ProjectError, SceneKitError

Bytes = NDArray[np.uint8]
Maker = tuple[tuple[Any, ...], Callable[[], tuple[Bytes, Bytes] | None]]
WAYS = ("DAC", "no red", "no green", "no blue", "errors")
KINDS = {"no red": "protan", "no green": "deutan", "no blue": "tritan"}
SCALE = 16
"""Error bytes hold 1 + 16 for each step of CIEDE2000; 0 is what is not drawn."""

PLAIN_ERROR = 5.0
NARROW = 190
"""Words stand under the picture where less is left beside it, unscaled px."""

LATE_TICKS = 6
"""So much older than the scene beside it the other picture may be while the scene plays."""


def draw_seen(desk: Desk, column: Column) -> None:
    """Draw the tick on show once more, as it is seen another way, beside what that way is."""
    ui = desk.ui
    form = Form(ui, column, "seen")
    ui.heading(column, "Seen another way", "the scene beside shows it in sRGB")
    way = desk.local.setdefault("seen-way", WAYS[0])
    x, y, w, h = column.take(ui.px(28), ui.px(10))
    picked = form.either("way", (x, y, w, h), WAYS, way, tip=TIPS)
    if picked is not None:
        desk.local["seen-way"] = way = picked
    shown: tuple[Bytes, Bytes] | None = desk.local.get("shown")
    top = column.y
    if shown is None:
        form.note("There is no picture yet.")
        return
    high, wide = shown[0].shape
    scale = (
        max(1, int(min(column.w * 0.62 // wide, 3))) if wide <= column.w * 0.62 else column.w * 0.62 / wide
    )
    size = (round(wide * scale), round(high * scale))
    inner = Column(column.x + size[0] + ui.px(16), top, column.w - size[0] - ui.px(16))
    if inner.w < ui.px(NARROW):
        inner = Column(column.x, top + size[1] + ui.px(10), column.w)
    beside = Form(ui, inner, "seen", 70)
    maker = _maker(desk, beside, way)
    if maker is not None and _follow(desk, maker):
        ui.mark("seen:picture", (column.x, top, *size))
        ui.backend.image(desk.local["seen-picture"], (column.x, top, *size))
    column.y = max(top + size[1], inner.y) + ui.px(18)


TIPS = (
    "Behind a DAC of resistors; to people without red, green or blue cones; "
    "or how far reduction moved each pixel. Nothing of this changes the project."
)


def _follow(desk: Desk, maker: Maker) -> bool:
    """Keep the other picture up to the tick on show; say whether there is one.

    While the scene plays the lighter frames do so, and a whole frame takes what they left.
    """
    settings, make = maker

    def follow() -> None:
        tick = desk.session.playing.tick
        picture = desk.remember("seen-made", make, desk.local["shown"][0], settings)
        desk.local["seen-for"] = settings, tick, picture is not None
        if picture is None or desk.local.get("seen-content") is picture:
            return
        desk.local["seen-content"] = picture
        if "seen-picture" not in desk.local:
            desk.local["seen-picture"] = desk.ui.backend.add_picture(picture[1][picture[0]])
        desk.ui.backend.set_indexed(desk.local["seen-picture"], *picture)

    desk.ahead.append(follow)
    playing = desk.session.playing
    kept, tick, _ = desk.local.get("seen-for", ((), 0, False))
    if not (playing.plays and kept == settings and 0 <= playing.tick - tick <= LATE_TICKS):
        follow()
    return bool(desk.local["seen-for"][2])


def _maker(desk: Desk, form: Form, way: str) -> Maker | None:
    """Write what the other picture is; return what it hangs on beside the scene, and what makes it."""
    if way == "errors":
        return _errors(desk, form)
    if way in KINDS:
        from scenekit.colour.vision import as_seen

        form.note(
            f"As people see it who have {way} cones (Machado, Oliveira, Fernandes 2009). "
            "Things that must be told apart should still differ in lightness."
        )

        def seen() -> tuple[Bytes, Bytes]:
            indices, palette = desk.local["shown"]
            return indices, as_seen(palette, KINDS[way])

        return (way,), seen
    return _behind(desk, form)


def resistors_of(text: str) -> tuple[float, ...]:
    """Return ohms from a text such as `510 1000 2000 4300`, highest bit first.

    raises   ProjectError: not 1 to 8 values
    """
    try:
        found = tuple(float(word) for word in text.replace(",", " ").split())
    except ValueError:
        raise ProjectError(f"got {text[:30]!r}; must be ohms such as 510 1000 2000 4300") from None
    if not 1 <= len(found) <= 8 or not all(0 < ohm < 1e9 for ohm in found):
        raise ProjectError(f"got {len(found)} resistors; must be 1 to 8, each above 0 ohm")
    return found


def _first_ladder(desk: Desk) -> dict[str, Any]:
    """Return resistors to begin with: as many as the mode has bits of a colour, of values that are sold."""
    from scenekit.colour.dac import ideal_resistors, preferred_resistor
    from scenekit.colour.depth import parse

    depth = parse(desk.product.mode.depth).bits if desk.product and desk.product.mode else (4, 4, 4)
    volts = Fraction(33, 10)
    exact = ideal_resistors(min(8, max(depth)), float(volts))
    return {"ohms": tuple(preferred_resistor(ohm) for ohm in exact), "volts": volts, "tolerance": 5}


def _behind(desk: Desk, form: Form) -> Maker | None:
    """The scene behind three equal ladders of resistors."""
    from scenekit.colour.dac import Ladder, linearity, shown_picture

    state: dict[str, Any] = desk.local.setdefault("seen-ladder", _first_ladder(desk))
    text = " ".join(f"{ohm:g}" for ohm in state["ohms"])
    ohms = form.text(
        "ohms", form.line("ohms"), text, resistors_of,
        tip="Resistors of each colour, highest bit first, such as 510 1000 2000 4300.",
    )  # fmt: skip
    if ohms is not None:
        state["ohms"] = ohms
    volts = form.exact("volts", form.line("supply"), state["volts"], unit="V", above=0, tip="Volts of a bit.")
    if volts is not None:
        state["volts"] = volts
    tolerance = form.whole("tolerance", form.line("parts"), state["tolerance"], 0, 50, unit="% off")
    if tolerance is not None:
        state["tolerance"] = tolerance
    try:
        ladder = Ladder(
            resistors_ohm=state["ohms"],
            supply_v=float(state["volts"]),
            tolerance_percent=float(state["tolerance"]),
        )
    except MachineError as error:
        form.note(str(error), "alarm")
        return None
    facts = desk.remember("seen-linear", lambda: linearity(ladder), tuple(state.values()))
    rises = "Every code is brighter than the one before" if facts.rising else "Some codes are no brighter"
    always = ", whatever the parts." if facts.rising_always else ", but not with every draw of parts."
    level = "good" if facts.rising and facts.rising_always else "note"
    form.note(f"{rises}{always if facts.rising else '.'}", level)
    form.note(f"White is {facts.full_scale_v:.2f} V into 75 ohm; 0.70 V is meant.")

    def make() -> tuple[Bytes, Bytes]:
        indices, palette = desk.local["shown"]
        return indices, shown_picture(palette, (ladder, ladder, ladder))

    return tuple(state.values()), make


def _error_bytes(picture: Bytes, palette: Bytes, indices: Bytes) -> Bytes:
    """Return errors as bytes, 0 where the picture is clear."""
    from scenekit.colour.depth import OPAQUE_ALPHA
    from scenekit.colour.error_map import pixel_errors

    errors = np.clip(np.rint(pixel_errors(picture, palette, indices) * SCALE), 0, 254).astype(np.uint8) + 1
    return np.where(picture[..., 3] >= OPAQUE_ALPHA, errors, 0).astype(np.uint8)


def error_art(art: Any, look: Any) -> Any:
    """Return reduced art whose entries are errors, so that the renderer draws where reduction hurts."""
    return replace(
        look,
        transparent=0,
        sheets={
            name: _error_bytes(art.sheets[name], look.palette, look.sheets[name]) for name in look.sheets
        },
        planes={key: _error_bytes(art.planes[key], look.palette, look.planes[key]) for key in look.planes},
        backdrops=dict.fromkeys(look.backdrops, 1),
        covers=dict.fromkeys(look.covers, 1),
    )


def error_palette() -> Bytes:
    """Return a colour for each error byte: dark where it is hardly seen, light where it is plain."""
    from scenekit.colour.error_map import error_colours

    return error_colours(np.maximum(0, np.arange(256) - 1) / SCALE)


def _errors(desk: Desk, form: Form) -> Maker | None:
    """The scene in shades of how far each pixel is from its own colour."""
    from scenekit.render.screen import screen_indices

    product, session = desk.product, desk.session
    project, plain = plain_project(desk), plain_scene(desk)
    if product is None or product.look is None or product.art is None or product.mode is None:
        return None
    if project is None or plain is None or session.scene is None or not product.made:
        return None
    look, art = product.look, product.art
    made_art = desk.remember("error-art", lambda: error_art(art, look), art, look)
    form.note("Dark: hardly seen. Light: plain at a glance (CIEDE2000 of 5 and more).")
    worst = sorted(look.picture_error.items(), key=lambda pair: (-pair[1], pair[0]))[:4]
    for name, error in worst:
        form.note(f"{name.replace('scene ', '')}: {error:.1f}", "note" if error > PLAIN_ERROR else "good")
    screen = (product.mode.width_px, product.mode.height_px)
    view = (session.target.view if session.target else None) or (0, 0, *screen)

    def draw() -> tuple[Bytes, Bytes] | None:
        try:
            scene = steered(desk, plain)
            return screen_indices(
                project, scene, made_art, screen, view, session.playing.tick
            ), error_palette()
        except SceneKitError:
            return None

    return ("errors", id(made_art), id(project), id(plain), view), draw

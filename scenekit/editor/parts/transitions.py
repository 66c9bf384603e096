"""Transitions: cells that cover or open the view one after another, each with pictures of its course."""

from dataclasses import replace
from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.editor.form import Form, fresh_name, parted, read_name
from scenekit.editor.history import Edit
from scenekit.editor.moving import refresh_hz
from scenekit.editor.ui import Column
from scenekit.errors import SceneKitError
from scenekit.model.edits import put_scene
from scenekit.model.events import COVERS, SIDES, Transition
from scenekit.model.named import with_named, without_named
from scenekit.model.scene import Scene

MOMENTS = (0.15, 0.4, 0.65, 0.9)
USUAL_CELLS = 320
GROUND = (176, 179, 184)


def view_of(desk: Desk) -> tuple[int, int]:
    """Return (width, height) of the view in pixels."""
    target, product = desk.session.target, desk.product
    if target is not None and target.view is not None:
        return target.view[2], target.view[3]
    mode = product.mode if product is not None else None
    return (mode.width_px, mode.height_px) if mode is not None else (320, 200)


def draw_transitions(desk: Desk, column: Column, scene: Scene) -> Edit | None:
    """Draw the transitions of a scene; return an edit."""
    ui = desk.ui
    ui.heading(column, "Transitions", f"{len(scene.transitions)} in scene {scene.name}")
    chosen = desk.local.get("transition", "")
    edit: Edit | None = None
    for transition in scene.transitions:
        box = column.take(ui.px(48), ui.px(4))
        if _row(desk, box, scene, transition, transition.name == chosen):
            desk.local["transition"] = chosen = "" if transition.name == chosen else transition.name
        if transition.name == chosen:
            edit = _fields(desk, Form(ui, column, "transition"), scene, transition) or edit
    return _add(desk, Form(ui, column, "transition"), scene) or edit


def _row(desk: Desk, box: Box, scene: Scene, transition: Transition, chosen: bool) -> bool:
    ui = desk.ui
    x, y, w, h = box
    felt = ui.row(f"transition-row:{transition.name}", box, chosen=chosen, tip="Press to see and change it.")
    weight = "bold" if chosen else "regular"
    ui.text(x + 12, y + ui.px(15), transition.name, weight=weight, room=w * 0.4 - 16)
    what = f"{'opens' if transition.opens else 'covers'}, {transition.kind}"
    words = f"{what}, ticks {transition.tick} to {transition.tick + transition.ticks}"
    ui.text(x + 12, y + ui.px(33), words, "small", ui.look.quiet, room=w * 0.48 - 16)
    view = view_of(desk)
    size = ((h - 8) * view[0] / view[1], h - 8)
    for number, moment in enumerate(MOMENTS):
        left = x + w - (len(MOMENTS) - number) * (size[0] + 5)
        if left < x + w * 0.48:
            continue
        mask = _mask(desk, scene, transition, view, moment)
        place = (left, y + 4, *size)
        ui.fill(place, GROUND)
        if mask is not None:
            ui.backend.image(desk.picture(mask), place)
        ui.frame(place, ui.look.rule)
    return felt.clicked


def _mask(
    desk: Desk, scene: Scene, transition: Transition, view: tuple[int, int], moment: float
) -> NDArray[np.uint8] | None:
    """Return the covered cells at a moment as a small picture; None where its cells do not fit."""
    from scenekit.motion.covers import covered_at, turnover_of

    def make() -> NDArray[np.uint8] | None:
        try:
            turns = turnover_of(transition, view, scene.name)
        except SceneKitError:
            return None
        first, last = covered_at(transition, turns, transition.tick + round(moment * transition.ticks))
        covered = np.zeros(len(turns.order), dtype=bool)
        covered[turns.order[first:last]] = True
        cells = covered.reshape(-1, turns.columns)
        picture = np.zeros((*cells.shape, 4), dtype=np.uint8)
        picture[cells] = (*transition.colour, 255)
        return picture

    made: NDArray[np.uint8] | None = desk.remember(
        f"transition {transition.name} {moment}", make, transition, view
    )
    return made


def _put(desk: Desk, scene: Scene, transition: Transition, old_name: str = "") -> Edit:
    changed = replace(scene, transitions=with_named(scene.transitions, transition, old_name))
    return Edit(document=put_scene(desk.session.document, changed), label=f"transition {transition.name}")


def _fields(desk: Desk, form: Form, scene: Scene, transition: Transition) -> Edit | None:
    units = {"s": Fraction(round(refresh_hz(desk) * 1000), 1000), "ticks": Fraction(1)}
    name, drop = form.split("name", (2, 1))
    text = form.text("name", name, transition.name, read_name)
    if text is not None:
        desk.local["transition"] = text
        return _put(desk, scene, replace(transition, name=text), transition.name)
    if form.button("drop", drop, "Take it out", kind="quiet"):
        changed = replace(scene, transitions=without_named(scene.transitions, transition.name))
        return Edit(document=put_scene(desk.session.document, changed), label=f"taking out {transition.name}")
    new = _kind(form, transition)
    first, long = form.split("begins", (1, 1))
    tick = form.whole("tick", first, transition.tick, 0, 1_000_000, unit="tick", tip="When it begins.")
    ticks = form.whole("ticks", long, transition.ticks, 1, 9999, unit="ticks long", units=units)
    if tick is not None:
        new = replace(transition, tick=tick)
    if ticks is not None:
        new = replace(transition, ticks=ticks)
    wide, high, tint = form.split("cells", (1, 1, 1.3))
    for axis, box, word in ((0, wide, "wide"), (1, high, "high")):
        value = form.whole(
            f"cell-{word}", box, transition.cell[axis], 1, 1024, unit=word,
            tip="A cell's side in pixels; it must divide the view.",
        )  # fmt: skip
        if value is not None:
            cell = (value, transition.cell[1]) if axis == 0 else (transition.cell[0], value)
            new = replace(transition, cell=cell)
    colour = form.colour("colour", tint, transition.colour, tip="The colour that covers.")
    if colour is not None:
        new = replace(transition, colour=colour)
    view = view_of(desk)
    if view[0] % transition.cell[0] or view[1] % transition.cell[1]:
        sides = ", ".join(str(n) for n in range(4, 65) if view[0] % n == 0 and view[1] % n == 0)
        form.note(f"Cells must divide the view of {view[0]} x {view[1]}: {sides} do for both sides.", "alarm")
    form.column.y += form.ui.px(8)
    return None if new is None else _put(desk, scene, new)


def _kind(form: Form, transition: Transition) -> Transition | None:
    kinds, ways = form.split("runs as", (1.6, 1))
    picked = form.either(
        "kind", kinds, COVERS, transition.kind,
        tip="A wipe runs to a side, a dissolve has no pattern, an iris runs from the middle.",
    )  # fmt: skip
    if picked is not None:
        return replace(transition, kind=picked)
    words = ("covers", "opens")
    picked = form.either("opens", ways, words, words[transition.opens], tip="Covers the view, or opens it.")
    if picked is not None:
        return replace(transition, opens=picked == "opens")
    if transition.kind != "wipe":
        return None
    side = form.either("side", form.line("to the"), SIDES, transition.side, tip="Where it runs to.")
    return None if side is None else replace(transition, side=side)


def _add(desk: Desk, form: Form, scene: Scene) -> Edit | None:
    """Begin a transition: one that opens the scene, or one that ends it."""
    from scenekit.motion.transitions import even_cells

    ui = desk.ui
    places = parted(form.column.take(ui.px(28), ui.px(14)), (1, 1, 1))
    taken = [transition.name for transition in scene.transitions]
    cell = even_cells(view_of(desk), USUAL_CELLS)
    new: Transition | None = None
    if form.button("open", places[0], "Open the scene", tip="An iris that uncovers the view at the start."):
        name = fresh_name("open", taken)
        new = Transition(name=name, kind="iris", tick=0, ticks=30, opens=True, cell=cell)
    if form.button("close", places[1], "Close the scene", tip="A wipe that covers the view at the end."):
        name = fresh_name("close", taken)
        new = Transition(name=name, kind="wipe", tick=max(0, scene.ticks - 40), ticks=36, cell=cell)
    if new is None:
        return None
    desk.local["transition"] = new.name
    return _put(desk, scene, new)

"""Placed sprites that do nothing until the view comes to where they start, and where it wakes them."""

from dataclasses import replace

from scenekit.editor.form import Form
from scenekit.model.camera import Wakes
from scenekit.model.edits import put_placed
from scenekit.model.scene import Placed, Scene

STATES = ("at once", "when in view")
AXES = ("sideways", "up, down")
AROUND_PX = 16


def draw_sleeping(form: Form, scene: Scene, placed: Placed, view: tuple[int, int]) -> Scene | None:
    """Draw whether a placed sprite sleeps, and where the scene's view wakes; return the scene changed."""
    picked = form.either(
        "asleep", form.line("begins"), STATES, STATES[placed.asleep],
        tip="When in view: unseen and without work until the view comes to its start place.",
    )  # fmt: skip
    if picked is not None:
        asleep = picked == STATES[1]
        made = put_placed(scene, replace(placed, asleep=asleep))
        if asleep and scene.wakes == Wakes():
            return replace(made, wakes=Wakes(axis=0, start=-AROUND_PX, end=view[0] + AROUND_PX))
        if not asleep and not any(other.asleep for other in made.placed):
            return replace(made, wakes=Wakes())
        return made
    if not placed.asleep:
        return None
    along, start, end = form.split("view wakes", (1.6, 1, 1))
    wakes = scene.wakes
    picked = form.either(
        "wakes-along", along, AXES, AXES[wakes.axis], tip="Along which side of the view places are looked at."
    )
    if picked is not None:
        axis = AXES.index(picked)
        return replace(scene, wakes=Wakes(axis=axis, start=-AROUND_PX, end=view[axis] + AROUND_PX))
    tip = "Pixels of the view, counted from its corner, between which sleepers wake."
    first = form.whole(
        "wakes-from", start, wakes.start, -4096, min(4096, wakes.end - 1), unit="from", tip=tip
    )
    if first is not None:
        return replace(scene, wakes=replace(wakes, start=first))
    last = form.whole("wakes-to", end, wakes.end, wakes.start + 1, 8192, unit="to", tip=tip)
    return None if last is None else replace(scene, wakes=replace(wakes, end=last))

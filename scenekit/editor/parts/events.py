"""Palette events: colours that turn into others, as strips of what they show, with their fields below."""

from dataclasses import replace
from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.editor.form import Form, colours_in, colours_text, fresh_name, parted, read_name
from scenekit.editor.history import Edit
from scenekit.editor.moving import plane_pixels, refresh_hz
from scenekit.editor.preview import known_look
from scenekit.editor.ui import Column
from scenekit.model.edits import put_scene
from scenekit.model.events import MIXES, Event
from scenekit.model.named import with_named, without_named
from scenekit.model.palette import Colour
from scenekit.model.scene import Scene

STRIP_ROWS = 8
DUSK: Colour = (0x1A, 0x1C, 0x40)
MOST_DUSK = 12


def draw_events(desk: Desk, column: Column, scene: Scene) -> Edit | None:
    """Draw the palette events of a scene; return an edit."""
    ui = desk.ui
    note = f"{len(scene.events)} in scene {scene.name}"
    ui.heading(column, "Colours in time", note)
    chosen = desk.local.get("event", "")
    edit: Edit | None = None
    for event in scene.events:
        box = column.take(ui.px(40), ui.px(4))
        if _row(desk, box, scene, event, event.name == chosen):
            desk.local["event"] = chosen = "" if event.name == chosen else event.name
        if event.name == chosen:
            edit = _fields(desk, Form(ui, column, "event"), scene, event) or edit
    return _add(desk, Form(ui, column, "event"), scene) or edit


def _row(desk: Desk, box: Box, scene: Scene, event: Event, chosen: bool) -> bool:
    """One event: its name, when it is, and a strip of its colours step by step."""
    ui = desk.ui
    x, y, w, h = box
    felt = ui.row(f"event-row:{event.name}", box, chosen=chosen, tip="Press to see and change it.")
    ui.text(x + 12, y + ui.px(13), event.name, weight="bold" if chosen else "regular", room=w * 0.4 - 16)
    last = event.tick + event.steps * event.ticks_per_step * (2 if event.back else 1)
    when = f"ticks {event.tick} to {last}, {event.steps} step{'s' if event.steps > 1 else ''}"
    ui.text(x + 12, y + ui.px(29), when, "small", ui.look.quiet, room=w * 0.4 - 16)
    strip = (x + w * 0.4, y + 4, w * 0.6 - 6, h - 8)
    pixels = _strip(desk, scene, event)
    ui.fill(strip, ui.look.well)
    if pixels is not None:
        ui.backend.image(desk.picture(pixels), strip)
    tick = desk.session.playing.tick
    if event.tick <= tick <= last:
        at = strip[0] + (tick - event.tick) / max(1, last - event.tick) * strip[2]
        ui.fill((round(at) - 1, y + 2, 3, h - 4), ui.look.ink)
    return felt.clicked


def _strip(desk: Desk, scene: Scene, event: Event) -> NDArray[np.uint8] | None:
    """Return the event's colours, a row for each of its first entries and a column for each step."""
    look = known_look(desk)
    changes = look.changes.get(scene.name, ()) if look is not None else ()
    change = next((change for change in changes if change.name == event.name), None)
    if change is None or not change.colours or not change.entries:
        return None

    def make() -> NDArray[np.uint8]:
        rows = np.array(change.colours, dtype=np.uint8)[:, :STRIP_ROWS].swapaxes(0, 1)
        return np.ascontiguousarray(rows)

    made: NDArray[np.uint8] = desk.remember(f"event-strip {event.name}", make, change)
    return made


def _put(desk: Desk, scene: Scene, event: Event, old_name: str = "") -> Edit:
    changed = replace(scene, events=with_named(scene.events, event, old_name))
    return Edit(document=put_scene(desk.session.document, changed), label=f"event {event.name}")


def _fields(desk: Desk, form: Form, scene: Scene, event: Event) -> Edit | None:
    """Everything about one event."""
    hz = refresh_hz(desk)
    units = {"s": Fraction(round(hz * 1000), 1000), "ticks": Fraction(1)}
    name, drop = form.split("name", (2, 1))
    text = form.text("name", name, event.name, read_name)
    if text is not None:
        desk.local["event"] = text
        return _put(desk, scene, replace(event, name=text), event.name)
    if form.button("drop", drop, "Take it out", kind="quiet"):
        changed = replace(scene, events=without_named(scene.events, event.name))
        return Edit(document=put_scene(desk.session.document, changed), label=f"taking out {event.name}")
    new = _timing(form, event, units)
    new = _colours(form, event) or new
    ways, mixes = form.split("goes", (1, 1))
    back = form.either(
        "back",
        ways,
        ("there", "and back"),
        ("there", "and back")[event.back],
        tip="Whether it goes back.",
    )
    if back is not None:
        new = replace(event, back=back == "and back")
    mix = form.either(
        "mix", mixes, MIXES, event.mix,
        tip="Plain mixes channel by channel; Oklab mixes as the eye sees, without grey in the middle.",
    )  # fmt: skip
    if mix is not None:
        new = replace(event, mix=mix)
    if event.ticks_per_step * event.steps * 3 < hz and (event.back or event.steps == 1):
        form.note(
            "Fast and large changes can flash: more than three a second over a large part of the screen can "
            "harm people who are sensitive to light.",
            "note",
        )
    form.column.y += form.ui.px(8)
    return None if new is None else _put(desk, scene, new)


def _timing(form: Form, event: Event, units: dict[str, Fraction]) -> Event | None:
    """When an event begins, and in how many steps of which length."""
    boxes = form.split("begins", (1, 1, 1))
    tick = form.whole("tick", boxes[0], event.tick, 1, 1_000_000, unit="tick", tip="When it begins.")
    steps = form.whole("steps", boxes[1], event.steps, 1, 64, unit="steps", tip="In how many steps.")
    each = form.whole(
        "each", boxes[2], event.ticks_per_step, 1, 9999, unit="ticks each", units=units,
        tip="How long each step stays; more than three flashes a second can hurt.",
    )  # fmt: skip
    new: Event | None = None
    if tick is not None:
        new = replace(event, tick=tick)
    if steps is not None:
        new = replace(event, steps=steps)
    if each is not None:
        new = replace(event, ticks_per_step=each)
    return new


def read_some(text: str) -> tuple[Colour, ...]:
    """Return colours that all differ, or none.

    raises   ProjectError: other words, or more than 128
    """
    return colours_in(text, 0, 128, differ=True)


def _colours(form: Form, event: Event) -> Event | None:
    """Colours before and after; as many in each row, or one that all turn into."""
    count = len(event.colours)

    def goals(text: str) -> tuple[Colour, ...]:
        made = colours_in(text, 1, max(1, count))
        return made if len(made) == 1 else colours_in(text, count, count)

    colours = form.text(
        "colours", form.line("these"), colours_text(event.colours), read_some,
        hint="every colour of the palette", tip="Exact colours of the art; empty for all of the palette.",
    )  # fmt: skip
    if colours is not None:
        to = event.to if len(event.to) == 1 or len(event.to) == len(colours) else event.to[:1]
        return replace(event, colours=colours, start=colours, to=to)
    if count:
        start = form.text(
            "start", form.line("begin as"), colours_text(event.start) if event.start != event.colours else "",
            lambda t: colours_in(t, count, count) if t.strip() else event.colours, hint="as they are painted",
            tip="What they are before the first step; leave it empty for what they are in the art.",
        )  # fmt: skip
        if start is not None:
            return replace(event, start=start)
    to_colours = form.text(
        "to", form.line("turn into"), colours_text(event.to), goals,
        tip="What they are after the last step: one colour for all, or as many as above.",
    )  # fmt: skip
    return None if to_colours is None else replace(event, to=to_colours)


def _add(desk: Desk, form: Form, scene: Scene) -> Edit | None:
    """Begin a new event: a fade, a flash, or dusk over the rearmost plane."""
    ui = desk.ui
    tick = max(1, desk.session.playing.tick)
    places = parted(form.column.take(ui.px(28), ui.px(14)), (1, 1, 1))
    new: Event | None = None
    if form.button("fade", places[0], "Add a fade", tip="All colours turn to black, from this tick on."):
        new = _event(scene, "fade", tick, (16, 4), ((0, 0, 0),))
    tip = "All colours turn white for a moment and back. Use it seldom: flashes can hurt."
    if form.button("flash", places[1], "Add a flash", tip=tip):
        new = replace(_event(scene, "flash", tick, (2, 4), ((255, 255, 255),)), back=True)
    tip = "The colours of the rearmost plane turn to dusk in 16 steps; change them below."
    if form.button("dusk", places[2], "Add a time of day", tip=tip):
        new = _dusk(desk, scene, tick)
    if new is None:
        return None
    desk.local["event"] = new.name
    return _put(desk, scene, new)


def _event(scene: Scene, stem: str, tick: int, steps: tuple[int, int], to: tuple[Colour, ...]) -> Event:
    name = fresh_name(stem, [event.name for event in scene.events])
    return Event(name=name, tick=tick, steps=steps[0], ticks_per_step=steps[1], colours=(), start=(), to=to)


def _dusk(desk: Desk, scene: Scene, tick: int) -> Event | None:
    """Return an event that darkens the commonest colours of the rearmost plane."""
    from scenekit.colour.fades import between

    pixels = plane_pixels(desk, scene, scene.planes[0])
    if pixels is None:
        return None
    opaque = pixels[pixels[..., 3] >= 128][:, :3]
    found, counts = np.unique(opaque, axis=0, return_counts=True)
    order = sorted(range(len(found)), key=lambda n: (-int(counts[n]), n))[:MOST_DUSK]
    start = found[order].astype(np.uint8)
    goal = np.repeat(np.array([DUSK], dtype=np.uint8), len(start), axis=0)
    ends = between(start, goal, 2, 3)
    colours = tuple((int(r), int(g), int(b)) for r, g, b in start)
    to = tuple((int(r), int(g), int(b)) for r, g, b in ends)
    made = _event(scene, "dusk", tick, (16, 12), to)
    return replace(made, colours=colours, start=colours, mix="oklab")

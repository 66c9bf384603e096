"""Values and strings of the game, and the ticks at which a scene changes values."""

from dataclasses import replace

from scenekit.editor.desk import Desk
from scenekit.editor.form import Form, fresh_name, parted, read_name
from scenekit.editor.history import Edit
from scenekit.editor.ui import Column
from scenekit.errors import ProjectError
from scenekit.model.edits import put_scene
from scenekit.model.panel import LARGEST_VALUE, String, Value, ValueChange
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.model.score_edits import drop_string, drop_value, put_string, put_value

LONGEST_TEXT = 200


def draw_values(desk: Desk, column: Column) -> Edit | None:
    """Draw the values of the project as rows; return an edit."""
    ui, document = desk.ui, desk.session.document
    ui.heading(column, "Values", "numbers of the game that panels show")
    form = Form(ui, column, "value")
    shares = (2, 1, 1, 1, 0.7)
    if document.values:
        _heads(form, ("name", "lowest", "highest", "at the start"), shares)
    for value in document.values:
        places = parted(column.take(ui.px(28), ui.px(6)), shares)
        key = value.name
        name = form.text(f"{key}:name", places[0], value.name, read_name)
        if name is not None:
            return _put(put_value(document, replace(value, name=name), value.name), f"naming value {name}")
        low = form.whole(f"{key}:low", places[1], value.low, 0, value.high, tip="It never falls below.")
        high = form.whole(
            f"{key}:high", places[2], value.high, value.low, LARGEST_VALUE, tip="It never rises above."
        )
        start = form.whole(f"{key}:start", places[3], value.start, value.low, value.high, tip="At tick 0.")
        for given, word in ((low, "low"), (high, "high"), (start, "start")):
            if given is not None:
                return _put(put_value(document, _limited(value, word, given)), f"value {value.name}")
        if form.button(f"{key}:drop", places[4], "Out", kind="quiet", tip="Take the value out."):
            return _put(drop_value(document, value.name), f"taking out value {value.name}")
    if form.button("add", parted(column.take(ui.px(28), ui.px(16)), (1, 2))[0], "Add a value"):
        name = fresh_name("score", [value.name for value in document.values])
        return _put(put_value(document, Value(name=name)), f"adding value {name}")
    return None


def _limited(value: Value, word: str, number: int) -> Value:
    """Return a value with one of its numbers changed, its start kept within its limits."""
    low = number if word == "low" else value.low
    high = number if word == "high" else value.high
    start = number if word == "start" else value.start
    return replace(value, low=low, high=high, start=max(low, min(high, start)))


def _put(document: Project, label: str) -> Edit:
    return Edit(document=document, label=label)


def _heads(form: Form, words: tuple[str, ...], shares: tuple[float, ...]) -> None:
    column, ui = form.column, form.ui
    places = parted((column.x, column.y, column.w, ui.px(16)), shares)
    for word, place in zip(words, places, strict=False):
        ui.label(place[0] + 2, column.y + ui.px(6), word, place[2])
    column.y += ui.px(16)


def draw_changes(desk: Desk, column: Column, scene: Scene) -> Edit | None:
    """Draw the ticks at which the scene changes values, as if the game had; return an edit."""
    ui, document = desk.ui, desk.session.document
    if not document.values:
        return None
    ui.heading(column, "Values in time", f"in scene {scene.name}, as if the game had changed them")
    form = Form(ui, column, "change")
    names = [value.name for value in document.values]
    new: list[ValueChange] | None = None
    for number, change in enumerate(scene.changes):
        places = parted(column.take(ui.px(28), ui.px(6)), (1, 1.4, 1, 0.7))
        made: ValueChange | None = None
        tick = form.whole(f"{number}:tick", places[0], change.tick, 1, 1_000_000, unit="tick", tip="When.")
        picked = form.choice(f"{number}:value", places[1], names, change.value, tip="Which value.")
        add = form.whole(
            f"{number}:add",
            places[2],
            change.add,
            -LARGEST_VALUE,
            LARGEST_VALUE,
            unit="added",
            tip="By how much.",
        )
        if tick is not None:
            made = replace(change, tick=tick)
        if picked is not None:
            made = replace(change, value=picked)
        if add is not None:
            made = replace(change, add=add)
        if made is not None:
            new = [*scene.changes[:number], made, *scene.changes[number + 1 :]]
        if form.button(f"{number}:drop", places[3], "Out", kind="quiet"):
            new = [*scene.changes[:number], *scene.changes[number + 1 :]]
    if form.button("add", parted(column.take(ui.px(28), ui.px(16)), (1, 2))[0], "Add a change"):
        tick = max(1, desk.session.playing.tick)
        new = [*scene.changes, ValueChange(tick=tick, value=names[0], add=1)]
    if new is None:
        return None
    changed = replace(scene, changes=tuple(new))
    return _put(put_scene(document, changed), "values in time")


def read_text(text: str) -> str:
    """Return a string of the game.

    raises   ProjectError: not printable, or too long
    """
    if not 1 <= len(text) <= LONGEST_TEXT or not text.isprintable():
        raise ProjectError(f"got {len(text)} characters; must be printable and 1 to {LONGEST_TEXT}")
    return text


def draw_strings(desk: Desk, column: Column) -> Edit | None:
    """Draw the strings of the project as rows; return an edit."""
    ui, document = desk.ui, desk.session.document
    ui.heading(column, "Strings", "texts of the game, by name")
    form = Form(ui, column, "string")
    for string in document.strings:
        places = parted(column.take(ui.px(28), ui.px(6)), (1, 2.4, 0.5))
        name = form.text(f"{string.name}:name", places[0], string.name, read_name)
        if name is not None:
            return _put(
                put_string(document, replace(string, name=name), string.name), f"naming string {name}"
            )
        text = form.text(
            f"{string.name}:text", places[1], string.text, read_text, tip="Its words, in a font's signs."
        )
        if text is not None:
            return _put(put_string(document, replace(string, text=text)), f"string {string.name}")
        if form.button(f"{string.name}:drop", places[2], "Out", kind="quiet", tip="Take the string out."):
            return _put(drop_string(document, string.name), f"taking out string {string.name}")
    if form.button("add", parted(column.take(ui.px(28), ui.px(16)), (1, 2))[0], "Add a string"):
        name = fresh_name("text", [string.name for string in document.strings])
        return _put(put_string(document, String(name=name, text="TEXT")), f"adding string {name}")
    return None

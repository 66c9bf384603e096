"""The score panel of a scene: its box, and its items with what they show."""

from dataclasses import replace

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.editor.form import Form, fresh_name, parted, read_name
from scenekit.editor.history import Edit
from scenekit.editor.parts.itemfields import draw_kind
from scenekit.editor.ui import Column
from scenekit.model.edits import put_scene, put_target
from scenekit.model.panel import KINDS, Item, Panel, String, Value
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.model.score_edits import drop_item, put_item, put_panel, put_string, put_value

FIRST_HEIGHT = 24
FAR = 32_767
KIND_TIPS = {
    "text": "A string in a font.",
    "number": "A value in a font, its digits right-aligned.",
    "bar": "A box whose filled part shows a value of its highest.",
    "icons": "Frames side by side, as many lit as the value says.",
    "picture": "A frame that stands still.",
}


def draw_panel(desk: Desk, column: Column, scene: Scene) -> Edit | None:
    """Draw a scene's panel and its items; return an edit."""
    ui = desk.ui
    panel = scene.panel
    ui.heading(column, "Score panel", f"of scene {scene.name}")
    form = Form(ui, column, "panel")
    if panel is None:
        form.note("A part of the screen beside the view that stands still. Only what changed is drawn anew.")
        column.y += ui.px(6)
        if form.button(
            "make", parted(column.take(ui.px(30), ui.px(16)), (1, 1.6))[0], "Give it one", kind="main"
        ):
            return _made(desk, scene)
        return None
    edit = _box(desk, form, scene, panel)
    chosen = desk.local.get("item", "")
    for item in panel.items:
        if _row(desk, column.take(ui.px(30), ui.px(2)), item, item.name == chosen):
            desk.local["item"] = chosen = "" if chosen == item.name else item.name
        if item.name == chosen:
            column.y += ui.px(4)
            edit = _fields(desk, Form(ui, column, "item"), scene, item) or edit
    column.y += ui.px(6)
    return _add(desk, form, scene, panel) or edit


def screen_of(desk: Desk) -> tuple[int, int]:
    """Return (width, height) of the screen in pixels."""
    mode = desk.product.mode if desk.product is not None else None
    return (mode.width_px, mode.height_px) if mode is not None else (320, 200)


def _made(desk: Desk, scene: Scene) -> Edit:
    """Give a scene a panel where the view leaves room, or at the top with a view below it."""
    document, target = desk.session.document, desk.session.target
    width, height = screen_of(desk)
    view = target.view if target is not None and target.view is not None else (0, 0, width, height)
    box = (0, 0, width, FIRST_HEIGHT)
    if view[1] >= 8:
        box = (0, 0, width, view[1])
    elif height - view[1] - view[3] >= 8:
        box = (0, view[1] + view[3], width, height - view[1] - view[3])
    elif target is not None:
        document = put_target(document, replace(target, view=(0, FIRST_HEIGHT, width, height - FIRST_HEIGHT)))
    document = put_scene(document, put_panel(scene, Panel(box=box)))
    return Edit(document=document, label=f"a panel for scene {scene.name}")


def _box(desk: Desk, form: Form, scene: Scene, panel: Panel) -> Edit | None:
    new: Panel | None = None
    for number, (box, word) in enumerate(
        zip(form.split("stands at", (1, 1, 1, 1)), ("across", "down", "wide", "high"), strict=True)
    ):
        value = form.whole(
            word, box, panel.box[number], 1 if number > 1 else 0, FAR, unit=word,
            tip="In pixels of the screen; it must not lie over the view of the target.",
        )  # fmt: skip
        if value is not None:
            sides = [*panel.box]
            sides[number] = value
            new = replace(panel, box=(sides[0], sides[1], sides[2], sides[3]))
    tint, drop = form.split("colour", (1, 1))
    colour = form.colour("colour", tint, panel.colour, tip="Its ground.")
    if colour is not None:
        new = replace(panel, colour=colour)
    if form.button("drop", drop, "Take the panel out", kind="quiet"):
        document = put_scene(desk.session.document, put_panel(scene, None))
        return Edit(document=document, label="taking the panel out")
    form.column.y += form.ui.px(8)
    if new is None:
        return None
    return Edit(document=put_scene(desk.session.document, put_panel(scene, new)), label="the panel")


def _row(desk: Desk, box: Box, item: Item, chosen: bool) -> bool:
    ui = desk.ui
    x, y, w, h = box
    tip = f"{KIND_TIPS[item.kind]} Press to change it; drag it on the scene, or Alt+arrows."
    felt = ui.row(f"item-row:{item.name}", box, chosen=chosen, tip=tip)
    middle = y + h / 2
    ui.text(x + 12, middle, item.name, weight="bold" if chosen else "regular", room=w * 0.34)
    shown = item.value or item.string or item.lit
    ui.text(x + w * 0.38, middle, f"{item.kind} {shown}", colour=ui.look.quiet, room=w * 0.36)
    ui.text(x + w - 8, middle, f"at {item.at[0]}, {item.at[1]}", "small", ui.look.quiet, anchor="right")
    return felt.clicked


def _fields(desk: Desk, form: Form, scene: Scene, item: Item) -> Edit | None:
    document = desk.session.document
    name, drop = form.split("name", (2, 1))
    text = form.text("name", name, item.name, read_name)
    if text is not None:
        desk.local["item"] = text
        changed = put_item(scene, replace(item, name=text), item.name)
        return Edit(document=put_scene(document, changed), label=f"naming item {text}")
    if form.button("drop", drop, "Take it out", kind="quiet"):
        return Edit(
            document=put_scene(document, drop_item(scene, item.name)), label=f"taking out {item.name}"
        )
    new: Item | None = None
    for axis, box, word in zip((0, 1), form.split("stands at", (1, 1)), ("across", "down"), strict=True):
        at = form.whole(word, box, item.at[axis], 0, FAR, unit=word, tip="Its top left corner on the screen.")
        if at is not None:
            new = replace(item, at=(at, item.at[1]) if axis == 0 else (item.at[0], at))
    new = draw_kind(desk, form, item) or new
    form.column.y += form.ui.px(6)
    if new is None:
        return None
    return Edit(document=put_scene(document, put_item(scene, new)), label=f"item {item.name}")


def _add(desk: Desk, form: Form, scene: Scene, panel: Panel) -> Edit | None:
    """A new item of each kind; what it shows is made where there is none yet."""
    ui, document = desk.ui, desk.session.document
    places = parted(form.column.take(ui.px(28), ui.px(18)), (1,) * len(KINDS))
    for kind, place in zip(KINDS, places, strict=True):
        needs = kind in ("text", "number") and not document.fonts
        bare = kind in ("icons", "picture") and not any(sheet.frames for sheet in document.sheets)
        tip = KIND_TIPS[kind] + (" It needs a font." if needs else " It needs a sheet." if bare else "")
        if form.button(f"add-{kind}", place, f"+ {kind}", tip=tip, on=not needs and not bare):
            project, item = _fresh(document, panel, kind)
            desk.local["item"] = item.name
            scenes = project.scene(scene.name)
            return Edit(document=put_scene(project, put_item(scenes, item)), label=f"adding {item.name}")
    return None


def _fresh(project: Project, panel: Panel, kind: str) -> tuple[Project, Item]:
    """Return an item of a kind, and the project with what it shows."""
    name = fresh_name(kind, [item.name for item in panel.items])
    item = Item(name=name, kind=kind, at=(panel.box[0] + 2, panel.box[1] + 2))
    if kind in ("number", "bar", "icons"):
        if not project.values:
            project = put_value(project, Value(name="score"))
        item = replace(item, value=project.values[0].name)
    if kind == "text":
        if not project.strings:
            project = put_string(project, String(name="title", text=project.fonts[0].characters[:5]))
        item = replace(item, string=project.strings[0].name)
    if kind in ("text", "number"):
        item = replace(item, font=project.fonts[0].name)
    if kind == "bar":
        item = replace(item, size=(max(1, min(40, panel.box[2] - 4)), max(1, min(6, panel.box[3] - 4))))
    if kind in ("icons", "picture"):
        sheet = next(sheet for sheet in project.sheets if sheet.frames)
        frame = sheet.frames[0]
        item = replace(item, sheet=sheet.name, lit=frame.name, step=frame.box[2] + 1)
        item = replace(item, count=3) if kind == "icons" else replace(item, step=8)
    return project, item

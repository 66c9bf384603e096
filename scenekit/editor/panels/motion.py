"""Motion: steps in time, the facing wheel, and the sprite's way through the scene."""

from dataclasses import replace
from typing import Any

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk, Lamp, Panel
from scenekit.editor.form import Form, parted, read_name
from scenekit.editor.history import Edit
from scenekit.editor.parts.facings import draw_wheel
from scenekit.editor.parts.steps import draw_steps
from scenekit.editor.parts.ways import draw_over, draw_placed
from scenekit.editor.ui import Column
from scenekit.model.edits import drop_animation, put, put_animation
from scenekit.model.renames import rename_sprite
from scenekit.model.sprites import Animation, Facing, Sheet, Sprite, Step


def _draw(desk: Desk, box: Box) -> Edit | None:
    ui, session = desk.ui, desk.session
    edit: Edit | None = None
    with ui.backend.region("motion", box, scrolls=True) as scroll:
        ui.fill(box, ui.look.ground)
        column = Column(box[0], box[1] - scroll, box[2] - ui.px(12))
        edit = _make(desk, column)
        sprite = session.sprite
        if sprite is not None:
            animation = next(
                (a for a in sprite.animations if a.name == session.chosen.animation), sprite.animations[0]
            )
            edit = draw_steps(desk, column, sprite, animation) or edit
            edit = draw_wheel(desk, column, sprite, animation) or edit
            edit = _whole_sprite(desk, Form(ui, column, "sprite"), sprite) or edit
            if session.scene is not None:
                edit = draw_placed(desk, column, session.scene, sprite) or edit
        ui.backend.extent(column.y + ui.px(60))
    return edit


def _make(desk: Desk, column: Column) -> Edit | None:
    """Choose a sprite and animation, or make one of chosen frames."""
    ui, session = desk.ui, desk.session
    document = session.document
    ui.heading(column, "Sprite", f"{len(document.sprites)} in this project")
    form = Form(ui, column, "motion")
    sprite = session.sprite
    if sprite is not None:
        edit = _choose(desk, form, sprite)
        if edit is not None:
            return edit
    sheet = session.sheet
    if sheet is None or not sheet.frames:
        ui.paragraph(column, "Frames come first: bring in a sheet.", colour=ui.look.quiet)
        return None
    wish = desk.local.setdefault(
        "new-animation", {"sprite": "", "name": "", "ticks": 6, "mirror": "mirrored"}
    )
    chosen = [f.name for f in sheet.frames if f.name in session.chosen.frames] or [
        f.name for f in sheet.frames
    ]
    if not _wished(desk, Form(ui, column, "new", 46), wish, sprite, sheet, len(chosen)):
        return None
    name = wish["sprite"] or (sprite.name if sprite else sheet.name)
    action = wish["name"] or next(
        n
        for n in ("walk", *(f"action-{i}" for i in range(2, 99)))
        if sprite is None or sprite.animation_number(n) is None
    )
    facings = (
        (Facing(facing="right", flip=0), Facing(facing="left", flip=1))
        if wish["mirror"] == "mirrored"
        else ()
    )
    steps = tuple(Step(frame=f, ticks=wish["ticks"]) for f in chosen)
    new = Animation(name=action, sheet=sheet.name, play="loop", steps=steps)
    session.chosen.sprite, session.chosen.animation, session.chosen.step = name, action, 0
    wish["sprite"] = wish["name"] = ""
    return Edit(document=put_animation(document, name, new, facings), label=f"making animation {action}")


def _choose(desk: Desk, form: Form, sprite: Sprite) -> Edit | None:
    """Choose a sprite and an animation, or take one out."""
    session = desk.session
    document = session.document
    which, action, drop = parted(form.column.take(form.ui.px(28), form.ui.px(8)), (1.2, 1.2, 0.8))
    picked = form.choice("sprite", which, [s.name for s in document.sprites], sprite.name, tip="The sprite.")
    if picked:
        session.chosen.sprite, session.chosen.animation, session.chosen.step = picked, "", 0
    names = [a.name for a in sprite.animations]
    now = session.chosen.animation if session.chosen.animation in names else names[0]
    picked = form.choice("animation", action, names, now, tip="Its animation.")
    if picked:
        session.chosen.animation, session.chosen.step = picked, 0
    if form.button("drop", drop, "Take it out", kind="quiet", tip="Take the animation out of the sprite."):
        return Edit(document=drop_animation(document, sprite.name, now), label=f"taking out {now}")
    return None


def _whole_sprite(desk: Desk, form: Form, sprite: Sprite) -> Edit | None:
    """What is so of all animations of a sprite: its name, and what counts as a touch."""
    document = desk.session.document
    name = form.text("name", form.line("sprite"), sprite.name, read_name, tip="The sprite's name.")
    if name is not None and name != sprite.name:
        desk.session.chosen.sprite = name
        return Edit(document=rename_sprite(document, sprite.name, name), label=f"naming sprite {name}")
    words = ("hit boxes", "what is drawn")
    picked = form.either(
        "spans", form.line("touches by", 18), words, words[sprite.spans],
        tip="What is drawn: the rows of its frames are exported too, for touch_rows in your program.",
    )  # fmt: skip
    if picked is None:
        return None
    changed = replace(sprite, spans=picked == words[1])
    return Edit(
        document=replace(document, sprites=put(document.sprites, changed)), label=f"touch of {sprite.name}"
    )


def _wished(
    desk: Desk, form: Form, wish: dict[str, Any], sprite: Sprite | None, sheet: Sheet, count: int
) -> bool:
    """The fields of a new animation; say whether it is to be made."""
    boxes = form.split("new", (1.2, 1.2, 1))
    for key, box, hint, tip in (
        ("sprite", boxes[0], sprite.name if sprite else sheet.name, "Name of the sprite"),
        ("name", boxes[1], "such as walk", "Name of the animation"),
    ):
        text = form.text(key, box, wish[key], read_name, hint=hint, tip=tip)
        if text is not None:
            wish[key] = text
    ticks = form.whole(
        "ticks", boxes[2], wish["ticks"], 1, 9999, unit="ticks", tip="How long each frame stays."
    )
    if ticks is not None:
        wish["ticks"] = ticks
    ways, make = form.split("", (1.2, 1), 18)
    picked = form.either(
        "mirror", ways, ("mirrored", "one way"), wish["mirror"],
        tip="Mirrored: facing left shows the same art turned round.",
    )  # fmt: skip
    if picked:
        wish["mirror"] = picked
    frames = "1 frame" if count == 1 else f"{count} frames"
    tip = f"An animation of {frames} of sheet {sheet.name}; choose frames in Sheets or Frames."
    kind = "plain" if sprite else "main"
    return form.button("make", make, f"Make it of {frames}", tip=tip, kind=kind)


def _lamp(desk: Desk) -> Lamp:
    sprites = desk.session.document.sprites
    count = sum(len(sprite.animations) for sprite in sprites)
    return Lamp(level="good" if count else "empty", word=f"{count} moving" if count else "none yet")


PLUGIN = Panel(name="motion", title="Motion", draw=_draw, lamp=_lamp, wide=True, over=draw_over)

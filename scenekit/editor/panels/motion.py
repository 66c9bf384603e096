"""Motion: steps in time, the facing wheel, and the sprite's way through the scene."""

from scenekit.editor.arithmetic import whole
from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk, Lamp, Panel
from scenekit.editor.form import read_name
from scenekit.editor.history import Edit
from scenekit.editor.parts.facings import draw_wheel
from scenekit.editor.parts.steps import draw_steps
from scenekit.editor.parts.ways import draw_over, draw_placed
from scenekit.editor.ui import Column
from scenekit.model.edits import put_animation
from scenekit.model.sprites import Animation, Facing, Step


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
            if session.scene is not None:
                edit = draw_placed(desk, column, session.scene, sprite) or edit
        ui.backend.extent(column.y + ui.px(60))
    return edit


def _make(desk: Desk, column: Column) -> Edit | None:
    """Choose a sprite and animation, or make one of chosen frames."""
    ui, session = desk.ui, desk.session
    document, row = session.document, ui.px(28)
    ui.heading(column, "Sprite", f"{len(document.sprites)} in this project")
    sprite = session.sprite
    if sprite is not None:
        x, y, w, h = column.take(row, ui.px(8))
        picked = ui.choice(
            "motion:sprite", (x, y, w / 2 - 6, h), [s.name for s in document.sprites], sprite.name
        )
        if picked:
            session.chosen.sprite, session.chosen.animation, session.chosen.step = picked, "", 0
        names = [a.name for a in sprite.animations]
        now = session.chosen.animation if session.chosen.animation in names else names[0]
        picked = ui.choice("motion:animation", (x + w / 2 + 6, y, w / 2 - 6, h), names, now)
        if picked:
            session.chosen.animation, session.chosen.step = picked, 0
    sheet = session.sheet
    if sheet is None or not sheet.frames:
        ui.paragraph(column, "Frames come first: bring in a sheet.", colour=ui.look.quiet)
        return None
    wish = desk.local.setdefault(
        "new-animation", {"sprite": "", "name": "", "ticks": 6, "mirror": "mirrored"}
    )
    x, y, w, h = column.take(row, ui.px(18))
    part = (w - ui.px(60)) / 5
    chosen = [f.name for f in sheet.frames if f.name in session.chosen.frames] or [
        f.name for f in sheet.frames
    ]
    ui.text(x, y + h / 2, "new", colour=ui.look.quiet)
    left = x + ui.px(34)
    for key, hint in (("sprite", sprite.name if sprite else sheet.name), ("name", "such as walk")):
        text = ui.field(
            f"new:{key}",
            (left, y, part, h),
            wish[key],
            read_name,
            hint=hint,
            tip="Name of the sprite" if key == "sprite" else "Name of the animation",
        )
        if text is not None:
            wish[key] = text
        left += part + 6
    ticks = ui.field(
        "new:ticks",
        (left, y, part * 0.8, h),
        str(wish["ticks"]),
        lambda t: whole(t, 1, 9999),
        unit="ticks",
        tip="How long each frame stays.",
    )
    if ticks is not None:
        wish["ticks"] = ticks
    left += part * 0.8 + 6
    picked = ui.segments(
        "new:mirror",
        (left, y, part * 1.1, h),
        ("mirrored", "one way"),
        wish["mirror"],
        tip="Mirrored: facing left shows the same art turned round.",
    )
    if picked:
        wish["mirror"] = picked
    left += part * 1.1 + 6
    tip = f"An animation of {len(chosen)} frames of sheet {sheet.name}; choose frames in Sheets or Frames."
    if not ui.button(
        "new:make", (left, y, x + w - left, h), "Make", tip=tip, kind="plain" if sprite else "main"
    ):
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


def _lamp(desk: Desk) -> Lamp:
    sprites = desk.session.document.sprites
    count = sum(len(sprite.animations) for sprite in sprites)
    return Lamp(level="good" if count else "empty", word=f"{count} moving" if count else "none yet")


PLUGIN = Panel(name="motion", title="Motion", draw=_draw, lamp=_lamp, wide=True, over=draw_over)

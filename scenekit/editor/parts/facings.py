"""The facing wheel: each direction with the frame it will play, and whether that is stored or flipped."""

from dataclasses import replace

from scenekit.editor.desk import Desk
from scenekit.editor.frameart import draw_frame
from scenekit.editor.history import Edit
from scenekit.editor.parts.steps import FLIP_WORDS
from scenekit.editor.ui import Column
from scenekit.model.edits import put, put_facing
from scenekit.model.sprites import Animation, Facing, Sprite
from scenekit.motion.looks import shown_animation
from scenekit.motion.paths import step_at


def draw_wheel(desk: Desk, column: Column, sprite: Sprite, animation: Animation) -> Edit | None:
    """Each direction with the frame it will play, and whether that is stored or flipped."""
    ui, session = desk.ui, desk.session
    ui.heading(column, "Facings")
    x, y, w, h = column.take(ui.px(196), ui.px(10))
    side = ui.px(60)
    middle = (x + ui.px(104), y + h / 2)
    chosen = desk.local.get("facing", sprite.facings[0].facing)
    own = sprite.animation_number(animation.name) or 0
    for facing, (dx, dy) in {"right": (1, 0), "left": (-1, 0), "up": (0, -1), "down": (0, 1)}.items():
        found = next((f for f in sprite.facings if f.facing == facing), None)
        box = (middle[0] + dx * ui.px(66) - side / 2, middle[1] + dy * ui.px(66) - side / 2, side, side)
        felt = ui.press(
            f"facing:{facing}",
            box,
            f"{facing}: "
            + (
                "no look of its own; shows the first facing"
                if found is None
                else _facing_words(found, animation)
            ),
        )
        ui.fill(box, ui.look.sheet if found else ui.look.shade)
        if found is not None:
            number, flip = shown_animation(sprite, own, facing)
            shown = sprite.animations[number]
            sheet = next((s for s in session.document.sheets if s.name == shown.sheet), None)
            still = desk.settings.still
            step = shown.steps[0 if still else step_at(shown, session.playing.tick)]
            place = box[0] + 3, box[1] + 3, side - 6, side - 6
            draw_frame(desk, sheet, step.frame, place, flip ^ step.flip, trimmed=True)
        else:
            ui.text(box[0] + side / 2, box[1] + side / 2, facing, "small", ui.look.quiet, anchor="middle")
        ui.frame(
            box,
            ui.look.accent if facing == chosen or felt.focused else ui.look.rule,
            2 if facing == chosen else 1,
        )
        if felt.clicked:
            desk.local["facing"] = facing
    return _facing(desk, Column(x + ui.px(216), y + ui.px(6), w - ui.px(216)), sprite, animation, chosen)


def _facing_words(facing: Facing, animation: Animation) -> str:
    own = dict(facing.own).get(animation.name)
    return (
        f"art of its own, {own}"
        if own
        else "stored as drawn"
        if not facing.flip
        else f"{FLIP_WORDS[facing.flip]}, nothing stored"
    )


def _facing(desk: Desk, column: Column, sprite: Sprite, animation: Animation, name: str) -> Edit | None:
    ui, session = desk.ui, desk.session
    found = next((f for f in sprite.facings if f.facing == name), None)
    x, y, w, h = column.take(ui.px(24), ui.px(4))
    ui.text(x, y + h / 2, name, weight="bold")
    words = _facing_words(found, animation) if found else "not made yet"
    ui.text(x, column.take(ui.px(20), ui.px(6))[1] + ui.px(8), words, "small", ui.look.quiet, room=w)
    picked = ui.choice(
        "facing:flip",
        column.take(ui.px(28), ui.px(8)),
        FLIP_WORDS,
        FLIP_WORDS[found.flip] if found else "",
        hint="make it",
        tip="How the art is turned for this direction.",
    )
    new: Facing | None = None
    if picked:
        flip = FLIP_WORDS.index(picked)
        new = replace(found, flip=flip) if found else Facing(facing=name, flip=flip)
    if found is not None:
        others = ["no art of its own", *(a.name for a in sprite.animations if a.name != animation.name)]
        own = dict(found.own)
        picked = ui.choice(
            "facing:own",
            column.take(ui.px(28), ui.px(8)),
            others,
            own.get(animation.name, others[0]),
            tip=f"An animation drawn for {animation.name} in this direction.",
        )
        if picked:
            own.pop(animation.name, None)
            if picked != others[0]:
                own[animation.name] = picked
            new = replace(found, own=tuple(sorted(own.items())))
    if new is None:
        return None
    document = replace(session.document, sprites=put(session.document.sprites, put_facing(sprite, new)))
    return Edit(document=document, label=f"facing {name} of {sprite.name}")

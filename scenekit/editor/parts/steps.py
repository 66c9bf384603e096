"""The steps of an animation as strips, each as long as its ticks."""

from dataclasses import replace

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.editor.form import Form, parted
from scenekit.editor.frameart import draw_frame
from scenekit.editor.history import Edit
from scenekit.editor.ui import Column
from scenekit.model.edits import put_animation
from scenekit.model.sprites import PLAYS, Animation, Sheet, Sprite, Step
from scenekit.motion.paths import step_at

FLIP_WORDS = ("as drawn", "mirrored", "upside down", "both")
STRIP_PX = 66


def draw_steps(desk: Desk, column: Column, sprite: Sprite, animation: Animation) -> Edit | None:
    """Steps as strips, each as long as its ticks; a strip's end is dragged to another length."""
    ui, session = desk.ui, desk.session
    total = sum(step.ticks for step in animation.steps)
    ui.heading(column, f"{sprite.name}: {animation.name}", f"{len(animation.steps)} steps, {total} ticks")
    sheet = next((s for s in session.document.sheets if s.name == animation.sheet), None)
    x, y, w, h = column.take(ui.px(STRIP_PX), ui.px(8))
    per_tick = desk.local.get("strip-scale") or min(ui.px(12), w / max(1, total))
    ui.fill((x, y, w, h), ui.look.shade)
    now = step_at(animation, session.playing.tick) if not desk.settings.still else -1
    left = x
    edit: Edit | None = None
    for number, step in enumerate(animation.steps):
        wide = step.ticks * per_tick
        box = (round(left), y, max(2, round(left + wide) - round(left)), h)
        chosen = number == session.chosen.step
        felt = ui.press(
            f"step:{number}",
            (box[0], y, max(1.0, box[2] - 6), h),
            f"{step.frame}, {step.ticks} ticks",
            overlap=True,
        )
        with ui.backend.clipped((box[0], y, box[2], h)):
            ui.fill(box, ui.look.hover if chosen else ui.look.sheet)
            place = box[0] + 2, y + 4, max(8, box[2] - 4), h - ui.px(22)
            draw_frame(desk, sheet, step.frame, place, step.flip, trimmed=True)
            ui.text(
                box[0] + box[2] / 2,
                y + h - ui.px(9),
                str(step.ticks),
                "small",
                weight="bold" if chosen else "regular",
                anchor="middle",
            )
        ui.fill((box[0] + box[2] - 1, y, 1, h), ui.look.quiet)
        if number == now:
            ui.fill((box[0], y, box[2] - 1, 3), ui.look.accent)
        if chosen:
            ui.fill((box[0], y + h - 3, box[2] - 1, 3), ui.look.accent)
        if felt.clicked:
            session.chosen.step = number
        edit = _stretch(desk, sprite, animation, number, (box[0] + box[2] - 5, y, 9, h), per_tick) or edit
        left += wide
    return _step(desk, column, sprite, animation, sheet) or edit


def _stretch(
    desk: Desk, sprite: Sprite, animation: Animation, number: int, box: Box, per_tick: float
) -> Edit | None:
    felt = desk.ui.press(f"step-end:{number}", box, "", keyboard=False)
    if felt.hovered or felt.held:
        desk.ui.pointer = "across"
    if felt.started:
        desk.local["gesture"] = desk.local.get("gesture", 0) + 1
        desk.local["strip-base"], desk.local["strip-scale"] = animation.steps[number].ticks, per_tick
    if felt.ended:
        desk.local.pop("strip-scale", None)
    if not felt.held:
        return None
    ticks = max(1, min(9999, desk.local["strip-base"] + round(felt.moved[0] / per_tick)))
    if ticks == animation.steps[number].ticks:
        return None
    return _with_step(
        desk,
        sprite,
        animation,
        number,
        replace(animation.steps[number], ticks=ticks),
        f"drag {desk.local['gesture']}",
    )


def _with_step(
    desk: Desk, sprite: Sprite, animation: Animation, number: int, step: Step, gesture: str = ""
) -> Edit:
    steps = (*animation.steps[:number], step, *animation.steps[number + 1 :])
    return _with(
        desk, sprite, replace(animation, steps=steps), f"step {number + 1} of {animation.name}", gesture
    )


def _with(desk: Desk, sprite: Sprite, animation: Animation, label: str, gesture: str = "") -> Edit:
    document = put_animation(desk.session.document, sprite.name, animation, ())
    return Edit(document=document, label=label, gesture=gesture, held=bool(gesture))


def _step(
    desk: Desk, column: Column, sprite: Sprite, animation: Animation, sheet: Sheet | None
) -> Edit | None:
    """The chosen step's fields, and how the animation goes on after its last."""
    ui, session = desk.ui, desk.session
    form = Form(ui, column, "step")
    number = min(session.chosen.step, len(animation.steps) - 1)
    step = animation.steps[number]
    places = parted(column.take(ui.px(28), ui.px(6)), (1.3, 0.85, 1.1, 0.62, 0.5))
    names = [frame.name for frame in sheet.frames] if sheet else []
    picked = form.choice("frame", places[0], names, step.frame, tip="The frame of this step.")
    if picked:
        return _with_step(desk, sprite, animation, number, replace(step, frame=picked))
    ticks = form.whole("ticks", places[1], step.ticks, 1, 9999, unit="ticks", tip="How long it stays.")
    if ticks is not None:
        return _with_step(desk, sprite, animation, number, replace(step, ticks=ticks))
    picked = form.choice("flip", places[2], FLIP_WORDS, FLIP_WORDS[step.flip], tip="How this step is turned.")
    if picked:
        return _with_step(desk, sprite, animation, number, replace(step, flip=FLIP_WORDS.index(picked)))
    steps = list(animation.steps)
    if form.button("again", places[3], "Twice", tip="The same step once more."):
        steps.insert(number, step)
        return _with(desk, sprite, replace(animation, steps=tuple(steps)), "doubling a step")
    away = "delete" in ui.backend.pressed and not ui.backend.typing and desk.ask is None
    can = len(steps) > 1
    if form.button("drop", places[4], "Out", on=can, tip="Take the step out. Delete") or (away and can):
        del steps[number]
        session.chosen.step = max(0, number - 1)
        return _with(desk, sprite, replace(animation, steps=tuple(steps)), "taking a step out")
    box = column.take(ui.px(28), ui.px(18))
    picked = ui.segments("motion:play", box, PLAYS, animation.play, tip="After the last step.")
    if picked:
        return _with(desk, sprite, replace(animation, play=picked), f"how {animation.name} plays")
    return None

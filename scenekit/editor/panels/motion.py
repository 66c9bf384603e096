"""Motion: steps in time, the facing wheel, and the sprite's way through the scene."""

import math
from dataclasses import replace
from itertools import pairwise

from scenekit.editor.arithmetic import whole
from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk, Lamp, Panel
from scenekit.editor.form import read_name
from scenekit.editor.history import Edit
from scenekit.editor.pathrows import draw_path
from scenekit.editor.preview import sprite_box
from scenekit.editor.ui import Column
from scenekit.model.edits import (
    drop_animation,
    drop_placed,
    put,
    put_animation,
    put_facing,
    put_placed,
    put_scene,
)
from scenekit.model.scene import Placed, Scene
from scenekit.model.sprites import FACINGS, PLAYS, Animation, Facing, Sheet, Sprite, Step
from scenekit.motion.parallax import camera_at, scroll_at
from scenekit.motion.paths import place_at, shown_animation, step_at

FLIP_WORDS = ("as drawn", "mirrored", "upside down", "both")
STRIP_PX = 66


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
            edit = _steps(desk, column, sprite, animation) or edit
            edit = _wheel(desk, column, sprite, animation) or edit
            if session.scene is not None:
                edit = _placed(desk, column, session.scene, sprite) or edit
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


def draw_frame(desk: Desk, sheet: Sheet | None, name: str, box: Box, flip: int = 0) -> None:
    """Draw a frame as large as it fits a box, in whole pixels where there is room."""
    ui = desk.ui
    frame = sheet.frame(name) if sheet is not None else None
    pixels = desk.sheet_pixels(sheet.name) if sheet is not None else None
    if frame is None or pixels is None:
        return
    x, y, w, h = frame.box
    scale = min(box[2] / w, box[3] / h)
    scale = math.floor(scale) if scale >= 1 else scale
    if flip:

        def turned() -> object:
            part = pixels[y : y + h, x : x + w]
            part = part[:, ::-1] if flip & 1 else part
            return (part[::-1] if flip & 2 else part).copy()

        made = desk.remember(f"flip {sheet.name if sheet else ''} {name} {flip}", turned, pixels, frame.box)
        uv, number = (0.0, 0.0, 1.0, 1.0), desk.picture(made)
    else:
        high, wide = pixels.shape[:2]
        uv, number = (x / wide, y / high, (x + w) / wide, (y + h) / high), desk.picture(pixels)
    place = (
        round(box[0] + (box[2] - w * scale) / 2),
        round(box[1] + (box[3] - h * scale) / 2),
        max(1, round(w * scale)),
        max(1, round(h * scale)),
    )
    ui.backend.image(number, place, uv)


def _steps(desk: Desk, column: Column, sprite: Sprite, animation: Animation) -> Edit | None:
    """Steps as strips, each as long as its ticks; a strip's end is dragged to another length."""
    ui, session = desk.ui, desk.session
    total = sum(step.ticks for step in animation.steps)
    ui.heading(column, f"{sprite.name}: {animation.name}", f"{len(animation.steps)} steps, {total} ticks")
    sheet = next((s for s in session.document.sheets if s.name == animation.sheet), None)
    x, y, w, h = column.take(ui.px(STRIP_PX), ui.px(8))
    per_tick = desk.local.get("strip-scale") or min(ui.px(12), w / max(1, total))
    ui.fill((x, y, w, h), ui.look.shade)
    now = step_at(animation, session.playing.tick) if not desk.settings.still or session.playing.plays else -1
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
            draw_frame(
                desk, sheet, step.frame, (box[0] + 2, y + 4, max(8, box[2] - 4), h - ui.px(22)), step.flip
            )
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
    ui, session = desk.ui, desk.session
    number = min(session.chosen.step, len(animation.steps) - 1)
    step, row = animation.steps[number], ui.px(28)
    x, y, w, h = column.take(row, ui.px(6))
    part = w / 4
    names = [frame.name for frame in sheet.frames] if sheet else []
    picked = ui.choice(
        "step:frame", (x, y, part * 1.4 - 6, h), names, step.frame, tip="The frame of this step."
    )
    if picked:
        return _with_step(desk, sprite, animation, number, replace(step, frame=picked))
    ticks = ui.field(
        "step:ticks",
        (x + part * 1.4, y, part * 0.8 - 6, h),
        str(step.ticks),
        lambda t: whole(t, 1, 9999),
        unit="ticks",
    )
    if ticks is not None:
        return _with_step(desk, sprite, animation, number, replace(step, ticks=ticks))
    picked = ui.choice("step:flip", (x + part * 2.2, y, part - 6, h), FLIP_WORDS, FLIP_WORDS[step.flip])
    if picked:
        return _with_step(desk, sprite, animation, number, replace(step, flip=FLIP_WORDS.index(picked)))
    steps = list(animation.steps)
    ends = x + part * 3.2
    if ui.button("step:again", (ends, y, part * 0.4 - 4, h), "Twice", tip="The same step once more."):
        return _with(
            desk,
            sprite,
            replace(animation, steps=(*steps[: number + 1], step, *steps[number + 1 :])),
            "doubling a step",
        )
    away = "delete" in ui.backend.pressed and not ui.backend.typing and desk.ask is None
    if ui.button(
        "step:drop",
        (ends + part * 0.4, y, part * 0.4, h),
        "Out",
        on=len(steps) > 1,
        tip="Take the step out. Delete",
    ) or (away and len(steps) > 1):
        del steps[number]
        session.chosen.step = max(0, number - 1)
        return _with(desk, sprite, replace(animation, steps=tuple(steps)), "taking a step out")
    x, y, w, h = column.take(row, ui.px(18))
    picked = ui.segments(
        "motion:play", (x, y, w * 0.62, h), PLAYS, animation.play, tip="After the last step."
    )
    if picked:
        return _with(desk, sprite, replace(animation, play=picked), f"how {animation.name} plays")
    if ui.button("motion:drop", (x + w * 0.62 + 10, y, w * 0.38 - 10, h), "Take animation out", kind="quiet"):
        return Edit(
            document=drop_animation(session.document, sprite.name, animation.name),
            label=f"taking out {animation.name}",
        )
    return None


def _wheel(desk: Desk, column: Column, sprite: Sprite, animation: Animation) -> Edit | None:
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
            still = desk.settings.still and not session.playing.plays
            step = shown.steps[0 if still else step_at(shown, session.playing.tick)]
            draw_frame(
                desk, sheet, step.frame, (box[0] + 3, box[1] + 3, side - 6, side - 6), flip ^ step.flip
            )
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


def _placed(desk: Desk, column: Column, scene: Scene, sprite: Sprite) -> Edit | None:
    """Where the sprite stands in the scene, and its way."""
    ui, session = desk.ui, desk.session
    here = [placed for placed in scene.placed if placed.sprite == sprite.name]
    ui.heading(column, f"In scene {scene.name}", f"{len(here)} of it" if here else "not there yet")
    row = ui.px(28)
    planes = [plane.name for plane in scene.planes]
    x, y, w, h = column.take(row, ui.px(8))
    placed = next((p for p in here if p.name == session.chosen.placed), here[0] if here else None)
    if ui.button(
        "placed:add",
        (x, y, w * 0.32 - 6, h),
        "Put it in",
        kind="plain" if here else "main",
        tip="Place this sprite in the scene.",
    ):
        taken = {p.name for p in scene.placed}
        name = next(
            n for n in (sprite.name, *(f"{sprite.name}-{i}" for i in range(2, 1000))) if n not in taken
        )
        new = Placed(name=name, sprite=sprite.name, over=planes[-1], moves_with=planes[-1], at=(40, 40))
        session.chosen.placed = session.chosen.part = name
        return Edit(document=put_scene(session.document, put_placed(scene, new)), label=f"placing {name}")
    if placed is None:
        return None
    picked = ui.choice(
        "placed:which", (x + w * 0.32, y, w * 0.38 - 6, h), [p.name for p in here], placed.name
    )
    if picked:
        session.chosen.placed = session.chosen.part = picked
    if ui.button("placed:drop", (x + w * 0.7, y, w * 0.3, h), "Take it out", kind="quiet"):
        return Edit(
            document=put_scene(session.document, drop_placed(scene, placed.name)),
            label=f"taking out {placed.name}",
        )
    new_placed = _placed_fields(desk, column, scene, placed, planes, sprite)
    hz = float(desk.product.mode.timing.refresh_hz) if desk.product and desk.product.mode else 60.0
    looks = (
        [a.name for a in sprite.animations],
        [f for f in FACINGS if any(f == g.facing for g in sprite.facings)],
    )
    path = draw_path(desk, column, "way", placed.path, hz, looks)
    if path is not None:
        new_placed = replace(placed, path=path)
    if new_placed is None:
        return None
    return Edit(
        document=put_scene(session.document, put_placed(scene, new_placed)), label=f"changing {placed.name}"
    )


def _placed_fields(
    desk: Desk, column: Column, scene: Scene, placed: Placed, planes: list[str], sprite: Sprite
) -> Placed | None:
    ui = desk.ui
    x, y, w, h = column.take(ui.px(28), ui.px(8))
    part = w / 4
    new: Placed | None = None
    for number, (key, options, tip) in enumerate(
        (
            ("over", planes, "The plane it is drawn directly in front of."),
            ("moves_with", [*planes, "screen"], "The plane whose scrolling carries it."),
        )
    ):
        picked = ui.choice(
            f"placed:{key}", (x + number * part, y, part - 6, h), options, getattr(placed, key), tip=tip
        )
        if picked:
            new = replace(placed, over=picked) if key == "over" else replace(placed, moves_with=picked)
    for axis, word in ((0, "across"), (1, "down")):
        at = ui.field(
            f"placed:{word}",
            (x + (2 + axis) * part, y, part - 6, h),
            str(placed.at[axis]),
            lambda t: whole(t, -1_000_000, 1_000_000),
            unit=f"px {word}",
            tip="Where it starts, in pixels of the plane that carries it.",
        )
        if at is not None:
            new = replace(placed, at=(at, placed.at[1]) if axis == 0 else (placed.at[0], at))
    return new


def _over(desk: Desk, box: Box, zoom: int) -> Edit | None:
    """Show the way of the chosen sprite, marked every ten ticks, or thirty when slow; drag it."""
    ui, session = desk.ui, desk.session
    scene = session.scene
    felt = ui.press("scene:motion", box, "", keyboard=False)
    if scene is None:
        return None
    at = (felt.at[0] / zoom, felt.at[1] / zoom)
    if felt.started:
        for candidate in reversed(scene.placed):
            inside = sprite_box(desk, candidate.name)
            if (
                inside
                and inside[0] <= at[0] < inside[0] + inside[2]
                and inside[1] <= at[1] < inside[1] + inside[3]
            ):
                session.chosen.placed, session.chosen.sprite, session.chosen.part = (
                    candidate.name,
                    candidate.sprite,
                    candidate.name,
                )
                desk.local["gesture"] = desk.local.get("gesture", 0) + 1
                desk.local["placed-base"] = (session.document, scene, candidate)
                break
        else:
            desk.local.pop("placed-base", None)
    placed = next((p for p in scene.placed if p.name == session.chosen.placed), None)
    if placed is not None:
        _draw_way(desk, box, zoom, scene, placed)
    if placed is None or not felt.held or "placed-base" not in desk.local:
        return None
    base, base_scene, start = desk.local["placed-base"]
    by = (round(felt.moved[0] / zoom), round(felt.moved[1] / zoom))
    goal = (start.at[0] + by[0], start.at[1] + by[1])
    if goal == placed.at or start.name != placed.name:
        return None
    changed = put_scene(base, put_placed(base_scene, replace(start, at=goal)))
    return Edit(
        document=changed, label=f"moving {placed.name}", gesture=f"drag {desk.local['gesture']}", held=True
    )


def _draw_way(desk: Desk, box: Box, zoom: int, scene: Scene, placed: Placed) -> None:
    ui, tick = desk.ui, desk.session.playing.tick
    total = min(2000, sum(segment.ticks for segment in placed.path.segments))
    if not total:
        return
    across = down = 0
    if placed.moves_with != "screen":
        plane = scene.planes[scene.plane_number(placed.moves_with)]
        across, down = scroll_at(plane, camera_at(scene, tick), tick)
    view = desk.session.target.view if desk.session.target else None
    left, top = (view[0], view[1]) if view else (0, 0)
    ends = [place_at(placed.path, placed.at, moment) for moment in range(0, total + 1, 10)]
    length = sum(abs(a.x - b.x) + abs(a.y - b.y) for a, b in pairwise(ends)) * zoom
    apart = 10 if length / max(1, len(ends)) >= 5 else 30
    last: tuple[float, float] | None = None
    for moment in range(0, total + 1, apart):
        place = place_at(placed.path, placed.at, moment)
        point = (box[0] + (place.x - across + left) * zoom, box[1] + (place.y - down + top) * zoom)
        if last is not None and last != point:
            ui.backend.line(last, point, (255, 255, 255))
        ui.fill((point[0] - 1, point[1] - 3, 3, 6), (0, 0, 0))
        ui.fill((point[0], point[1] - 2, 1, 4), (255, 255, 255))
        last = point


def _lamp(desk: Desk) -> Lamp:
    sprites = desk.session.document.sprites
    count = sum(len(sprite.animations) for sprite in sprites)
    return Lamp(level="good" if count else "empty", word=f"{count} moving" if count else "none yet")


PLUGIN = Panel(name="motion", title="Motion", draw=_draw, lamp=_lamp, wide=True, over=_over)

"""The camera: its way and limits, the scene's length, and steering it by the arrow keys."""

from dataclasses import replace
from fractions import Fraction
from math import floor

from scenekit.editor.desk import Desk
from scenekit.editor.form import Form
from scenekit.editor.history import Edit
from scenekit.editor.moving import plain_scene, refresh_hz
from scenekit.editor.parts.keeping import draw_keeping
from scenekit.editor.parts.planefields import usual_speed
from scenekit.editor.pathrows import draw_path
from scenekit.model.edits import put_scene
from scenekit.model.scene import Camera, Scene
from scenekit.motion.parallax import camera_at

FASTER = 4
FARTHEST = 30_000


def draw_camera(desk: Desk, form: Form, scene: Scene) -> Edit | None:
    """Draw length, limits and way of the camera; return an edit."""
    ui, document = desk.ui, desk.session.document
    ui.heading(form.column, "Camera and length")
    _steering(desk, form, scene)
    hz = refresh_hz(desk)
    units = {"s": Fraction(round(hz * 1000), 1000), "ticks": Fraction(1)}
    new: Scene | None = None
    length = Form(ui, form.column, "scene")
    ticks = length.whole(
        "ticks", length.line("scene lasts"), scene.ticks, 1, 1_000_000, unit="ticks", units=units,
        tip="How long the scene is: ticks, or seconds such as 10 s.",
    )  # fmt: skip
    if ticks is not None:
        new = replace(scene, ticks=ticks)
    camera = _start(form, scene.camera) or _limits(form, scene.camera)
    camera = draw_keeping(desk, form, scene) or camera
    path = None if scene.camera.keeps else draw_path(desk, form.column, "camera", scene.camera.path, hz, None)
    if path is not None:
        camera = replace(scene.camera, path=path)
    if camera is not None:
        new = replace(scene, camera=camera)
    new = _pace(length, scene) or new
    if new is None:
        return None
    return Edit(
        document=put_scene(document, new), label="the camera's way" if camera else "length of the scene"
    )


def _pace(form: Form, scene: Scene) -> Scene | None:
    """How often the program draws anew, and what happens when it is late."""
    every = form.whole(
        "update", form.line("drawn every"), scene.ticks_per_update, 1, 60, unit="ticks",
        tip="1 draws at every refresh; 2 at every second one, which leaves twice the time.",
    )  # fmt: skip
    if every is not None:
        return replace(scene, ticks_per_update=every)
    words = {"slow": "it slows down", "catch-up": "it catches up"}
    picked = form.either(
        "missed", form.line("when late"), tuple(words.values()), words[scene.missed],
        tip="For your own program to go by; the exported player always goes slower.",
    )  # fmt: skip
    if picked is None:
        return None
    return replace(scene, missed=next(key for key, word in words.items() if word == picked))


def _start(form: Form, camera: Camera) -> Camera | None:
    for axis, box, word in zip((0, 1), form.split("begins at", (1, 1)), ("across", "down"), strict=True):
        at = form.whole(
            f"start-{word}", box, camera.start[axis], -FARTHEST, FARTHEST, unit="px",
            tip="Where the view's top left corner is at tick 0.",
        )  # fmt: skip
        if at is not None:
            return replace(camera, start=(at, camera.start[1]) if axis == 0 else (camera.start[0], at))
    return None


def _limits(form: Form, camera: Camera) -> Camera | None:
    if camera.limits is None:
        tip = "Keep the camera between a left, top, right and bottom end; a check says when it leaves them."
        if form.button("limits", form.line("limits"), "Give it limits", tip=tip, kind="quiet"):
            return replace(camera, limits=(0, 0, max(0, camera.path.edges[-1][1]), 0))
        return None
    boxes = form.split("limits", (1, 1, 1, 1, 0.95), 3)
    for number, word in enumerate(("left", "top", "right", "bottom")):
        value = form.whole(
            f"limit-{word}", boxes[number], camera.limits[number], -FARTHEST, FARTHEST,
            tip=f"The {word} end of the camera's room.",
        )  # fmt: skip
        if value is not None:
            limits = [*camera.limits]
            limits[number] = value
            return replace(camera, limits=(limits[0], limits[1], limits[2], limits[3]))
    if form.button("no-limits", boxes[4], "Out", kind="quiet", tip="No limits."):
        return replace(camera, limits=None)
    return None


def _steering(desk: Desk, form: Form, scene: Scene) -> None:
    """Take the camera out of its way and steer it, live, as a player would."""
    ui = desk.ui
    at = desk.local.get("steer")
    x, y, w, h = form.column.take(ui.px(28), ui.px(6))
    word = "Steer the camera" if at is None else "Back to its way"
    tip = "Arrow keys move the camera at its usual speed, with Shift four times as fast. Ctrl+E"
    pressed = "ctrl+e" in ui.backend.pressed and desk.ask is None
    if form.button("steer", (x, y, ui.px(132), h), word, tip=tip) or pressed:
        steer(desk, scene, at is None)
        at = desk.local.get("steer")
    words = "" if at is None else f"at {at[0]}, {at[1]}; Ctrl+E ends"
    ui.text(x + ui.px(142), y + h / 2, words, "small", ui.look.quiet, room=w - ui.px(142))
    if at is not None:
        _move(desk, scene, at)


def steer(desk: Desk, scene: Scene, on: bool) -> None:
    """Begin to steer where the camera is now, or let it go its way again."""
    plain = plain_scene(desk)
    if on:
        desk.local["steer"] = camera_at(plain or scene, desk.session.playing.tick)
        desk.local["steer-rest"] = (Fraction(0), Fraction(0))
    else:
        desk.local.pop("steer", None)
    desk.ui.backend.walk_by_keys(not on)


def leave_steering(desk: Desk) -> None:
    """Let the camera go its way when another station is shown."""
    if desk.local.pop("steer", None) is not None:
        desk.ui.backend.walk_by_keys(True)


def _move(desk: Desk, scene: Scene, at: tuple[int, int]) -> None:
    """Move the camera by what is held down, in whole pixels, without losing parts of them."""
    backend = desk.ui.backend
    desk.local["animating"] = True
    if backend.typing or desk.ask is not None:
        return
    ticks = Fraction(round(min(desk.delta_s, 0.1) * refresh_hz(desk) * 64), 64)
    far = usual_speed(desk, scene) * ticks * (FASTER if "shift" in backend.held else 1)
    ways = (
        backend.is_down("right") - backend.is_down("left"),
        backend.is_down("down") - backend.is_down("up"),
    )
    limits = scene.camera.limits or (-FARTHEST, -FARTHEST, FARTHEST, FARTHEST)
    rests = desk.local.get("steer-rest", (Fraction(0), Fraction(0)))
    place, left = [*at], [*rests]
    for axis in (0, 1):
        moved = rests[axis] + ways[axis] * far
        whole = floor(moved)
        place[axis] = max(limits[axis], min(limits[axis + 2], at[axis] + whole))
        left[axis] = moved - whole if ways[axis] else Fraction(0)
    desk.local["steer"], desk.local["steer-rest"] = (place[0], place[1]), (left[0], left[1])

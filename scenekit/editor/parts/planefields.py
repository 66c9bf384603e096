"""How a plane scrolls: its ratio as a number, from a depth or from a speed; drift, place and repetition."""

from dataclasses import replace
from fractions import Fraction

from scenekit.editor.desk import Desk
from scenekit.editor.form import Form, parted
from scenekit.editor.moving import plain_scene
from scenekit.errors import SceneKitError
from scenekit.model.planes import LONGEST_CADENCE
from scenekit.model.scene import Plane, Scene
from scenekit.motion.expand import camera_speed, with_ratio

WAYS = ("ratio", "depth", "speed")
ONE = Fraction(1)


def way_of(plane: Plane) -> str:
    """Return which of the three ways says how a plane scrolls."""
    return "depth" if plane.depth is not None else "speed" if plane.pace is not None else "ratio"


def usual_speed(desk: Desk, scene: Scene) -> Fraction:
    """Return the speed that the camera keeps longest, in px a tick."""
    plain = plain_scene(desk)
    return camera_speed((plain or scene).camera.path)


def with_numbers(desk: Desk, scene: Scene, plane: Plane) -> Plane:
    """Return a plane whose depth or speed is turned into its ratio; 1 where that would be too fine."""
    try:
        return with_ratio(plane, usual_speed(desk, scene), f"scene {scene.name}")
    except SceneKitError:
        return replace(plane, depth=None, pace=None)


def draw_plane_fields(desk: Desk, form: Form, scene: Scene, plane: Plane) -> Plane | None:
    """Draw the fields of a plane; return it changed."""
    new = _scrolling(desk, form, scene, plane)
    across, down = form.split("drift", (1, 1))
    for axis, box, word in ((0, across, "drift"), (1, down, "drift-down")):
        value = form.exact(
            word, box, plane.drift[axis], unit="px a tick" if axis == 0 else "down",
            tip="Pixels a tick that it moves by itself, exact: 1/4, -2.",
        )  # fmt: skip
        if value is not None:
            drift = (value, plane.drift[1]) if axis == 0 else (plane.drift[0], value)
            new = replace(plane, drift=drift)
    left, top = form.split("stands at", (1, 1))
    for axis, box, word in ((0, left, "across"), (1, top, "down")):
        at = form.whole(
            f"at-{word}", box, plane.offset[axis], -32_767, 32_767, unit="px",
            tip="Where its top left corner stands in the view while the camera is at 0.",
        )  # fmt: skip
        if at is not None:
            new = replace(plane, offset=(at, plane.offset[1]) if axis == 0 else (plane.offset[0], at))
    new = _held(form, plane) or new
    for axis, word, key in ((0, "sideways", "wrap"), (1, "up, down", "wrap-down")):
        if axis == 1 and plane.bands:
            continue
        now = "repeats" if plane.wrap[axis] else "once"
        picked = form.either(
            key, form.line(word), ("repeats", "once"), now,
            tip="Whether its picture comes again where it ends.",
        )  # fmt: skip
        if picked is not None:
            flags = list(plane.wrap)
            flags[axis] = picked == "repeats"
            new = replace(plane, wrap=(flags[0], flags[1]))
    return new


def _held(form: Form, plane: Plane) -> Plane | None:
    """How long it is held in one place, and from which tick on."""
    ticks, first = form.split("new place", (1, 1))
    every = form.whole(
        "cadence", ticks, plane.cadence[0], 1, LONGEST_CADENCE, unit="ticks",
        tip="Every how many ticks it shows a new place; 1 is smooth, more lets pictures between draw less.",
    )  # fmt: skip
    if every is not None:
        return replace(plane, cadence=(every, min(plane.cadence[1], every - 1)))
    if plane.cadence[0] > 1:
        at = form.whole(
            "cadence-first", first, plane.cadence[1], 0, plane.cadence[0] - 1, unit="from tick",
            tip="The first tick with a new place: planes that differ here do not move in the same picture.",
        )  # fmt: skip
        if at is not None:
            return replace(plane, cadence=(plane.cadence[0], at))
    return None


def _scrolling(desk: Desk, form: Form, scene: Scene, plane: Plane) -> Plane | None:
    """The ratio: a number, or what it follows from."""
    way = way_of(plane)
    box = form.line("scrolls by")
    tip = "A ratio as it is; from how far away it is; or from how fast it is to slide."
    picked = form.either("way", box, WAYS, way, tip=tip)
    if picked is not None:
        return _by(desk, scene, plane, picked)
    if way == "depth":
        assert plane.depth is not None
        value = form.exact(
            "depth", form.line("depth"), plane.depth, unit="times as far", above=0,
            tip="How many times as far away it is as a plane of ratio 1: twice as far slides half as fast.",
        )  # fmt: skip
        return None if value is None else replace(plane, depth=value)
    if way == "speed":
        assert plane.pace is not None
        value = form.exact(
            "pace", form.line("speed"), plane.pace, unit="px a tick",
            tip="Pixels a tick that it slides while the camera keeps its usual speed; 2/60 is 2 px in 60.",
        )  # fmt: skip
        return None if value is None else replace(plane, pace=value)
    new: Plane | None = None
    across, down = parted(form.line("ratio"), (1, 1))
    for axis, part, word in ((0, across, "ratio"), (1, down, "ratio-down")):
        value = form.exact(
            word, part, plane.ratio[axis], unit="" if axis == 0 else "down",
            tip="Pixels it slides for each pixel of the camera: 1/8 is far, 3/2 is near.",
        )  # fmt: skip
        if value is not None:
            new = replace(plane, ratio=(value, plane.ratio[1]) if axis == 0 else (plane.ratio[0], value))
    return new


def _by(desk: Desk, scene: Scene, plane: Plane, way: str) -> Plane:
    """Return a plane that scrolls as before as far as the other way of saying it can say that."""
    numbers = with_numbers(desk, scene, plane)
    if way == "ratio":
        return numbers
    usual = usual_speed(desk, scene)
    still = replace(numbers, ratio=(ONE, ONE))
    if way == "depth":
        ratio = numbers.ratio[0]
        depth = 1 / ratio if ratio > 0 else ONE
        return replace(still, depth=depth)
    return replace(still, pace=numbers.ratio[0] * usual)


def scroll_words(desk: Desk, scene: Scene, plane: Plane) -> str:
    """Return how a plane scrolls in a few words."""
    numbers = with_numbers(desk, scene, plane)
    words = f"x {numbers.ratio[0]}"
    if plane.bands:
        words += f", {len(plane.bands)} bands"
    if plane.drift[0]:
        words += f", drifts {plane.drift[0]}"
    return words + ("" if plane.wrap[0] else ", once")

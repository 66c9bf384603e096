"""Scroll positions of planes for a camera."""

from fractions import Fraction

from scenekit.model.scene import Plane, Scene, travel
from scenekit.motion.keeping import kept_camera
from scenekit.motion.paths import place_at


def camera_at(scene: Scene, tick: int) -> tuple[int, int]:
    """Return the camera's position at a tick, in whole pixels."""
    if scene.camera.keeps:
        return kept_camera(scene, tick)
    place = place_at(scene.camera.path, scene.camera.start, tick)
    return place.x, place.y


def held_tick(plane: Plane, tick: int) -> int:
    """Return the tick whose place a plane shows: the last one of its cadence, or 0 before the first."""
    every, first = plane.cadence
    return max(0, tick - (tick - first) % every)


def shown_scroll(
    scene: Scene, plane: Plane, tick: int, camera: tuple[int, int] | None = None
) -> tuple[int, int]:
    """Return how far a plane of a scene is shown to have scrolled at a tick, held by its cadence.

    camera   its position at that tick, when it is known already
    """
    if plane.cadence[0] == 1:
        return scroll_at(plane, camera or camera_at(scene, tick), tick)
    held = held_tick(plane, tick)
    return scroll_at(plane, camera_at(scene, held), held)


def scroll_at(plane: Plane, camera: tuple[int, int], tick: int) -> tuple[int, int]:
    """Return how far a plane has scrolled: its picture's pixel at the view's top left corner.

    Each axis is floor(ratio x camera) + floor(drift x tick) - offset.
    """
    return _axis(plane, camera, tick, 0), _axis(plane, camera, tick, 1)


def _axis(plane: Plane, camera: tuple[int, int], tick: int, axis: int) -> int:
    return travel(plane.ratio[axis], camera[axis]) + travel(plane.drift[axis], tick) - plane.offset[axis]


def remainder(ratio: Fraction, camera: int) -> int:
    """Return the error term of an integer accumulator: (numerator x camera) mod denominator."""
    return ratio.numerator * camera % ratio.denominator

"""Where the camera is when it keeps a sprite within a zone of the view."""

from array import array
from collections import OrderedDict

from scenekit.model.scene import Camera, Placed, Plane, Scene
from scenekit.motion.paths import place_at

MOST_SCENES = 4


class _Kept:
    """The camera's way through a scene, worked out tick by tick as far as it was asked for."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self.placed = next(placed for placed in scene.placed if placed.name == scene.camera.keeps)
        self.plane = scene.planes[scene.plane_number(self.placed.moves_with)]
        self.places = array("q")
        self.last = scene.camera.start

    def at(self, tick: int) -> tuple[int, int]:
        while len(self.places) <= 2 * tick:
            self.last = kept_in_zone(
                self.scene.camera, self.placed, self.plane, self.last, len(self.places) // 2
            )
            self.places.extend(self.last)
        return self.places[2 * tick], self.places[2 * tick + 1]


_KNOWN: "OrderedDict[int, _Kept]" = OrderedDict()


def kept_camera(scene: Scene, tick: int) -> tuple[int, int]:
    """Return the camera's position at a tick; each tick goes on from the one before."""
    known = _KNOWN.get(id(scene))
    if known is None or known.scene is not scene:
        known = _KNOWN[id(scene)] = _Kept(scene)
        while len(_KNOWN) > MOST_SCENES:
            _KNOWN.popitem(last=False)
    return known.at(tick)


def kept_in_zone(
    camera: Camera, placed: Placed, plane: Plane, before: tuple[int, int], tick: int
) -> tuple[int, int]:
    """Return where the camera goes from its last place, moving no more than the sprite's zone asks for."""
    place = place_at(placed.path, placed.at, tick)
    found = []
    for axis, where in enumerate((place.x, place.y)):
        shown = where + plane.offset[axis] - before[axis]
        low, size = camera.zone[axis], camera.zone[axis + 2]
        moved = before[axis] + min(0, shown - low) + max(0, shown - (low + size - 1))
        if camera.limits is not None:
            moved = min(camera.limits[axis + 2], max(camera.limits[axis], moved))
        found.append(moved)
    return found[0], found[1]

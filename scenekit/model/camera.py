"""The camera of a scene, and where the view that it moves wakes sprites."""

from dataclasses import field

from scenekit.errors import ProjectError
from scenekit.model.fields import Fields
from scenekit.model.paths import Pair, Path, read_path
from scenekit.records import record


@record(frozen=True, slots=True, kw_only=True)
class Camera:
    """Where the view's top left corner is in the world, and how it moves.

    limits   (left, top, right, bottom) that its corner may take, or None
    keeps    name of the placed sprite that it goes after, or ""
    zone     (x, y, w, h) of the view in which that sprite's pivot can move while the camera stands
    """

    start: Pair = (0, 0)
    path: Path = field(default_factory=Path)
    limits: tuple[int, int, int, int] | None = None
    keeps: str = ""
    zone: tuple[int, int, int, int] = (0, 0, 1, 1)


@record(frozen=True, slots=True, kw_only=True)
class Wakes:
    """Where sleeping sprites wake: when their start places stand between two pixels of the view.

    axis    0 sideways, 1 up and down
    start   first pixel, counted from the view's corner
    end     one after the last
    """

    axis: int = 0
    start: int = 0
    end: int = 1


def read_camera(scene: Fields) -> Camera:
    """Build the camera of a scene from the table of that name."""
    if not scene.has("camera"):
        return Camera()
    fields = Fields(scene.table["camera"], f"{scene.where}: camera")
    start = fields.integers("start", 2, -1_000_000, 1_000_000, (0, 0))
    limits = fields.integers("limits", 4, -1_000_000, 1_000_000) if fields.has("limits") else None
    if limits is not None and (limits[0] > limits[2] or limits[1] > limits[3]):
        raise fields.error("limits", list(limits), "[left, top, right, bottom] in rising order")
    path = read_path(fields)
    keeps = fields.name("keeps", "")
    zone = fields.integers("zone", 4, -32_767, 32_767, None if keeps else (0, 0, 1, 1))
    fields.done()
    if min(zone[2:]) < 1:
        raise fields.error("zone", list(zone), "[x, y, width, height] with width and height of at least 1")
    if keeps and path.segments:
        raise ProjectError(f"{fields.where}: must have either a path or a sprite that it keeps in its zone")
    bounds = None if limits is None else (limits[0], limits[1], limits[2], limits[3])
    box = (zone[0], zone[1], zone[2], zone[3])
    return Camera(start=(start[0], start[1]), path=path, limits=bounds, keeps=keeps, zone=box)


def read_wakes(scene: Fields) -> Wakes:
    """Build where sprites wake from the scene's table `wakes`."""
    if not scene.has("wakes"):
        return Wakes()
    fields = Fields(scene.table["wakes"], f"{scene.where}: wakes")
    along = fields.choice("along", ("x", "y"), "x")
    start = fields.integer("from", -4096, 4096)
    end = fields.integer("to", start + 1, 8192)
    fields.done()
    return Wakes(axis="xy".index(along), start=start, end=end)

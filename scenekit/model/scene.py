"""Scenes: camera, planes, placed sprites, palette events."""

from dataclasses import field

from scenekit.errors import ProjectError, UnknownNameError
from scenekit.model.camera import Camera, Wakes, read_camera, read_wakes
from scenekit.model.events import Event, Transition, read_event, read_transition
from scenekit.model.fields import Fields, unique
from scenekit.model.palette import Colour
from scenekit.model.panel import Panel, ValueChange, read_change, read_panel
from scenekit.model.paths import Pair, Path, Segment, read_path, travel
from scenekit.model.planes import Plane, read_plane
from scenekit.model.sprites import FACINGS
from scenekit.records import record

__all__ = [
    "Camera",
    "Event",
    "Path",
    "Placed",
    "Plane",
    "Scene",
    "Segment",
    "Transition",
    "Wakes",
    "read_scene",
    "travel",
]


@record(frozen=True, slots=True, kw_only=True)
class Placed:
    """A sprite in the scene.

    over       the plane it is drawn directly in front of
    moves_with the plane whose scrolling carries it, or "screen"
    at         (x, y) start position in that plane's pixels
    asleep     whether it is out of sight and does nothing until the view comes to its start place
    """

    name: str
    sprite: str
    over: str
    moves_with: str
    at: Pair
    animation: str = ""
    facing: str = ""
    path: Path = field(default_factory=Path)
    asleep: bool = False


@record(frozen=True, slots=True, kw_only=True)
class Scene:
    """One scene of the game; planes stand from back to front."""

    name: str
    ticks: int
    ticks_per_update: int
    missed: str
    backdrop: Colour
    camera: Camera
    planes: tuple[Plane, ...]
    placed: tuple[Placed, ...]
    events: tuple[Event, ...]
    transitions: tuple[Transition, ...] = ()
    panel: Panel | None = None
    changes: tuple[ValueChange, ...] = ()
    wakes: Wakes = field(default_factory=Wakes)

    @property
    def plain(self) -> bool:
        """Say whether all its paths are speeds alone, and all its planes have one ratio."""
        paths = [self.camera.path, *(placed.path for placed in self.placed)]
        layered = any(
            plane.bands or plane.depth is not None or plane.pace is not None for plane in self.planes
        )
        return not layered and all(path.plain for path in paths)

    def plane_number(self, name: str) -> int:
        """Return the index of a plane."""
        return next(i for i, plane in enumerate(self.planes) if plane.name == name)


def read_scene(table: object, name: str) -> Scene:
    """Build a scene from a parsed scene file.

    raises   ProjectError, UnknownNameError: with the file, record and key
    """
    fields = Fields(table, f"scenes/{name}.toml")
    fields.integer("format", 1, 1_000_000)
    scene = Scene(
        name=name,
        ticks=fields.integer("ticks", 1, 1_000_000, 600),
        ticks_per_update=fields.integer("ticks_per_update", 1, 60, 1),
        missed=fields.choice("missed", ("slow", "catch-up"), "slow"),
        backdrop=fields.colour("backdrop", "000000") or (0, 0, 0),
        camera=read_camera(fields),
        planes=fields.records("planes", read_plane, "plane", 32),
        placed=fields.records("placed", _read_placed, "placed sprite", 1000),
        events=fields.records("events", read_event, "event", 200),
        transitions=fields.records("transitions", read_transition, "transition", 32),
        panel=read_panel(fields.table["panel"], fields.where) if fields.has("panel") else None,
        changes=fields.records("changes", read_change, "change", 1000),
        wakes=read_wakes(fields),
    )
    fields.done()
    if not scene.planes:
        raise fields.error("planes", [], "at least one plane")
    _check_names(scene, fields.where)
    return scene


def _check_names(scene: Scene, where: str) -> None:
    unique(where, "plane", (plane.name for plane in scene.planes))
    unique(where, "placed sprite", (placed.name for placed in scene.placed))
    unique(where, "event", (event.name for event in scene.events))
    planes = [plane.name for plane in scene.planes]
    for placed in scene.placed:
        for key, name in (("over", placed.over), ("moves_with", placed.moves_with)):
            if name not in planes and not (key == "moves_with" and name == "screen"):
                raise ProjectError(
                    f"{where}: placed sprite {placed.name}: {key}: got {name!r}; "
                    f"must be a plane of this scene: {', '.join(planes)}"
                )
    if scene.camera.keeps:
        _check_kept(scene, where)
    for placed in scene.placed:
        if placed.asleep and (placed.moves_with == "screen" or placed.name == scene.camera.keeps):
            why = "moves with the screen" if placed.moves_with == "screen" else "is kept by the camera"
            raise ProjectError(f"{where}: placed sprite {placed.name}: asleep: it {why}; must not sleep")
    if any(placed.asleep for placed in scene.placed) and scene.wakes == Wakes():
        raise ProjectError(f"{where}: wakes: missing; say where sprites that are asleep wake")


def _check_kept(scene: Scene, where: str) -> None:
    """Refuse a camera that goes after a sprite whose place says nothing about the camera's."""
    kept = next((placed for placed in scene.placed if placed.name == scene.camera.keeps), None)
    if kept is None:
        raise UnknownNameError(f"{where}: camera: keeps", scene.camera.keeps, [p.name for p in scene.placed])
    plane = next((plane for plane in scene.planes if plane.name == kept.moves_with), None)
    still = plane is not None and not any(plane.drift) and not plane.bands and plane.cadence[0] == 1
    if plane is None or not still or not plane.goes_with_camera:
        raise ProjectError(
            f"{where}: camera: keeps: {kept.name} moves with {kept.moves_with}; it must move with a plane of "
            "ratio 1 that does not drift, is not held and has no bands"
        )


def _read_placed(fields: Fields) -> Placed:
    at = fields.integers("at", 2, -1_000_000, 1_000_000)
    over = fields.name("over")
    return Placed(
        name=fields.name("name"),
        sprite=fields.name("sprite"),
        over=over,
        moves_with=fields.name("moves_with", over),
        at=(at[0], at[1]),
        animation=fields.name("animation", ""),
        facing=fields.choice("facing", ("", *FACINGS), ""),
        path=read_path(fields),
        asleep=fields.flag("asleep", False),
    )

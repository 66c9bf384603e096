"""Scenes: camera, planes, placed sprites, palette events."""

from dataclasses import field
from fractions import Fraction

from scenekit.errors import ProjectError, UnknownNameError
from scenekit.model.camera import Camera, Wakes, read_camera, read_wakes
from scenekit.model.events import Event, Transition, read_event, read_transition
from scenekit.model.fields import Fields, unique
from scenekit.model.palette import Colour
from scenekit.model.panel import Panel, ValueChange, read_change, read_panel
from scenekit.model.paths import FarPair, Pair, Path, Segment, read_path, travel
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
    "Turn",
    "Wakes",
    "read_scene",
    "travel",
]


LONGEST_CADENCE = 240
"""Ticks for which a plane may be held: 4 s at 60 Hz."""


@record(frozen=True, slots=True, kw_only=True)
class Band:
    """Rows of a plane's picture, from the first up to but not including the last, with their own ratio."""

    rows: Pair
    ratio: FarPair
    drift: FarPair = (Fraction(0), Fraction(0))


@record(frozen=True, slots=True, kw_only=True)
class Turn:
    """Frames of a map's sheet that take turns: a cell that holds one goes on to the next after some ticks."""

    frames: tuple[str, ...]
    ticks: int


@record(frozen=True, slots=True, kw_only=True)
class Plane:
    """A layer of the scene: a picture, or a map of a sheet's frames, that scrolls by a ratio.

    ratio    (x, y) pixels per pixel of camera movement, exact
    depth    how many times as far away it is as a plane of ratio 1; then the ratio follows from it
    pace     pixels a tick sideways while the camera keeps its usual speed; then the ratio follows from it
    drift    (x, y) pixels per tick that it moves by itself, exact
    wrap     (x, y) whether the picture repeats
    offset   (x, y) where its top left corner stands in the view at camera 0
    cadence  ticks from one new place to the next, between which it is held, and the first such tick
    rows     rows of the picture that it shows, first and one after the last, or None for all
    bands    rows that scroll by ratios of their own, from top to bottom
    turns    frames that take turns in the cells of a map
    bank     name of the group of pictures that has palette entries to itself, or ""
    """

    name: str
    picture: str = ""
    map: str = ""
    sheet: str = ""
    key: Colour | None = None
    ratio: FarPair = (Fraction(1), Fraction(1))
    depth: Fraction | None = None
    pace: Fraction | None = None
    drift: FarPair = (Fraction(0), Fraction(0))
    wrap: tuple[bool, bool] = (True, False)
    offset: Pair = (0, 0)
    cadence: Pair = (1, 0)
    tile: Pair = (16, 16)
    rows: Pair | None = None
    bands: tuple[Band, ...] = ()
    turns: tuple[Turn, ...] = ()
    bank: str = ""
    source: str = ""
    author: str = ""
    licence: str = ""

    @property
    def goes_with_camera(self) -> bool:
        """Say whether it scrolls by one pixel for each pixel of the camera."""
        return self.pace is None and self.depth in (None, 1) and all(part == 1 for part in self.ratio)


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
        planes=fields.records("planes", _read_plane, "plane", 32),
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


def _read_plane(fields: Fields) -> Plane:
    offset = fields.integers("offset", 2, -32_767, 32_767, (0, 0))
    tile = fields.integers("tile", 2, 4, 256, (16, 16))
    cadence = fields.integers("cadence", 2, 0, LONGEST_CADENCE, (1, 0))
    if cadence[1] >= cadence[0]:
        raise fields.error("cadence", list(cadence), "[ticks from 1 on, first tick below them]")
    rows = fields.integers("rows", 2, 0, 32_767) if fields.has("rows") else None
    if rows is not None and rows[0] >= rows[1]:
        raise fields.error("rows", list(rows), "[first, one after the last] in rising order")
    plane = Plane(
        name=fields.name("name"),
        picture=fields.path("picture", None),
        map=fields.path("map", None),
        sheet=fields.name("sheet", ""),
        key=fields.colour("key", None),
        ratio=fields.fractions("ratio", (1, 1)),
        depth=fields.fraction("depth") if fields.has("depth") else None,
        pace=fields.fraction("pace") if fields.has("pace") else None,
        drift=fields.fractions("drift"),
        wrap=fields.flags("wrap", (True, False)),
        offset=(offset[0], offset[1]),
        cadence=(cadence[0], cadence[1]),
        tile=(tile[0], tile[1]),
        rows=None if rows is None else (rows[0], rows[1]),
        bands=fields.records("bands", _read_band, "band", 64),
        turns=fields.records("turns", _read_turn, "turn", 64),
        bank=fields.name("bank", ""),
        source=fields.text("source", ""),
        author=fields.text("author", ""),
        licence=fields.text("licence", ""),
    )
    _check_bands(fields, plane.bands)
    _check_turns(fields, plane)
    if plane.bands and plane.wrap[1]:
        raise fields.error("wrap", list(plane.wrap), "[true or false, false] for a plane with bands")
    if sum(("ratio" in fields.table, plane.depth is not None, plane.pace is not None)) > 1:
        raise ProjectError(f"{fields.where}: must have only one of ratio, depth and pace")
    if plane.depth is not None and plane.depth <= 0:
        raise fields.error("depth", str(plane.depth), "above 0")
    if plane.name == "screen":
        raise fields.error("name", plane.name, "another name: 'screen' stands for the screen itself")
    if bool(plane.picture) == bool(plane.map):
        raise ProjectError(f"{fields.where}: must have either a picture or a map")
    if plane.map and not plane.sheet:
        raise fields.error("sheet", "", "the sheet whose frames the map numbers, counted from 0")
    return plane


def _read_turn(fields: Fields) -> Turn:
    frames = fields.names("frames")
    if not 2 <= len(frames) <= 64 or len(set(frames)) != len(frames):
        raise fields.error("frames", list(frames), "2 to 64 frames that all differ")
    return Turn(frames=frames, ticks=fields.integer("ticks", 1, 9999))


def _check_turns(fields: Fields, plane: Plane) -> None:
    names = [name for turn in plane.turns for name in turn.frames]
    if names and (plane.picture or plane.bands or plane.rows is not None):
        raise ProjectError(f"{fields.where}: turns: only a whole map has them, no picture, rows or bands")
    double = next((name for name in names if names.count(name) > 1), None)
    if double is not None:
        raise fields.error("turns", double, "frames of which each stands in one turn only")


def _check_bands(fields: Fields, bands: tuple[Band, ...]) -> None:
    end = 0
    for band in bands:
        if band.rows[0] < end or band.rows[0] >= band.rows[1]:
            raise fields.error("bands", list(band.rows), "rows from top to bottom that do not overlap")
        end = band.rows[1]


def _read_band(fields: Fields) -> Band:
    rows = fields.integers("rows", 2, 0, 32_767)
    return Band(
        rows=(rows[0], rows[1]), ratio=fields.fractions("ratio", (1, 1)), drift=fields.fractions("drift")
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

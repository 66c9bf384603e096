"""Scenes: camera, planes, placed sprites, palette events."""

from dataclasses import dataclass, field
from fractions import Fraction

from scenekit.errors import ProjectError
from scenekit.model.fields import Fields, unique
from scenekit.model.palette import Colour
from scenekit.model.sprites import FACINGS

REPEATS = ("no", "from-start", "onward")
Pair = tuple[int, int]
FarPair = tuple[Fraction, Fraction]


def travel(speed: Fraction, ticks: int) -> int:
    """Return floor(speed x ticks), in pixels."""
    return speed.numerator * ticks // speed.denominator


@dataclass(frozen=True, slots=True, kw_only=True)
class Segment:
    """A stretch of a path: some ticks at one speed.

    speed      (x, y) pixels per tick, exact
    animation  name to switch to at its start, or "" to go on
    facing     facing to take at its start, or "" to go on
    """

    ticks: int
    speed: FarPair
    animation: str = ""
    facing: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """Segments in order; after the last: stay, restart from the start place, or go on onward.

    edges   (tick, x, y) at which each segment begins, and the end of the last, from the path's start
    """

    segments: tuple[Segment, ...] = ()
    repeat: str = "no"
    edges: tuple[tuple[int, int, int], ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        edges = [(0, 0, 0)]
        for segment in self.segments:
            tick, x, y = edges[-1]
            across, down = (travel(speed, segment.ticks) for speed in segment.speed)
            edges.append((tick + segment.ticks, x + across, y + down))
        object.__setattr__(self, "edges", tuple(edges))


@dataclass(frozen=True, slots=True, kw_only=True)
class Camera:
    """Where the view's top left corner is in the world, and how it moves.

    limits   (left, top, right, bottom) that its corner may take, or None
    """

    start: Pair = (0, 0)
    path: Path = Path()
    limits: tuple[int, int, int, int] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Plane:
    """A layer of the scene: a picture, or a map of a sheet's frames, that scrolls by a ratio.

    ratio    (x, y) pixels per pixel of camera movement, exact
    drift    (x, y) pixels per tick that it moves by itself, exact
    wrap     (x, y) whether the picture repeats
    offset   (x, y) where its top left corner stands in the view at camera 0
    """

    name: str
    picture: str = ""
    map: str = ""
    sheet: str = ""
    key: Colour | None = None
    ratio: FarPair = (Fraction(1), Fraction(1))
    drift: FarPair = (Fraction(0), Fraction(0))
    wrap: tuple[bool, bool] = (True, False)
    offset: Pair = (0, 0)
    tile: Pair = (16, 16)
    source: str = ""
    author: str = ""
    licence: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A sprite in the scene.

    over       the plane it is drawn directly in front of
    moves_with the plane whose scrolling carries it, or "screen"
    at         (x, y) start position in that plane's pixels
    """

    name: str
    sprite: str
    over: str
    moves_with: str
    at: Pair
    animation: str = ""
    facing: str = ""
    path: Path = Path()


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """A palette event: colours of the art turn into others, in steps, from a tick on.

    colours        exact colours painted in the art
    start          what they are before the first step (default: themselves)
    to             what they are after the last
    """

    name: str
    tick: int
    steps: int
    ticks_per_step: int
    colours: tuple[Colour, ...]
    start: tuple[Colour, ...]
    to: tuple[Colour, ...]

    def done_at(self, tick: int) -> int:
        """Return how many of its steps are done at a tick."""
        if tick < self.tick:
            return 0
        return min(self.steps, (tick - self.tick) // self.ticks_per_step + 1)

    def colours_after(self, done: int) -> tuple[Colour, ...]:
        """Return the colours after that many steps, by whole-number interpolation."""
        return tuple(_between(a, b, done, self.steps) for a, b in zip(self.start, self.to, strict=True))


@dataclass(frozen=True, slots=True, kw_only=True)
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
    has_panel: bool = False

    def plane_number(self, name: str) -> int:
        """Return the index of a plane."""
        return next(i for i, plane in enumerate(self.planes) if plane.name == name)


def _between(a: Colour, b: Colour, done: int, steps: int) -> Colour:
    mixed = [(x * (steps - done) + y * done + steps // 2) // steps for x, y in zip(a, b, strict=True)]
    return mixed[0], mixed[1], mixed[2]


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
        camera=_read_camera(fields),
        planes=fields.records("planes", _read_plane, "plane", 32),
        placed=fields.records("placed", _read_placed, "placed sprite", 1000),
        events=fields.records("events", _read_event, "event", 200),
        has_panel=fields.has("panel"),
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


def _read_path(fields: Fields) -> Path:
    segments = fields.records("path", _read_segment, "path segment", 2000)
    return Path(segments=segments, repeat=fields.choice("repeat", REPEATS, "no"))


def _read_segment(fields: Fields) -> Segment:
    return Segment(
        ticks=fields.integer("ticks", 1, 30_000),
        speed=fields.fractions("speed"),
        animation=fields.name("animation", ""),
        facing=fields.choice("facing", ("", *FACINGS), ""),
    )


def _read_camera(scene: Fields) -> Camera:
    if not scene.has("camera"):
        return Camera()
    fields = Fields(scene.table["camera"], f"{scene.where}: camera")
    start = fields.integers("start", 2, -1_000_000, 1_000_000, (0, 0))
    limits = fields.integers("limits", 4, -1_000_000, 1_000_000) if fields.has("limits") else None
    if limits is not None and (limits[0] > limits[2] or limits[1] > limits[3]):
        raise fields.error("limits", list(limits), "[left, top, right, bottom] in rising order")
    path = _read_path(fields)
    fields.done()
    bounds = None if limits is None else (limits[0], limits[1], limits[2], limits[3])
    return Camera(start=(start[0], start[1]), path=path, limits=bounds)


def _read_plane(fields: Fields) -> Plane:
    offset = fields.integers("offset", 2, -32_767, 32_767, (0, 0))
    tile = fields.integers("tile", 2, 4, 256, (16, 16))
    plane = Plane(
        name=fields.name("name"),
        picture=fields.path("picture", None),
        map=fields.path("map", None),
        sheet=fields.name("sheet", ""),
        key=fields.colour("key", None),
        ratio=fields.fractions("ratio", (1, 1)),
        drift=fields.fractions("drift"),
        wrap=fields.flags("wrap", (True, False)),
        offset=(offset[0], offset[1]),
        tile=(tile[0], tile[1]),
        source=fields.text("source", ""),
        author=fields.text("author", ""),
        licence=fields.text("licence", ""),
    )
    if plane.name == "screen":
        raise fields.error("name", plane.name, "another name: 'screen' stands for the screen itself")
    if bool(plane.picture) == bool(plane.map):
        raise ProjectError(f"{fields.where}: must have either a picture or a map")
    if plane.map and not plane.sheet:
        raise fields.error("sheet", "", "the sheet whose frames the map numbers, counted from 0")
    return plane


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
        path=_read_path(fields),
    )


def _read_event(fields: Fields) -> Event:
    colours = fields.colours("colours", most=128)
    to = fields.colours("to", most=128)
    start = fields.colours("start", most=128) if fields.has("start") else colours
    if not colours or len(set(colours)) != len(colours):
        raise fields.error("colours", f"{len(colours)} colours", "one or more colours that all differ")
    if len(to) != len(colours) or len(start) != len(colours):
        raise fields.error("to", f"{len(to)} colours", f"{len(colours)} colours, as many as in 'colours'")
    return Event(
        name=fields.name("name"),
        tick=fields.integer("tick", 1, 1_000_000),
        steps=fields.integer("steps", 1, 64, 1),
        ticks_per_step=fields.integer("ticks_per_step", 1, 9999, 1),
        colours=colours,
        start=start,
        to=to,
    )

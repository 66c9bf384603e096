"""Paths: stretches of ticks at an exact speed, or of a shape that is sampled into such stretches."""

from dataclasses import field
from fractions import Fraction

from scenekit.errors import ProjectError
from scenekit.model.fields import Fields
from scenekit.model.sprites import FACINGS
from scenekit.records import record

REPEATS = ("no", "from-start", "onward")
SHAPES = ("ease", "drive", "jump", "circle", "wave")
CORNERS = ("right", "bottom", "left", "top")
LONGEST_TICKS = 30_000
Pair = tuple[int, int]
FarPair = tuple[Fraction, Fraction]


def travel(speed: Fraction, ticks: int) -> int:
    """Return floor(speed x ticks), in pixels."""
    return speed.numerator * ticks // speed.denominator


@record(frozen=True, slots=True, kw_only=True)
class Shape:
    """A movement that is not one speed.

    kind      "ease": by `by` pixels along the easing curve `curve`
              "drive": by `by` pixels from rest to rest, gathering speed by `gain` and losing it by `brake`
              px a tick squared, at most `top` px a tick
              "jump": up with `push` px a tick, pulled down by `pull` px a tick squared, back to the ground
              "circle": once round a circle of `radius` px, `turns` times, from the side `corner`
              "wave": up and down by `radius` px, once every `period` ticks
    """

    kind: str
    by: Pair = (0, 0)
    curve: str = ""
    top: Fraction = Fraction(0)
    gain: Fraction = Fraction(0)
    brake: Fraction = Fraction(0)
    push: int = 0
    pull: int = 0
    radius: int = 0
    turns: Fraction = Fraction(1)
    corner: str = "right"
    period: int = 0


@record(frozen=True, slots=True, kw_only=True)
class Segment:
    """A stretch of a path: some ticks at one speed, or a shape.

    ticks      0 where the shape decides it
    speed      (x, y) pixels per tick, exact; a jump or wave moves with it
    animation  name to switch to at its start, or "" to go on
    facing     facing to take at its start, or "" to go on
    """

    ticks: int
    speed: FarPair
    animation: str = ""
    facing: str = ""
    shape: Shape | None = None


@record(frozen=True, slots=True, kw_only=True)
class Path:
    """Segments in order; after the last: stay, restart from the start place, or go on onward.

    follow  whether the facing follows the direction of travel
    turn    animation played at each reversal, or ""
    edges   (tick, x, y) at which each segment begins, and the end of the last, from the path's start;
            true only where no segment has a shape
    """

    segments: tuple[Segment, ...] = ()
    repeat: str = "no"
    follow: bool = False
    turn: str = ""
    edges: tuple[tuple[int, int, int], ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        edges = [(0, 0, 0)]
        for segment in self.segments:
            tick, x, y = edges[-1]
            across, down = (travel(speed, segment.ticks) for speed in segment.speed)
            edges.append((tick + segment.ticks, x + across, y + down))
        object.__setattr__(self, "edges", tuple(edges))

    @property
    def plain(self) -> bool:
        """Say whether it consists of speeds alone."""
        return not self.follow and all(segment.shape is None for segment in self.segments)


def read_path(fields: Fields) -> Path:
    """Build the path that the keys `path`, `repeat`, `follow` and `turn` of a record describe."""
    path = Path(
        segments=fields.records("path", _read_segment, "path segment", 2000),
        repeat=fields.choice("repeat", REPEATS, "no"),
        follow=fields.flag("follow", False),
        turn=fields.name("turn", ""),
    )
    if path.turn and not path.follow:
        raise fields.error("turn", path.turn, "used together with follow = true")
    return path


def _read_segment(fields: Fields) -> Segment:
    shape = _read_shape(fields)
    timed = shape is None or shape.kind in ("ease", "circle", "wave")
    return Segment(
        ticks=fields.integer("ticks", 1, LONGEST_TICKS) if timed else 0,
        speed=fields.fractions("speed"),
        animation=fields.name("animation", ""),
        facing=fields.choice("facing", ("", *FACINGS), ""),
        shape=shape,
    )


def _read_shape(fields: Fields) -> Shape | None:
    given = [kind for kind in SHAPES if fields.has(kind)]
    if len(given) > 1:
        raise ProjectError(f"{fields.where}: has {' and '.join(given)}; must have one of them")
    return _SHAPE_READERS[given[0]](fields) if given else None


def _ease(fields: Fields) -> Shape:
    by = fields.integers("by", 2, -32_767, 32_767)
    return Shape(kind="ease", curve=fields.text("ease", longest=80), by=(by[0], by[1]))


def _drive(fields: Fields) -> Shape:
    by = fields.integers("drive", 2, -32_767, 32_767)
    shape = Shape(
        kind="drive",
        by=(by[0], by[1]),
        top=fields.fraction("top"),
        gain=fields.fraction("gain"),
        brake=fields.fraction("brake"),
    )
    for key, value in (("top", shape.top), ("gain", shape.gain), ("brake", shape.brake)):
        if value <= 0:
            raise fields.error(key, str(value), "above 0")
    return shape


def _jump(fields: Fields) -> Shape:
    push, pull = fields.integers("jump", 2, 1, 1000)
    return Shape(kind="jump", push=push, pull=pull)


def _circle(fields: Fields) -> Shape:
    turns = fields.fraction("turns", 1)
    if turns == 0:
        raise fields.error("turns", 0, "not 0; negative turns run the other way round")
    return Shape(
        kind="circle",
        radius=fields.integer("circle", 1, 4000),
        turns=turns,
        corner=fields.choice("from", CORNERS, "right"),
    )


def _wave(fields: Fields) -> Shape:
    return Shape(
        kind="wave", radius=fields.integer("wave", 1, 4000), period=fields.integer("period", 2, LONGEST_TICKS)
    )


_SHAPE_READERS = {"ease": _ease, "drive": _drive, "jump": _jump, "circle": _circle, "wave": _wave}

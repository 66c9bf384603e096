"""Planes: layers of a scene that scroll, with their bands and the tiles that take turns."""

from fractions import Fraction

from scenekit.errors import ProjectError
from scenekit.model.fields import Fields
from scenekit.model.palette import Colour
from scenekit.model.paths import FarPair, Pair
from scenekit.records import record

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


def read_plane(fields: Fields) -> Plane:
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

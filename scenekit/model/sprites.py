"""Sheets, frames, animations, facings, sprites and fonts."""

from dataclasses import replace

from scenekit.model.fields import Fields, unique
from scenekit.records import record

FLIPS = ("none", "h", "v", "hv")
"""Flip names in code order: bit 0 mirrors left-right, bit 1 top-bottom."""

FACINGS = ("right", "left", "up", "down")
PLAYS = ("loop", "once", "there-and-back")
LARGEST_SIDE_PX = 32_767


@record(frozen=True, slots=True, kw_only=True)
class Frame:
    """A box of a sheet with its pivot and hit box.

    box      (x, y, w, h) on the sheet
    pivot    (x, y) from the box's top left: the pixel that stands on the sprite's position
    hit_box  (x, y, w, h) from the box's top left, or None
    flags    names of tile flags
    """

    name: str
    box: tuple[int, int, int, int]
    pivot: tuple[int, int]
    hit_box: tuple[int, int, int, int] | None = None
    flags: tuple[str, ...] = ()


@record(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A picture file that holds frames, with its key colour and its credit.

    bank   name of the group of pictures that has palette entries to itself, or ""
    """

    name: str
    file: str
    key: tuple[int, int, int] | None = None
    bank: str = ""
    source: str = ""
    author: str = ""
    licence: str = ""
    frames: tuple[Frame, ...] = ()

    def frame(self, name: str) -> Frame | None:
        """Return the frame of that name, or None."""
        return next((frame for frame in self.frames if frame.name == name), None)


@record(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of an animation: a frame shown for some ticks, mirrored by its own flip."""

    frame: str
    ticks: int
    flip: int = 0


@record(frozen=True, slots=True, kw_only=True)
class Animation:
    """Steps of one sheet's frames, played in a loop, once, or there and back."""

    name: str
    sheet: str
    play: str
    steps: tuple[Step, ...]


@record(frozen=True, slots=True, kw_only=True)
class Facing:
    """How a sprite looks in one direction: by a flip of its art, or by animations of its own.

    own   pairs (animation, animation drawn for this facing); those are shown unflipped
    """

    facing: str
    flip: int
    own: tuple[tuple[str, str], ...] = ()


@record(frozen=True, slots=True, kw_only=True)
class Sprite:
    """A moving thing: its animations and facings; the first of each is the one it starts with.

    spans   whether the rows of its frames are exported, for collisions by what is drawn
    """

    name: str
    animations: tuple[Animation, ...]
    facings: tuple[Facing, ...]
    spans: bool = False

    def animation_number(self, name: str) -> int | None:
        """Return the index of the animation of that name, or None."""
        return next((i for i, animation in enumerate(self.animations) if animation.name == name), None)


@record(frozen=True, slots=True, kw_only=True)
class Font:
    """A sheet whose frames are the characters of a string, in order.

    proportional  whether each character is as wide as what is drawn of it, else as its frame
    spacing       pixels between two characters
    kerning       (pair of characters, pixels to add between them)
    """

    name: str
    sheet: str
    characters: str
    proportional: bool = False
    spacing: int = 0
    kerning: tuple[tuple[str, int], ...] = ()


def read_sheet(fields: Fields) -> Sheet:
    """Build a sheet from its table."""
    sheet = Sheet(
        name=fields.name("name"),
        file=fields.path("file"),
        key=fields.colour("key", None),
        bank=fields.name("bank", ""),
        source=fields.text("source", ""),
        author=fields.text("author", ""),
        licence=fields.text("licence", ""),
        frames=fields.records("frames", read_frame, "frame", 20_000),
    )
    unique(fields.where, "frame", (frame.name for frame in sheet.frames))
    return sheet


def read_frame(fields: Fields) -> Frame:
    """Build a frame from its table."""
    side = LARGEST_SIDE_PX
    box = fields.integers("box", 4, 0, side)
    if box[2] < 1 or box[3] < 1:
        raise fields.error("box", list(box), "[x, y, width, height] with width and height of at least 1")
    pivot = fields.integers("pivot", 2, -side, side, (box[2] // 2, box[3] - 1))
    hit = fields.integers("hit_box", 4, -side, side) if fields.has("hit_box") else None
    if hit is not None and min(hit[2:]) < 1:
        raise fields.error("hit_box", list(hit), "[x, y, width, height] with width and height of at least 1")
    return Frame(
        name=fields.name("name"),
        box=(box[0], box[1], box[2], box[3]),
        pivot=(pivot[0], pivot[1]),
        hit_box=None if hit is None else (hit[0], hit[1], hit[2], hit[3]),
        flags=fields.names("flags", []),
    )


def read_sprite(fields: Fields) -> Sprite:
    """Build a sprite from its table; steps are [frame, ticks] or [frame, ticks, flip]."""
    sheet = fields.name("sheet", "")
    sprite = Sprite(
        name=fields.name("name"),
        animations=fields.records("animations", lambda f: _read_animation(f, sheet), "animation", 200),
        facings=fields.records("facings", _read_facing, "facing", 4),
        spans=fields.flag("spans", False),
    )
    if not sprite.animations:
        raise fields.error("animations", [], "at least one animation")
    unique(fields.where, "animation", (animation.name for animation in sprite.animations))
    unique(fields.where, "facing", (facing.facing for facing in sprite.facings))
    for facing in sprite.facings:
        for pair in facing.own:
            for name in pair:
                if sprite.animation_number(name) is None:
                    raise fields.error(f"facing {facing.facing}: own", name, "an animation of this sprite")
    if sprite.facings:
        return sprite
    only = Facing(facing="right", flip=0)
    return replace(sprite, facings=(only,))


def _read_animation(fields: Fields, sheet: str) -> Animation:
    raw = fields._list("steps", ...)
    if not 1 <= len(raw) <= 500:
        raise fields.error("steps", f"{len(raw)} steps", "1 to 500 steps")
    return Animation(
        name=fields.name("name"),
        sheet=fields.name("sheet", sheet) if sheet else fields.name("sheet"),
        play=fields.choice("play", PLAYS, "loop"),
        steps=tuple(_read_step(fields, value) for value in raw),
    )


def _read_step(fields: Fields, value: object) -> Step:
    allowed = '[frame, ticks] or [frame, ticks, flip], such as ["ride-01", 6, "h"], ticks 1 to 9999'
    if not isinstance(value, list) or len(value) not in (2, 3):
        raise fields.error("steps", value, allowed)
    frame, ticks = value[0], value[1]
    flip = value[2] if len(value) == 3 else "none"
    good = isinstance(frame, str) and type(ticks) is int and 1 <= ticks <= 9999 and flip in FLIPS
    if not good:
        raise fields.error("steps", value, allowed)
    return Step(frame=frame, ticks=ticks, flip=FLIPS.index(flip))


def _read_facing(fields: Fields) -> Facing:
    own = fields.table.get("own", {})
    fields.asked.add("own")
    if not isinstance(own, dict) or not all(isinstance(v, str) for v in own.values()):
        raise fields.error("own", own, 'a table such as { ride = "ride-left" }')
    return Facing(
        facing=fields.choice("facing", FACINGS),
        flip=FLIPS.index(fields.choice("flip", FLIPS, "none")),
        own=tuple(sorted(own.items())),
    )


def read_font(fields: Fields) -> Font:
    """Build a font from its table."""
    kerning = fields.table.get("kerning", {})
    fields.asked.add("kerning")
    good = isinstance(kerning, dict) and all(len(p) == 2 and type(n) is int for p, n in kerning.items())
    if not good or not all(-64 <= n <= 64 for n in kerning.values()):
        raise fields.error("kerning", kerning, "a table such as { AV = -1 }, each -64 to 64")
    font = Font(
        name=fields.name("name"),
        sheet=fields.name("sheet"),
        characters=fields.text("characters"),
        proportional=fields.flag("proportional", False),
        spacing=fields.integer("spacing", -64, 64, 0),
        kerning=tuple(sorted(kerning.items())),
    )
    if len(set(font.characters)) != len(font.characters):
        raise fields.error("characters", font.characters, "characters that all differ")
    return font

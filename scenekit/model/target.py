"""Targets: a machine, display mode, dialect and view under one name."""

from scenekit.model.fields import Fields
from scenekit.model.palette import Colour
from scenekit.records import record

MAPS = ("auto", "memory", "file")
HOLES = ("clear", "filled")
REDRAWS = ("auto", "everything", "changes")
FLIPS = ("drawn", "stored")
ENCODINGS = ("auto", "always", "never")
DITHERS = ("none", "ordered", "diffusion")


@record(frozen=True, slots=True, kw_only=True)
class Target:
    """Where a scene is to run.

    machine      name of a profile, or a path to one inside the project folder
    mode         display mode of that machine
    dialect      name of a dialect, or a path to one inside the project folder
    view         (x, y, w, h) of the screen that scrolls; None is the whole screen
    transparent  palette entry that is never drawn
    colours      most palette entries to use, or None for all of the mode
    palette      name of a given palette, or ""
    reserved     (entry, colour) of entries that art takes only where it has exactly that colour
    differ       groups of entries that everybody must be able to tell apart
    dither       "none", "ordered" (still under animation and tile sharing) or "diffusion"
    dither_percent  its strength
    transfer     (key, value) of the way to this board, over what its dialect says
    flips        "drawn" mirrored where the machine can, or "stored" as further art
    encode       whether tables are encoded: "auto" where that is shorter, "always", "never"
    redraw       "everything" in each picture, only "changes" while the rest is moved along, or "auto"
    holes        of the rearmost plane: "clear", so that the view is filled with the backdrop before it, or
                 "filled" with the backdrop as part of the plane's art
    maps         kept whole in "memory", in a "file" of which the view's part is read, or "auto"
    """

    name: str
    machine: str
    mode: str
    dialect: str
    view: tuple[int, int, int, int] | None = None
    transparent: int = 0
    colours: int | None = None
    palette: str = ""
    reserved: tuple[tuple[int, Colour], ...] = ()
    differ: tuple[tuple[int, ...], ...] = ()
    dither: str = "none"
    dither_percent: int = 100
    transfer: tuple[tuple[str, str | int], ...] = ()
    flips: str = "drawn"
    redraw: str = "auto"
    encode: str = "auto"
    maps: str = "auto"
    holes: str = "clear"


def read_target(fields: Fields) -> Target:
    """Build a target from its table."""
    view = fields.integers("view", 4, 0, 32_767) if fields.has("view") else None
    if view is not None and min(view[2:]) < 1:
        raise fields.error("view", list(view), "[x, y, width, height] with width and height of at least 1")
    return Target(
        name=fields.name("name"),
        machine=fields.path("machine"),
        mode=fields.text("mode"),
        dialect=fields.path("dialect"),
        view=None if view is None else (view[0], view[1], view[2], view[3]),
        transparent=fields.integer("transparent", 0, 255, 0),
        colours=fields.integer("colours", 2, 256) if fields.has("colours") else None,
        palette=fields.name("palette", ""),
        reserved=fields.records("reserved", _read_reserved, "reserved entry", 256),
        differ=_read_groups(fields),
        dither=fields.choice("dither", DITHERS, "none"),
        dither_percent=fields.integer("dither_percent", 0, 100, 100),
        transfer=_read_transfer(fields),
        flips=fields.choice("flips", FLIPS, "drawn"),
        redraw=fields.choice("redraw", REDRAWS, "auto"),
        encode=fields.choice("encode", ENCODINGS, "auto"),
        maps=fields.choice("maps", MAPS, "auto"),
        holes=fields.choice("holes", HOLES, "clear"),
    )


def _read_reserved(fields: Fields) -> tuple[int, Colour]:
    colour = fields.colour("colour")
    assert colour is not None
    return fields.integer("entry", 0, 255), colour


def _read_transfer(fields: Fields) -> tuple[tuple[str, str | int], ...]:
    """Return the keys of the way to a board; what each may be, the dialects know."""
    fields.asked.add("transfer")
    table = fields.table.get("transfer", {})
    good = isinstance(table, dict) and all(
        key.isidentifier() and key.isascii() and type(value) in (str, int) and str(value).isprintable()
        for key, value in table.items()
    )
    if not good or len(table) > 20:
        raise fields.error("transfer", table, 'a table such as { by = "serial", baud = 9600 }')
    return tuple(sorted(table.items()))


def _read_groups(fields: Fields) -> tuple[tuple[int, ...], ...]:
    groups = fields.listed("differ")
    for group in groups:
        if not isinstance(group, list) or not all(type(e) is int and 0 <= e <= 255 for e in group):
            raise fields.error("differ", group, "lists of entries such as [[1, 2], [4, 5, 6]]")
    return tuple(tuple(group) for group in groups)

"""Given palettes, and cycles: runs of colours that rotate."""

from scenekit.errors import ProjectError
from scenekit.model.fields import Fields
from scenekit.records import record

Colour = tuple[int, int, int]


@record(frozen=True, slots=True, kw_only=True)
class Palette:
    """A palette that a target may take as given; entry numbers count from 0.

    file   an indexed picture or a list of colours that it is read from, or ""
    """

    name: str
    colours: tuple[Colour, ...] = ()
    file: str = ""


@record(frozen=True, slots=True, kw_only=True)
class Cycle:
    """Colours of the art that rotate through their entries.

    colours    the exact colours painted in the art, in turning order
    ticks      ticks between two turns
    direction  "forward": each colour moves to the next entry; "backward": to the one before
    there_and_back  whether it turns back at the last entry instead of going round
    """

    name: str
    colours: tuple[Colour, ...]
    ticks: int
    direction: str
    there_and_back: bool = False


def read_palette(fields: Fields) -> Palette:
    """Build a given palette from its table."""
    palette = Palette(
        name=fields.name("name"), colours=fields.colours("colours", []), file=fields.path("file", None)
    )
    if bool(palette.colours) == bool(palette.file):
        raise ProjectError(f"{fields.where}: must have either colours or a file")
    return palette


def read_cycle(fields: Fields) -> Cycle:
    """Build a cycle from its table."""
    colours = fields.colours("colours", most=64)
    if len(colours) < 2 or len(set(colours)) != len(colours):
        raise fields.error("colours", f"{len(colours)} colours", "2 to 64 colours that all differ")
    return Cycle(
        name=fields.name("name"),
        colours=colours,
        ticks=fields.integer("ticks", 1, 9999),
        direction=fields.choice("direction", ("forward", "backward"), "forward"),
        there_and_back=fields.flag("there_and_back", False),
    )

"""Events of a scene: colours that turn into others, and transitions that cover or uncover the view."""

from scenekit.model.fields import Fields
from scenekit.model.palette import Colour
from scenekit.records import record

MIXES = ("plain", "oklab")
COVERS = ("wipe", "dissolve", "iris")
SIDES = ("right", "left", "down", "up")


@record(frozen=True, slots=True, kw_only=True)
class Event:
    """A palette event: colours of the art turn into others, in steps, from a tick on.

    colours        exact colours painted in the art; none means every colour of the palette
    start          what they are before the first step (default: themselves)
    to             what they are after the last; one colour stands for all
    mix            how colours between are found: "plain" channel by channel, or in "oklab"
    back           whether it goes back to the start afterwards, step by step
    """

    name: str
    tick: int
    steps: int
    ticks_per_step: int
    colours: tuple[Colour, ...]
    start: tuple[Colour, ...]
    to: tuple[Colour, ...]
    mix: str = "plain"
    back: bool = False

    def goals(self, count: int) -> tuple[Colour, ...]:
        """Return the colours after the last step, for so many entries."""
        return self.to * count if len(self.to) == 1 else self.to


@record(frozen=True, slots=True, kw_only=True)
class Transition:
    """Cells of the view that are covered with a colour one after another, or uncovered.

    kind      "wipe", "dissolve" (every cell once, in an order without pattern) or "iris"
    opens     whether it uncovers a covered view
    cell      (width, height) of a cell; both divide the view
    side      where a wipe runs to
    """

    name: str
    kind: str
    tick: int
    ticks: int
    opens: bool = False
    cell: tuple[int, int] = (16, 8)
    colour: Colour = (0, 0, 0)
    side: str = "right"


def read_event(fields: Fields) -> Event:
    """Build a palette event from its table."""
    colours = fields.colours("colours", [], most=128)
    to = fields.colours("to", most=128)
    start = fields.colours("start", most=128) if fields.has("start") else colours
    if len(set(colours)) != len(colours):
        raise fields.error("colours", f"{len(colours)} colours", "colours that all differ")
    if len(start) != len(colours):
        raise fields.error(
            "start", f"{len(start)} colours", f"{len(colours)} colours, as many as in 'colours'"
        )
    if len(to) != 1 and len(to) != len(colours):
        allowed = f"1 colour, or {len(colours)} colours, as many as in 'colours'"
        raise fields.error("to", f"{len(to)} colours", allowed)
    return Event(
        name=fields.name("name"),
        tick=fields.integer("tick", 1, 1_000_000),
        steps=fields.integer("steps", 1, 64, 1),
        ticks_per_step=fields.integer("ticks_per_step", 1, 9999, 1),
        colours=colours,
        start=start,
        to=to,
        mix=fields.choice("mix", MIXES, "plain"),
        back=fields.flag("back", False),
    )


def read_transition(fields: Fields) -> Transition:
    """Build a transition from its table."""
    cell = fields.integers("cell", 2, 1, 1024, (16, 8))
    return Transition(
        name=fields.name("name"),
        kind=fields.choice("kind", COVERS),
        tick=fields.integer("tick", 0, 1_000_000),
        ticks=fields.integer("ticks", 1, 9999),
        opens=fields.flag("opens", False),
        cell=(cell[0], cell[1]),
        colour=fields.colour("colour", "000000") or (0, 0, 0),
        side=fields.choice("side", SIDES, "right"),
    )

"""Score panels: values of the game, strings, and the items that show them."""

from scenekit.model.fields import Fields, unique
from scenekit.model.palette import Colour
from scenekit.records import record

KINDS = ("text", "number", "bar", "icons", "picture")
LARGEST_VALUE = 30_000


@record(frozen=True, slots=True, kw_only=True)
class Value:
    """A number of the game that panels show, such as a score; it stays within its limits."""

    name: str
    start: int = 0
    low: int = 0
    high: int = 999


@record(frozen=True, slots=True, kw_only=True)
class String:
    """A text of the game, under a name."""

    name: str
    text: str


@record(frozen=True, slots=True, kw_only=True)
class ValueChange:
    """A value that changes at a tick of the scene, as if the game had changed it."""

    tick: int
    value: str
    add: int


@record(frozen=True, slots=True, kw_only=True)
class Item:
    """One thing in a panel; it is redrawn only when its value changes.

    kind      "text": a string in a font; "number": a value in a font, right-aligned in `digits`;
              "bar": a box whose filled part shows a value of its highest; "icons": `count` frames side
              by side, as many as the value lit; "picture": a frame
    at        (x, y) of its top left corner on the screen
    zeros     whether a number shows leading zeros
    size      (width, height) of a bar
    lit, dark frames of icons; `lit` is the frame of a picture; dark "" draws nothing
    """

    name: str
    kind: str
    at: tuple[int, int]
    value: str = ""
    string: str = ""
    font: str = ""
    digits: int = 3
    zeros: bool = False
    size: tuple[int, int] = (1, 1)
    colour: Colour = (255, 255, 255)
    sheet: str = ""
    lit: str = ""
    dark: str = ""
    count: int = 1
    step: int = 8


@record(frozen=True, slots=True, kw_only=True)
class Panel:
    """A part of the screen beside the view that stands still."""

    box: tuple[int, int, int, int]
    colour: Colour = (0, 0, 0)
    items: tuple[Item, ...] = ()


def read_value(fields: Fields) -> Value:
    """Build a value from its table."""
    low = fields.integer("low", 0, LARGEST_VALUE, 0)
    high = fields.integer("high", low, LARGEST_VALUE, 999)
    start = fields.integer("start", low, high, low)
    return Value(name=fields.name("name"), low=low, high=high, start=start)


def read_string(fields: Fields) -> String:
    """Build a string from its table."""
    return String(name=fields.name("name"), text=fields.text("text", longest=200))


def read_change(fields: Fields) -> ValueChange:
    """Build a change of a value from its table."""
    return ValueChange(
        tick=fields.integer("tick", 1, 1_000_000),
        value=fields.name("value"),
        add=fields.integer("add", -LARGEST_VALUE, LARGEST_VALUE),
    )


def read_panel(table: object, where: str) -> Panel:
    """Build a panel from its table."""
    fields = Fields(table, f"{where}: panel")
    box = fields.integers("box", 4, 0, 32_767)
    if min(box[2:]) < 1:
        raise fields.error("box", list(box), "[x, y, width, height] with width and height of at least 1")
    panel = Panel(
        box=(box[0], box[1], box[2], box[3]),
        colour=fields.colour("colour", "000000") or (0, 0, 0),
        items=fields.records("items", _read_item, "item", 100),
    )
    fields.done()
    unique(fields.where, "item", (item.name for item in panel.items))
    return panel


def _read_item(fields: Fields) -> Item:
    kind = fields.choice("kind", KINDS)
    at = fields.integers("at", 2, 0, 32_767)
    common: dict[str, object] = {"name": fields.name("name"), "kind": kind, "at": (at[0], at[1])}
    return _READERS[kind](fields, common)


def _text(fields: Fields, common: dict[str, object]) -> Item:
    return Item(**common, string=fields.name("string"), font=fields.name("font"))  # type: ignore[arg-type]


def _number(fields: Fields, common: dict[str, object]) -> Item:
    return Item(
        **common,  # type: ignore[arg-type]
        value=fields.name("value"),
        font=fields.name("font"),
        digits=fields.integer("digits", 1, 5, 3),
        zeros=fields.flag("zeros", False),
    )


def _bar(fields: Fields, common: dict[str, object]) -> Item:
    size = fields.integers("size", 2, 1, 4096)
    return Item(
        **common,  # type: ignore[arg-type]
        value=fields.name("value"),
        size=(size[0], size[1]),
        colour=fields.colour("colour", "ffffff") or (0, 0, 0),
    )


def _icons(fields: Fields, common: dict[str, object]) -> Item:
    return Item(
        **common,  # type: ignore[arg-type]
        value=fields.name("value"),
        sheet=fields.name("sheet"),
        lit=fields.name("lit"),
        dark=fields.name("dark", ""),
        count=fields.integer("count", 1, 100),
        step=fields.integer("step", 1, 1000),
    )


def _picture(fields: Fields, common: dict[str, object]) -> Item:
    return Item(**common, sheet=fields.name("sheet"), lit=fields.name("lit"))  # type: ignore[arg-type]


_READERS = {"text": _text, "number": _number, "bar": _bar, "icons": _icons, "picture": _picture}

"""Reads the layer stack of an OpenRaster file from its XML, which may come from anybody."""

import re
from dataclasses import dataclass
from xml.parsers import expat

from scenekit.errors import ImageReadError, one_line

PLAIN = "svg:src-over"

MAX_DEPTH = 32
MAX_ENTRIES = 4096
LARGEST_OFFSET = 1 << 20

_NUMBER = re.compile(r"[+-]?[0-9]{1,9}")
_SHARE = re.compile(r"\+?([0-9]{1,9}(\.[0-9]{0,30})?|\.[0-9]{1,30})([eE][+-]?[0-9]{1,2})?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A layer or a group of the stack.

    source       entry of the archive that holds a layer's pixels; "" for a group
    position     (x, y) from the group's own position
    opacity_255  0 to 255
    operation    how it is drawn on what is below
    entries      of a group, the topmost first
    """

    name: str
    source: str
    position: tuple[int, int]
    opacity_255: int
    visible: bool
    operation: str
    entries: tuple["Entry", ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Stack:
    """The canvas and its entries, the topmost first."""

    size: tuple[int, int]
    entries: tuple[Entry, ...]


class _Reader:
    """Collects elements while the parser meets them."""

    def __init__(self, where: str) -> None:
        self.where = where
        self.size: tuple[int, int] | None = None
        self.open: list[tuple[dict[str, str], list[Entry]]] = []
        self.depth = 0
        self.count = 0
        self.top: list[Entry] | None = None

    def refuse(self, *_: object) -> None:
        """Refuse document types, so that no entity is ever defined or expanded."""
        raise ImageReadError(f"{self.where}: stack.xml has a document type; a stack needs none")

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        self.depth += 1
        self.count += 1
        if self.depth > MAX_DEPTH or self.count > MAX_ENTRIES:
            raise ImageReadError(
                f"{self.where}: stack.xml has more than {MAX_ENTRIES} entries or {MAX_DEPTH} levels"
            )
        if self.depth == 1:
            if tag != "image":
                raise ImageReadError(f"{self.where}: stack.xml begins with {tag!r}; allowed: image")
            self.size = (self.whole(attributes, "w", None), self.whole(attributes, "h", None))
        elif tag == "stack":
            self.open.append((attributes, []))
        elif tag == "layer" and self.open:
            self.open[-1][1].append(self.entry(attributes, attributes.get("src", ""), ()))
            if not attributes.get("src"):
                raise ImageReadError(f"{self.where}: a layer has no src")

    def end(self, tag: str) -> None:
        self.depth -= 1
        if tag != "stack" or not self.open:
            return
        attributes, entries = self.open.pop()
        if self.open:
            self.open[-1][1].append(self.entry(attributes, "", tuple(entries)))
        elif self.top is None:
            self.top = entries

    def entry(self, attributes: dict[str, str], source: str, entries: tuple[Entry, ...]) -> Entry:
        return Entry(
            name=one_line(attributes.get("name", ""))[:64] or f"layer {self.count}",
            source=source,
            position=(self.whole(attributes, "x", 0), self.whole(attributes, "y", 0)),
            opacity_255=self.opacity(attributes.get("opacity", "1")),
            visible=attributes.get("visibility", "visible") != "hidden",
            operation=one_line(attributes.get("composite-op", PLAIN))[:64],
            entries=entries,
        )

    def whole(self, attributes: dict[str, str], name: str, default: int | None) -> int:
        text = attributes.get(name)
        if text is None and default is not None:
            return default
        if text is None or not _NUMBER.fullmatch(text.strip()) or abs(int(text)) > LARGEST_OFFSET:
            got = "missing" if text is None else repr(text)
            raise ImageReadError(f"{self.where}: stack.xml: {name} is {got}; a whole number is needed")
        return int(text)

    def opacity(self, text: str) -> int:
        if not _SHARE.fullmatch(text.strip()) or not 0 <= float(text) <= 1:
            raise ImageReadError(f"{self.where}: stack.xml: opacity is {text!r}; allowed: 0 to 1")
        return int(float(text) * 255 + 0.5)


def read_stack(where: str, text: bytes) -> Stack:
    """Read stack.xml.

    raises   ImageReadError: not such a file, a document type, bad numbers, too many entries or levels
    source   OpenRaster specification (freedesktop.org), layer stack
    """
    reader = _Reader(where)
    parser = expat.ParserCreate()
    parser.StartElementHandler = reader.start
    parser.EndElementHandler = reader.end
    parser.StartDoctypeDeclHandler = reader.refuse
    parser.EntityDeclHandler = reader.refuse
    try:
        parser.Parse(text, True)
    except (expat.ExpatError, ValueError, LookupError) as why:
        raise ImageReadError(f"{where}: stack.xml is damaged: {why}") from why
    if reader.size is None or reader.top is None:
        raise ImageReadError(f"{where}: stack.xml holds no stack")
    return Stack(size=reader.size, entries=tuple(reader.top))

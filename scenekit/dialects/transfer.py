"""How files get to a board: card or serial line, names, line ends, and how long it takes."""

from collections.abc import Mapping
from dataclasses import asdict

from scenekit.model.fields import Fields
from scenekit.records import record

BITS_A_BYTE = 10
"""8N1: a start bit, eight data bits, no parity, one stop bit (common practice)."""
LINE_ENDS = {"lf": "\n", "crlf": "\r\n", "cr": "\r"}


@record(frozen=True, slots=True, kw_only=True)
class Transfer:
    """The way to a board.

    by             "card" or "serial"
    names          "any", or "8.3": at most eight characters, a dot, three
    line_end       "lf", "crlf" or "cr", of text files
    longest_line   characters that the way lets through, 0 is no limit
    line_pause_ms  wait after each line on a serial line
    baud           bits a second of a serial line
    """

    by: str = "card"
    names: str = "any"
    line_end: str = "lf"
    longest_line: int = 0
    line_pause_ms: int = 0
    baud: int = 115_200

    def seconds(self, size_bytes: int, lines: int = 0) -> float | None:
        """Return how long a serial line takes; None for a card, whose reader nobody knows."""
        if self.by != "serial":
            return None
        return size_bytes * BITS_A_BYTE / self.baud + lines * self.line_pause_ms / 1000


def read_transfer(fields: Fields) -> Transfer:
    """Build a way from its table; every key may be left out.

    raises   ProjectError: with the key and what is allowed
    """
    way = Transfer(
        by=fields.choice("by", ("card", "serial"), "card"),
        names=fields.choice("names", ("any", "8.3"), "any"),
        line_end=fields.choice("line_end", LINE_ENDS, "lf"),
        longest_line=fields.integer("longest_line", 0, 1_000_000, 0),
        line_pause_ms=fields.integer("line_pause_ms", 0, 60_000, 0),
        baud=fields.integer("baud", 50, 100_000_000, 115_200),
    )
    fields.done()
    return way


def changed_by(way: Transfer, keys: Mapping[str, str | int], where: str) -> Transfer:
    """Return a way with some keys set otherwise, as a target of a project may.

    raises   ProjectError, UnknownNameError: with the key and what is allowed
    """
    read_transfer(Fields(keys, f"{where}: transfer"))
    return read_transfer(Fields({**asdict(way), **keys}, f"{where}: transfer"))

"""Maps that stay in a file: a window of each is kept in memory, as large as the view needs."""

from collections.abc import Sequence
from dataclasses import replace

from scenekit.routines.language import Table
from scenekit.tables.bundle import Bundle
from scenekit.tables.pieces import Pieces
from scenekit.tiles.flags import FlagMap
from scenekit.tiles.planes import CutPlane

Pair = tuple[int, int]
Windows = tuple[Pair | None, ...]
WORDS = frozenset(("map_open", "map_at", "map_byte"))
LARGE_CELLS = 8192
"""Cells of all planes from which maps go into a file where nobody says otherwise."""
LEAST_CELLS = 1024
TIMES_LARGER = 4
"""So many times as large as its window a map must be to be worth it."""


def window_of(cut: CutPlane, wrap: tuple[bool, bool], view: Pair) -> Pair:
    """Return how many columns and rows of a plane a view of (width, height) can show at once."""
    narrow = (cut.last_w_px < cut.tile_w_px, cut.last_h_px < cut.tile_h_px)
    sizes = (cut.tile_w_px, cut.tile_h_px)
    found = [(view[n] - 2) // sizes[n] + 2 + int(wrap[n] and narrow[n]) for n in (0, 1)]
    return max(1, found[0]), max(1, found[1])


def windows_of(pieces: Pieces, wraps: Sequence[tuple[bool, bool]], view: Pair, wanted: str) -> Windows:
    """Return the window of each plane whose map stays in a file, None for one that is kept in memory.

    wanted   "memory", "file", or "auto": a file for maps that are large
    """
    cells = sum(cut.columns * cut.rows for cut in pieces.planes)
    if wanted == "memory" or (wanted == "auto" and cells < LARGE_CELLS):
        return tuple(None for _ in pieces.planes)
    found: list[Pair | None] = []
    for cut, wrap in zip(pieces.planes, wraps, strict=True):
        window = window_of(cut, wrap, view)
        large = cut.columns * cut.rows >= max(LEAST_CELLS, TIMES_LARGER * window[0] * window[1])
        found.append(window if large and window[0] <= cut.columns and window[1] <= cut.rows else None)
    return tuple(found)


def keep_in_file(
    bundle: Bundle,
    pieces: Pieces,
    flags: Sequence[FlagMap | None],
    windows: Windows,
    file: str,
    *,
    start: int = 0,
) -> Bundle:
    """Return a bundle in which the maps of planes with windows, and their flags, stand in a file.

    The file holds each map twice, by rows and by columns, so that either is read at one place: two bytes a
    cell, its number + 1, the high one first. Flags follow by rows, as they are.

    start   bytes of the file before these maps
    """
    kept = _Kept(start)
    for cut, cells, flag, window in zip(pieces.planes, pieces.maps, flags, windows, strict=True):
        values = [] if flag is None else [value for row in flag.cells for value in row]
        if window is None:
            kept.in_memory(cells, values)
        else:
            kept.in_file((cut.columns, cut.rows), cells, values, window)
    changed = {table.name: table for table in kept.changed()}
    planes = len(windows)
    arrays = (("map_window", kept.windowed), ("map_held", planes), ("held_x", planes), ("held_y", planes))
    return replace(
        bundle,
        tables=(
            *(changed.get(table.name, table) for table in bundle.tables),
            *kept.places(),
            Table(
                "window_w", tuple(w[0] if w else 1 for w in windows), "columns of a map that are in memory"
            ),
            Table("window_h", tuple(w[1] if w else 1 for w in windows), "rows"),
        ),
        arrays=bundle.arrays + arrays,
        files={**bundle.files, file: bytes(kept.data)},
    )


class _Kept:
    """Maps and flags as they are put away, plane by plane, in memory or in the file.

    windowed   cells of all windows so far
    """

    def __init__(self, start: int) -> None:
        self.start = start
        self.data = bytearray()
        self.windowed = 0
        self.cells: list[int] = []
        self.flags: list[int] = []
        self.map_first: list[int] = []
        self.map_file: list[int] = []
        self.flag_first: list[int] = []
        self.flag_file: list[int] = []

    def in_memory(self, cells: Sequence[int], flags: Sequence[int]) -> None:
        """Put the map of a plane, and its flags, behind those that are in memory."""
        self.map_first.append(len(self.cells))
        self.flag_first.append(len(self.flags) if flags else -1)
        self.map_file.append(-1)
        self.flag_file.append(-1)
        self.cells += cells
        self.flags += flags

    def in_file(self, size: Pair, cells: Sequence[int], flags: Sequence[int], window: Pair) -> None:
        """Put the map of a plane of (columns, rows), and its flags, into the file."""
        columns, rows = size
        self.map_first.append(self.windowed)
        self.windowed += window[0] * window[1]
        by_columns = [cells[row * columns + column] for column in range(columns) for row in range(rows)]
        self.map_file.append(self._append([cell + 1 for cell in (*cells, *by_columns)]))
        self.flag_first.append(0 if flags else -1)
        self.flag_file.append(self._append(flags) if flags else -1)

    def _append(self, values: Sequence[int]) -> int:
        """Append values of two bytes to the file, and return the place of the first."""
        place = self.start + len(self.data)
        self.data += b"".join(value.to_bytes(2, "big") for value in values)
        return place

    def changed(self) -> tuple[Table, ...]:
        """Return the tables that hold less than they did with all maps in memory."""
        return (
            Table("map_first", tuple(self.map_first), "first cell in map_cell, or in the window"),
            Table("map_cell", tuple(self.cells), "4 x tile + flip, -1 is empty"),
            Table("flag_first", tuple(self.flag_first), "first place in flag_cell, -1 without flags"),
            Table("flag_cell", tuple(self.flags), "flags of each cell, added up"),
        )

    def places(self) -> tuple[Table, ...]:
        """Return the tables that say where in the file maps and flags lie."""
        about = "byte of the map in the file of maps, -1 when it is in memory"
        return (
            Table("map_file", tuple(self.map_file), about),
            Table("flag_file", tuple(self.flag_file), "byte of its flags, likewise"),
        )

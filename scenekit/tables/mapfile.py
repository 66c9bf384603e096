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
    data = bytearray()
    kept: list[int] = []
    kept_flags: list[int] = []
    first, places, flag_first, flag_places, windowed = [], [], [], [], 0
    for cut, cells, flag, window in zip(pieces.planes, pieces.maps, flags, windows, strict=True):
        values = [] if flag is None else [value for row in flag.cells for value in row]
        flag_first.append(-1 if flag is None else 0 if window is not None else len(kept_flags))
        flag_places.append(-1)
        if window is None:
            first.append(len(kept))
            places.append(-1)
            kept += cells
            kept_flags += values
            continue
        first.append(windowed)
        windowed += window[0] * window[1]
        places.append(start + len(data))
        data += _bytes([cell + 1 for cell in cells])
        data += _bytes(
            [
                cells[row * cut.columns + column] + 1
                for column in range(cut.columns)
                for row in range(cut.rows)
            ]
        )
        if flag is not None:
            flag_places[-1] = start + len(data)
            data += _bytes(values)
    changed = {
        "map_first": Table("map_first", tuple(first), "first cell in map_cell, or in the window"),
        "map_cell": Table("map_cell", tuple(kept), "4 x tile + flip, -1 is empty"),
        "flag_first": Table("flag_first", tuple(flag_first), "first place in flag_cell, -1 without flags"),
        "flag_cell": Table("flag_cell", tuple(kept_flags), "flags of each cell, added up"),
    }
    more = (
        Table("map_file", tuple(places), "byte of the map in the file of maps, -1 when it is in memory"),
        Table("flag_file", tuple(flag_places), "byte of its flags, likewise"),
        Table("window_w", tuple(w[0] if w else 1 for w in windows), "columns of a map that are in memory"),
        Table("window_h", tuple(w[1] if w else 1 for w in windows), "rows"),
    )
    planes = len(windows)
    arrays = (("map_window", windowed), ("map_held", planes), ("held_x", planes), ("held_y", planes))
    return replace(
        bundle,
        tables=(*(changed.get(table.name, table) for table in bundle.tables), *more),
        arrays=bundle.arrays + arrays,
        files={**bundle.files, file: bytes(data)},
    )


def _bytes(values: Sequence[int]) -> bytes:
    return b"".join(value.to_bytes(2, "big") for value in values)

"""Tables of tiles that take turns."""

from scenekit.routines.language import Table
from scenekit.tables.pieces import TurnedTiles

Sizes = tuple[tuple[str, int], ...]


def turning_parts(turns: TurnedTiles, wanted: bool) -> tuple[tuple[Table, ...], Sizes, Sizes]:
    """Return tables, variables and arrays, none where they are not wanted; no tile need take turns."""
    if not wanted:
        return (), (), ()
    lengths = [len(cells) for _, cells in turns.lists]
    tables = (
        Table("turn_ticks", tuple(ticks for ticks, _ in turns.lists), "ticks that each tile stays"),
        Table("turn_count", tuple(lengths), "tiles that take turns"),
        Table("turn_first", tuple(sum(lengths[:n]) for n in range(len(lengths))), "the first one's place"),
        Table(
            "turn_cell", tuple(cell for _, cells in turns.lists for cell in cells), "4 x tile + flip of each"
        ),
    )
    variables = (("turn_base", turns.base), ("turns", len(turns.lists)))
    return tables, variables, (("turn_now", len(turns.lists)),)

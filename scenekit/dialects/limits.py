"""What a dialect cannot hold: refused with the number and the way out."""

from scenekit.dialects.dialect import Dialect
from scenekit.errors import DialectError
from scenekit.routines.language import Program

SMALLER = "use fewer or smaller planes and sprites"


def check_limits(dialect: Dialect, program: Program, text: str) -> None:
    """Refuse a program that its dialect cannot hold.

    raises   DialectError: the number, the limit, and what to do
    """
    limits = dialect.limits
    for name, size in program.arrays:
        _within(dialect, f"array {name} has {size} elements", size, limits.array_items, SMALLER)
    total = sum(size for _, size in program.arrays)
    _within(dialect, f"all arrays have {total} elements", total, limits.array_total, SMALLER)
    items = sum(len(table.values) for table in program.tables)
    _within(dialect, f"the tables have {items} values", items, limits.data_total, SMALLER)
    _within(dialect, f"the program has {len(text)} bytes", len(text), limits.program_bytes, SMALLER)


def _within(dialect: Dialect, what: str, got: int, most: int, way_out: str) -> None:
    if most and got > most:
        raise DialectError(f"dialect {dialect.name}: {what}; at most {most}; {way_out}")

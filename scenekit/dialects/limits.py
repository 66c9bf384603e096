"""What a dialect cannot hold: refused with the number and the way out."""

from scenekit.dialects.dialect import Dialect
from scenekit.errors import DialectError
from scenekit.routines.language import Program
from scenekit.routines.library import is_wide

SMALLER = "use fewer or smaller planes and sprites"


def check_limits(dialect: Dialect, program: Program, text: str, variables: int) -> None:
    """Refuse a program that its dialect cannot hold.

    variables  how many it has besides its arrays
    raises     DialectError: the number, the limit, and what to do
    """
    limits = dialect.limits
    for name, size in program.arrays:
        _within(dialect, f"array {name} has {size} elements", size, limits.array_items, SMALLER)
    total = sum(size for _, size in program.arrays)
    _within(dialect, f"all arrays have {total} elements", total, limits.array_total, SMALLER)
    items = sum(len(table.values) for table in program.tables)
    _within(dialect, f"the tables have {items} values", items, limits.data_total, SMALLER)
    _within(dialect, f"the program has {len(text)} bytes", len(text), limits.program_bytes, SMALLER)
    needed = memory_bytes(dialect, program, len(text), variables)
    what = f"program, arrays and variables take {needed} bytes"
    _within(dialect, what, needed, limits.memory_bytes, SMALLER)


def memory_bytes(dialect: Dialect, program: Program, text_bytes: int, variables: int) -> int:
    """Return about how much memory a program takes with its arrays and variables."""
    limits = dialect.limits
    total = -(-text_bytes * limits.stored_percent // 100) + variables * limits.array_bytes
    for name, size in program.arrays:
        total += limits.array_bytes + size * dialect.bytes_of(is_wide(name))
    return total


def _within(dialect: Dialect, what: str, got: int, most: int, way_out: str) -> None:
    if most and got > most:
        raise DialectError(f"dialect {dialect.name}: {what}; at most {most}; {way_out}")

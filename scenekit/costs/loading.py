"""Time until a game can start: reading its files, and filling its tables."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import fmean

from scenekit.costs.pricing import PriceList
from scenekit.findings import Finding
from scenekit.machines.machine import Machine
from scenekit.tables.forms import DECIMAL, HEXADECIMAL, RADIX, Form
from scenekit.tables.packed import Choice

LONGEST_MS = 10_000.0
YARDSTICKS = {"cell": 7, "tick-path": 13, "tick-plane": 6}
"""Statements that a routine takes for what a price is known of, counted in its text."""

BYTE_STATEMENTS = {RADIX.name: 19, HEXADECIMAL.name: 19, DECIMAL.name: 6}
"""Statements that unpack the next byte, by form, those of its signs included."""

VALUE_STATEMENTS = {"raw": 7, "runs": 5, "bits": 8, "dictionary": 7, "delta": 9, "rows": 6}
"""Statements that a value takes beside its bytes, by encoding."""

OTHER_STATEMENTS = 7
DATA_STATEMENTS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class TableTime:
    """How long one table takes to be filled when a game starts."""

    table: str
    values: int
    time_ms: float


def load_ms(machine: Machine, files: Mapping[str, bytes]) -> float | None:
    """Return the time to read an export's files from storage, without unpacking; None while unknown."""
    if machine.storage is None:
        return None
    size = sum(len(data) for data in files.values())
    return len(files) * machine.storage.per_file_ms + size / machine.storage.bytes_per_s * 1000


def statement_us(prices: PriceList) -> float | None:
    """Return about what one statement takes, by what routines are known to take; None while nothing is."""
    known = [prices[name].per_call_us / count for name, count in YARDSTICKS.items() if name in prices]
    return fmean(known) if known else None


def table_times(
    prices: PriceList, choices: Sequence[Choice], form: Form | None
) -> tuple[TableTime, ...] | None:
    """Return about how long each table takes at least to be filled, in order; None while no price is known.

    Reckoned from the statements that unpacking takes. BASICs whose texts are slow take longer: 20,000 values
    took 0.1 s where 0.09 s were reckoned in one interpreter, and 2 s where 0.4 s were in another.
    choices  how each table was encoded
    form     in which the bytes stand in the program, None when all stand as plain numbers
    """
    each_us = statement_us(prices)
    if each_us is None:
        return None
    found = []
    for choice in choices:
        statements = choice.values * DATA_STATEMENTS
        if form is not None:
            own = VALUE_STATEMENTS.get(choice.encoding, OTHER_STATEMENTS) * choice.values
            statements = own + len(choice.data) * BYTE_STATEMENTS.get(form.name, OTHER_STATEMENTS)
        time_ms = statements * each_us / 1000
        found.append(TableTime(table=choice.table, values=choice.values, time_ms=time_ms))
    return tuple(found)


def unpacking_saved_by_plain(
    prices: PriceList, choices: Sequence[Choice], form: Form
) -> tuple[float, float] | None:
    """Return seconds of unpacking and of reading plain numbers where the first is too long, the second less.

    None where nothing is known, where packed tables are quick enough, or where plain ones are no quicker.
    """
    packed, plain = table_times(prices, choices, form), table_times(prices, choices, None)
    if packed is None or plain is None:
        return None
    took, reading = (sum(time.time_ms for time in times) for times in (packed, plain))
    return (took / 1000, reading / 1000) if took > LONGEST_MS and reading < took else None


def slow_tables(times: Sequence[TableTime] | None, scene: str) -> tuple[Finding, ...]:
    """Return a finding when filling the tables takes longer than anybody waits."""
    total = sum(time.time_ms for time in times or ())
    if not times or total <= LONGEST_MS:
        return ()
    slowest = max(times, key=lambda time: time.time_ms)
    text = (
        f"filling the tables takes at least {total / 1000:.0f} s when the game starts, {slowest.table} with "
        f"its {slowest.values} values {slowest.time_ms / 1000:.0f} s of it; larger tiles or a target's "
        'encode = "never" make it less'
    )
    return (Finding(level="warning", code="slow-tables", where=f"scene {scene}", text=text),)

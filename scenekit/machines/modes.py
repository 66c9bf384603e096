"""Finds display timings: every row of modes/*.toml by name, and sizes computed by formula."""

import tomllib
from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from types import MappingProxyType

from scenekit.errors import MachineError
from scenekit.machines.fields import Fields
from scenekit.machines.timing import MAX_CLOCK_HZ, MAX_TOTAL, Timing
from scenekit.model.tomlfile import read_toml
from scenekit.registry import choose, data_files

MODES_FOLDER = Path(__file__).parent / "modes"
"""Every TOML file here holds rows [[mode]]; a new file adds modes without code."""

SYNCS = ("--", "-+", "+-", "++")
FORMULAS = ("cvt", "cvt-reduced", "gtf")


@lru_cache(maxsize=1)
def timings() -> Mapping[str, Timing]:
    """Return every display timing that ships, by name, in the order of files and rows.

    raises   MachineError: a row is wrong or a name stands twice
    """
    found: dict[str, Timing] = {}
    for path in data_files(MODES_FOLDER).values():
        fields = Fields(read_toml(path, path.name, MachineError), path.name)
        for number, row in enumerate(fields.tables("mode", 1, 500), 1):
            timing = timing_from_table(f"{path.name}: mode {number}", row, named=True)
            if timing.name in found:
                raise MachineError(f"{path.name}: mode {number}: name {timing.name!r} stands twice")
            found[timing.name] = timing
        fields.done()
    return MappingProxyType(found)


def load_timing(name: str) -> Timing:
    """Return the timing of a name; of all rows only that one is read where it begins with its name.

    raises   UnknownNameError: with the nearest known name; MachineError: the row is wrong
    """
    rows = [(file, row) for file, row in _rows() if row.startswith(f'name = "{name}"\n')]
    if len(rows) != 1:
        return choose("display timing", name, dict(timings()))
    file, row = rows[0]
    return timing_from_table(f"{file}: mode {name}", tomllib.loads(row), named=True)


@lru_cache(maxsize=1)
def _rows() -> tuple[tuple[str, str], ...]:
    """Return file and text of every row."""
    return tuple(
        (path.name, row)
        for path in data_files(MODES_FOLDER).values()
        for row in path.read_text(encoding="utf-8").split("[[mode]]\n")
    )


def timing_from_table(where: str, table: object, named: bool = False) -> Timing:
    """Return the timing that a table writes out, or computes by formula.

    raises   MachineError: a field is wrong, or no display could show the signal
    """
    fields = Fields(table, where)
    if fields.has("formula"):
        timing = _from_formula(fields)
    else:
        timing = _written_out(fields, fields.text("name") if named else "")
    fields.done()
    fault = timing.fault()
    if fault:
        raise MachineError(f"{where}: {fault}")
    return timing


def _from_formula(fields: Fields) -> Timing:
    from scenekit.machines.formulas import cvt, gtf

    formula = fields.choice("formula", FORMULAS)
    width, height = fields.integers("size", 2, 8, 16384)
    rate_hz = fields.rate("rate_hz", 1000)
    try:
        if formula == "gtf":
            return gtf(width, height, rate_hz)
        return cvt(width, height, rate_hz, reduced=formula == "cvt-reduced")
    except ValueError as error:
        raise MachineError(f"{fields.where}: {error}") from None


def _written_out(fields: Fields, name: str) -> Timing:
    clock_hz: Fraction = fields.rate("clock_hz", MAX_CLOCK_HZ)
    h = fields.integers("horizontal", 4, 0, MAX_TOTAL)
    v = fields.integers("vertical", 4, 0, MAX_TOTAL)
    sync = fields.choice("sync", SYNCS)
    interlaced = fields.flag("interlaced", False)
    if fields.has("note"):
        fields.text("note")
    try:
        return Timing(
            name=name,
            clock_hz=clock_hz,
            h_active_px=h[0],
            h_front_px=h[1],
            h_sync_px=h[2],
            h_back_px=h[3],
            v_active_lines=v[0],
            v_front_lines=v[1],
            v_sync_lines=v[2],
            v_back_lines=v[3],
            h_positive=sync[0] == "+",
            v_positive=sync[1] == "+",
            interlaced=interlaced,
        )
    except ValueError as error:
        raise MachineError(f"{fields.where}: {error}") from None

"""Reads machine profiles: one TOML file says what a machine has, can do and costs."""

import re
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from scenekit.errors import MachineError
from scenekit.machines.abilities import ABLE, DRAWING, FLIPS, IMAGE_FORMATS, OPERATIONS, Abilities
from scenekit.machines.cost import MAX_US, PROVENANCES, Cost
from scenekit.machines.fields import Fields
from scenekit.machines.machine import DisplayMode, Machine, Storage
from scenekit.machines.memory import KINDS, Memory
from scenekit.machines.modes import load_timing, timing_from_table
from scenekit.machines.timing import Timing
from scenekit.model.tomlfile import read_toml
from scenekit.registry import choose, data_files

__all__ = ["DisplayMode", "Machine", "Storage", "load_machine", "machine_from_table", "machine_names"]

PROFILES_FOLDER = Path(__file__).parent / "profiles"

MAX_BYTES = 1 << 40
MAX_SIDE_PX = 16384
MOST_SOUND_PERCENT = 95
_NAME = re.compile(r"[a-z0-9][a-z0-9.-]{0,39}")
_DEPTH = re.compile(r"[1-8]-[1-8]-[1-8]")
_HEX = re.compile(r"[0-9a-f]{6}")
T = TypeVar("T", "DisplayMode", Memory)


def machine_names() -> tuple[str, ...]:
    """Return the names of the profiles that ship, sorted."""
    return tuple(data_files(PROFILES_FOLDER))


def load_machine(name_or_path: str | Path) -> Machine:
    """Return a machine that ships by name, or one from somebody's TOML file by path.

    raises   UnknownNameError: no such name; MachineError: the file is wrong
    """
    text = str(name_or_path)
    if isinstance(name_or_path, Path) or text.endswith(".toml") or "/" in text or "\\" in text:
        path = Path(name_or_path)
        return machine_from_table(path.stem, path.name, read_toml(path, path.name, MachineError))
    return _installed(choose("machine", text, data_files(PROFILES_FOLDER)))


@lru_cache(maxsize=32)
def _installed(path: Path) -> Machine:
    """Return a machine that came with a package, read once."""
    return machine_from_table(path.stem, path.name, read_toml(path, path.name, MachineError))


def machine_from_table(name: str, where: str, table: object) -> Machine:
    """Return the machine that the tables of a profile describe.

    raises   MachineError: a field is wrong, unknown or missing
    """
    fields = Fields(table, where)
    machine = Machine(
        name=name,
        summary=fields.text("summary"),
        modes=_by_name(where, "modes", [_mode(where, row) for row in fields.tables("modes", 1, 100)]),
        memories=tuple(
            _by_name(
                where, "memories", [_memory(where, row) for row in fields.tables("memories", 0, 20)]
            ).values()
        ),
        abilities=_abilities(Fields(fields.value("abilities"), f"{where}: abilities")),
        prices=tuple(
            _cost(where, number, row) for number, row in enumerate(fields.tables("costs", 0, 500), 1)
        ),
        storage=_storage(Fields(fields.value("storage"), f"{where}: storage"))
        if fields.has("storage")
        else None,
        residual_percent=fields.number("residual_percent", 0, 1000, 0),
    )
    fields.done()
    _check_prices(where, machine)
    return machine


def _by_name(where: str, what: str, records: list[T]) -> Mapping[str, T]:
    named = {record.name: record for record in records}
    if len(named) < len(records):
        raise MachineError(f"{where}: {what}: a name stands twice")
    return MappingProxyType(named)


def _name(fields: Fields) -> str:
    name = fields.text("name")
    if not _NAME.fullmatch(name):
        raise fields.error("name", name, "1 to 40 small letters, digits, dots and hyphens")
    return name


def _mode(where: str, row: object) -> DisplayMode:
    fields = Fields(row, f"{where}: modes")
    name = _name(fields)
    fields.where = f"{where}: mode {name}"
    width, height = fields.integers("picture", 2, 1, MAX_SIDE_PX)
    timing = _timing(fields, height, fields.integer("lines_per_row", 1, 16, 1))
    colour = fields.choice("colour", ("indexed", "direct"))
    depth = fields.text("depth")
    if not _DEPTH.fullmatch(depth):
        raise fields.error("depth", depth, 'bits of red, green and blue such as "5-6-5"')
    entries = fields.integer("entries", 2, 256) if colour == "indexed" else 0
    palette = _palette(fields, entries) if fields.has("palette") else ()
    bits = (entries - 1).bit_length() if entries else sum(int(bits) for bits in depth.split("-"))
    natural = next(size for size in (1, 2, 4, 8, 16, 32) if size >= bits)
    mode = DisplayMode(
        name=name,
        width_px=width,
        height_px=height,
        timing=timing,
        colour=colour,
        depth=depth,
        entries=entries,
        palette=palette,
        bits_per_pixel=fields.integer("bits_per_pixel", bits, 32, natural),
    )
    fields.done()
    return mode


def _timing(fields: Fields, height_px: int, lines_per_row: int) -> Timing:
    written = fields.value("timing")
    where = f"{fields.where}: timing"
    timing = load_timing(written) if isinstance(written, str) else timing_from_table(where, written)
    try:
        return timing.showing(height_px, lines_per_row)
    except ValueError as error:
        raise MachineError(f"{where}: {error}") from None


def _palette(fields: Fields, entries: int) -> tuple[str, ...]:
    colours = fields.value("palette")
    good = isinstance(colours, list) and len(colours) == entries > 0
    if not good or not all(isinstance(text, str) and _HEX.fullmatch(text) for text in colours):
        raise fields.error("palette", colours, f'{entries} colours such as "ffcc00", one for each entry')
    return tuple(colours)


def _memory(where: str, row: object) -> Memory:
    fields = Fields(row, f"{where}: memories")
    name = _name(fields)
    fields.where = f"{where}: memory {name}"
    capacity = fields.integer("capacity_bytes", 1, MAX_BYTES)
    memory = Memory(
        name=name,
        capacity_bytes=capacity,
        alignment_bytes=fields.integer("alignment_bytes", 1, 1 << 20, 1),
        overhead_bytes_per_item=fields.integer("overhead_bytes_per_item", 0, 1 << 20, 0),
        reserve_bytes=fields.integer("reserve_bytes", 0, capacity, 0),
        holds=fields.choices("holds", KINDS),
    )
    fields.done()
    return memory


def _abilities(fields: Fields) -> Abilities:
    flips = fields.choices("flips", FLIPS)
    abilities = Abilities(
        words=frozenset(fields.choices("words", DRAWING)),
        flips=frozenset(flips),
        recolours=fields.flag("recolours"),
        pages=fields.integer("pages", 0, 255),
        clips=fields.flag("clips"),
        image_formats=fields.choices("image_formats", IMAGE_FORMATS),
    )
    if flips and "blit-flipped" not in abilities.words:
        raise fields.error("flips", list(flips), "empty while words has no blit-flipped")
    fields.done()
    return abilities


def _cost(where: str, number: int, row: object) -> Cost:
    fields = Fields(row, f"{where}: costs {number}")
    operation = fields.choice("operation", OPERATIONS)
    fields.where = f"{where}: cost of {operation}"
    errors = fields.value("standard_errors_us", [])
    provenance = _provenance(fields)
    cost = Cost(
        operation=operation,
        mode=fields.text("mode", ""),
        source=fields.text("source", ""),
        destination=fields.text("destination", ""),
        per_call_us=fields.number("per_call_us", 0, MAX_US, 0),
        per_row_us=fields.number("per_row_us", 0, MAX_US, 0),
        per_pixel_us=fields.number("per_pixel_us", 0, MAX_US, 0),
        share_percent=fields.number("share_percent", 0, 100, 0),
        standard_errors_us=_errors(fields, errors),
        provenance=provenance,
    )
    if operation == "sound" and cost.share_percent > MOST_SOUND_PERCENT:
        raise fields.error("share_percent", cost.share_percent, f"at most {MOST_SOUND_PERCENT:g} of all time")
    if not any((cost.per_call_us, cost.per_row_us, cost.per_pixel_us, cost.share_percent)):
        raise MachineError(f"{fields.where}: costs nothing; leave an unknown cost out")
    fields.done()
    return cost


def _provenance(fields: Fields) -> str:
    text = fields.text("provenance")
    if not any(text.startswith(kind) and len(text) > len(kind) for kind in PROVENANCES):
        raise fields.error(
            "provenance", text, 'a text such as "measured: 2026-03-01, ..." or "estimated: ..."'
        )
    return text


def _errors(fields: Fields, value: object) -> tuple[float, ...]:
    if not isinstance(value, list) or len(value) not in (0, 3):
        raise fields.error("standard_errors_us", value, "three numbers: per call, per row, per pixel")
    if not all(isinstance(item, int | float) and 0 <= item <= MAX_US for item in value):
        raise fields.error("standard_errors_us", value, f"three numbers from 0 to {MAX_US:g}")
    return tuple(float(item) for item in value)


def _storage(fields: Fields) -> Storage:
    storage = Storage(
        bytes_per_s=fields.number("bytes_per_s", 1, 1e12),
        per_file_ms=fields.number("per_file_ms", 0, 1e6),
        provenance=_provenance(fields),
    )
    fields.done()
    return storage


def _check_prices(where: str, machine: Machine) -> None:
    """Refuse prices of unknown modes and memories, and two prices for the same thing."""
    memories = {memory.name for memory in machine.memories}
    for price in machine.prices:
        if price.mode and price.mode not in machine.modes:
            raise MachineError(f"{where}: cost of {price.operation}: no display mode {price.mode!r}")
        for memory in (price.source, price.destination):
            if memory and memory not in memories:
                raise MachineError(f"{where}: cost of {price.operation}: no memory {memory!r}")
        if price.operation in ABLE and price.operation not in machine.abilities.words:
            raise MachineError(f"{where}: cost of {price.operation}: not among the words of abilities")
    keys = {(price.operation, price.mode, price.source, price.destination) for price in machine.prices}
    if len(keys) < len(machine.prices):
        raise MachineError(f"{where}: costs: an operation has two prices for the same mode and memories")

"""Reads lists of boxes.

CSV: UTF-8, a first line of column names out of name, x, y, w, h, pivot_x, pivot_y, then a box a line.
JSON: {"boxes": [{"name": "walk-01", "x": 0, "y": 0, "w": 16, "h": 24, "pivot_x": 8, "pivot_y": 23}, ...]}.
x, y, w and h are needed, in pixels; a pivot counts from the box's top left; columns stand in any order.
"""

import csv
import json
import re
from collections.abc import Mapping
from io import StringIO
from pathlib import Path

from scenekit.errors import SliceError, UnknownNameError
from scenekit.slicing.cut import MAX_FRAMES, GivenBox

COLUMNS = ("name", "x", "y", "w", "h", "pivot_x", "pivot_y")
NEEDED = ("x", "y", "w", "h")
MAX_FILE_BYTES = 16 << 20
MAX_NAME_LETTERS = 64
LARGEST = 1 << 20

_WHOLE = re.compile(r"[+-]?[0-9]{1,9}")


def read_box_file(path: Path) -> list[tuple[str, GivenBox]]:
    """Read a list of boxes by the suffix of the file.

    returns  (place such as "boxes.csv row 3", box) for each
    raises   SliceError: not readable, not such a list, a bad value (names row and column)
    """
    text = _read_text(path)
    if path.suffix.lower() == ".csv":
        return _from_csv(path.name, text)
    if path.suffix.lower() == ".json":
        return _from_json(path.name, text)
    raise SliceError(f"{path}: a list of boxes ends in .csv or .json")


def _read_text(path: Path) -> str:
    try:
        if not path.is_file():
            raise SliceError(f"{path}: no such file with boxes")
        if path.stat().st_size > MAX_FILE_BYTES:
            raise SliceError(f"{path}: {path.stat().st_size} bytes; at most {MAX_FILE_BYTES} are read")
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as why:
        raise SliceError(f"{path}: not UTF-8 text") from why
    except (OSError, ValueError) as why:
        raise SliceError(f"{path}: cannot be read") from why


def _from_csv(where: str, text: str) -> list[tuple[str, GivenBox]]:
    reader = csv.reader(StringIO(text, newline=""), strict=True)
    boxes: list[tuple[str, GivenBox]] = []
    try:
        names = [name.strip() for name in next(reader, [])]
        _check_columns(where, names)
        for cells in reader:
            if not any(cell.strip() for cell in cells):
                continue
            place = f"{where} row {reader.line_num}"
            if len(cells) != len(names):
                raise SliceError(f"{place}: {len(cells)} values; the first line names {len(names)} columns")
            row = {name: cell.strip() for name, cell in zip(names, cells, strict=True) if cell.strip()}
            _check_length(where, len(boxes))
            boxes.append((place, _box(place, row)))
    except csv.Error as why:
        raise SliceError(f"{where} row {reader.line_num}: not CSV: {why}") from why
    return boxes


def _from_json(where: str, text: str) -> list[tuple[str, GivenBox]]:
    try:
        data = json.loads(text)
    except (ValueError, RecursionError) as why:
        raise SliceError(f"{where}: not JSON: {str(why) or 'nested too deep'}") from why
    listed = data.get("boxes") if isinstance(data, dict) else None
    if not isinstance(data, dict) or not isinstance(listed, list) or set(data) != {"boxes"}:
        raise SliceError(f'{where}: a list of boxes is needed: {{"boxes": [...]}} and nothing else')
    _check_length(where, len(listed) - 1)
    boxes = []
    for number, entry in enumerate(listed, 1):
        place = f"{where} box {number}"
        if not isinstance(entry, dict):
            raise SliceError(f'{place}: an object is needed, such as {{"x": 0, "y": 0, "w": 16, "h": 16}}')
        _check_columns(place, list(entry))
        boxes.append((place, _box(place, entry)))
    return boxes


def _check_length(where: str, read: int) -> None:
    if read >= MAX_FRAMES:
        raise SliceError(f"{where}: more than {MAX_FRAMES} boxes")


def _check_columns(where: str, names: list[str]) -> None:
    for name in names:
        if name not in COLUMNS:
            raise UnknownColumnError(where, name[:40])
        if names.count(name) > 1:
            raise SliceError(f"{where}: column {name} comes twice")
    missing = [name for name in NEEDED if name not in names]
    if missing:
        raise SliceError(f"{where}: column {missing[0]} is missing; needed: {', '.join(NEEDED)}")
    if ("pivot_x" in names) != ("pivot_y" in names):
        raise SliceError(f"{where}: pivot_x and pivot_y are given together or not at all")


def _box(place: str, row: Mapping[str, object]) -> GivenBox:
    x, y, w, h = (_whole(place, name, row.get(name)) for name in NEEDED)
    pivot = None
    if "pivot_x" in row or "pivot_y" in row:
        pivot = (
            _whole(place, "pivot_x", row.get("pivot_x")),
            _whole(place, "pivot_y", row.get("pivot_y")),
        )
    name = row.get("name")
    if name is not None and not isinstance(name, str):
        raise SliceError(f"{place} column name: {str(name)[:40]!r}; a text is needed")
    return GivenBox(box=(x, y, w, h), name=name, pivot=pivot)


def _whole(place: str, column: str, value: object) -> int:
    """Return a whole number from a CSV cell or a JSON number."""
    if isinstance(value, str) and _WHOLE.fullmatch(value):
        value = int(value)
    if isinstance(value, bool) or not isinstance(value, int):
        got = "nothing" if value is None else repr(value)[:60]
        raise SliceError(f"{place} column {column}: {got}; a whole number is needed")
    if not -LARGEST <= value <= LARGEST:
        got = str(value) if abs(value) < 10**20 else "a huge number"
        raise SliceError(f"{place} column {column}: {got}; allowed: {-LARGEST} to {LARGEST}")
    return value


class UnknownColumnError(SliceError):
    """A column that boxes do not have."""

    def __init__(self, where: str, name: str) -> None:
        super().__init__(str(UnknownNameError(f"{where}: column", name, COLUMNS)))

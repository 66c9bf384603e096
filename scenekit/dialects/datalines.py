"""Tables as DATA lines: numbers, or texts of packed ones, as many to a line as fit."""

from collections.abc import Iterable

from scenekit.dialects.lines import Lines
from scenekit.dialects.statements import DATA_LABEL
from scenekit.routines.language import Program


def add_data(lines: Lines, program: Program) -> None:
    """Add the tables of a program."""
    lines.pending.append(DATA_LABEL)
    if "data_start" in lines.dialect.statements:
        lines.say("data_start")
    for table in program.tables:
        if not table.values:
            continue
        lines.remarks([f"{table.name}: {table.remark}" if table.remark else table.name])
        for items in _numbers(lines, table.values):
            lines.say("data", items=items)
    for text in _texts(lines, program.packed):
        lines.say("data", items=f'"{text}"')


def _texts(lines: Lines, packed: str) -> Iterable[str]:
    """Yield the packed tables as texts, each as long as a line and a text may be."""
    sample = lines.dialect.statements.get("data", "").format(**lines.texts, items='""')
    limits = lines.dialect.limits
    room = limits.line_length - len(sample) - (6 if lines.dialect.numbered else 0)
    most = min(room, limits.text_length or room)
    every, left = limits.text_avoid
    if every and most % every == left:
        most -= 1
    for place in range(0, len(packed), most):
        text = packed[place : place + most]
        yield text + "0" if every and len(text) % every == left else text


def _numbers(lines: Lines, values: tuple[int, ...]) -> Iterable[str]:
    """Yield the items of DATA lines, as many to a line as fit."""
    sample = lines.dialect.statements.get("data", "").format(**lines.texts, items="")
    room = lines.dialect.limits.line_length - len(sample) - (6 if lines.dialect.numbered else 0)
    most = lines.dialect.limits.data_items or 1_000_000
    items: list[str] = []
    used = 0
    for value in values:
        text = str(value)
        if items and (used + len(text) + 1 > room or len(items) == most):
            yield ",".join(items)
            items, used = [], 0
        items.append(text)
        used += len(text) + 1
    yield ",".join(items)

"""What the tick on show spends its time on, by kind of work: the key to the colours of the ruler."""

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.editor.theme import OPERATION_COLOURS
from scenekit.editor.ui import Column
from scenekit.machines.abilities import ROUTINE_WORK
from scenekit.report.paper import OPERATION_WORDS, SLATE, plain_ms
from scenekit.report.stretches import Stretch

ROW_PX, LEAST_PX = 20, 190
LOOPS = "loops of the routines"


def draw_this_tick(desk: Desk, box: Box, stretches: tuple[Stretch, ...], *, things: bool) -> None:
    """List kinds of work with their time, dearest first; with `things` also what takes it, where room is."""
    ui = desk.ui
    x, y, w, h = box
    row = ui.px(ROW_PX)
    if not stretches or h < ui.px(34) + row:
        return
    kinds, names = desk.remember("this-tick", lambda: _sums(stretches), stretches)
    column = Column(x, y, w)
    ui.heading(column, "This tick", plain_ms(stretches[-1].end_ms))
    each = max(1, min(3, int(w // ui.px(LEAST_PX))))
    _rows(desk, column, (kinds, each), y + h - row, colours=True)
    if things and column.y + row * 2 < y + h:
        column.y += ui.px(8)
        ui.fill((x, column.y - ui.px(4), w, 1), ui.look.rule)
        _rows(desk, column, (names, each), y + h - row, colours=False)


def _sums(stretches: tuple[Stretch, ...]) -> tuple[list[tuple[str, float]], list[tuple[str, float]]]:
    """Return times by operation and by name, the longest first."""
    sums: tuple[dict[str, float], dict[str, float]] = ({}, {})
    for stretch in stretches:
        kind = LOOPS if stretch.operation in ROUTINE_WORK else stretch.operation
        for table, key in zip(sums, (kind, stretch.name), strict=True):
            table[key] = table.get(key, 0.0) + stretch.end_ms - stretch.start_ms
    kinds, names = (sorted(table.items(), key=lambda item: (-item[1], item[0])) for table in sums)
    return kinds, names


def _rows(
    desk: Desk, column: Column, what: tuple[list[tuple[str, float]], int], last: float, *, colours: bool
) -> None:
    """Write names and times side by side, as many as there is room for."""
    ui = desk.ui
    items, each = what
    gap, row = ui.px(24), ui.px(ROW_PX)
    wide = (column.w - gap * (each - 1)) / each
    for first in range(0, len(items), each):
        if column.y > last:
            return
        x, y, _, h = column.take(row)
        for place, (key, spent) in enumerate(items[first : first + each]):
            left = x + place * (wide + gap)
            inset = ui.px(18) if colours else 0
            if colours:
                chip = (left, y + (h - ui.px(10)) / 2, ui.px(10), ui.px(10))
                ui.fill(chip, OPERATION_COLOURS.get(key, SLATE))
            words = OPERATION_WORDS.get(key, key) if colours else key
            time = plain_ms(spent)
            room = wide - inset - ui.width(time, "small") - 8
            ui.text(left + inset, y + h / 2, words, "small", room=room)
            ui.text(left + wide, y + h / 2, time, "small", ui.look.quiet, anchor="right")

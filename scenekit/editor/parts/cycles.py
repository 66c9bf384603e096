"""Cycles: runs of colours as rings that turn as they do in the scene."""

import math
from dataclasses import replace

from scenekit.editor.arithmetic import whole
from scenekit.editor.desk import Desk
from scenekit.editor.form import colours_in, read_name
from scenekit.editor.history import Edit
from scenekit.editor.preview import known_look
from scenekit.editor.ui import Column
from scenekit.model.edits import drop_cycle, put_cycle
from scenekit.model.palette import Cycle


def draw_cycles(desk: Desk, column: Column) -> Edit | None:
    """Each cycle as a ring of its colours that turns as it does in the scene."""
    ui, session = desk.ui, desk.session
    document = session.document
    ui.heading(column, "Cycles", f"{len(document.cycles)} turning")
    edit: Edit | None = None
    for cycle in document.cycles:
        top = column.y
        x, y, w, h = column.take(ui.px(132), ui.px(12))
        turning = next((t for t in known_look(desk).cycles if t.name == cycle.name), None)
        still = turning is None or desk.settings.still
        shift = 0 if still or turning is None else turning.shift_at(session.playing.tick)
        ui.mark(f"cycle:{cycle.name}:ring", (x, y, ui.px(128), h))
        _ring(desk, (x + ui.px(64), y + h / 2), ui.px(56), cycle, shift)
        inner = Column(x + ui.px(146), top, w - ui.px(146))
        edit = _cycle(desk, inner, cycle) or edit
    ui.label(column.x, column.y + ui.px(8), "a new cycle of these colours of the art, in turning order")
    column.y += ui.px(18)
    x, y, w, h = column.take(ui.px(28), ui.px(8))
    colours = ui.field(
        "cycle:new",
        (x, y, w, h),
        "",
        lambda text: colours_in(text, 2, 64, differ=True),
        hint="such as 2f3a68 3d4779 52568b",
        tip="Two to 64 colours as rrggbb, exactly as they are painted.",
    )
    if colours:
        taken = {cycle.name for cycle in document.cycles}
        name = next(f"cycle-{n}" for n in range(1, 99) if f"cycle-{n}" not in taken)
        return Edit(
            document=put_cycle(document, Cycle(name=name, colours=colours, ticks=12, direction="forward")),
            label=f"adding {name}",
        )
    return edit


def _cycle(desk: Desk, column: Column, cycle: Cycle) -> Edit | None:
    ui, document = desk.ui, desk.session.document
    row = ui.px(28)
    name = ui.field(f"cycle:{cycle.name}:name", column.take(row, ui.px(6)), cycle.name, read_name)
    if name is not None:
        cycles = tuple(replace(c, name=name) if c is cycle else c for c in document.cycles)
        return Edit(document=replace(document, cycles=cycles), label=f"naming cycle {name}")
    ticks = ui.field(
        f"cycle:{cycle.name}:ticks",
        column.take(row, ui.px(6)),
        str(cycle.ticks),
        lambda t: whole(t, 1, 9999),
        unit="ticks a turn",
        tip="Fewer is faster. Fast turns can flash: more than three a second is the usual limit.",
    )
    if ticks is not None:
        return Edit(document=put_cycle(document, replace(cycle, ticks=ticks)), label=f"speed of {cycle.name}")
    x, y, w, h = column.take(row, ui.px(6))
    picked = ui.segments(
        f"cycle:{cycle.name}:way", (x, y, w * 0.6, h), ("forward", "backward"), cycle.direction
    )
    if picked:
        return Edit(
            document=put_cycle(document, replace(cycle, direction=picked)), label=f"direction of {cycle.name}"
        )
    if ui.button(f"cycle:{cycle.name}:drop", (x + w * 0.6 + 8, y, w * 0.4 - 8, h), "Take out", kind="quiet"):
        return Edit(document=drop_cycle(document, cycle.name), label=f"taking out {cycle.name}")
    x, y, w, h = column.take(row, ui.px(6))
    words = ("round", "there and back")
    picked = ui.segments(
        f"cycle:{cycle.name}:turns", (x, y, w * 0.6, h), words, words[cycle.there_and_back],
        tip="After the last colour: on to the first, or back the way it came.",
    )  # fmt: skip
    if picked:
        changed = put_cycle(document, replace(cycle, there_and_back=picked == words[1]))
        return Edit(document=changed, label=f"how {cycle.name} turns")
    return None


def _ring(desk: Desk, middle: tuple[float, float], radius: float, cycle: Cycle, shift: int) -> None:
    """A ring of as many arcs as colours; the mark at its top stays, the colours move."""
    ui = desk.ui
    count = len(cycle.colours)
    for number in range(count):
        colour = cycle.colours[(number - shift) % count]
        start, end = (2 * math.pi * (number + edge) / count - math.pi / 2 for edge in (0.03, 0.97))
        pieces = max(2, 48 // count)
        for piece in range(pieces):
            a, b = (start + (end - start) * (piece + k) / pieces for k in (0, 1))
            points = [
                (middle[0] + math.cos(t) * r, middle[1] + math.sin(t) * r)
                for t, r in ((a, radius), (b, radius), (b, radius * 0.58), (a, radius * 0.58))
            ]
            ui.backend.polygon(points, colour)
    ui.fill((middle[0] - 1, middle[1] - radius - 5, 3, 6), ui.look.ink)
    ui.text(middle[0], middle[1], str(cycle.ticks), "head", anchor="middle")

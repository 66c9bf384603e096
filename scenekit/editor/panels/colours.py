"""Colours: the palette with what uses it, cycles as rings that turn, and how it looks to others."""

import math
from dataclasses import replace

import numpy as np

from scenekit.editor.arithmetic import whole
from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk, Lamp, Panel
from scenekit.editor.form import read_name
from scenekit.editor.history import Edit
from scenekit.editor.ui import Column
from scenekit.errors import ProjectError
from scenekit.model.edits import drop_cycle, put_cycle
from scenekit.model.palette import Colour, Cycle


def _draw(desk: Desk, box: Box) -> Edit | None:
    ui, product = desk.ui, desk.product
    edit: Edit | None = None
    with ui.backend.region("colours", box, scrolls=True) as scroll:
        ui.fill(box, ui.look.ground)
        column = Column(box[0], box[1] - scroll, box[2] - ui.px(12))
        look = product.look if product is not None else None
        if look is None:
            ui.heading(column, "Palette")
            ui.paragraph(
                column, "There is no palette until there is a scene and a target.", colour=ui.look.quiet
            )
        else:
            _palette(desk, column)
            edit = _cycles(desk, column)
        ui.backend.extent(column.y + ui.px(40))
    return edit


def _counts(desk: Desk) -> list[int]:
    """How many pixels of all art show each entry."""
    look = desk.product.look if desk.product else None

    def count() -> list[int]:
        total = np.zeros(256, dtype=np.int64)
        for picture in (*look.sheets.values(), *look.planes.values()):  # type: ignore[union-attr]
            total += np.bincount(picture.ravel(), minlength=256)
        return [int(value) for value in total]

    made: list[int] = desk.remember("counts", count, look)
    return made


def _palette(desk: Desk, column: Column) -> None:
    ui, session = desk.ui, desk.session
    look = desk.product.look  # type: ignore[union-attr]
    scene = session.scene
    counts = _counts(desk)
    palette = (
        look.palette_at(scene.name, session.playing.tick)
        if scene and scene.name in look.changes
        else look.palette
    )
    used = sum(1 for entry, n in enumerate(counts[: len(palette)]) if n and entry != look.transparent)
    ui.heading(column, "Palette", f"{used} of {len(palette)} entries used")
    fixed = {entry for cycle in look.cycles for entry in range(cycle.first, cycle.first + cycle.count)}
    moving = {entry for changes in look.changes.values() for change in changes for entry in change.entries}
    side = max(ui.px(14), math.floor(column.w / 32))
    each = int(column.w // side)
    chosen = desk.local.get("entry", 0)
    rows = math.ceil(len(palette) / each)
    x, y, w, h = column.take(rows * side, ui.px(10))
    felt = ui.press("palette", (x, y, each * side, h), "Press an entry to see what it is.")
    for entry, colour in enumerate(palette.tolist()):
        place = (x + entry % each * side, y + entry // each * side, side - 2, side - 2)
        if entry == look.transparent:
            ui.dashes(place, ui.look.quiet, 3)
        elif counts[entry]:
            ui.fill(place, (colour[0], colour[1], colour[2]))
        else:
            ui.fill(place, ui.look.shade)
        if entry in fixed:
            ui.fill((place[0], place[1] + side - 4, side - 2, 2), ui.look.ink)
        elif entry in moving:
            ui.fill((place[0], place[1] + side - 4, (side - 2) / 2, 2), ui.look.ink)
        if entry == chosen:
            ui.frame((place[0] - 1, place[1] - 1, side, side), ui.look.accent, 2)
    if felt.held:
        chosen = min(len(palette) - 1, max(0, int(felt.at[1] // side) * each + int(felt.at[0] // side)))
        desk.local["entry"] = chosen
    r, g, b = (int(v) for v in palette[chosen])
    what = "never drawn" if chosen == look.transparent else f"{counts[chosen]} pixels of the art"
    role = ", turns in a cycle" if chosen in fixed else ", changes by an event" if chosen in moving else ""
    x, y, w, h = column.take(ui.px(24), ui.px(4))
    ui.fill((x, y + 3, ui.px(34), h - 6), (r, g, b))
    ui.text(
        x + ui.px(44), y + h / 2, f"entry {chosen}: {r:02x}{g:02x}{b:02x}, {what}{role}", room=w - ui.px(44)
    )
    error = (
        f"Reduction moves a colour by {look.mean_error:.1f} on average (CIEDE2000; below 2 is hardly seen)."
    )
    ui.text(x, column.take(ui.px(20), ui.px(14))[1] + ui.px(8), error, "small", ui.look.quiet, room=w)


def _cycles(desk: Desk, column: Column) -> Edit | None:
    """Each cycle as a ring of its colours that turns as it does in the scene."""
    ui, session = desk.ui, desk.session
    document = session.document
    ui.heading(column, "Cycles", f"{len(document.cycles)} turning")
    edit: Edit | None = None
    for cycle in document.cycles:
        top = column.y
        x, y, w, h = column.take(ui.px(132), ui.px(12))
        turning = next((t for t in desk.product.look.cycles if t.name == cycle.name), None)  # type: ignore[union-attr]
        still = turning is None or (desk.settings.still and not session.playing.plays)
        shift = 0 if still or turning is None else turning.shift_at(session.playing.tick)
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
        read_colours,
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


def read_colours(text: str) -> tuple[Colour, ...]:
    """Return colours from a text such as `2f3a68 3d4779`.

    raises   ProjectError: not two or more different colours
    """
    found: list[Colour] = []
    for word in text.replace(",", " ").replace("#", " ").split():
        try:
            red, green, blue = bytes.fromhex(word)
        except ValueError:
            raise ProjectError(f"got {word[:12]!r}; must be a colour such as 2f3a68") from None
        found.append((red, green, blue))
    if len(set(found)) != len(found) or not 2 <= len(found) <= 64:
        raise ProjectError(f"got {len(found)} colours; must be 2 to 64 that all differ")
    return tuple(found)


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


def _lamp(desk: Desk) -> Lamp:
    product = desk.product
    if product is None or product.look is None:
        return Lamp(level="empty", word="none yet")
    look = product.look
    return Lamp(level="good" if look.mean_error < 6 else "note", word=f"{look.used} used")


PLUGIN = Panel(name="colours", title="Colours", draw=_draw, lamp=_lamp, wide=True)

"""The palette of the target as chips: what uses each entry, what moves it, and which are reserved."""

import math
from dataclasses import replace

import numpy as np

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.editor.form import Form
from scenekit.editor.history import Edit
from scenekit.editor.preview import known_look
from scenekit.editor.ui import Column
from scenekit.model.edits import put_target
from scenekit.model.palette import Colour
from scenekit.model.target import Target


def _counts(desk: Desk) -> list[int]:
    """How many pixels of all art show each entry."""
    look = known_look(desk)

    def count() -> list[int]:
        total = np.zeros(256, dtype=np.int64)
        for picture in (*look.sheets.values(), *look.planes.values()):
            total += np.bincount(picture.ravel(), minlength=256)
        return [int(value) for value in total]

    made: list[int] = desk.remember("counts", count, look)
    return made


def shown_palette(desk: Desk) -> np.ndarray[tuple[int, int], np.dtype[np.uint8]]:
    """Return the palette at the tick on show."""
    session = desk.session
    look = known_look(desk)
    scene = session.scene
    if scene is None or scene.name not in look.changes:
        found: np.ndarray[tuple[int, int], np.dtype[np.uint8]] = look.palette
        return found
    return look.palette_at(scene.name, session.playing.tick)  # type: ignore[no-any-return]


def draw_palette(desk: Desk, column: Column) -> Edit | None:
    """Draw the palette and the chosen entry; return an edit that reserves it or lets it go."""
    ui, session = desk.ui, desk.session
    look = known_look(desk)
    counts = _counts(desk)
    palette = shown_palette(desk)
    used = sum(1 for entry, n in enumerate(counts[: len(palette)]) if n and entry != look.transparent)
    ui.heading(column, "Palette", f"{used} of {len(palette)} entries used")
    target = session.target
    kept = dict(target.reserved) if target is not None else {}
    chosen = min(len(palette) - 1, desk.local.get("entry", 0))
    fixed = {entry for cycle in look.cycles for entry in range(cycle.first, cycle.first + cycle.count)}
    moving = {entry for changes in look.changes.values() for change in changes for entry in change.entries}
    chosen = _chips(desk, column, palette, counts, chosen, (fixed, moving, set(kept)))
    desk.local["entry"] = chosen
    role = ""
    if chosen in fixed:
        role = ", turns in a cycle"
    elif chosen in moving:
        role = ", changes by an event"
    what = "never drawn" if chosen == look.transparent else f"{counts[chosen]} pixels of the art"
    edit = _entry(desk, column, tuple(int(v) for v in palette[chosen]), f"{what}{role}", target)  # type: ignore[arg-type]
    form = Form(ui, column, "palette")
    form.note(
        f"Reduction moves a colour by {look.mean_error:.1f} on average (CIEDE2000; below 2 is hardly seen). "
        "A full line under a chip: it turns in a cycle; half a line: an event changes it; a corner: reserved."
    )
    column.y += ui.px(12)
    return edit


def _chips(
    desk: Desk,
    column: Column,
    palette: np.ndarray[tuple[int, int], np.dtype[np.uint8]],
    counts: list[int],
    chosen: int,
    marks: tuple[set[int], set[int], set[int]],
) -> int:
    """Draw every entry as a chip; return the chosen one."""
    ui = desk.ui
    look = known_look(desk)
    fixed, moving, kept = marks
    side = max(ui.px(14), math.floor(column.w / 32))
    each = int(column.w // side)
    x, y, _, h = column.take(math.ceil(len(palette) / each) * side, ui.px(10))
    felt = ui.press("palette", (x, y, each * side, h), "Press an entry to see what it is.", keyboard=False)
    _colours(desk, (x, y, each * side, h), palette, each, counts, kept)
    ui.dashes(_place(x, y, side, each, look.transparent), ui.look.quiet, 3)
    for entry in sorted({chosen, *fixed, *moving, *kept}):
        place = _place(x, y, side, each, entry)
        if entry in fixed:
            ui.fill((place[0], place[1] + side - 4, side - 2, 2), ui.look.ink)
        elif entry in moving:
            ui.fill((place[0], place[1] + side - 4, (side - 2) / 2, 2), ui.look.ink)
        if entry in kept:
            corner = [(place[0], place[1]), (place[0] + side / 2, place[1]), (place[0], place[1] + side / 2)]
            ui.backend.polygon(corner, ui.look.ink)
        if entry == chosen:
            ui.frame((place[0] - 1, place[1] - 1, side, side), ui.look.accent, 2)
    if felt.held:
        return min(len(palette) - 1, max(0, int(felt.at[1] // side) * each + int(felt.at[0] // side)))
    return chosen


def _place(x: float, y: float, side: float, each: int, entry: int) -> Box:
    return x + entry % each * side, y + entry // each * side, side - 2, side - 2


def _colours(
    desk: Desk,
    box: Box,
    palette: np.ndarray[tuple[int, int], np.dtype[np.uint8]],
    each: int,
    counts: list[int],
    kept: set[int],
) -> None:
    """Draw all chips as one picture of a pixel for each, with lines of the ground between them."""
    ui = desk.ui
    x, y, w, h = box
    rows = math.ceil(len(palette) / each)
    chips = np.empty((rows * each, 3), dtype=np.uint8)
    chips[:] = ui.look.ground
    chips[: len(palette)] = palette
    bare = [n for n in range(len(palette)) if not counts[n] and n not in kept]
    chips[bare] = ui.look.shade
    transparent = known_look(desk).transparent
    chips[transparent] = ui.look.ground
    picture = chips.reshape(rows, each, 3)
    number = desk.local.get("chips", 0)
    if not number:
        number = desk.local["chips"] = ui.backend.add_picture(picture)
    if desk.local.get("chips-shown") != (picture.shape, picture.tobytes()):
        desk.local["chips-shown"] = (picture.shape, picture.tobytes())
        ui.backend.set_picture(number, picture)
    ui.backend.image(number, box)
    side = w / each
    for column in range(1, each + 1):
        ui.fill((x + column * side - 2, y, 2, h), ui.look.ground)
    for row in range(1, rows + 1):
        ui.fill((x, y + row * side - 2, w, 2), ui.look.ground)


def _entry(desk: Desk, column: Column, colour: Colour, words: str, target: Target | None) -> Edit | None:
    """The chosen entry: its colour, what shows it, and whether art may have it."""
    ui = desk.ui
    look = known_look(desk)
    form = Form(ui, column, "palette", 50)
    chosen = desk.local["entry"]
    boxes = form.split("entry", (0.7, 1.1, 1.6))
    number = form.whole("entry", boxes[0], chosen, 0, len(look.palette) - 1, tip="An entry by its number.")
    if number is not None:
        desk.local["entry"] = number
    kept = dict(target.reserved) if target is not None else {}
    new: dict[int, Colour] | None = None
    if chosen in kept:
        given = form.colour("reserved", boxes[1], kept[chosen], tip="The colour that this entry keeps.")
        if given is not None:
            new = kept | {chosen: given}
        if form.button("free", boxes[2], "Let art have it", tip="It is no longer reserved."):
            new = {entry: c for entry, c in kept.items() if entry != chosen}
    else:
        x, y, w, h = boxes[1]
        ui.fill((x, y, ui.px(24), h), colour)
        ui.frame((x, y, ui.px(24), h), ui.look.rule)
        ui.text(x + ui.px(32), y + h / 2, bytes(colour).hex(), room=w - ui.px(34))
        tip = "Keep this entry with this colour: art takes it only where it has exactly that colour."
        can = chosen != look.transparent and target is not None
        if form.button("reserve", boxes[2], "Reserve it", tip=tip, on=can):
            new = kept | {chosen: colour}
    form.note(words[0].upper() + words[1:] + ".")
    if new is None or target is None:
        return None
    changed = replace(target, reserved=tuple(sorted(new.items())))
    return Edit(document=put_target(desk.session.document, changed), label=f"reserving entry {chosen}")

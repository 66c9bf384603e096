"""The scene as the machine shows it, with the raster ruler upright beside it and the budget under it."""

from dataclasses import dataclass
from math import ceil
from typing import Any

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk, Panel
from scenekit.editor.history import Edit
from scenekit.editor.products import Product, costs_at
from scenekit.editor.theme import EDGE, OPERATION_COLOURS
from scenekit.motion.shown import sprite_at
from scenekit.render.screen import screen_indices
from scenekit.report.paper import OPERATION_WORDS, plain_bytes, plain_ms
from scenekit.report.stretches import Stretch, label_texts, part_of, spread, stretches_of

RULER_WIDTH, NARROW_RULER = 172, 96
BEAM, BAR = 12, 34
LABEL = 15
LABEL_REST_S = 0.2
"""While the scene plays, names beside the ruler follow so often; its stretches follow every tick."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """Where the scene and the ruler stand; `line_px` is the height of one signal line."""

    zoom: int
    picture: Box
    ruler: Box
    line_px: float
    below: float


def lay_out(desk: Desk, area: Box, *, large: bool) -> Layout:
    """Return the layout with the largest whole zoom for which there is room; small keeps it at most 1."""
    x, y, w, h = area
    product = desk.product
    width, height, lines, before, per_row = 320, 200, 449.0, 49.0, 2.0
    if product is not None and product.mode is not None:
        timing = product.mode.timing
        width, height = product.mode.width_px, product.mode.height_px
        lines, per_row = float(timing.v_total_lines), float(timing.lines_per_row)
        before = float(timing.v_total_lines - timing.v_active_lines + timing.border_top_lines)
    ruler = ruler_width(desk)
    zoom = 1
    while large and zoom < 8 and width * (zoom + 1) + ruler <= w and (lines / per_row) * (zoom + 1) + 60 <= h:
        zoom += 1
    line_px = zoom / per_row
    top = y + max(desk.ui.px(30), before * line_px)
    picture = (x, top, width * zoom, height * zoom)
    start = top - before * line_px
    return Layout(
        zoom=zoom,
        picture=picture,
        ruler=(x + width * zoom + desk.ui.px(8), start, ruler - desk.ui.px(8), lines * line_px),
        line_px=line_px,
        below=max(top + height * zoom, start + lines * line_px) + desk.ui.px(10),
    )


def width_wanted(desk: Desk, area: Box, *, large: bool) -> float:
    """Return how wide the scene and its ruler will be."""
    layout = lay_out(desk, area, large=large)
    return layout.picture[2] + ruler_width(desk)


def ruler_width(desk: Desk) -> float:
    """Return how wide the ruler is: names beside it only where the window has room for them."""
    narrow = desk.ui.backend.surface.get_width() < desk.ui.px(1180)
    return desk.ui.px(NARROW_RULER if narrow else RULER_WIDTH)


def draw_stage(desk: Desk, area: Box, panel: Panel) -> Edit | None:
    """Draw scene, ruler and budget; return an edit made by dragging on the scene."""
    ui, session, product = desk.ui, desk.session, desk.product
    scene = session.scene
    layout = lay_out(desk, area, large=True)
    edit = None
    with ui.backend.region("stage", area):
        ui.fill(area, ui.look.ground)
        x, y, w, _h = layout.picture
        title = f"{scene.name}, tick {session.playing.tick}" if scene else "no scene yet"
        ui.text(x, y - ui.px(14), title, "head", weight="bold", room=w * 0.6)
        if product is not None and product.mode is not None:
            mode = product.mode
            words = f"{mode.width_px} x {mode.height_px}, {layout.zoom} : 1"
            ui.text(x + w, y - ui.px(14), words, "small", ui.look.quiet, anchor="right")
        ui.fill(layout.picture, ui.look.well)
        shown = update_preview(desk)
        desk.preview_box = layout.picture
        ui.mark("scene", layout.picture)
        if shown:
            with ui.backend.region("scene", layout.picture):
                ui.backend.image(desk.preview, layout.picture)
                if panel.over is not None:
                    edit = panel.over(desk, layout.picture, layout.zoom)
                else:
                    _pick(desk, layout)
                _outline(desk, layout)
        else:
            _why_not(desk, layout.picture)
        desk.hovered = ""
        with ui.backend.region("ruler", (layout.ruler[0], area[1], layout.ruler[2], layout.below - area[1])):
            ui.fill((layout.ruler[0], area[1], layout.ruler[2], layout.below - area[1]), ui.look.ground)
            _ruler(desk, layout)
    rest = (area[0], layout.below, area[2], max(0.0, area[1] + area[3] - layout.below))
    with ui.backend.region("verdict", rest):
        ui.fill(rest, ui.look.ground)
        _verdict(desk, rest)
    return edit


def update_preview(desk: Desk) -> bool:
    """Draw the tick on show into the kept picture when it is another one; say whether there is a picture."""
    session, product = desk.session, desk.product
    scene = session.scene
    if product is None or product.look is None or product.mode is None or scene is None:
        return False
    if any((scene.name, plane.name) not in product.look.planes for plane in scene.planes):
        return False
    if any(sheet.name not in product.look.sheets for sheet in session.document.sheets):
        return False
    if scene.name not in product.look.backdrops:
        return False
    tick = session.playing.tick - session.playing.tick % scene.ticks_per_update
    key = (session.document, product.look, product.mode, scene.name, tick)
    if desk.preview_key and all(
        a is b or (isinstance(a, (int, str)) and a == b) for a, b in zip(key, desk.preview_key, strict=True)
    ):
        return True
    screen = (product.mode.width_px, product.mode.height_px)
    view = (session.target.view if session.target else None) or (0, 0, *screen)
    indices = screen_indices(session.document, scene, product.look, screen, view, tick)
    palette = product.look.palette_at(scene.name, tick)
    backend = desk.ui.backend
    if not desk.preview:
        desk.preview = backend.add_picture(palette[indices])
    backend.set_indexed(desk.preview, indices, palette)
    desk.preview_key = key
    return True


def _why_not(desk: Desk, box: Box) -> None:
    ui, product = desk.ui, desk.product
    from scenekit.editor.ui import Column

    column = Column(box[0] + 20, box[1] + box[3] / 2 - 20, box[2] - 40)
    if product is not None and product.error:
        ui.paragraph(column, product.error, colour=ui.look.alarm)
    elif desk.session.scene is None:
        ui.paragraph(column, "Nothing to show yet. Bring in a sheet, then add a plane.", colour=ui.look.quiet)
    else:
        ui.paragraph(column, "Reading the art.", colour=ui.look.quiet)


def sprite_box(desk: Desk, name: str) -> Box | None:
    """Return where a placed sprite's frame stands in the view at the tick on show, in px of the view."""
    session = desk.session
    scene = session.scene
    placed = next((p for p in scene.placed if p.name == name), None) if scene else None
    if scene is None or placed is None:
        return None
    shown = sprite_at(session.document, scene, placed, session.playing.tick)
    frame = session.document.sheet(shown.sheet).frame(shown.frame)
    if frame is None:
        return None
    _, _, w, h = frame.box
    pivot_x = w - 1 - frame.pivot[0] if shown.flip & 1 else frame.pivot[0]
    pivot_y = h - 1 - frame.pivot[1] if shown.flip & 2 else frame.pivot[1]
    view = session.target.view if session.target else None
    across, down = view[:2] if view else (0, 0)
    return shown.x - pivot_x + across, shown.y - pivot_y + down, w, h


def _pick(desk: Desk, layout: Layout) -> None:
    """Choose the sprite that is pressed on the scene."""
    session = desk.session
    felt = desk.ui.press("scene:pick", layout.picture, "", keyboard=False)
    if not felt.clicked or session.scene is None:
        return
    at = (felt.at[0] / layout.zoom, felt.at[1] / layout.zoom)
    for placed in reversed(session.scene.placed):
        box = sprite_box(desk, placed.name)
        if box and box[0] <= at[0] < box[0] + box[2] and box[1] <= at[1] < box[1] + box[3]:
            session.chosen.placed, session.chosen.sprite, session.chosen.part = (
                placed.name,
                placed.sprite,
                placed.name,
            )
            return
    session.chosen.placed = session.chosen.part = ""


def _outline(desk: Desk, layout: Layout) -> None:
    """Show where the sprite is whose cost is pointed at or chosen."""
    for name in {desk.hovered or desk.session.chosen.part} - {""}:
        box = sprite_box(desk, name)
        if box is not None:
            x, y, _, _ = layout.picture
            zoom = layout.zoom
            place = (x + box[0] * zoom - 2, y + box[1] * zoom - 2, box[2] * zoom + 4, box[3] * zoom + 4)
            desk.ui.frame(place, (0, 0, 0), 1)
            desk.ui.frame((place[0] - 1, place[1] - 1, place[2] + 2, place[3] + 2), (255, 255, 255), 1)


def _ruler(desk: Desk, layout: Layout) -> None:
    """One refresh as scan lines, level with the picture's rows; each cost a stretch beside it."""
    ui, product, scene = desk.ui, desk.product, desk.session.scene
    x, y, _w, h = layout.ruler
    if product is None or product.mode is None or scene is None:
        return
    timing = product.mode.timing
    period = float(timing.period_ms)
    _beam(desk, layout, timing)
    stretches = _stretches(desk, product, scene)
    if not stretches:
        ui.text(
            x + ui.px(BEAM + 8),
            y + h / 2,
            "reckoning" if not product.error else "unknown",
            "small",
            ui.look.quiet,
        )
        return
    columns = min(3, max(1, ceil(stretches[-1].end_ms / period - 1e-9)))
    pitch = ui.px(BAR) + 3
    for column in range(columns):
        left = x + ui.px(BEAM) + 4 + column * pitch
        ui.fill((left, y, ui.px(BAR), h), ui.look.shade)
        for stretch in stretches:
            start, end = part_of(stretch, column, period)
            top, bottom = round(y + start * h), round(y + end * h)
            if bottom <= top:
                continue
            colour = OPERATION_COLOURS.get(stretch.operation, ui.look.quiet)
            place = (left, top, ui.px(BAR), bottom - top)
            ui.fill(place, colour)
            if bottom - top > 3:
                ui.fill((left, bottom - 1, ui.px(BAR), 1), ui.look.ground)
        _point(desk, (left, y, ui.px(BAR), h), stretches, column, period)
        ui.frame((left, y, ui.px(BAR), h), ui.look.rule if column == 0 else ui.look.alarm)
    _labels(desk, layout, stretches, columns, x + ui.px(BEAM) + 4, period)


def _stretches(desk: Desk, product: Product, scene: Any) -> tuple[Stretch, ...]:
    """Return the costs of the tick on show, remembered for each tick of a build."""
    kept = desk.local.get("stretches")
    if kept is None or kept[0] is not product.build or kept[1] is not product.machine:
        known: dict[int, tuple[Stretch, ...]] = {}
        desk.local["stretches"] = kept = (product.build, product.machine, known)
    tick = desk.session.playing.tick
    if tick not in kept[2]:
        priced = costs_at(product, scene, tick)
        kept[2][tick] = stretches_of([item.as_dict() for item in priced])
    found: tuple[Stretch, ...] = kept[2][tick]
    return found


def _point(desk: Desk, box: Box, stretches: Any, column: int, period: float) -> None:
    """Say what a stretch is while it is pointed at, and choose it when it is pressed."""
    ui = desk.ui
    x, y, w, h = box
    ui.mark(f"ruler:{column}", box)
    felt = ui.backend.press(f"ruler:{column}", box, keyboard=False)
    if not felt.hovered:
        return
    for stretch in stretches:
        start, end = part_of(stretch, column, period)
        if end > start and start * h <= felt.at[1] < end * h:
            desk.hovered = stretch.name
            ui.backend.hint(_cost_words(stretch), ui.px(280))
            ui.frame((x, round(y + start * h), w, max(1, round((end - start) * h))), ui.look.ink, 2)
            if felt.clicked:
                _choose(desk, stretch.name)
            return


def _cost_words(stretch: Any) -> str:
    what = OPERATION_WORDS.get(stretch.operation, stretch.operation)
    spent = plain_ms(stretch.end_ms - stretch.start_ms) if stretch.known else "time not known"
    return f"{stretch.name}: {what}, {spent}"


def _choose(desk: Desk, name: str) -> None:
    chosen, scene = desk.session.chosen, desk.session.scene
    if scene is None:
        return
    chosen.part = name
    placed = next((p for p in scene.placed if p.name == name), None)
    if placed is not None:
        chosen.placed, chosen.sprite = placed.name, placed.sprite
    elif any(plane.name == name for plane in scene.planes):
        chosen.plane = name


def _beam(desk: Desk, layout: Layout, timing: Any) -> None:
    """The strip of the beam: hatched while nothing is shown, lined where the picture is."""
    ui = desk.ui
    x, y, _, h = layout.ruler
    wide = ui.px(BEAM)
    dark = y + (timing.v_total_lines - timing.v_active_lines + timing.border_top_lines) * layout.line_px
    ui.fill((x, y, wide, dark - y), ui.look.rule)
    for level in range(round(y), round(dark), 4):
        ui.fill((x, level, wide, 1), ui.look.quiet)
    end = dark + timing.picture_lines * layout.line_px
    ui.fill((x, dark, wide, end - dark), ui.look.ink)
    ui.fill((x, end, wide, y + h - end), ui.look.rule)
    step = 50
    for row in range(0, timing.picture_lines // timing.lines_per_row + 1, step):
        level = dark + row * timing.lines_per_row * layout.line_px
        ui.fill((x - ui.px(5), round(level), ui.px(5), 1), ui.look.quiet)
        if row:
            ui.fill((x + 3, min(round(level), round(end) - 1), wide - 6, 1), ui.look.ground)


def _labels(desk: Desk, layout: Layout, stretches: Any, columns: int, first: float, period: float) -> None:
    """Names of the stretches of every refresh, moved apart where stretches are thin."""
    ui = desk.ui
    x, y, w, h = layout.ruler
    pitch = ui.px(BAR) + 3
    left = first + columns * pitch
    room = x + w - left - 12
    gap = ui.px(LABEL)
    most = max(3, min(14, int(h / gap) - 2) // columns)
    if room < ui.px(34):
        return
    kept = desk.local.get("ruler-labels")
    if (
        kept is None
        or not desk.session.playing.plays
        or desk.now_s - kept[0] > LABEL_REST_S
        or kept[1] != columns
    ):
        labels = [
            (middle, column, name, spent)
            for column in range(columns)
            for name, spent, middle in label_texts(stretches, column, period, most)
        ]
        labels.sort(key=lambda label: label[:2])
        desk.local["ruler-labels"] = kept = (desk.now_s, columns, labels)
    labels = kept[2]
    levels = spread([y + middle * h for middle, *_ in labels], gap, (y, y + h))
    for (middle, column, name, spent), level in zip(labels, levels, strict=True):
        ends = first + column * pitch + ui.px(BAR)
        ui.fill((ends, round(y + middle * h), left - ends, 1), ui.look.quiet)
        ui.backend.line((left - 1, y + middle * h), (left + 8, level), ui.look.quiet)
        wide = ui.width(spent, "small")
        chosen = name == desk.session.chosen.part
        fits = room > wide + ui.px(48)
        ui.text(
            left + 11,
            level,
            name,
            "small",
            ui.look.ink,
            weight="bold" if chosen else "regular",
            room=room - (wide + 8 if fits else 0),
        )
        if fits:
            ui.text(x + w, level, spent, "small", ui.look.quiet, anchor="right")


def _verdict(desk: Desk, box: Box) -> None:
    """Say whether it fits, in one sentence, and how full the memories are."""
    ui, product = desk.ui, desk.product
    x, y, w, h = box
    if h < ui.px(24):
        return
    level, sentence = known_verdict(desk)
    ui.lamp(x + ui.px(7), y + ui.px(14), level)
    ui.text(
        x + ui.px(20),
        y + ui.px(14),
        sentence,
        "head",
        ui.look.alarm if level == "alarm" else ui.look.ink,
        weight="bold",
        room=w - ui.px(24),
    )
    build = product.build if product is not None else None
    if build is None or not build.memory or product is None:
        return
    top = y + ui.px(40)
    wide = (w - ui.px(20) * (len(build.memory[:3]) - 1)) / max(1, len(build.memory[:3]))
    for number, memory in enumerate(build.memory[:3]):
        if top + ui.px(34) > y + h:
            return
        left = x + number * (wide + ui.px(20))
        part = min(1.0, memory.used_bytes / max(1, memory.capacity_bytes))
        full = memory.used_bytes > memory.capacity_bytes
        free = memory.capacity_bytes - memory.used_bytes
        words = f"{plain_bytes(free)} free" if not full else f"{plain_bytes(-free)} too much"
        ui.text(left, top, memory.memory, "small", ui.look.ink, room=wide * 0.5)
        ui.text(left + wide, top, words, "small", ui.look.alarm if full else ui.look.quiet, anchor="right")
        bar = (left, top + ui.px(10), wide, ui.px(8))
        ui.fill(bar, ui.look.sheet)
        ui.fill((bar[0], bar[1], max(1.0, wide * part), bar[3]), ui.look.alarm if full else ui.look.quiet)
        ui.frame(bar, ui.look.rule)


def known_verdict(desk: Desk) -> tuple[str, str]:
    """Return the verdict on what is known now, in words made once."""
    made: tuple[str, str] = desk.remember("verdict", lambda: verdict_words(desk.product), desk.product)
    return made


def verdict_words(product: Product | None) -> tuple[str, str]:
    """Return a lamp's level and a sentence for the budget."""
    if product is None:
        return "busy", "Reading the art"
    if product.error:
        return "alarm", product.error
    budget = product.budget
    if budget is None:
        return ("busy", "Reckoning the budget") if not product.done else ("empty", "No scene to reckon yet")
    worst = budget.worst_ms
    if worst is None or budget.rate_hz is None:
        return "note", "Some costs of this machine are not known yet"
    allowed = budget.refresh_hz / budget.target_hz * budget.period_ms
    if budget.holds_target:
        return (
            "good",
            f"In time: even tick {budget.worst_tick} takes {plain_ms(worst)} of {plain_ms(allowed)}",
        )
    return "alarm", f"Too slow: tick {budget.worst_tick} takes {plain_ms(worst)} of {plain_ms(allowed)}"


MARGIN = EDGE

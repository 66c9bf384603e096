"""The raster ruler: one refresh as scan lines, level with the picture, each cost a stretch beside it."""

from dataclasses import dataclass
from math import ceil
from typing import Any

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.editor.products import Product, costs_at
from scenekit.editor.theme import OPERATION_COLOURS
from scenekit.report.paper import OPERATION_WORDS, SLATE, plain_ms
from scenekit.report.stretches import Stretch, label_texts, part_of, spread, stretches_of

NARROW_RULER, RULER_WIDTH, WIDE_RULER = 96, 172, 230
BEAM, BAR = 12, 34
LABEL = 15
LABEL_REST_S = 0.2
"""While the scene plays, names beside the ruler follow so often; its stretches with every whole frame."""

LATE_TICKS = 2
"""So much older than the tick on show the stretches may be while the scene plays."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """Where the scene and the ruler stand; `line_px` is the height of one signal line."""

    zoom: int
    picture: Box
    ruler: Box
    line_px: float
    below: float


def ruler_width(desk: Desk) -> float:
    """Return how wide the ruler is: names beside it only where the window has room for them."""
    wide = desk.ui.backend.surface.get_width() / desk.ui.backend.scale
    return desk.ui.px(NARROW_RULER if wide < 1180 else RULER_WIDTH if wide < 1800 else WIDE_RULER)


def has_names(desk: Desk) -> bool:
    """Say whether names stand beside the ruler: there is room, and not too many refreshes before them."""
    return bool(desk.local.get("ruler-named", False))


def draw_ruler(desk: Desk, layout: Layout) -> None:
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
    _rested(desk, stretches)
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
            colour = OPERATION_COLOURS.get(stretch.operation, SLATE)
            place = (left, top, ui.px(BAR), bottom - top)
            ui.fill(place, colour)
            if bottom - top > 3:
                ui.fill((left, bottom - 1, ui.px(BAR), 1), ui.look.ground)
        _point(desk, (left, y, ui.px(BAR), h), stretches, column, period)
        ui.frame((left, y, ui.px(BAR), h), ui.look.rule if column == 0 else ui.look.alarm)
    _labels(desk, layout, columns, x + ui.px(BEAM) + 4, period)


def _stretches(desk: Desk, product: Product, scene: Any) -> tuple[Stretch, ...]:
    """Return the costs of the tick on show, remembered for each tick of a build.

    While the scene plays they are reckoned in the frame before, and so may be of one tick earlier.
    """
    kept = desk.local.get("stretches")
    if kept is None or kept[0] is not product.build or kept[1] is not product.machine:
        known: dict[int, tuple[Stretch, ...]] = {}
        desk.local["stretches"] = kept = (product.build, product.machine, known)

    def reckon() -> None:
        tick = desk.session.playing.tick
        if tick not in kept[2]:
            priced = costs_at(product, scene, tick)
            kept[2][tick] = stretches_of([item.as_dict() for item in priced])
        desk.local["stretches-ahead"] = kept[2], tick

    desk.ahead.insert(0, reckon)
    tick = desk.session.playing.tick
    known, last = desk.local.get("stretches-ahead", (None, -9))
    if not (known is kept[2] and desk.session.playing.plays and 0 <= tick - last <= LATE_TICKS):
        reckon()
        last = tick
    found: tuple[Stretch, ...] = kept[2][last]
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


def _rested(desk: Desk, stretches: tuple[Stretch, ...]) -> None:
    """Keep the stretches that words follow: those on show, but no other ones every moment while it plays."""
    since, kept = desk.local.get("ruler-since", 0.0), desk.local.get("ruler-rested")
    rests = desk.session.playing.plays and desk.now_s - since <= LABEL_REST_S
    if kept is None or not (kept is stretches or rests):
        desk.local["ruler-since"], desk.local["ruler-rested"] = desk.now_s, stretches


def _label_list(
    stretches: tuple[Stretch, ...], columns: int, period: float, most: int
) -> list[tuple[float, int, str, str]]:
    """Return (middle, refresh, name, time) of each label, from top to bottom."""
    labels = [
        (middle, column, name, spent)
        for column in range(columns)
        for name, spent, middle in label_texts(stretches, column, period, most)
    ]
    return sorted(labels, key=lambda label: label[:2])


def _labels(desk: Desk, layout: Layout, columns: int, first: float, period: float) -> None:
    """Names of the stretches of every refresh, moved apart where stretches are thin."""
    ui = desk.ui
    x, y, w, h = layout.ruler
    pitch = ui.px(BAR) + 3
    left = first + columns * pitch
    room = x + w - left - 12
    gap = ui.px(LABEL)
    most = max(3, min(14, int(h / gap) - 2) // columns)
    desk.local["ruler-named"] = room >= ui.px(34)
    if room < ui.px(34):
        return
    stretches = desk.local["ruler-rested"]
    labels = desk.remember(
        "ruler-labels",
        lambda: _label_list(stretches, columns, period, most),
        stretches,
        columns,
        most,
        period,
    )
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

"""Draws the work of one tick against the beam: scan lines down the page, costs as labelled stretches."""

from collections.abc import Mapping, Sequence
from math import ceil
from typing import Any

import numpy as np
from numpy.typing import NDArray

from scenekit.machines.timing import Timing
from scenekit.report.paper import (
    ALARM,
    BLUE,
    INK,
    OPERATION_COLOURS,
    OPERATION_WORDS,
    PANEL,
    QUIET,
    RULE,
    Colour,
    Paper,
    nice_step,
    plain_ms,
)
from scenekit.report.stretches import Stretch, end_of, label_texts, part_of, spread, stretches_of

WIDTH_PX, HEIGHT_PX = 960, 600
EDGE_PX = 28
TOP_PX, COLUMN_PX = 124, 424
"""Where the columns begin, and the height of one refresh."""

AXIS_PX, LEGEND_PX = 66, 224
MOST_COLUMNS = 4
BEAM_PX = 26
LABEL_PX = 16
"""Height that a label needs."""

MOST_LABELS = 14


DARK_SCREEN: Colour = (48, 56, 72)
LIT_LINE: Colour = (150, 166, 190)


def raster_ruler(
    timing: Timing, costs: Sequence[Mapping[str, Any]], *, title: str = "", refreshes: int = 1
) -> NDArray[np.uint8]:
    """Return the picture of one tick's work along the scan lines of its refresh.

    The tick begins where the blanking begins. Work that goes on past the last scan line continues in a
    further column.
    costs       in drawing order, with "name", "operation" and "ms" (None is unknown), as in a budget
    refreshes   how many refreshes an update may take
    returns     (H, W, 3) uint8 sRGB
    """
    paper = Paper(WIDTH_PX, HEIGHT_PX)
    stretches = stretches_of(costs)
    period = float(timing.period_ms)
    work = end_of(stretches)
    unknown = sum(not stretch.known for stretch in stretches)
    _heading(paper, title, (work, refreshes * period), unknown)
    _key(paper, timing)
    _axis(paper, timing)
    needed = max(ceil(work / period - 1e-9), refreshes, 1)
    shown = min(needed, MOST_COLUMNS)
    left = EDGE_PX + AXIS_PX
    legend = LEGEND_PX if shown <= 2 else 0
    pitch = (WIDTH_PX - EDGE_PX - left - legend) // shown
    bar = {1: 240, 2: pitch // 4}.get(shown, 24)
    for column in range(shown):
        place, beam = left + column * pitch, BEAM_PX + 4 if column == 0 or shown <= 2 else 0
        if beam:
            _beam(paper, place, timing)
        _column_name(paper, place, column, refreshes, needed)
        _bar(paper, (place + beam, bar), stretches, column, period)
        lane = place + beam + bar
        room = min(place + pitch - 8 - lane, 260)
        _labels(paper, (lane, room), stretches, (column, work, refreshes), period)
    if legend:
        _legend(paper, WIDTH_PX - EDGE_PX - legend + 24, stretches)
    _footing(paper, needed - shown)
    return paper.array()


def _heading(paper: Paper, title: str, times: tuple[float, float], unknown: int) -> None:
    work, allowed = times
    room = WIDTH_PX - 2 * EDGE_PX
    paper.text(EDGE_PX, 20, paper.fitted(title or "One tick against the scan lines", room, 15), 15, QUIET)
    of = f"{plain_ms(work)} of {plain_ms(allowed)}"
    if unknown:
        costs = "one cost is" if unknown == 1 else f"{unknown} costs are"
        colour, sentence = QUIET, f"At least {of}, and {costs} not known yet"
    elif work <= allowed:
        colour, sentence = BLUE, f"In time: done after {of}"
    else:
        colour, sentence = ALARM, f"Too late by {plain_ms(work - allowed)}: {of}"
    paper.box((EDGE_PX, 48, 6, 30), colour)
    paper.text(EDGE_PX + 18, 63, paper.fitted(sentence, room - 18, 24), 24, INK, "lm")


def _key(paper: Paper, timing: Timing) -> None:
    """One row that says what the strip of the beam shows."""
    fields = timing.fields
    blank = (timing.v_total_lines - timing.v_active_lines) // fields
    x = EDGE_PX + 18.0
    parts = [
        ("blank", f"nothing on screen: {blank} lines, {plain_ms(float(timing.blank_ms))}"),
        ("picture", f"picture: {timing.picture_lines // fields} lines, {plain_ms(float(timing.picture_ms))}"),
    ]
    if timing.border_lines:
        border = float(timing.undrawn_ms - timing.blank_ms)
        parts.append(("border", f"border: {timing.border_lines // fields} lines, {plain_ms(border)}"))
    for kind, words in parts:
        _beam_part(paper, (x, 90, BEAM_PX, 14), kind)
        paper.text(x + BEAM_PX + 8, 97, words, 13, QUIET, "lm")
        x += BEAM_PX + 34 + paper.length_px(words, 13)


def _beam(paper: Paper, left: int, timing: Timing) -> None:
    """The strip of one refresh: blanking, border, picture, border."""
    scale = COLUMN_PX / timing.v_total_lines
    line = 0.0
    blank = timing.v_total_lines - timing.v_active_lines
    for kind, lines in (
        ("blank", blank),
        ("border", timing.border_top_lines),
        ("picture", timing.picture_lines),
        ("border", timing.border_bottom_lines),
    ):
        _beam_part(paper, (left, TOP_PX + line * scale, BEAM_PX, lines * scale), kind)
        line += lines


def _beam_part(paper: Paper, box: tuple[float, float, float, float], kind: str) -> None:
    x, y, w, h = box
    if kind == "blank":
        paper.box(box, PANEL, QUIET)
        paper.hatch(box, QUIET, 5)
    elif kind == "border":
        paper.box(box, RULE, QUIET)
    else:
        paper.box(box, DARK_SCREEN)
        for level in range(round(y) + 1, round(y + h) - 1, 3):
            paper.box((x + 2, level, w - 4, 1), LIT_LINE)


def _axis(paper: Paper, timing: Timing) -> None:
    """Scan lines since the tick began, down the left edge."""
    total = timing.v_total_lines // timing.fields
    step = int(max(nice_step(total, 8), 1))
    for line in range(0, total, step):
        level = TOP_PX + line / total * COLUMN_PX
        paper.line([(EDGE_PX + AXIS_PX - 9, level), (EDGE_PX + AXIS_PX - 3, level)], QUIET)
        paper.text(EDGE_PX + AXIS_PX - 13, level, f"line {line}" if line == 0 else str(line), 12, QUIET, "rm")
        if line and total - line > step / 3:
            words = plain_ms(float(timing.line_us) * line / 1000)
            paper.text(EDGE_PX + AXIS_PX - 13, level + 14, words, 12, QUIET, "rm")
    paper.text(EDGE_PX + AXIS_PX - 13, TOP_PX + COLUMN_PX, str(total), 12, QUIET, "rm")


def _column_name(paper: Paper, left: int, column: int, refreshes: int, needed: int) -> None:
    if needed == 1:
        return
    late = column >= refreshes
    words = f"refresh {column + 1}: {'too late' if late else 'in time'}"
    paper.text(left, TOP_PX + COLUMN_PX + 7, words, 13, ALARM if late else INK)


def _bar(
    paper: Paper, place: tuple[int, int], stretches: Sequence[Stretch], column: int, period: float
) -> None:
    """The stretches of one refresh as blocks, each as tall as the time it takes."""
    left, width = place
    paper.box((left, TOP_PX, width, COLUMN_PX), PANEL, RULE)
    for stretch in stretches:
        start, end = part_of(stretch, column, period)
        top, bottom = round(TOP_PX + start * COLUMN_PX), round(TOP_PX + end * COLUMN_PX)
        if bottom > top:
            paper.box((left, top, width, max(bottom - top, 1)), _colour(stretch))
            if bottom - top >= 3:
                paper.box((left, bottom - 1, width, 1), PANEL)
    if column * period + period < end_of(stretches) - 1e-9:
        paper.box((left, TOP_PX + COLUMN_PX, width, 4), ALARM)


def _colour(stretch: Stretch) -> Colour:
    return OPERATION_COLOURS.get(stretch.operation, QUIET)


def _labels(
    paper: Paper,
    lane: tuple[int, int],
    stretches: Sequence[Stretch],
    progress: tuple[int, float, int],
    period: float,
) -> None:
    """Names beside the blocks, moved apart where blocks are thin."""
    left, width = lane
    column, work, refreshes = progress
    labels = label_texts(stretches, column, period, MOST_LABELS)
    middles = [TOP_PX + middle * COLUMN_PX for _, _, middle in labels]
    levels = spread(middles, LABEL_PX, (TOP_PX, TOP_PX + COLUMN_PX))
    for (name, spent, _), middle, level in zip(labels, middles, levels, strict=True):
        colour = ALARM if column >= refreshes else INK
        paper.line([(left + 1, middle), (left + 12, level), (left + 17, level)], QUIET)
        room = width - 22 - paper.length_px(spent, 13) - 6
        paper.text(left + 22, level, paper.fitted(name, room, 13), 13, colour, "lm")
        paper.text(left + width, level, spent, 13, colour, "rm")
    bottom = TOP_PX + COLUMN_PX
    ends = max(TOP_PX + (work / period - column) * COLUMN_PX, *(level + 8 for level in levels), TOP_PX)
    if ends < bottom - LABEL_PX and column < refreshes:
        spare = plain_ms((column + 1) * period - max(work, column * period))
        paper.text(left + 22, (ends + bottom) / 2, f"free: {spare}", 15, BLUE, "lm")


def _legend(paper: Paper, left: int, stretches: Sequence[Stretch]) -> None:
    """The time of each operation in all."""
    paper.text(left, TOP_PX, "In all", 14)
    sums: dict[str, float] = {}
    for stretch in stretches:
        sums[stretch.operation] = sums.get(stretch.operation, 0.0) + stretch.end_ms - stretch.start_ms
    for number, (operation, spent) in enumerate(sorted(sums.items(), key=lambda item: (-item[1], item[0]))):
        level = TOP_PX + 34 + number * 24
        paper.box((left, level - 7, 14, 14), OPERATION_COLOURS.get(operation, QUIET))
        words = OPERATION_WORDS.get(operation, operation)
        paper.text(left + 22, level, paper.fitted(words, 110, 13), 13, INK, "lm")
        paper.text(WIDTH_PX - EDGE_PX, level, plain_ms(spent), 13, INK, "rm")


def _footing(paper: Paper, hidden: int) -> None:
    words = "The tick begins at line 0, when the beam has left the picture. A cost is as tall as its time."
    paper.text(EDGE_PX, HEIGHT_PX - 8, words, 12, QUIET, "ld")
    if hidden > 0:
        words = f"{hidden} more refreshes of work do not fit here"
        paper.text(WIDTH_PX - EDGE_PX, HEIGHT_PX - 8, words, 13, ALARM, "rd")

"""Draws a budget as a picture: the time line of a scene, its dearest tick and its memories."""

from collections.abc import Mapping, Sequence
from math import ceil
from typing import Any

import numpy as np
from numpy.typing import NDArray

from scenekit.report.paper import (
    ALARM,
    BLUE,
    INK,
    OPERATION_COLOURS,
    OPERATION_WORDS,
    PANEL,
    QUIET,
    RULE,
    SLATE,
    Paper,
    nice_step,
    plain_bytes,
    plain_ms,
)
from scenekit.report.ruler import raster_ruler

__all__ = ["budget_plot", "raster_ruler", "verdict"]

WIDTH_PX, HEIGHT_PX = 960, 600
EDGE_PX = 28
MOST_COSTS = 6
MOST_MEMORIES = 3
KINDS = (SLATE, (158, 170, 190), (70, 84, 108))
"""Shades of neighbouring kinds of memory, told apart by their lightness alone."""

Area = tuple[int, int, int, int]


def budget_plot(data: Mapping[str, Any], work_ms: Sequence[float | None] = ()) -> NDArray[np.uint8]:
    """Return the picture of a budget.

    data      what `scenekit budget --json` prints
    work_ms   work of each tick from the first; None while a cost is unknown
    returns   (H, W, 3) uint8 sRGB
    """
    paper = Paper(WIDTH_PX, HEIGHT_PX)
    _heading(paper, data)
    _time_line(paper, (EDGE_PX, 112, WIDTH_PX - 2 * EDGE_PX, 226), data, work_ms)
    _dearest_tick(paper, (EDGE_PX, 354, 510, 228), data)
    _memories(paper, (EDGE_PX + 546, 354, WIDTH_PX - 2 * EDGE_PX - 546, 228), data)
    return paper.array()


def allowed_ms(data: Mapping[str, Any]) -> float:
    """Return the time that one update of the scene may take at the rate it is meant to hold."""
    wanted = float(data.get("target_hz") or data["refresh_hz"])
    return max(round(float(data["refresh_hz"]) / wanted), 1) * float(data["period_ms"])


def verdict(data: Mapping[str, Any]) -> tuple[bool | None, str, str]:
    """Return whether the scene fits its time (None: unknown), a sentence that says so, and a second one."""
    worst, allowed = data["worst"], allowed_ms(data)
    work, period, refresh = worst["work_ms"], float(data["period_ms"]), float(data["refresh_hz"])
    if work is None:
        names = [str(cost["name"]) for cost in worst["costs"] if cost["ms"] is None]
        missing = (
            f"Missing: {', '.join(names[:4])}{' and others' if len(names) > 4 else ''}." if names else ""
        )
        return None, "Not known yet: some costs were never measured", missing
    tick = f"tick {worst['tick']}"
    if work <= allowed:
        times = f"even {tick} takes only {plain_ms(work)} of its {plain_ms(allowed)}"
        held = refresh * period / allowed
        return True, f"It fits: {times}", f"The picture can change {held:.1f} times a second throughout."
    times = f"{tick} takes {plain_ms(work)} but has only {plain_ms(allowed)}"
    rate = refresh / ceil(work / period - 1e-9)
    return False, f"Too slow: {times}", f"There the picture changes only {rate:.1f} times a second."


def _heading(paper: Paper, data: Mapping[str, Any]) -> None:
    fits, sentence, second = verdict(data)
    what = f"{data['scene']} on {data['target']}"
    where = f"{data['machine']}, {data['mode']} at {float(data['refresh_hz']):.2f} Hz"
    room = WIDTH_PX - 2 * EDGE_PX
    paper.text(EDGE_PX, 18, paper.fitted(f"{what}   ({where})", room, 15), 15, QUIET)
    colour = {True: BLUE, False: ALARM, None: QUIET}[fits]
    paper.box((EDGE_PX, 46, 6, 48), colour)
    paper.text(EDGE_PX + 18, 59, paper.fitted(sentence, room - 18, 24), 24, INK, "lm")
    paper.text(EDGE_PX + 18, 85, paper.fitted(second, room - 18, 15), 15, INK, "lm")


def _time_line(paper: Paper, area: Area, data: Mapping[str, Any], work_ms: Sequence[float | None]) -> None:
    x, y, w, h = area
    left, top, width, height = x + 56, y + 36, w - 56, h - 64
    allowed = allowed_ms(data)
    known = [value for value in work_ms if value is not None]
    paper.text(x, y, _missed_words(sum(value > allowed for value in known), len(work_ms), len(known)))
    paper.box((left, top, width, height), PANEL)
    ceiling = 1.15 * max([allowed, *known])
    for mark in np.arange(0, ceiling, nice_step(ceiling, 5)):
        level = top + height - mark / ceiling * height
        paper.line([(left, level), (left + width - 1, level)], RULE)
        paper.text(left - 8, level, f"{mark:g} ms", 12, QUIET, "rm")
    _columns(paper, (left, top, width, height), work_ms, (ceiling, allowed))
    paper.dashes(left, top + height - allowed / ceiling * height, width, INK)
    _limit(paper, (x + w, y), allowed)
    if known:
        _mark_dearest(paper, (left, top, width), int(data["worst"]["tick"]), len(work_ms))
    else:
        paper.box((left + width / 2 - 190, top + height / 2 - 14, 380, 28), PANEL)
        words = "known as soon as every cost is measured"
        paper.text(left + width / 2, top + height / 2, words, 15, QUIET, "mm")
    _tick_axis(paper, (left, top + height, width), len(work_ms))


def _missed_words(missed: int, ticks: int, known: int) -> str:
    if not known:
        return "Work in every tick"
    if not missed:
        return f"Work in every tick: all {ticks} are in time"
    return f"Work in every tick: {missed} of {ticks} come too late"


def _columns(paper: Paper, area: Area, work_ms: Sequence[float | None], limits: tuple[float, float]) -> None:
    """One column a tick, or a column for the dearest of several ticks when there are many."""
    left, top, width, height = area
    ceiling, allowed = limits
    count = len(work_ms)
    columns = min(count, width)
    for column in range(columns):
        first = column * count // columns
        last = max((column + 1) * count // columns, first + 1)
        start, end = left + column * width // columns, left + (column + 1) * width // columns
        gap = 1 if end - start > 3 else 0
        values = [value for value in work_ms[first:last] if value is not None]
        if len(values) < last - first:
            paper.hatch((start, top, end - start, height), RULE)
        if values:
            tall = max(values) / ceiling * height
            within = min(tall, allowed / ceiling * height)
            paper.box((start, top + height - within, end - start - gap, within), SLATE)
            paper.box((start, top + height - tall, end - start - gap, tall - within), ALARM)


def _limit(paper: Paper, place: tuple[int, int], allowed: float) -> None:
    """What the dashed line means, above the plot, where it hides nothing."""
    right, y = place
    label = f"a picture must be done by here: {plain_ms(allowed)}"
    paper.text(right, y + 1, label, 13, INK, "ra")
    paper.dashes(round(right - paper.length_px(label, 13) - 44), y + 9, 36, INK)


def _mark_dearest(paper: Paper, area: tuple[int, int, int], tick: int, ticks: int) -> None:
    """A small arrow above the dearest tick."""
    left, top, width = area
    if 0 <= tick < ticks:
        place = left + (tick + 0.5) * width / ticks
        for row in range(6):
            paper.box((place - 5 + row, top - 7 + row, 11 - 2 * row, 1), INK)
        side = "rd" if place > left + width - 90 else "ld"
        paper.text(place + (-9 if side == "rd" else 9), top, f"tick {tick}", 12, INK, side)


def _tick_axis(paper: Paper, area: tuple[int, int, int], ticks: int) -> None:
    left, y, width = area
    step = max(int(nice_step(ticks, 10)), 1)
    for tick in range(0, ticks, step):
        place = left + tick * width / ticks
        paper.line([(place, y), (place, y + 4)], QUIET)
        words, side = (str(tick), "ma") if tick else ("tick 0", "la")
        paper.text(place, y + 7, words, 12, QUIET, side)


def _dearest_tick(paper: Paper, area: Area, data: Mapping[str, Any]) -> None:
    x, y, w, _ = area
    worst = data["worst"]
    paper.text(x, y, f"Where the time of tick {worst['tick']} goes")
    costs = sorted(worst["costs"], key=lambda cost: -(cost["ms"] if cost["ms"] is not None else 1e12))
    rows = _with_rest(costs)
    longest = max([cost["ms"] or 0.0 for cost in rows] + [1e-9])
    names, room = 128, w - 128 - 178
    for number, cost in enumerate(rows):
        level = y + 37 + number * 28
        words = OPERATION_WORDS.get(cost["operation"], str(cost["operation"]))
        paper.text(x, level, paper.fitted(str(cost["name"]), names - 12), 14, INK, "lm")
        length, spent = float(room), "unknown"
        if cost["ms"] is None:
            paper.hatch((x + names, level - 9, room, 18), QUIET)
        else:
            length, spent = max(cost["ms"] / longest * room, 1), plain_ms(cost["ms"])
            paper.box((x + names, level - 9, length, 18), OPERATION_COLOURS.get(cost["operation"], QUIET))
        after = x + names + length + 8
        paper.text(after, level, spent, 13, INK, "lm")
        after += paper.length_px(spent, 13) + 10
        paper.text(after, level, paper.fitted(words, x + w - after, 12), 12, QUIET, "lm")


def _with_rest(costs: Sequence[Mapping[str, Any]]) -> list[Mapping[str, Any]]:
    """The dearest rows, and one row for all the others."""
    if len(costs) <= MOST_COSTS + 1:
        return list(costs)
    rest = costs[MOST_COSTS:]
    known = [cost["ms"] for cost in rest if cost["ms"] is not None]
    total = sum(known) if len(known) == len(rest) else None
    return [*costs[:MOST_COSTS], {"name": f"{len(rest)} more", "operation": "smaller ones", "ms": total}]


def _memories(paper: Paper, area: Area, data: Mapping[str, Any]) -> None:
    x, y, w, _ = area
    paper.text(x, y, "What the memories hold")
    memories = data["memory"]
    for number, memory in enumerate(memories[:MOST_MEMORIES]):
        _memory(paper, (x, y + 28 + number * 64, w), memory)
    if len(memories) > MOST_MEMORIES:
        words = f"{len(memories) - MOST_MEMORIES} more in the text report"
        paper.text(x + w, y, words, 12, QUIET, "ra")


def _memory(paper: Paper, area: tuple[int, int, int], memory: Mapping[str, Any]) -> None:
    x, y, w = area
    used, free, capacity = (int(memory[key]) for key in ("used_bytes", "free_bytes", "capacity_bytes"))
    kinds: dict[str, int] = dict(memory.get("kinds", {}))
    reserve = kinds.pop("reserve", max(capacity - used - free, 0))
    taken = min(used, sum(kinds.values())) if kinds else used
    excess = max(-free, used - capacity)
    whole = max(used, capacity, 1)
    words = f"{plain_bytes(excess)} too much" if excess > 0 else f"{plain_bytes(free)} free"
    paper.text(x, y, paper.fitted(str(memory["memory"]), w * 0.5))
    paper.text(x + w, y, words, 14, ALARM if excess > 0 else INK, "ra")
    within = min(taken, max(capacity - reserve, 0))
    paper.box((x, y + 20, w, 18), PANEL, RULE)
    start = 0.0
    for number, size in enumerate(kinds.values() or (within,)):
        end = min(start + size, within)
        paper.box((x + w * start / whole, y + 20, w * (end - start) / whole, 18), KINDS[number % len(KINDS)])
        start = end
    paper.box((x + w * within / whole, y + 20, w * (taken - within) / whole, 18), ALARM)
    if reserve and taken <= capacity - reserve:
        paper.hatch((x + w - w * reserve / whole, y + 20, w * reserve / whole, 18), QUIET)
    note = f"of {plain_bytes(capacity)}: " if kinds else f"{plain_bytes(used)} of {plain_bytes(capacity)}"
    note += ", ".join(f"{kind} {plain_bytes(size)}" for kind, size in kinds.items())
    if reserve:
        note += f", your game {plain_bytes(reserve)}"
    paper.text(x, y + 42, paper.fitted(note, w, 12), 12, QUIET)

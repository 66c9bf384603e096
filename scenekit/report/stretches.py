"""Costs laid end to end in time, and the labels that fit beside them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from scenekit.report.paper import plain_ms


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """One cost from a start to an end, in ms since the tick began; unknown costs take no time."""

    name: str
    operation: str
    start_ms: float
    end_ms: float
    known: bool = True


def stretches_of(costs: Sequence[Mapping[str, Any]]) -> tuple[Stretch, ...]:
    """Return costs laid end to end in drawing order."""
    laid: list[Stretch] = []
    time = 0.0
    for cost in costs:
        known = cost["ms"] is not None
        end = time + (float(cost["ms"]) if known else 0.0)
        laid.append(
            Stretch(
                name=str(cost["name"]),
                operation=str(cost["operation"]),
                start_ms=time,
                end_ms=end,
                known=known,
            )
        )
        time = end
    return tuple(laid)


def part_of(stretch: Stretch, column: int, period_ms: float) -> tuple[float, float]:
    """Return where a stretch begins and ends in a refresh, from 0 to 1; equal when it is not there."""
    start = min(max(stretch.start_ms / period_ms - column, 0.0), 1.0)
    end = min(max(stretch.end_ms / period_ms - column, 0.0), 1.0)
    return start, end


def end_of(stretches: Sequence[Stretch]) -> float:
    """Return when the last stretch ends, in ms."""
    return stretches[-1].end_ms if stretches else 0.0


def label_texts(
    stretches: Sequence[Stretch], column: int, period_ms: float, most: int
) -> list[tuple[str, str, float]]:
    """Return name, time and middle (0 to 1) of each label of a refresh.

    Neighbours share a label where there are too many.
    """
    here = []
    for stretch in stretches:
        start, end = part_of(stretch, column, period_ms)
        if end > start or column <= stretch.start_ms / period_ms < column + 1:
            here.append(stretch)
    groups = [[stretch] for stretch in here] if len(here) <= most else _shared(here, most)
    return [_label_text(group, column, period_ms) for group in groups]


def _shared(stretches: list[Stretch], most: int) -> list[list[Stretch]]:
    """Join neighbours that are all short, with the least shortness that leaves few enough labels."""
    lengths = [stretch.end_ms - stretch.start_ms for stretch in stretches]
    groups: list[list[Stretch]] = []
    for limit in sorted(set(lengths)):
        groups = [[stretches[0]]]
        for number in range(1, len(stretches)):
            if max(lengths[number - 1], lengths[number]) <= limit:
                groups[-1].append(stretches[number])
            else:
                groups.append([stretches[number]])
        if len(groups) <= most:
            break
    return groups


def _label_text(group: list[Stretch], column: int, period_ms: float) -> tuple[str, str, float]:
    first, last = group[0], group[-1]
    start, end = max(first.start_ms, column * period_ms), min(last.end_ms, (column + 1) * period_ms)
    name = first.name if len(group) == 1 else f"{len(group)} from {first.name}"
    if first.start_ms < column * period_ms - 1e-9:
        name += ", rest"
    spent = plain_ms(end - start) if all(stretch.known for stretch in group) else "unknown"
    middle = (part_of(first, column, period_ms)[0] + part_of(last, column, period_ms)[1]) / 2
    return name, spent, middle


def spread(wanted: Sequence[float], gap: float, limits: tuple[float, float]) -> list[float]:
    """Return places in the same order, at least a gap apart, inside limits, near the wanted ones."""
    low, high = limits
    placed: list[float] = []
    for value in wanted:
        placed.append(max(value, placed[-1] + gap if placed else low + gap / 2))
    ceiling = high - gap / 2
    for number in range(len(placed) - 1, -1, -1):
        placed[number] = min(placed[number], ceiling)
        ceiling = placed[number] - gap
    return placed

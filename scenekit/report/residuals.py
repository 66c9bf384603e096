"""Draws how far measured times are from what fitted costs give, one mark for each measure."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from scenekit.report.paper import ALARM, BLUE, INK, PANEL, QUIET, RULE, Paper, nice_step

WIDTH_PX, HEIGHT_PX = 900, 420
LEFT_PX, TOP_PX, EDGE_PX = 78, 70, 28
LEAST_PERCENT = 5.0


def residual_plot(
    title: str, times_us: Sequence[float], fitted_us: Sequence[float], outliers: Sequence[int]
) -> NDArray[np.uint8]:
    """Return a picture of residuals in percent over the time of each measure, on a log scale.

    times_us, fitted_us  measured, and what the costs give
    outliers             measures that were left out of the fit; drawn as crosses
    returns              (H, W, 3) uint8 sRGB
    """
    paper = Paper(WIDTH_PX, HEIGHT_PX)
    head, _, rest = title.partition("; ")
    paper.text(EDGE_PX, 18, paper.fitted(head, WIDTH_PX - 2 * EDGE_PX, 20), 20)
    note = "Measured less fitted, in % of the fitted time. Crosses are left out."
    if rest:
        note = f"{rest[:1].upper()}{rest[1:]}. {note}"
    paper.text(EDGE_PX, 46, paper.fitted(note, WIDTH_PX - 2 * EDGE_PX, 12), 12, QUIET)
    area = (LEFT_PX, TOP_PX, WIDTH_PX - LEFT_PX - EDGE_PX, HEIGHT_PX - TOP_PX - 56)
    paper.box(area, PANEL, RULE)
    shares = [100 * (t / f - 1) if f > 0 else 100.0 for t, f in zip(times_us, fitted_us, strict=True)]
    most = max(LEAST_PERCENT, *(abs(share) for share in shares)) * 1.1
    logs = np.log10(np.maximum(np.array(fitted_us, dtype=np.float64), 1e-6))
    low, high = float(np.floor(logs.min())), float(np.ceil(logs.max() + 1e-9))
    _axes(paper, area, most, low, max(high, low + 1))
    for number, share in enumerate(shares):
        x = area[0] + (logs[number] - low) / max(high - low, 1) * area[2]
        y = area[1] + area[3] / 2 - share / most * area[3] / 2
        if number in outliers:
            paper.line([(x - 5, y - 5), (x + 5, y + 5)], ALARM, 2)
            paper.line([(x - 5, y + 5), (x + 5, y - 5)], ALARM, 2)
        else:
            paper.box((x - 3, y - 3, 6, 6), BLUE)
    return paper.array()


def _axes(paper: Paper, area: tuple[int, int, int, int], most: float, low: float, high: float) -> None:
    x, y, w, h = area
    step = nice_step(2 * most, 8)
    for n in range(-int(most / step), int(most / step) + 1):
        level = y + h / 2 - n * step / most * h / 2
        paper.line([(x, level), (x + w, level)], INK if n == 0 else RULE)
        paper.text(x - 8, level, f"{n * step:+g} %" if n else "0", 12, QUIET, "rm")
    for power in range(int(low), int(high) + 1):
        place = x + (power - low) / (high - low) * w
        paper.line([(place, y), (place, y + h)], RULE)
        paper.text(place, y + h + 8, f"{10.0**power:g}", 12, QUIET, "ma")
    paper.text(x + w, y + h + 30, "time of one turn in us", 12, QUIET, "ra")

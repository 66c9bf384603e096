"""Sums over boxes of a grid against adding up pixel by pixel."""

import random

import numpy as np
import pytest

from scenekit.plan.areas import Areas, Axis


def plain(grid, widths, heights, wrap, box):
    """Add up one pixel after the other."""
    columns = np.repeat(np.arange(len(widths)), widths)
    rows = np.repeat(np.arange(len(heights)), heights)
    total = 0
    for y in range(box[1], box[3]):
        for x in range(box[0], box[2]):
            inside = (wrap[0] or 0 <= x < len(columns)) and (wrap[1] or 0 <= y < len(rows))
            if inside:
                total += int(grid[rows[y % len(rows)], columns[x % len(columns)]])
    return total


@pytest.mark.parametrize("seed", range(24))
def test_sums_equal_adding_up(seed):
    chosen = random.Random(seed)
    shape = chosen.randint(1, 5), chosen.randint(1, 6)
    grid = np.array([[chosen.randint(0, 4) for _ in range(shape[1])] for _ in range(shape[0])])
    even = seed % 3 == 0
    widths = [1 if even else chosen.randint(1, 5) for _ in range(shape[1])]
    heights = [1 if even else chosen.randint(1, 5) for _ in range(shape[0])]
    wrap = (chosen.random() < 0.5, chosen.random() < 0.5)
    areas = Areas(grid, Axis(widths, wrap[0]), Axis(heights, wrap[1]))
    boxes = []
    for _ in range(40):
        left, top = chosen.randint(-30, 30), chosen.randint(-30, 30)
        boxes.append((left, top, left + chosen.randint(-2, 40), top + chosen.randint(-2, 40)))
    found = areas.within(*np.array(boxes, dtype=np.int64).T)
    assert found.tolist() == [plain(grid, widths, heights, wrap, box) for box in boxes]

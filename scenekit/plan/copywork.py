"""What copying the cells of a plane takes."""

import numpy as np
from numpy.typing import NDArray

from scenekit.plan.shown import Line
from scenekit.plan.work import Work, unnamed
from scenekit.tables.pieces import EMPTY

Whole = NDArray[np.int64]


def copy_work(cells: Whole, solid: Whole, rows: list[Line], columns: list[Line]) -> list[Work]:
    """Return the work of copying cells: one call each, over the clipped box.

    cells  (R, C) piece * 4 + flip, or EMPTY
    solid  for each piece, 1 where it has no hole
    """
    heights = np.array([size for _, _, size, _ in rows])
    widths = np.array([size for _, _, size, _ in columns])
    kinds = np.where(cells == EMPTY, -1, np.where(cells % 4 > 0, 2, 1 - solid[cells // 4]))
    work = []
    for kind, operation in enumerate(("blit", "blit-keyed", "blit-flipped")):
        mask = kinds == kind
        if mask.any():
            high = heights[:, None] * mask
            work.append(unnamed(operation, int(mask.sum()), int(high.sum()), int((high * widths).sum())))
    return work

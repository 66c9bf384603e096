"""How many cells of a map that stays in a file are read when a plane scrolls on."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from scenekit.model.scene import Plane, Scene
from scenekit.motion.parallax import shown_scroll
from scenekit.plan.work import Work, called
from scenekit.tables.pieces import Pieces
from scenekit.tiles.planes import CutPlane

Pair = tuple[int, int]
Whole = NDArray[np.int64]


def cells_read(plane: Plane, cut: CutPlane, window: Pair, before: Pair | None, now: Pair) -> int:
    """Return the cells of the window at one scroll position that were not in it at the one before.

    before   None when nothing was read yet
    """
    here = (np.array([now[0]], np.int64), np.array([now[1]], np.int64))
    last = before or (0, 0)
    there = (np.array([last[0]], np.int64), np.array([last[1]], np.int64))
    return int(cells_read_along(plane, cut, window, there, here, np.array([before is None]))[0])


def cells_read_along(
    plane: Plane,
    cut: CutPlane,
    window: Pair,
    before: tuple[Whole, Whole],
    now: tuple[Whole, Whole],
    fresh: NDArray[np.bool_],
) -> Whole:
    """Return the cells that are read for each of many scroll positions, x and y (T,), after those before.

    fresh   (T,) where nothing was read yet
    """
    counts, sizes = (cut.columns, cut.rows), (cut.tile_w_px, cut.tile_h_px)
    wholes = (cut.width_px, cut.height_px)
    new = np.ones_like(now[0])
    both = np.where(fresh, 0, 1)
    for axis in (0, 1):
        wrap = plane.wrap[axis]
        here = _first(now[axis], counts[axis], sizes[axis], wholes[axis], wrap)
        there = _first(before[axis], counts[axis], sizes[axis], wholes[axis], wrap)
        new = new * _shared(here, here, counts[axis], window[axis], wrap)
        both = both * _shared(here, there, counts[axis], window[axis], wrap)
    return np.asarray(new - both, dtype=np.int64)


def _first(scroll: Whole, count: int, size: int, whole: int, wrap: bool) -> Whole:
    """Return the first column or row of the window, counted on over whole pictures."""
    if wrap:
        return np.asarray(scroll // whole * count + scroll % whole // size, dtype=np.int64)
    return np.asarray(np.minimum(count, np.maximum(0, scroll) // size), dtype=np.int64)


def _shared(a: Whole, b: Whole, count: int, window: int, wrap: bool) -> Whole:
    """Return how many columns or rows that exist two windows share."""
    low, high = np.maximum(a, b), np.minimum(a, b) + window
    return np.asarray(np.maximum(0, (high if wrap else np.minimum(high, count)) - low), dtype=np.int64)


def map_work(
    scene: Scene, pieces: Pieces, windows: Sequence[tuple[int, int] | None], tick: int, before: int
) -> list[Work]:
    """Return the work of reading map cells that come into view at a tick; before is below 0 for none."""
    found = []
    for plane, cut, window in zip(scene.planes, pieces.planes, windows, strict=True):
        if window is not None:
            now = shown_scroll(scene, plane, tick)
            last = None if before < 0 else shown_scroll(scene, plane, before)
            count = cells_read(plane, cut, window, last, now)
            found += [called("maps", "map-plane", 1)]
            found += [called("maps", "map-cell", count)] if count else []
    return found

"""How many cells of a map that stays in a file are read when a plane scrolls on."""

from scenekit.model.scene import Plane
from scenekit.tiles.planes import CutPlane

Pair = tuple[int, int]


def cells_read(plane: Plane, cut: CutPlane, window: Pair, before: Pair | None, now: Pair) -> int:
    """Return the cells of the window at one scroll position that were not in it at the one before.

    before   None when nothing was read yet
    """
    across = (cut.columns, cut.tile_w_px, cut.width_px, window[0], plane.wrap[0])
    down = (cut.rows, cut.tile_h_px, cut.height_px, window[1], plane.wrap[1])
    here = _first(now[0], *across[:3], plane.wrap[0]), _first(now[1], *down[:3], plane.wrap[1])
    new = _there(here[0], here[0], *across) * _there(here[1], here[1], *down)
    if before is None:
        return new
    there = _first(before[0], *across[:3], plane.wrap[0]), _first(before[1], *down[:3], plane.wrap[1])
    return new - _there(here[0], there[0], *across) * _there(here[1], there[1], *down)


def _first(scroll: int, count: int, size: int, whole: int, wrap: bool) -> int:
    """Return the first column or row of the window, counted on over whole pictures."""
    if wrap:
        lap, rest = divmod(scroll, whole)
        return lap * count + rest // size
    return min(count, max(0, scroll) // size)


def _there(a: int, b: int, count: int, size: int, whole: int, window: int, wrap: bool) -> int:
    """Return how many columns or rows that exist two windows share."""
    low, high = max(a, b), min(a, b) + window
    return max(0, high - low) if wrap else max(0, min(high, count) - max(low, 0))

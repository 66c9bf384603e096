"""What of planes and colours is shown: cells in the view, tiles in turn, entries and their colours."""

import numpy as np
from numpy.typing import NDArray

from scenekit.images.reduced import ReducedArt
from scenekit.model.scene import Scene
from scenekit.tables.pieces import Pieces

Line = tuple[int, int, int, bool]
Whole = NDArray[np.int64]


def turned_map(pieces: Pieces, raw: Whole, tick: int) -> Whole:
    """Return the cells of a map with each list of tiles that take turns as at a tick."""
    if not pieces.turns.lists:
        return raw
    base = pieces.turns.base
    now = np.array(
        [pieces.shown_cell(base + n, tick) for n in range(len(pieces.turns.lists))], dtype=np.int64
    )
    return np.where(raw >= base, now[np.maximum(0, raw - base)], raw)


def walked_cells(start: int, view: int, count: int, size: int, last: int, wrap: bool) -> list[int]:
    """Return the cells that the routines walk over along one axis; the first may already be out of view."""
    if wrap:
        return [cell for cell, *_ in shown_cells(start, view, count, size, last, wrap)]
    first = max(0, start) // size
    position = first * size - start
    return list(range(first, max(first, min(count, first - (position - view) // size))))


def shown_cells(start: int, view: int, count: int, size: int, last: int, wrap: bool) -> list[Line]:
    """Return (cell, position in the view, visible pixels, whether it is cut) along one axis."""
    whole = (count - 1) * size + last
    found = []
    base = -(start % whole) if wrap else -start
    while base < view:
        for n in range(max(0, -base // size), count):
            position = base + n * size
            if position >= view:
                break
            length = last if n == count - 1 else size
            shown = min(view, position + length) - max(0, position)
            if shown > 0:
                found.append((n, position, shown, shown < length))
        base += whole
        if not wrap:
            break
    return found


def colour_numbers(art: ReducedArt, scene: str, tick: int) -> Whole:
    """Return which colour of the colour table each entry shows at a tick.

    The table holds the base palette first, then the colours of every event's steps in order.
    """
    numbers = np.arange(len(art.palette), dtype=np.int64)
    for cycle in art.cycles:
        run = slice(cycle.first, cycle.first + cycle.count)
        numbers[run] = np.roll(np.arange(cycle.first, cycle.first + cycle.count), cycle.shift_at(tick))
    base = len(art.palette)
    for change in art.changes[scene]:
        done, count = change.done_at(tick), len(change.entries)
        if done:
            numbers[list(change.entries)] = base + (done - 1) * count + np.arange(count)
        base += count * len(change.colours)
    return numbers


def covers_view(scene: Scene, art: ReducedArt, view: tuple[int, int]) -> bool:
    """Say whether the rearmost plane always covers the whole view, so that no backdrop shows."""
    plane = scene.planes[0]
    picture = art.planes[scene.name, plane.name]
    if np.any(picture == art.transparent):
        return False
    return all(_covers_axis(scene, picture.shape[1 - axis], view[axis], axis) for axis in (0, 1))


def _covers_axis(scene: Scene, size: int, view: int, axis: int) -> bool:
    plane = scene.planes[0]
    if plane.wrap[axis]:
        return True
    still = plane.ratio[axis] == 0 and plane.drift[axis] == 0
    return still and plane.offset[axis] <= 0 and size + plane.offset[axis] >= view

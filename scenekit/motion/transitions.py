"""Transitions between two pictures: which cells turn over at which tick, each exactly once."""

from dataclasses import dataclass
from fractions import Fraction
from math import gcd

import numpy as np
from numpy.typing import NDArray

Box = tuple[int, int, int, int]

KINDS = ("cut", "wipe", "dissolve", "iris")
DIRECTIONS = ("right", "left", "down", "up")
MAX_CELLS = 1 << 20
MAX_TICKS = 10_000

TAPS: dict[int, tuple[int, ...]] = {
    2: (2, 1),
    3: (3, 2),
    4: (4, 3),
    5: (5, 3),
    6: (6, 5),
    7: (7, 6),
    8: (8, 6, 5, 4),
    9: (9, 5),
    10: (10, 7),
    11: (11, 9),
    12: (12, 6, 4, 1),
    13: (13, 4, 3, 1),
    14: (14, 5, 3, 1),
    15: (15, 14),
    16: (16, 15, 13, 4),
    17: (17, 14),
    18: (18, 11),
    19: (19, 6, 2, 1),
    20: (20, 17),
}
"""Taps of shift registers that pass every state but 0, by length in bits.

source   tables of maximal-length registers (common practice, from memory); the tests run every one
"""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Turnover:
    """The cells that turn over at each tick of a transition.

    order    (cells,) int32, read-only: row x columns + column of every cell once, in turning order
    starts   (ticks + 1,) int32, read-only: where each tick's cells begin in the order
    """

    columns: int
    rows: int
    cell_px: tuple[int, int]
    order: NDArray[np.int32]
    starts: NDArray[np.int32]

    @property
    def ticks(self) -> int:
        """Length of the transition."""
        return len(self.starts) - 1

    def cells_at(self, tick: int) -> NDArray[np.int32]:
        """Return the cells that turn at a tick."""
        return self.order[self.starts[tick] : self.starts[tick + 1]]

    def boxes_at(self, tick: int) -> tuple[Box, ...]:
        """Return the same cells as few boxes (x, y, w, h) in px, top to bottom."""
        width, height = self.cell_px
        return tuple(
            (x * width, y * height, w * width, h * height)
            for x, y, w, h in merge_cells(self.cells_at(tick), self.columns)
        )


def register_bits(cells: int) -> int:
    """Return the length of the shortest register that has a state for every cell.

    raises   ValueError: not 1 to MAX_CELLS cells
    """
    if not 1 <= cells <= MAX_CELLS - 1:
        raise ValueError(f"a dissolve has 1 to {MAX_CELLS - 1} cells; got {cells}")
    return max(cells.bit_length(), 2)


def next_state(state: int, bits: int) -> int:
    """Return the state after one: shift down by one, the sum of the taps modulo 2 comes in at the top.

    Needs only whole division, remainder and addition, so any BASIC can do it.
    """
    incoming = sum(state >> (bits - tap) & 1 for tap in TAPS[bits]) & 1
    return state >> 1 | incoming << (bits - 1)


def dissolve_order(cells: int) -> NDArray[np.int32]:
    """Return every cell once, in the order of a maximal-length shift register from state 1.

    State s stands for cell s - 1; states without a cell are passed over.
    raises   ValueError: not 1 to MAX_CELLS - 1 cells
    """
    bits = register_bits(cells)
    order = np.empty(cells, dtype=np.int32)
    state, found = 1, 0
    for _ in range((1 << bits) - 1):
        if state <= cells:
            order[found] = state - 1
            found += 1
        state = next_state(state, bits)
    order.flags.writeable = False
    return order


def turnover(
    kind: str,
    size_px: tuple[int, int],
    cell_px: tuple[int, int],
    ticks: int,
    *,
    direction: str = "right",
    centre_px: tuple[int, int] | None = None,
) -> Turnover:
    """Return a transition over a picture whose sides are whole cells.

    direction   where a wipe runs to
    centre_px   where an iris opens; the middle when not given
    raises      ValueError: unknown kind or direction, sizes that do not divide, too many cells or ticks
    """
    columns, rows = _grid(size_px, cell_px)
    if kind not in KINDS or direction not in DIRECTIONS:
        raise ValueError(f"a transition is one of {', '.join(KINDS)}, to one of {', '.join(DIRECTIONS)}")
    if not 1 <= ticks <= MAX_TICKS:
        raise ValueError(f"a transition takes 1 to {MAX_TICKS} ticks; got {ticks}")
    cells = columns * rows
    if kind == "dissolve":
        order = dissolve_order(cells)
        keys = np.arange(cells, dtype=np.int64)
        span = cells
    else:
        keys, span = _keys(kind, (columns, rows), cell_px, direction, centre_px)
        order = np.argsort(keys, kind="stable").astype(np.int32)
        keys = keys[order]
    turning = keys * ticks // span
    starts = np.searchsorted(turning, np.arange(ticks + 1), side="left").astype(np.int32)
    order.flags.writeable = False
    starts.flags.writeable = False
    return Turnover(columns=columns, rows=rows, cell_px=cell_px, order=order, starts=starts)


def fade_weights(ticks: int) -> tuple[Fraction, ...]:
    """Return the share of the new colours at each tick, from just above 0 to 1 at the last.

    raises   ValueError: not 1 to MAX_TICKS ticks
    """
    if not 1 <= ticks <= MAX_TICKS:
        raise ValueError(f"a fade takes 1 to {MAX_TICKS} ticks; got {ticks}")
    return tuple(Fraction(tick + 1, ticks) for tick in range(ticks))


def even_cells(size_px: tuple[int, int], most_cells: int) -> tuple[int, int]:
    """Return the smallest square cell that divides both sides and leaves no more cells than wanted.

    The largest that divides both sides, when even that leaves more.
    """
    whole = gcd(*size_px)
    sides = [side for side in range(1, whole + 1) if whole % side == 0]
    fitting = [side for side in sides if size_px[0] // side * (size_px[1] // side) <= most_cells]
    side = fitting[0] if fitting else sides[-1]
    return side, side


def merge_cells(cells: NDArray[np.int32], columns: int) -> list[Box]:
    """Return cells as few boxes in cells: runs along rows, then equal runs on following rows joined."""
    ordered = np.sort(cells)
    if not len(ordered):
        return []
    breaks = np.flatnonzero((np.diff(ordered) != 1) | (ordered[1:] % columns == 0))
    firsts = ordered[np.concatenate(([0], breaks + 1))]
    lasts = ordered[np.concatenate((breaks, [len(ordered) - 1]))]
    done: list[Box] = []
    growing: dict[tuple[int, int], Box] = {}
    for first, last in zip(firsts.tolist(), lasts.tolist(), strict=True):
        y, x = divmod(first, columns)
        key = (x, last - first + 1)
        above = growing.get(key)
        if above is not None and above[1] + above[3] == y:
            growing[key] = (x, above[1], key[1], above[3] + 1)
        else:
            if above is not None:
                done.append(above)
            growing[key] = (x, y, key[1], 1)
    return sorted([*done, *growing.values()], key=lambda box: (box[1], box[0]))


def _grid(size_px: tuple[int, int], cell_px: tuple[int, int]) -> tuple[int, int]:
    if min(*size_px, *cell_px) < 1 or size_px[0] % cell_px[0] or size_px[1] % cell_px[1]:
        raise ValueError(
            f"cells of {cell_px[0]} x {cell_px[1]} px do not divide {size_px[0]} x {size_px[1]} px"
        )
    columns, rows = size_px[0] // cell_px[0], size_px[1] // cell_px[1]
    if columns * rows >= MAX_CELLS:
        raise ValueError(f"a transition has less than {MAX_CELLS} cells; got {columns * rows}")
    return columns, rows


def _keys(
    kind: str,
    grid: tuple[int, int],
    cell_px: tuple[int, int],
    direction: str,
    centre_px: tuple[int, int] | None,
) -> tuple[NDArray[np.int64], int]:
    """When each cell turns, as a whole number below the span returned beside."""
    columns, rows = grid
    y, x = np.divmod(np.arange(columns * rows, dtype=np.int64), columns)
    if kind == "cut":
        return np.zeros_like(x), 1
    if kind == "wipe":
        across = {"right": x, "left": columns - 1 - x, "down": y, "up": rows - 1 - y}[direction]
        return across, columns if direction in ("right", "left") else rows
    if centre_px is None:
        centre_px = (columns * cell_px[0] // 2, rows * cell_px[1] // 2)
    # distances are doubled so that the middle of a cell is whole; the radius grows evenly
    away_x = (2 * x + 1) * cell_px[0] - 2 * centre_px[0]
    away_y = (2 * y + 1) * cell_px[1] - 2 * centre_px[1]
    radius = _whole_root(away_x * away_x + away_y * away_y)
    return radius, int(radius.max()) + 1


def _whole_root(values: NDArray[np.int64]) -> NDArray[np.int64]:
    """Whole part of the square root, corrected so that no rounding decides."""
    root = np.sqrt(values.astype(np.float64)).astype(np.int64)
    root -= root * root > values
    root += (root + 1) * (root + 1) <= values
    return root

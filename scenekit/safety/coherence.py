"""Telling a flash, in which a region brightens as one, from fine detail that moves past."""

import numpy as np
from numpy.typing import NDArray

from scenekit.safety.transitions import TOO_MANY, ChangeLog, LuminanceChanges
from scenekit.safety.viewing import Box, Field

_BLOCKS = 4
"""Blocks along each side of a 10 degree field."""

_ONE = 1 << 20
"""A place all of whose pixels rose last; minus this when all fell last."""

_BLOCK_STEP = _ONE * 12 // 10
"""Change of a block that counts: more than half of it rises or falls as one."""

_FIELD_STEP = _ONE * 35 // 100
"""Change of a field that counts: a quarter of a field, not quite in place, rises or falls as one."""


class Coherence:
    """Follows how many pixels of each block, and of fields made of blocks, rose last or fell last.

    The first change of a scene moves these means half as far as the others and may be missed, so one
    change fewer than in a pixel is enough.
    """

    def __init__(self, shape: tuple[int, int], field: Field) -> None:
        self._shape = shape
        self._rows = _starts(shape[0], field.height_px / _BLOCKS)
        self._columns = _starts(shape[1], field.width_px / _BLOCKS)
        heights = np.diff(np.append(self._rows, shape[0]))
        self._areas = np.outer(heights, np.diff(np.append(self._columns, shape[1])))
        self._field_areas = _windows(self._areas)
        means = np.zeros(self._areas.size + np.prod(_field_shape(self._areas.shape)), dtype=np.int32)
        steps = np.full(means.size, _FIELD_STEP, dtype=np.int32)
        steps[: self._areas.size] = _BLOCK_STEP
        self._changes = LuminanceChanges(means, steps, 2 * _ONE, TOO_MANY - 1)

    @property
    def log(self) -> ChangeLog:
        """Return the changes of blocks and fields."""
        return self._changes.log

    def step(self, ways: NDArray[np.int8], tick: int) -> None:
        """Take which way each pixel changed last, 1, -1 or 0, at a tick."""
        self._changes.step(self._means(ways), tick)

    def together(self, box: Box, tick: int, refresh_hz: float) -> bool:
        """Return True when a block or field that meets the box changed too often as one."""
        flashing = self.log.flashing(tick, refresh_hz)
        if flashing is None:
            return False
        blocks = flashing[: self._areas.size].reshape(self._areas.shape)
        fields = flashing[self._areas.size :].reshape(_field_shape(self._areas.shape))
        x, y, width, height = box
        row, last_row = _span(self._rows, y, y + height)
        column, last_column = _span(self._columns, x, x + width)
        if blocks[row : last_row + 1, column : last_column + 1].any():
            return True
        reach = _BLOCKS - 1
        return bool(
            fields[max(row - reach, 0) : last_row + 1, max(column - reach, 0) : last_column + 1].any()
        )

    def _means(self, ways: NDArray[np.int8]) -> NDArray[np.int32]:
        sums = np.add.reduceat(ways.reshape(self._shape), self._columns, axis=1, dtype=np.int32)
        sums = np.add.reduceat(sums, self._rows, axis=0, dtype=np.int64)
        parts = ((sums, self._areas), (_windows(sums), self._field_areas))
        both = [part * _ONE // whole for part, whole in parts]
        return np.concatenate([part.ravel() for part in both]).astype(np.int32)


def _windows(blocks: NDArray[np.int64]) -> NDArray[np.int64]:
    """Return the sums over every field of blocks."""
    total = np.zeros((blocks.shape[0] + 1, blocks.shape[1] + 1), dtype=np.int64)
    np.cumsum(np.cumsum(blocks, axis=0), axis=1, out=total[1:, 1:])
    high, wide = min(_BLOCKS, blocks.shape[0]), min(_BLOCKS, blocks.shape[1])
    return total[high:, wide:] - total[:-high, wide:] - total[high:, :-wide] + total[:-high, :-wide]


def _field_shape(blocks: tuple[int, ...]) -> tuple[int, int]:
    return max(blocks[0] - _BLOCKS + 1, 1), max(blocks[1] - _BLOCKS + 1, 1)


def _starts(length: int, size: float) -> NDArray[np.intp]:
    count = max(1, min(round(length / size), length))
    return np.arange(count) * length // count


def _span(starts: NDArray[np.intp], first: int, end: int) -> tuple[int, int]:
    low, high = np.searchsorted(starts, [first, end - 1], side="right") - 1
    return int(low), int(high)

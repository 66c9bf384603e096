"""Counting changes of luminance and of saturated red in each pixel, by WCAG 2.3.1."""

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.space import LINEAR_OF_BYTE, linear_to_uv

Planes = NDArray[np.uint8]
"""(3, pixels) uint8: red, green and blue of a frame, one after the other."""

Light = NDArray[np.int32]
"""Relative luminance times LIGHT_ONE."""

TOO_MANY = 7
"""So many changes in a second are more than three flashes, each of two opposing changes."""

LEAST_STEP = 0.1
"""Least change of relative luminance that counts."""

DARK_BELOW = 0.8
"""The darker state of a change that counts is below this relative luminance."""

LEAST_CHROMATICITY_STEP = 0.2
"""A change of red counts above this distance in CIE 1976 u'v'."""

LIGHT_ONE = 10**9

_STEP = int(LEAST_STEP * LIGHT_ONE) - 4
_DARK = int(DARK_BELOW * LIGHT_ONE)
_NEVER = -(1 << 30)
_SHARES = (0.2126, 0.7152, 0.0722)
_LUMINANCE = tuple(np.floor(LINEAR_OF_BYTE * share * LIGHT_ONE + 0.5).astype(np.int32) for share in _SHARES)
_LINEAR = np.floor(LINEAR_OF_BYTE * (1 << 22) + 0.5).astype(np.int32)
_LEAST_RED = np.minimum(np.searchsorted(_LINEAR, np.maximum(4 * _LINEAR, 1)), 255).astype(np.uint8)
"""The least red byte that can be saturated beside the larger of green and blue; 255 where none can."""


def planes_of(frame: NDArray[np.uint8]) -> Planes:
    """Return (H, W, 3) uint8 as planes."""
    return np.ascontiguousarray(frame.reshape(-1, 3).T)


def changed_pixels(one: Planes, two: Planes) -> NDArray[np.bool_]:
    """Return which pixels differ between two frames."""
    out: NDArray[np.bool_] = one[0] != two[0]
    out |= one[1] != two[1]
    out |= one[2] != two[2]
    return out


def luminance_of(planes: Planes) -> Light:
    """Return the relative luminance of each pixel times LIGHT_ONE."""
    total: Light = _LUMINANCE[0].take(planes[0])
    total += _LUMINANCE[1].take(planes[1])
    total += _LUMINANCE[2].take(planes[2])
    return total


class ChangeLog:
    """The ticks of each place's last seven changes, or as many as asked.

    first  tick of the earliest of them; far below zero when there were fewer
    span   fewest ticks that they took among places that changed last
    """

    def __init__(self, places: int, many: int = TOO_MANY) -> None:
        self._many = many
        self._ticks = np.full(many * places, _NEVER, dtype=np.int32)
        self._slot = np.zeros(places, dtype=np.int32)
        self._places = places
        self._latest_first = _NEVER
        self.first = np.full(places, _NEVER, dtype=np.int32)
        self.span = 0

    def add(self, at: NDArray[np.intp], tick: int) -> None:
        """Note a change of some places at a tick."""
        if not at.size:
            return
        slot = self._slot[at]
        self._ticks[slot * self._places + at] = tick
        slot += 1
        slot[slot == self._many] = 0
        self._slot[at] = slot
        first = self._ticks[slot * self._places + at]
        self.first[at] = first
        latest = int(first.max())
        self.span = tick - latest
        self._latest_first = max(self._latest_first, latest)

    def flashing(self, tick: int, refresh_hz: float) -> NDArray[np.bool_] | None:
        """Return which places had so many changes in the second that ends at a tick; None for none."""
        if self._latest_first <= tick - refresh_hz:
            return None
        return np.asarray(self.first > tick - refresh_hz)


class LuminanceChanges:
    """General flashes: changes between neighbouring peaks and valleys of luminance.

    light  luminance of each place, or another measure
    step   least change, one number or one for each place
    dark   the darker state is below this
    many   changes that the log keeps
    ways   which way each place changed last: 1 up, -1 down, 0 not yet
    """

    def __init__(
        self, light: Light, step: int | Light = _STEP, dark: int = _DARK, many: int = TOO_MANY
    ) -> None:
        self.log = ChangeLog(light.size, many)
        self._least, self._dark = step, dark
        self._low, self._high = light.copy(), light.copy()
        self.ways = np.zeros(light.size, dtype=np.int8)

    def step(self, light: Light, tick: int, at: NDArray[np.intp] | None = None) -> None:
        """Take the luminance of a tick, of all places or of those that changed."""
        some: slice | NDArray[np.intp] = slice(None) if at is None else at
        low, high = np.minimum(self._low[some], light), np.maximum(self._high[some], light)
        ways = self.ways[some]
        up = light - low >= self._least
        up &= low < self._dark
        up &= ways != 1
        down = high - light >= self._least
        down &= light < self._dark
        down &= ways != -1
        down &= ~up
        high[up] = light[up]
        low[down] = light[down]
        self._low[some], self._high[some] = low, high
        for turned, way in ((up, 1), (down, -1)):
            places = np.flatnonzero(turned) if at is None else at[turned]
            if places.size:
                self.ways[places] = way
                self.log.add(places, tick)

    def state(self) -> tuple[NDArray[np.int32], ...]:
        """Return what decides the changes to come."""
        low = np.where(self.ways == 1, 0, self._low)
        high = np.where(self.ways == -1, 0, self._high)
        return self.ways.astype(np.int32), low, high


class RedChanges:
    """Red flashes: changes to or from saturated red.

    A change is measured from the colour after the pixel's last change; a colour that stays for a
    sixth of a second is a state of its own, and measured from, too: so slow a change cannot be part
    of more than three flashes in a second.
    """

    def __init__(self, planes: Planes, refresh_hz: float) -> None:
        self.log = ChangeLog(planes.shape[1])
        self._now, self._from = planes, planes.copy()
        self._red_from = _saturated(planes)
        self._since = np.zeros(planes.shape[1], dtype=np.int32)
        self._hold_ticks = refresh_hz / 6

    def step(self, planes: Planes, at: NDArray[np.intp], tick: int) -> None:
        """Take the frame of a tick, and the places of it that changed."""
        self._hold(at, tick)
        red = planes[0, at] >= _LEAST_RED.take(np.maximum(planes[1, at], planes[2, at]))
        some = at[red | self._red_from[at]]
        new = planes[:, some]
        red = _saturated(new)
        relevant = red | self._red_from[some]
        some, new, red = some[relevant], new[:, relevant], red[relevant]
        if some.size:
            apart = _chromaticity(new) - _chromaticity(self._from[:, some])
            far = np.round((apart * apart).sum(axis=1), 12) > LEAST_CHROMATICITY_STEP**2
            some = some[far]
            self._from[:, some] = new[:, far]
            self._red_from[some] = red[far]
            self.log.add(some, tick)
        self._since[at] = tick
        self._now = planes

    def state(self, tick: int) -> tuple[NDArray[np.int32], ...]:
        """Return what decides the changes to come."""
        ages = np.minimum(tick - self._since, int(self._hold_ticks) + 1)
        return self._from.astype(np.int32), ages.astype(np.int32)

    def _hold(self, at: NDArray[np.intp], tick: int) -> None:
        """Make colours that were there for long the ones to measure from."""
        held = at[self._since[at] <= int(tick - self._hold_ticks)]
        if held.size:
            old = self._now[:, held]
            self._from[:, held] = old
            self._red_from[held] = _saturated(old)


def _saturated(planes: Planes) -> NDArray[np.bool_]:
    """Return where linear red is at least 0.8 of the sum."""
    out = planes[0] >= _LEAST_RED.take(np.maximum(planes[1], planes[2]))
    at = np.flatnonzero(out)
    red, green, blue = (_LINEAR.take(planes[channel, at]) for channel in range(3))
    out[at] = red >= 4 * (green + blue)
    return np.asarray(out)


def _chromaticity(planes: Planes) -> NDArray[np.float64]:
    return linear_to_uv(LINEAR_OF_BYTE.take(planes.T))

"""Counting changes of luminance and of saturated red in each pixel, by WCAG 2.3.1."""

import numpy as np
from numpy.typing import NDArray

from scenekit.colour.space import LINEAR_OF_BYTE, linear_to_uv

Frame = NDArray[np.uint8]
Ticks = NDArray[np.int32]

TOO_MANY = 7
"""So many changes in a second are more than three flashes, each of two opposing changes."""

LEAST_STEP = 0.1
"""Least change of relative luminance that counts."""

DARK_BELOW = 0.8
"""The darker state of a change that counts is below this relative luminance."""

LEAST_CHROMATICITY_STEP = 0.2
"""A change of red counts above this distance in CIE 1976 u'v'."""

_SCALE = 10**9
_STEP = int(LEAST_STEP * _SCALE) - 4
_DARK = int(DARK_BELOW * _SCALE)
_NEVER = -(1 << 30)
_SHARES = (0.2126, 0.7152, 0.0722)
_LUMINANCE = tuple(np.floor(LINEAR_OF_BYTE * share * _SCALE + 0.5).astype(np.int32) for share in _SHARES)
_LINEAR = np.floor(LINEAR_OF_BYTE * (1 << 22) + 0.5).astype(np.int32)


def luminance_of(frame: Frame) -> Ticks:
    """Return relative luminance times 10**9 of (H, W, 3) uint8, flat."""
    red, green, blue = (np.ascontiguousarray(frame[..., channel]).ravel() for channel in range(3))
    total = _LUMINANCE[0][red]
    total += _LUMINANCE[1][green]
    total += _LUMINANCE[2][blue]
    return total


class ChangeLog:
    """The ticks of each pixel's last seven changes."""

    def __init__(self, pixels: int) -> None:
        self._ticks = np.full((TOO_MANY, pixels), _NEVER, dtype=np.int32)
        self._slot = np.zeros(pixels, dtype=np.int8)
        self.seventh = np.full(pixels, _NEVER, dtype=np.int32)
        self.latest_seventh = _NEVER

    def add(self, pixels: NDArray[np.intp], tick: int) -> None:
        """Note a change of some pixels at a tick."""
        slot = self._slot[pixels]
        self._ticks[slot, pixels] = tick
        slot = (slot + 1) % TOO_MANY
        self._slot[pixels] = slot
        seventh = self._ticks[slot, pixels]
        self.seventh[pixels] = seventh
        if seventh.size:
            self.latest_seventh = max(self.latest_seventh, int(seventh.max()))

    def flashing(self, tick: int, refresh_hz: float) -> NDArray[np.bool_] | None:
        """Return which pixels had seven changes in the second that ends at a tick; None for none."""
        if self.latest_seventh <= tick - refresh_hz:
            return None
        return np.asarray(self.seventh > tick - refresh_hz)

    def shortest_span(self, pixels: NDArray[np.bool_]) -> int:
        """Return the fewest ticks from the first to the last of seven changes of some pixels."""
        newest = self._ticks[:, pixels].max(axis=0)
        return int((newest - self.seventh[pixels]).min())


class LuminanceChanges:
    """General flashes: changes between neighbouring peaks and valleys of luminance."""

    def __init__(self, frame: Frame) -> None:
        light = luminance_of(frame)
        self.log = ChangeLog(light.size)
        self._low, self._high = light.copy(), light.copy()
        self._way = np.zeros(light.size, dtype=np.int8)

    def step(self, frame: Frame, tick: int) -> None:
        """Take the frame of a tick."""
        light = luminance_of(frame)
        np.minimum(self._low, light, out=self._low)
        np.maximum(self._high, light, out=self._high)
        dark_now = light < _DARK
        up = light - self._low >= _STEP
        up &= self._low < _DARK
        up &= self._way != 1
        down = self._high - light >= _STEP
        down &= dark_now
        down &= self._way != -1
        for pixels, way, border in (
            (np.flatnonzero(up), 1, self._high),
            (np.flatnonzero(down & ~up), -1, self._low),
        ):
            if pixels.size:
                self._way[pixels] = way
                border[pixels] = light[pixels]
                self.log.add(pixels, tick)

    def state(self) -> tuple[NDArray[np.int32], ...]:
        """Return what decides the changes to come."""
        rising = np.where(self._way == 1, self._high, np.where(self._way == -1, self._low, 0))
        fresh = self._way == 0
        return (
            self._way.astype(np.int32),
            rising.astype(np.int32),
            np.where(fresh, self._low, 0).astype(np.int32),
            np.where(fresh, self._high, 0).astype(np.int32),
        )


class RedChanges:
    """Red flashes: changes to or from saturated red.

    A change is measured from the colour after the pixel's last change; a colour that stays for a
    sixth of a second is a state of its own and is measured from, too.
    """

    def __init__(self, frame: Frame, refresh_hz: float) -> None:
        self._now = _packed(frame)
        self.log = ChangeLog(self._now.size)
        self._from = self._now.copy()
        self._red_before = _saturated(frame)
        self._since = np.zeros(self._now.size, dtype=np.int32)
        self._hold_ticks = refresh_hz / 6

    def step(self, frame: Frame, tick: int) -> None:
        """Take the frame of a tick."""
        packed, red = _packed(frame), _saturated(frame)
        changed = packed != self._now
        held = changed & (tick - self._since >= self._hold_ticks)
        np.copyto(self._from, self._now, where=held)
        if held.any():
            at = np.flatnonzero(held)
            self._red_before[at] = _saturated_packed(self._now[at])
        pixels = np.flatnonzero(changed & (red | self._red_before))
        if pixels.size:
            apart = _chromaticity(packed[pixels]) - _chromaticity(self._from[pixels])
            far = np.round((apart * apart).sum(axis=1), 12) > LEAST_CHROMATICITY_STEP**2
            pixels = pixels[far]
            self._from[pixels] = packed[pixels]
            self._red_before[pixels] = red[pixels]
            self.log.add(pixels, tick)
        np.copyto(self._since, np.int32(tick), where=changed)
        self._now = packed

    def state(self, tick: int) -> tuple[NDArray[np.int32], ...]:
        """Return what decides the changes to come."""
        ages = np.minimum(tick - self._since, int(self._hold_ticks) + 1)
        return self._from.astype(np.int32), ages.astype(np.int32)


def _packed(frame: Frame) -> NDArray[np.uint32]:
    out = frame[..., 0].astype(np.uint32)
    for channel in (1, 2):
        out <<= np.uint32(8)
        out |= frame[..., channel]
    return out.ravel()


def _saturated(frame: Frame) -> NDArray[np.bool_]:
    """Return where linear red is at least 0.8 of the sum, flat."""
    red = _LINEAR[frame[..., 0]]
    rest = _LINEAR[frame[..., 1]]
    rest += _LINEAR[frame[..., 2]]
    rest *= 4
    return np.asarray((red >= rest) & (red > 0)).ravel()


def _saturated_packed(packed: NDArray[np.uint32]) -> NDArray[np.bool_]:
    return _saturated(_split(packed))


def _chromaticity(packed: NDArray[np.uint32]) -> NDArray[np.float64]:
    return linear_to_uv(LINEAR_OF_BYTE[_split(packed)])


def _split(packed: NDArray[np.uint32]) -> Frame:
    return np.stack([packed >> 16, packed >> 8, packed], axis=-1).astype(np.uint8)

"""Analysis of a sequence of frames for flashes that can hurt, by WCAG 2.3.1."""

from math import ceil
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from scenekit.errors import MachineError
from scenekit.safety.coherence import Coherence
from scenekit.safety.transitions import (
    LuminanceChanges,
    Planes,
    RedChanges,
    changed_pixels,
    luminance_of,
    planes_of,
)
from scenekit.safety.verdict import FlashReport
from scenekit.safety.viewing import Viewing, field_of
from scenekit.safety.watch import View, Watch

CAUTION = (
    "Flashing pictures and moving stripes can cause seizures in people with photosensitive epilepsy, "
    "also in people who never had one. This analysis follows WCAG 2.3.1 as far as it says and is no "
    "certificate. Play in a lit room, sit well away from the screen, take breaks, and stop at once when "
    "you feel unwell; if you know or suspect that you are sensitive, let somebody else try it first."
)
"""The usual caution; it belongs in the manual and in every report."""

_DENSE = 0.4
"""Share of pixels above which all are looked at, instead of those that changed."""

_MOST_ROUNDS = 4
"""Rounds of a loop after the first; the changes repeat from the second or third on."""


class Frames(Protocol):
    """Frames by tick, each (H, W, 3) uint8 sRGB, all of one size."""

    def __len__(self) -> int: ...

    def __getitem__(self, tick: int, /) -> NDArray[np.uint8]: ...


def analyse(
    frames: Frames, *, refresh_hz: float, viewing: Viewing | None = None, looping: bool = False
) -> FlashReport:
    """Look for more than three general or red flashes in a second over more than a quarter of a field.

    frames      one for each display refresh
    viewing     size and distance of the picture; None: unknown, WCAG's usual screen
    looping     the frames repeat: changes across the seam count
    raises      MachineError: no frames, frames of different sizes, a refresh of zero
    returns     a hazard that is not `together` is fine detail moving past: a warning, and our own
                reading, as WCAG does not say when pixels that change one by one are a flash
    source      WCAG 2.2 success criterion 2.3.1 and its definitions; the exception for fine patterns
                is not made use of
    """
    if not len(frames):
        raise MachineError("flash analysis: no frames")
    if not 1 <= refresh_hz <= 1000:
        raise MachineError(f"flash analysis: refresh is {refresh_hz!r} Hz; allowed 1 to 1000")
    run = _Run(frames, float(refresh_hz), viewing)
    run.play(looping)
    return FlashReport(
        ticks=len(frames),
        refresh_hz=float(refresh_hz),
        looping=looping,
        field=run.field,
        hazards=tuple(hazard for watch in run.watches for hazard in watch.hazards()),
        largest_share=(run.watches[0].largest, run.watches[1].largest),
    )


class _Run:
    """One pass over the frames, or as many as a loop needs."""

    def __init__(self, frames: Frames, refresh_hz: float, viewing: Viewing | None) -> None:
        self._frames = frames
        self._refresh_hz = refresh_hz
        self._shape: tuple[int, int] | None = None
        first = self._frame(0)
        shape = self._shape = first.shape[0], first.shape[1]
        self.field = field_of(first.shape[1], first.shape[0], viewing)
        self._planes = planes_of(first)
        self._light = LuminanceChanges(luminance_of(self._planes))
        self._means = Coherence(shape, self.field)
        self._red = RedChanges(self._planes, refresh_hz)
        view = View(field=self.field, shape=shape, refresh_hz=refresh_hz, count=len(frames))
        self.watches = (
            Watch("general", self._light.log, self._means, view),
            Watch("red", self._red.log, None, view),
        )
        self._last = first.copy()

    def play(self, looping: bool) -> None:
        """Take every frame; a loop goes on until it repeats itself, and a second more."""
        count = len(self._frames)
        self._take(1, count)
        if not looping:
            return
        end, known = count, self._state(count)
        for _ in range(_MOST_ROUNDS):
            start, end = end, end + count * ceil(2 * self._refresh_hz / count)
            self._take(start, end)
            state = self._state(end)
            if all(np.array_equal(one, two) for one, two in zip(known, state, strict=True)):
                break
            known = state
        self._take(end, end + ceil(self._refresh_hz))

    def _take(self, start: int, end: int) -> None:
        for tick in range(start, end):
            frame = self._frame(tick)
            if not np.array_equal(frame, self._last):
                self._last = frame.copy()
                self._change(planes_of(frame), tick)
            for watch in self.watches:
                watch.look(tick)

    def _change(self, planes: Planes, tick: int) -> None:
        at = np.flatnonzero(changed_pixels(planes, self._planes))
        self._planes = planes
        if at.size > _DENSE * planes.shape[1]:
            self._light.step(luminance_of(planes), tick)
        else:
            self._light.step(luminance_of(planes[:, at]), tick, at)
        self._means.step(self._light.ways, tick)
        self._red.step(planes, at, tick)

    def _state(self, tick: int) -> tuple[NDArray[np.int32], ...]:
        return *self._light.state(), *self._red.state(tick)

    def _frame(self, tick: int) -> NDArray[np.uint8]:
        frame = self._frames[tick % len(self._frames)]
        if frame.ndim != 3 or frame.shape[2] != 3 or frame.dtype != np.uint8 or not frame.size:
            raise MachineError(
                f"flash analysis: tick {tick}: {frame.dtype} {frame.shape}; allowed uint8 (H, W, 3)"
            )
        if self._shape is not None and frame.shape[:2] != self._shape:
            raise MachineError(
                f"flash analysis: tick {tick}: {frame.shape[:2]}; the first frame has {self._shape}"
            )
        return frame

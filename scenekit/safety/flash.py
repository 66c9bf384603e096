"""Analysis of a sequence of frames for flashes that can hurt, by WCAG 2.3.1."""

from collections.abc import Callable
from dataclasses import dataclass
from math import ceil
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from scenekit.errors import MachineError
from scenekit.findings import Finding
from scenekit.safety.coherence import Coherence
from scenekit.safety.transitions import (
    ChangeLog,
    LuminanceChanges,
    Planes,
    RedChanges,
    changed_pixels,
    luminance_of,
    planes_of,
)
from scenekit.safety.viewing import Box, Field, Viewing, field_of, largest_share

CAUTION = (
    "Flashing pictures and moving stripes can cause seizures in people with photosensitive epilepsy, "
    "also in people who never had one. This analysis follows WCAG 2.3.1 as far as it says and is no "
    "certificate. Play in a lit room, sit well away from the screen, take breaks, and stop at once when "
    "you feel unwell; if you know or suspect that you are sensitive, let somebody else try it first."
)
"""The usual caution; it belongs in the manual and in every report."""

KINDS = ("general", "red")

_DENSE = 0.4
"""Share of pixels above which all are looked at, instead of those that changed."""

_LOOKS_HZ = 10
"""Looks in a second while too much flashes."""

_MOST_ROUNDS = 4
"""Rounds of a loop after the first; the changes repeat from the second or third on."""

Explain = Callable[[int, int, Box], str]


class Frames(Protocol):
    """Frames by tick, each (H, W, 3) uint8 sRGB, all of one size."""

    def __len__(self) -> int: ...

    def __getitem__(self, tick: int, /) -> NDArray[np.uint8]: ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Hazard:
    """A stretch of ticks in which too much flashes too often.

    kind        "general" or "red"
    first_tick  first change that belongs to it
    last_tick   last tick with more than three flashes in the second before it, to a tenth of a second
    box         what flashes at the worst tick, (x, y, w, h)
    area_px     flashing pixels at the worst tick in one 10 degree field
    share       area_px of that field, 0 to 1; 0.25 is the limit
    span_ticks  fewest ticks that seven changes took
    together    True when a region changes as one; False when only fine detail moves past fast,
                each pixel changing for itself
    """

    kind: str
    first_tick: int
    last_tick: int
    box: Box
    area_px: int
    share: float
    span_ticks: int
    together: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FlashReport:
    """What the analysis saw.

    largest_share  for "general" and "red", the largest share of a 10 degree field that flashes more
                   than three times in a second, at any tick
    """

    ticks: int
    refresh_hz: float
    looping: bool
    field: Field
    hazards: tuple[Hazard, ...]
    largest_share: tuple[float, float]

    @property
    def passed(self) -> bool:
        """Return True when no region flashes above the thresholds."""
        return not any(hazard.together for hazard in self.hazards)

    def findings(self, where: str, explain: Explain | None = None) -> tuple[Finding, ...]:
        """Return a finding for each hazard.

        explain  gives the cause for first tick, last tick and box, such as the name of an event
        """
        return tuple(self._finding(hazard, where, explain) for hazard in self.hazards)

    def _finding(self, hazard: Hazard, where: str, explain: Explain | None) -> Finding:
        cause = explain(hazard.first_tick, hazard.last_tick, hazard.box) if explain else ""
        x, y, width, height = hazard.box
        name = "saturated red comes and goes" if hazard.kind == "red" else "light and dark change"
        text = (
            f"ticks {hazard.first_tick} to {hazard.last_tick}: {name} 7 times in {hazard.span_ticks} ticks "
            f"over {hazard.share:.1%} of a 10 degree field, box ({x}, {y}, {width}, {height})"
            f"{f', because of {cause}' if cause else ''}; allowed are 6 changes in a second, or 25 % of a "
            f"field; {self._way_out(hazard)}"
        )
        if not hazard.together:
            return Finding(level="warning", code="flash-detail", where=where, text=text)
        return Finding(level="error", code=f"flash-{hazard.kind}", where=where, text=text)

    def _way_out(self, hazard: Hazard) -> str:
        if not hazard.together:
            return "no region changes as one, fine detail moves past: move it slower or give it less contrast"
        less = (
            "use a paler red"
            if hazard.kind == "red"
            else "make each change of luminance smaller than a tenth of white"
        )
        return (
            f"wait {ceil(self.refresh_hz / 6)} ticks or more between changes, {less}, "
            f"or let at most {int(self.field.limit_px)} pixels of a field change"
        )


def analyse(
    frames: Frames, *, refresh_hz: float, viewing: Viewing | None = None, looping: bool = False
) -> FlashReport:
    """Look for more than three general or red flashes in a second over more than a quarter of a field.

    frames      one for each display refresh
    viewing     size and distance of the picture; None: unknown, WCAG's usual screen
    looping     the frames repeat: changes across the seam count
    raises      MachineError: no frames, frames of different sizes, a refresh of zero
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
        view = _View(field=self.field, shape=shape, refresh_hz=refresh_hz, count=len(frames))
        self.watches = (
            _Watch("general", self._light.log, self._means, view),
            _Watch("red", self._red.log, None, view),
        )
        self._last = first

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
                self._last = frame
                self._change(planes_of(frame), tick)
            for watch in self.watches:
                watch.look(tick)

    def _change(self, planes: Planes, tick: int) -> None:
        changed = changed_pixels(planes, self._planes)
        self._planes = planes
        if np.count_nonzero(changed) > _DENSE * changed.size:
            self._light.step(luminance_of(planes), tick)
        else:
            at = np.flatnonzero(changed)
            self._light.step(luminance_of(planes[:, at]), tick, at)
        self._means.step(self._light.ways, tick)
        self._red.step(planes, changed, tick)

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


@dataclass(frozen=True, slots=True, kw_only=True)
class _View:
    """What both watches look at."""

    field: Field
    shape: tuple[int, int]
    refresh_hz: float
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class _Moment:
    """One tick that is over the limit."""

    since: int
    area_px: int
    box: Box
    span_ticks: int
    together: bool


class _Watch:
    """Follows one kind of change and keeps the ticks at which too much flashes."""

    def __init__(self, kind: str, log: ChangeLog, means: Coherence | None, view: _View) -> None:
        self._kind, self._log, self._means, self._view = kind, log, means, view
        self._moments: dict[int, _Moment] = {}
        self._largest_px = 0
        self._next_look = 0

    @property
    def largest(self) -> float:
        """Return the largest share of a field that flashed."""
        return self._largest_px / (4 * self._view.field.limit_px)

    def look(self, tick: int) -> None:
        """See how much flashes in the second that ends at a tick; while too much does, not at every tick."""
        view, limit = self._view, self._view.field.limit_px
        flashing = self._log.flashing(tick, view.refresh_hz) if tick >= self._next_look else None
        if flashing is None or np.count_nonzero(flashing) <= min(self._largest_px, limit):
            return
        area, box = largest_share(flashing.reshape(view.shape), view.field)
        self._largest_px = max(self._largest_px, area)
        if area <= limit:
            return
        self._next_look = tick + 1 + int(view.refresh_hz / _LOOKS_HZ)
        moment = _Moment(
            since=int(self._log.first[flashing].min()),
            area_px=area,
            box=box,
            span_ticks=self._log.span,
            together=self._means is None or self._means.together(box, tick, view.refresh_hz),
        )
        known = self._moments.get(tick % view.count)
        if known is None or moment.together > known.together:
            self._moments[tick % view.count] = moment

    def hazards(self) -> tuple[Hazard, ...]:
        """Return the stretches of ticks over the limit, close ones joined."""
        stretches: list[list[int]] = []
        for tick in sorted(self._moments):
            if stretches and tick - stretches[-1][-1] <= self._view.refresh_hz:
                stretches[-1].append(tick)
            else:
                stretches.append([tick])
        return tuple(self._hazard(ticks) for ticks in stretches)

    def _hazard(self, ticks: list[int]) -> Hazard:
        worst = max((self._moments[tick] for tick in ticks), key=lambda moment: moment.area_px)
        return Hazard(
            kind=self._kind,
            first_tick=self._moments[ticks[0]].since % self._view.count,
            last_tick=ticks[-1],
            box=worst.box,
            area_px=worst.area_px,
            share=worst.area_px / (4 * self._view.field.limit_px),
            span_ticks=min(self._moments[tick].span_ticks for tick in ticks),
            together=any(self._moments[tick].together for tick in ticks),
        )

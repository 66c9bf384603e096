"""Following one kind of change over the ticks, and keeping the ones at which too much flashes."""

from dataclasses import dataclass

import numpy as np

from scenekit.safety.coherence import Coherence
from scenekit.safety.transitions import ChangeLog
from scenekit.safety.verdict import Hazard
from scenekit.safety.viewing import Box, Field, largest_share

_LOOKS_HZ = 10
"""Looks in a second while too much flashes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
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


class Watch:
    """Follows one kind of change and keeps the ticks at which too much flashes."""

    def __init__(self, kind: str, log: ChangeLog, means: Coherence | None, view: View) -> None:
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

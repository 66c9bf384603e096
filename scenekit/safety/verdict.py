"""What a flash analysis saw, and findings in words."""

from collections.abc import Callable
from dataclasses import dataclass
from math import ceil

from scenekit.findings import Finding
from scenekit.safety.viewing import Box, Field

Explain = Callable[[int, int, Box], str]


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
        cause = ""
        if explain and hazard.together:  # detail that moves past needs no colours that change
            cause = explain(hazard.first_tick, hazard.last_tick, hazard.box)
        x, y, width, height = hazard.box
        name = "saturated red comes and goes" if hazard.kind == "red" else "light and dark change"
        text = (
            f"ticks {hazard.first_tick} to {hazard.last_tick}: {name} more than 6 times in a second, at the "
            f"fastest 7 times in {hazard.span_ticks} ticks, over {hazard.share:.1%} of a 10 degree field, "
            f"box ({x}, {y}, {width}, {height})"
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

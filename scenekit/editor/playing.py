"""Which tick is on show: steps of the display's true length on a clock that tests can turn."""

from dataclasses import dataclass


@dataclass(slots=True)
class Playing:
    """The tick on show, and time left over from the last step."""

    tick: int = 0
    plays: bool = False
    rest_s: float = 0.0

    def advance(self, passed_s: float, refresh_hz: float, ticks: int) -> bool:
        """Let time pass; return whether another tick is on show. After the last tick comes the first."""
        if not self.plays or ticks < 1:
            return False
        self.rest_s += min(passed_s, 0.25)
        steps = int(self.rest_s * refresh_hz + 1e-9)
        if not steps:
            return False
        self.rest_s -= steps / refresh_hz
        self.tick = (self.tick + steps) % ticks
        return True

    def go(self, tick: int, ticks: int) -> None:
        """Show a tick."""
        self.tick = max(0, min(tick, ticks - 1))
        self.rest_s = 0.0

    def toggle(self) -> None:
        """Start or stop."""
        self.plays = not self.plays
        self.rest_s = 0.0

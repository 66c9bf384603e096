"""Turns delays in milliseconds into ticks of a display, without drift."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class TickedStep:
    """One step of an animation in ticks.

    delay_ms   as the source has it
    ticks      at least 1
    shown_ms   how long it stands on the display
    late_ms    how much later than in the source it ends, counted from the start of the animation
    """

    delay_ms: Fraction
    ticks: int
    shown_ms: Fraction
    late_ms: Fraction


def delays_to_ticks(
    delays_ms: Sequence[Fraction | int], refresh_hz: Fraction | int
) -> tuple[TickedStep, ...]:
    """Round the end of each step, not its length, to the nearest tick; a half goes to the later one.

    A step of no tick becomes one of one tick, and the steps after it catch up.

    delays_ms   each at least 0
    refresh_hz  above 0, exact
    raises      ValueError: a negative delay or a refresh of 0
    """
    if refresh_hz <= 0:
        raise ValueError(f"refresh must be above 0; got {refresh_hz}")
    tick_ms = Fraction(1000) / Fraction(refresh_hz)
    steps = []
    end_ms, end_tick = Fraction(0), 0
    for delay in delays_ms:
        if delay < 0:
            raise ValueError(f"delay must not be negative; got {delay}")
        end_ms += delay
        nearest = (2 * end_ms / tick_ms + 1) // 2
        ticks = max(1, int(nearest) - end_tick)
        end_tick += ticks
        steps.append(
            TickedStep(
                delay_ms=Fraction(delay),
                ticks=ticks,
                shown_ms=ticks * tick_ms,
                late_ms=end_tick * tick_ms - end_ms,
            )
        )
    return tuple(steps)


def describe_ticks(steps: Sequence[TickedStep]) -> str:
    """Return one line that shows the rounding, such as "3 steps: 100 ms as 6 ticks ...; worst 3.3 ms off"."""
    shown = ", ".join(f"{_short(step.delay_ms)} ms as {step.ticks}" for step in steps[:8])
    more = ", ..." if len(steps) > 8 else ""
    worst = max((abs(step.late_ms) for step in steps), default=Fraction(0))
    whole = sum((step.delay_ms for step in steps), Fraction(0))
    drawn = sum((step.shown_ms for step in steps), Fraction(0))
    return (
        f"{len(steps)} steps in ticks: {shown}{more}; "
        f"{_short(whole)} ms becomes {_short(drawn)} ms, no step ends more than {_short(worst)} ms off"
    )


def _short(value: Fraction) -> str:
    """Return a number with one decimal at most."""
    tenths = (value * 20 + 1) // 2
    return f"{tenths // 10}.{tenths % 10}" if tenths % 10 else f"{tenths // 10}"

"""How a program keeps time: refreshes missed are counted by its clock, caught up and shown where asked."""

from collections.abc import Sequence
from dataclasses import dataclass

from scenekit.routines.language import (
    Assign,
    Binary,
    Call,
    If,
    Name,
    Number,
    Routine,
    Statement,
    Word,
)
from scenekit.routines.library import gather


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """How a program plays by the clock.

    refresh_us  microseconds of a refresh, rounded
    catch_up    for each scene, whether ticks that were missed are caught up
    report      the number of refreshes missed is reported when playing ends
    shown       number of the value that shows them while it plays, or None
    """

    refresh_us: int
    catch_up: tuple[bool, ...]
    report: bool
    shown: int | None = None

    @property
    def timed(self) -> bool:
        """Say whether the playing program looks at its clock at all."""
        return self.report or any(self.catch_up)


def playing_routines(file: str, pace: Pace | None) -> list[Routine]:
    """Return the routines of a file that plays, by the clock where a pace asks for it."""
    routines = list(gather([file]))
    if pace is None or not pace.timed:
        return routines
    timed = {"play": "play_timed", "play_scenes": "play_timed_scenes"}[file]
    others = [routine for routine in routines if routine.name != "play"]
    return [*gather([timed]), *others, *timing_routines(pace), _say_missed(pace.report)]


def timing_routines(pace: Pace) -> list[Routine]:
    """Return the routines by which a program of the user's own keeps time too."""
    return [*gather(["pace"]), _take_pace(pace), _show_missed(pace.shown)]


def _take_pace(pace: Pace) -> Routine:
    """Return the routine that sets what the clock is held against in the scene on show."""
    always = len(set(pace.catch_up)) == 1
    body: list[Statement] = [Assign(Name("refresh_us"), Number(pace.refresh_us))]
    body.append(Assign(Name("catch_up"), Number(int(always and pace.catch_up[0]))))
    if not always:
        body += _by_scene(pace.catch_up)
    return Routine("take_pace", (), (), tuple(body), ("Sets how time is kept in this scene.",))


def _by_scene(catch_up: Sequence[bool]) -> list[Statement]:
    one = (Assign(Name("catch_up"), Number(1)),)
    return [If(Binary("=", Name("scene"), Number(n)), one) for n, caught in enumerate(catch_up) if caught]


def _show_missed(value: int | None) -> Routine:
    """Return the routine that sets a value to the refreshes missed, or does nothing."""
    body = () if value is None else (Call("set_value", (Number(value), Name("missed"))),)
    return Routine("show_missed", (), (), body, ("Shows how many refreshes were missed.",))


def _say_missed(report: bool) -> Routine:
    words: tuple[Statement, ...] = ()
    if report:
        words = (Word("say_open", ()), Word("say", (Name("missed"),)), Word("say_close", ()))
    return Routine("say_missed", (), (), words, ("Reports how many refreshes were missed.",))

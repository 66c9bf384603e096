"""Which cells of the view a transition covers at a tick."""

from collections.abc import Sequence
from functools import lru_cache

from scenekit.errors import ProjectError
from scenekit.model.events import Transition
from scenekit.motion.transitions import Turnover, turnover


def turnover_of(transition: Transition, view: tuple[int, int], scene: str) -> Turnover:
    """Return the order in which a transition's cells turn.

    raises   ProjectError: its cells do not divide the view
    """
    try:
        return _turns(transition.kind, view, transition.cell, transition.ticks, transition.side)
    except ValueError as error:
        where = f"scenes/{scene}.toml: transition {transition.name}"
        raise ProjectError(
            f"{where}: cells {list(transition.cell)} on a view of {list(view)}: {error}"
        ) from None


@lru_cache(maxsize=64)
def _turns(kind: str, view: tuple[int, int], cell: tuple[int, int], ticks: int, direction: str) -> Turnover:
    """Return an order of cells; it is kept, since whoever draws asks at every tick."""
    return turnover(kind, view, cell, ticks, direction=direction)


def turned_at(transition: Transition, turns: Turnover, tick: int) -> int:
    """Return how many cells have turned at a tick."""
    if tick < transition.tick:
        return 0
    return int(turns.starts[min(tick - transition.tick + 1, transition.ticks)])


def covered_at(transition: Transition, turns: Turnover, tick: int) -> tuple[int, int]:
    """Return the covered part of the order of cells: first, and one after the last."""
    done = turned_at(transition, turns, tick)
    return (done, len(turns.order)) if transition.opens else (0, done)


def first_clear_tick(transitions: Sequence[Transition], ticks: int) -> int:
    """Return the first tick of a scene at which no transition covers anything, or 0 if there is none."""
    first = max((t.tick + t.ticks - 1 for t in transitions if t.opens), default=0)
    closed = min((t.tick for t in transitions if not t.opens), default=ticks)
    return first if first < min(closed, ticks) else 0

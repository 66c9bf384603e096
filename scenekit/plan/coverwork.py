"""The work of transitions: cells that they cover, at one tick and at many."""

import numpy as np
from numpy.typing import NDArray

from scenekit.model.scene import Transition
from scenekit.motion.covers import covered_at, turnover_of
from scenekit.motion.transitions import Turnover
from scenekit.plan.amounts import Amounts
from scenekit.plan.work import Work

Whole = NDArray[np.int64]


class Covers:
    """The transitions of a scene over its view, (width, height); in which order cells turn is kept."""

    def __init__(self, scene: str, view: tuple[int, int]) -> None:
        self.scene = scene
        self.view = view
        self.turns: dict[str, Turnover] = {}

    def turns_of(self, transition: Transition) -> Turnover:
        """Return in which order the cells of a transition turn."""
        if transition.name not in self.turns:
            self.turns[transition.name] = turnover_of(transition, self.view, self.scene)
        return self.turns[transition.name]

    def work(self, transition: Transition, tick: int) -> list[Work]:
        """Return the work of covering cells for a transition; the whole view at once when it is closed."""
        turns = self.turns_of(transition)
        first, last = covered_at(transition, turns, tick)
        calls = 1 if last - first == len(turns.order) else last - first
        width, height = self.view if calls == 1 and last - first > 1 else transition.cell
        if not calls:
            return []
        pixels, rows = calls * width * height, calls * height
        return [Work(name=transition.name, operation="fill", calls=calls, rows=rows, pixels=pixels)]

    def along(self, transition: Transition, ticks: Whole) -> Whole:
        """Return how many cells a transition covers at ticks."""
        turns = self.turns_of(transition)
        since = np.clip(ticks - transition.tick + 1, 0, transition.ticks)
        done = np.where(ticks < transition.tick, 0, np.asarray(turns.starts, dtype=np.int64)[since])
        return np.asarray(len(turns.order) - done if transition.opens else done, dtype=np.int64)

    def add_along(self, amounts: Amounts, transition: Transition, ticks: Whole) -> None:
        """Add the cells that a transition covers at ticks."""
        cells = self.along(transition, ticks)
        calls = np.where(cells == len(self.turns_of(transition).order), 1, cells)
        at_once = (calls == 1) & (cells > 1)
        width = np.where(at_once, self.view[0], transition.cell[0])
        height = np.where(at_once, self.view[1], transition.cell[1])
        amounts.add("fill", calls, calls * height, calls * width * height)

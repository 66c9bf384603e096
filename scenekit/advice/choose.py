"""Chooses one option of every group so that times and memories keep within limits, as an integer program."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from scenekit.errors import MachineError

LONGEST_S = 30.0
LARGEST = 1 << 33
"""Largest amount; sums stay exact in the floating point of the solver."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One way to do something.

    name     in words
    times    what it takes in each case (tick), in whole units
    memory   what it takes of each memory, in bytes
    changes  how much of the project it changes; 0 is as it is
    """

    name: str
    times: tuple[int, ...]
    memory: tuple[int, ...]
    changes: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What is to be chosen.

    groups        of each, exactly one option is taken
    fixed_times   what every case takes anyway; fixed_memory likewise
    most_time     limit of every case, or None
    most_memory   limit of each memory
    memory_first  least memory within the time rather than least worst time within the memory
    """

    groups: tuple[tuple[Option, ...], ...]
    fixed_times: tuple[int, ...]
    fixed_memory: tuple[int, ...]
    most_time: int | None
    most_memory: tuple[int, ...]
    memory_first: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """The best choice.

    taken   number of the option taken in each group
    time    of the worst case
    memory  of each memory
    """

    taken: tuple[int, ...]
    time: int
    memory: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Impossible:
    """A proof that no choice suffices, and what each limit would have to be if only the others held.

    least_time     least worst case within the memories, or None when not even they can be kept
    least_memory   least of each memory by itself, whatever the time
    """

    least_time: int | None
    least_memory: tuple[int, ...]


def choose(question: Question, without: Sequence[tuple[int, ...]] = ()) -> Choice | Impossible:
    """Return the best choice: first the one goal, then the other, then the fewest changes.

    without  choices that are out of the question
    raises   MachineError: amounts that do not belong together, or too large
    """
    _check(question)
    model = _Model(question, without)
    order = ("memory", "time", "changes") if question.memory_first else ("time", "memory", "changes")
    taken = model.best(order, question.most_time)
    if taken is None:
        return _proof(question, model)
    return _sums(question, taken)


def _proof(question: Question, model: "_Model") -> Impossible:
    relaxed = model.best(("time",), None)
    least_time = None if relaxed is None else _sums(question, relaxed).time
    least_memory = tuple(
        fixed + sum(min(option.memory[n] for option in group) for group in question.groups)
        for n, fixed in enumerate(question.fixed_memory)
    )
    return Impossible(least_time=least_time, least_memory=least_memory)


def _sums(question: Question, taken: tuple[int, ...]) -> Choice:
    chosen = [group[number] for group, number in zip(question.groups, taken, strict=True)]
    times = [
        fixed + sum(option.times[case] for option in chosen)
        for case, fixed in enumerate(question.fixed_times)
    ]
    memory = tuple(
        fixed + sum(option.memory[n] for option in chosen) for n, fixed in enumerate(question.fixed_memory)
    )
    return Choice(taken=taken, time=max(times, default=0), memory=memory)


def _check(question: Question) -> None:
    cases, memories = len(question.fixed_times), len(question.fixed_memory)
    if len(question.most_memory) != memories:
        raise MachineError(f"advice: {len(question.most_memory)} limits for {memories} memories")
    for group in question.groups:
        if not group:
            raise MachineError("advice: a group without options")
        for option in group:
            if len(option.times) != cases or len(option.memory) != memories:
                raise MachineError(
                    f"advice: option {option.name}: {len(option.times)} times for {cases} cases"
                )
            if any(abs(amount) > LARGEST for amount in (*option.times, *option.memory)):
                raise MachineError(f"advice: option {option.name}: an amount is beyond {LARGEST}")


class _Model:
    """The integer program: a yes or no for every option, and the worst time as one more number."""

    def __init__(self, question: Question, without: Sequence[tuple[int, ...]]) -> None:
        self.question = question
        self.options = [option for group in question.groups for option in group]
        self.starts = np.cumsum([0, *(len(group) for group in question.groups)])
        count = len(self.options)
        self.times = (
            np.array([option.times for option in self.options], dtype=np.float64).reshape(count, -1).T
        )
        self.memory = np.array([option.memory for option in self.options], dtype=np.float64)
        self.memory = self.memory.reshape(count, len(question.fixed_memory)).T
        self.changes = np.array([option.changes for option in self.options], dtype=np.float64)
        fixed = np.array(question.fixed_times, dtype=np.float64)
        both = (
            np.unique(np.column_stack([self.times, fixed]), axis=0)
            if len(fixed)
            else np.zeros((0, count + 1))
        )
        both = both[_not_dominated(both)]
        self.times, self.fixed = both[:, :count], both[:, count]
        self.without = [self.starts[:-1] + np.array(taken) for taken in without]

    def best(self, order: Sequence[str], most_time: int | None) -> tuple[int, ...] | None:
        """Return the best options by several goals in order, or None when nothing suffices."""
        held: list[tuple[Any, float]] = []
        taken: tuple[int, ...] | None = None
        for goal in order:
            target = self._goal(goal)
            taken = self._solve(target, held, most_time)
            if taken is None:
                return None
            held.append((target, self._value(goal, taken)))
        return taken

    def _goal(self, goal: str) -> Any:
        count = len(self.options)
        target = np.zeros(count + 1)
        if goal == "time":
            target[count] = 1
        elif goal == "memory":
            target[:count] = self.memory.sum(axis=0)
        else:
            target[:count] = self.changes
        return target

    def _value(self, goal: str, taken: tuple[int, ...]) -> float:
        places = self.starts[:-1] + np.array(taken, dtype=np.int64)
        if goal == "time":
            return float((self.times[:, places].sum(axis=1) + self.fixed).max(initial=0.0))
        amounts = self.memory.sum(axis=0) if goal == "memory" else self.changes
        return float(amounts[places].sum())

    def _solve(
        self, target: Any, held: Sequence[tuple[Any, float]], most_time: int | None
    ) -> tuple[int, ...] | None:
        from scipy.optimize import Bounds, LinearConstraint, milp

        count, groups = len(self.options), self.question.groups
        rows, low, high = [], [], []
        for number in range(len(groups)):
            row = np.zeros(count + 1)
            row[self.starts[number] : self.starts[number + 1]] = 1
            rows.append(row)
            low.append(1.0)
            high.append(1.0)
        for case, fixed in zip(self.times, self.fixed, strict=True):
            rows.append(np.append(case, -1.0))
            low.append(-np.inf)
            high.append(-fixed)
        limits = zip(self.memory, self.question.fixed_memory, self.question.most_memory, strict=True)
        for amounts, fixed_bytes, most in limits:
            rows.append(np.append(amounts, 0.0))
            low.append(-np.inf)
            high.append(float(most - fixed_bytes))
        for places in self.without:
            row = np.zeros(count + 1)
            row[places] = 1
            rows.append(row)
            low.append(-np.inf)
            high.append(len(groups) - 1.0)
        for goal, value in held:
            rows.append(goal)
            low.append(-np.inf)
            high.append(value + 0.25)
        top = float(LARGEST) if most_time is None else float(most_time)
        result = milp(
            target,
            integrality=np.append(np.ones(count), 0),
            bounds=Bounds(np.append(np.zeros(count), -float(LARGEST)), np.append(np.ones(count), top)),
            constraints=LinearConstraint(np.array(rows), low, high),
            options={"mip_rel_gap": 0.0, "presolve": True, "time_limit": LONGEST_S},
        )
        if result.status == 1:
            raise MachineError(f"advice: not settled in {LONGEST_S:.0f} s; leave out some choices")
        if result.x is None or result.status != 0:
            return None
        found = [int(np.argmax(result.x[self.starts[n] : self.starts[n + 1]])) for n in range(len(groups))]
        return tuple(found)


def _not_dominated(rows: Any) -> Any:
    """Return which rows are not below another one in every column; those can never be the worst case."""
    if len(rows) > 2000:
        return np.ones(len(rows), dtype=bool)
    keep = np.ones(len(rows), dtype=bool)
    for number, row in enumerate(rows):
        above = (rows >= row).all(axis=1) & keep
        above[number] = False
        keep[number] = not above.any()
    return keep

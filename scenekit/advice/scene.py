"""What could change in a scene so that it fits: choices weighed together, and what could be given up."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from scenekit.advice.choose import Choice, Impossible, Question, choose
from scenekit.advice.holding import held_planes
from scenekit.advice.options import (
    UNITS_PER_US,
    Progress,
    Way,
    build_as,
    cases_of,
    changed_project,
    ways_of,
)
from scenekit.advice.settings import Setting, settings_of
from scenekit.build import Build, run_stages
from scenekit.costs.estimate import estimate
from scenekit.costs.pricing import sound_share
from scenekit.costs.worst import WorstCase, worst_case
from scenekit.errors import MachineError, SceneKitError
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.model.target import Target

MOST_TRIES = 12


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Outcome:
    """What a scene takes: in its worst picture, and of each memory."""

    worst: WorstCase
    allowed_ms: float
    memory: tuple[tuple[str, int, int], ...]

    @property
    def fits(self) -> bool:
        """Say whether the worst picture keeps its time and every memory has room."""
        time = self.worst.work_ms is not None and self.worst.work_ms <= self.allowed_ms
        return time and all(used <= capacity for _, used, capacity in self.memory)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Advice:
    """The best way to make a scene fit, or the proof that there is none.

    changes  in words, each with what it buys
    project  with the changes, or None when nothing suffices
    after    of the changed project, built and reckoned again
    proof    in words: what does not suffice, before the way that does
    """

    before: Outcome
    after: Outcome | None
    changes: tuple[str, ...]
    project: Project | None
    proof: tuple[str, ...]


def advise(
    project: Project,
    target: str | None,
    scene: str | None,
    *,
    memory_first: bool = False,
    held: bool = True,
    slower: bool = True,
    smaller: bool = True,
    modes: bool = True,
    progress: Progress | None = None,
) -> Advice:
    """Choose tiles of planes, mirrored copies and encoding; give something up where that does not suffice.

    memory_first  least memory at the wanted rate, rather than least worst time within the memory
    held          whether planes may be held for some ticks where only changes are drawn
    slower        whether fewer pictures a second may be proposed
    smaller       whether a smaller view may be; modes  whether another display mode may be
    raises        MachineError: a price is unknown, so that nothing can be weighed
    """
    base = run_stages(project, target, scene)
    before = outcome_of(base)
    _check_known(base, before)
    proof: list[str] = []
    known: dict[Target, tuple[Build, tuple[tuple[Way, ...], ...]]] = {}
    for setting in _settings(base, project, held, slower, smaller, modes, proof):
        try:
            start = build_as(base, project, setting.target, setting.scene)
        except SceneKitError as error:
            proof.append(f"{setting.words}: cannot be, {error}")
            continue
        if setting.target not in known and not setting.alone:
            known[setting.target] = (start, ways_of(start, project, progress))
        groups = () if setting.alone else known[setting.target][1]
        found = _try(start, project, setting, groups, memory_first, proof)
        if found is not None:
            document, after, changes = found
            gives = outcome_of(start)
            lead = _given_up(setting, before, gives) if setting.words else ()
            return Advice(
                before=before, after=after, changes=(*lead, *changes), project=document, proof=tuple(proof)
            )
    return Advice(before=before, after=None, changes=(), project=None, proof=tuple(proof))


def _settings(
    base: Build, project: Project, held: bool, slower: bool, smaller: bool, modes: bool, proof: list[str]
) -> Iterator[Setting]:
    """Yield settings in the order in which they are tried; held planes follow what it is now."""
    settings = settings_of(base, project, slower=slower, smaller=smaller, modes=modes)
    yield next(settings)
    found = held_planes(base, project) if held else ""
    if isinstance(found, Setting):
        yield found
    elif found:
        proof.append(found)
    yield from settings


def _check_known(base: Build, before: Outcome) -> None:
    if before.worst.work_ms is None:
        names = sorted({cost.work.operation for cost in before.worst.costs if cost.time_ms is None})
        raise MachineError(
            f"machine {base.machine.name}: no price is known for {', '.join(names)}; measure it first"
        )


def outcome_of(build: Build) -> Outcome:
    """Return what a built scene takes."""
    line = estimate(build.planner, build.machine, build.mode, build.scene, range(build.scene.ticks))
    worst = worst_case(build.project, build.scene, build.planner, build.machine, build.mode, line)
    memory = tuple((m.memory, m.used_bytes, m.capacity_bytes) for m in build.memory)
    allowed = float(build.mode.timing.period_ms) * build.scene.ticks_per_update
    return Outcome(worst=worst, allowed_ms=allowed, memory=memory)


def _try(
    start: Build,
    document: Project,
    setting: Setting,
    groups: tuple[tuple[Way, ...], ...],
    memory_first: bool,
    proof: list[str],
) -> tuple[Project, Outcome, tuple[str, ...]] | None:
    """Return the best project with a setting and what it takes, once built and found to fit."""
    now = outcome_of(start)
    if not groups:
        if now.fits:
            return changed_project(document, setting.target, setting.scene), now, ()
        proof.append(f"{setting.words}: takes {now.worst.work_ms or 0.0:.2f} ms of {now.allowed_ms:.2f} ms")
        return None
    question = _question(start, now, groups, memory_first)
    refused: list[tuple[int, ...]] = []
    head = setting.words or "as it is"
    while len(refused) < MOST_TRIES:
        found = choose(question, refused)
        if isinstance(found, Impossible):
            proof += _proof(found, question, now, head)
            return None
        target, scene = _applied(setting, groups, found)
        after = outcome_of(build_as(start, document, target, scene))
        if after.fits:
            words = _words(groups, found, 1 - sound_share(start.machine.costs_in(start.mode.name)))
            return changed_project(document, target, scene), after, words
        refused.append(found.taken)
    proof.append(f"{head}: {MOST_TRIES} choices that nearly fit were built and did not")
    return None


def _question(
    start: Build, now: Outcome, groups: tuple[tuple[Way, ...], ...], memory_first: bool
) -> Question:
    """Return the integer program; times are those of work alone, without what sound takes of all."""
    (xs, ys), _ = cases_of(start)
    free = 1 - sound_share(start.machine.costs_in(start.mode.name))
    here = np.flatnonzero((xs == now.worst.camera[0]) & (ys == now.worst.camera[1]))
    place = int(here[0]) if len(here) else 0
    planes = sum(group[0].option.times[place] for group in groups)
    fixed = round((now.worst.work_ms or 0.0) * free * 1000 * UNITS_PER_US) - planes
    return Question(
        groups=tuple(tuple(way.option for way in group) for group in groups),
        fixed_times=(fixed,) * len(xs),
        fixed_memory=tuple(used for _, used, _ in now.memory),
        most_time=int(now.allowed_ms * free * 1000 * UNITS_PER_US),
        most_memory=tuple(capacity for _, _, capacity in now.memory),
        memory_first=memory_first,
    )


def _applied(setting: Setting, groups: tuple[tuple[Way, ...], ...], found: Choice) -> tuple[Target, Scene]:
    target, scene = setting.target, setting.scene
    for group, taken in zip(groups, found.taken, strict=True):
        target, scene = group[taken].apply(target, scene)
    return target, scene


def _proof(found: Impossible, question: Question, now: Outcome, head: str) -> list[str]:
    if found.least_time is not None and question.most_time is not None:
        share = now.allowed_ms / question.most_time
        least = found.least_time * share
        return [
            f"{head}: no tiles, holes, copies, redraw or encoding suffice; the best take {least:.2f} ms of "
            f"{now.allowed_ms:.2f} ms; {least - now.allowed_ms:.2f} ms must go, such as a plane or sprites"
        ]
    short = [
        f"{name} lacks {least - most} bytes"
        for (name, _, _), least, most in zip(
            now.memory, found.least_memory, question.most_memory, strict=True
        )
        if least > most
    ]
    reason = "; ".join(short) or "the memories cannot all be kept at once"
    return [f"{head}: no tiles, holes, copies, redraw or encoding suffice: {reason}"]


def _given_up(setting: Setting, before: Outcome, now: Outcome) -> tuple[str, ...]:
    gain = (now.worst.work_ms or 0.0) - (before.worst.work_ms or 0.0)
    size = sum(used for _, used, _ in now.memory) - sum(used for _, used, _ in before.memory)
    room = now.allowed_ms - before.allowed_ms
    more = f", {room:+.2f} ms allowed" if abs(room) > 1e-9 else ""
    return (f"{setting.words}: {gain:+.2f} ms{more}, {size:+d} bytes",)


def _words(groups: tuple[tuple[Way, ...], ...], found: Choice, free: float) -> tuple[str, ...]:
    words = []
    for group, taken in zip(groups, found.taken, strict=True):
        if taken:
            option, old = group[taken].option, group[0].option
            gain = (max(option.times) - max(old.times)) / UNITS_PER_US / 1000 / free
            words.append(f"{group[taken].words}: {gain:+.2f} ms, {sum(option.memory):+d} bytes")
    return tuple(words)

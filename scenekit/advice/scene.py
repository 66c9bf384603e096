"""What could change in a scene so that it fits: tiles of its planes, and how many ticks a picture has."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from scenekit.advice.choose import Choice, Impossible, Option, Question, choose
from scenekit.build import Build, run_stages
from scenekit.costs.estimate import estimate
from scenekit.costs.worst import WorstCase, camera_places, plane_times, worst_case
from scenekit.errors import MachineError
from scenekit.model.edits import put
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.plan.counting import counter_of

TILES = ((8, 8), (16, 16), (32, 32), (48, 48), (64, 64), (64, 32), (128, 32))
MOST_TICKS_PER_UPDATE = 4
MOST_TRIES = 12
UNITS_PER_US = 100
"""Times are whole hundredths of a microsecond to the integer program."""

Progress = Callable[[str, int, int], None]


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
    proof    in words, when nothing suffices
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
    slower: bool = True,
    progress: Progress | None = None,
) -> Advice:
    """Choose tiles for every plane, and more ticks a picture only when no tiles suffice.

    memory_first  least memory at the wanted rate, rather than least worst time within the memory
    slower        whether fewer pictures a second may be proposed
    raises        MachineError: a price is unknown, so that nothing can be weighed
    """
    base = run_stages(project, target, scene)
    before = _outcome(base)
    if before.worst.work_ms is None:
        names = sorted({cost.work.operation for cost in before.worst.costs if cost.time_ms is None})
        raise MachineError(
            f"machine {base.machine.name}: no price is known for {', '.join(names)}; measure it first"
        )
    groups = _groups(base, progress)
    proof: list[str] = []
    last = MOST_TICKS_PER_UPDATE if slower else base.scene.ticks_per_update
    for every in range(base.scene.ticks_per_update, max(last, base.scene.ticks_per_update) + 1):
        found = _try(base, groups, every, memory_first, proof)
        if found is not None:
            changed, after = found
            return Advice(
                before=before,
                after=after,
                changes=_words(base, changed, groups),
                project=replace(project, scenes=put(project.scenes, changed)),
                proof=(),
            )
    return Advice(before=before, after=None, changes=(), project=None, proof=tuple(proof))


def _outcome(build: Build) -> Outcome:
    line = estimate(build.planner, build.machine, build.mode, build.scene, range(build.scene.ticks))
    worst = worst_case(build.project, build.scene, build.planner, build.machine, build.mode, line)
    memory = tuple((m.memory, m.used_bytes, m.capacity_bytes) for m in build.memory)
    allowed = float(build.mode.timing.period_ms) * build.scene.ticks_per_update
    return Outcome(worst=worst, allowed_ms=allowed, memory=memory)


def _groups(base: Build, progress: Progress | None) -> tuple[tuple[Option, ...], ...]:
    """Return for each plane its tiles: as they are, and every other size, tried by building."""
    groups = []
    used = [memory.used_bytes for memory in base.memory]
    total = len(base.scene.planes) * len(TILES)
    for number, plane in enumerate(base.scene.planes):
        options = [_option(base, number, plane.tile, used, 0)]
        sizes = {(base.pieces.planes[number].tile_w_px, base.pieces.planes[number].tile_h_px)}
        for place, tile in enumerate(TILES):
            if progress is not None:
                progress(f"plane {plane.name}", number * len(TILES) + place, total)
            real = (
                min(tile[0], base.pieces.planes[number].width_px),
                min(tile[1], base.pieces.planes[number].height_px),
            )
            if real in sizes:
                continue
            sizes.add(real)
            planes = put(base.scene.planes, replace(plane, tile=tile))
            options.append(_option(_built(base, replace(base.scene, planes=planes)), number, tile, used, 1))
        groups.append(tuple(options))
    return tuple(groups)


def _built(base: Build, scene: Scene) -> Build:
    """Build a changed scene, with all that stays the same."""
    project = replace(base.project, scenes=put(base.project.scenes, scene))
    return run_stages(project, base.target.name, scene.name, shared=base)


def _option(build: Build, number: int, tile: tuple[int, int], used: Sequence[int], changes: int) -> Option:
    prices = build.machine.costs_in(build.mode.name)
    places, _ = camera_places(build.scene)
    found, _, _ = plane_times(counter_of(build.planner), build.scene, number, places, prices)
    times = np.rint(found * UNITS_PER_US).astype(np.int64).tolist()
    memory = tuple(m.used_bytes - before for m, before in zip(build.memory, used, strict=True))
    return Option(name=f"{tile[0]}x{tile[1]}", times=tuple(times), memory=memory, changes=changes)


def _try(
    base: Build, groups: tuple[tuple[Option, ...], ...], every: int, memory_first: bool, proof: list[str]
) -> tuple[Scene, Outcome] | None:
    """Return the best scene with so many ticks a picture and what it takes, once built and found to fit."""
    slow = replace(base.scene, ticks_per_update=every)
    start = _outcome(base if every == base.scene.ticks_per_update else _built(base, slow))
    allowed = int(start.allowed_ms * 1000 * UNITS_PER_US)
    now = sum(group[0].times[_place(base, start)] for group in groups)
    fixed = round((start.worst.work_ms or 0.0) * 1000 * UNITS_PER_US) - now
    question = Question(
        groups=groups,
        fixed_times=(fixed,) * len(groups[0][0].times),
        fixed_memory=tuple(used for _, used, _ in start.memory),
        most_time=allowed,
        most_memory=tuple(capacity for _, _, capacity in start.memory),
        memory_first=memory_first,
    )
    refused: list[tuple[int, ...]] = []
    while len(refused) < MOST_TRIES:
        found = choose(question, refused)
        if isinstance(found, Impossible):
            proof += _proof(found, question, start, every)
            return None
        scene = _scene(slow, groups, found)
        outcome = _outcome(_built(base, scene))
        if outcome.fits:
            return scene, outcome
        refused.append(found.taken)
    proof.append(f"with {every} ticks a picture: {MOST_TRIES} choices that nearly fit were built and did not")
    return None


def _place(base: Build, outcome: Outcome) -> int:
    x, y = camera_places(base.scene)[0]
    return int(np.flatnonzero((x == outcome.worst.camera[0]) & (y == outcome.worst.camera[1]))[0])


def _scene(scene: Scene, groups: tuple[tuple[Option, ...], ...], found: Choice) -> Scene:
    planes = list(scene.planes)
    for number, taken in enumerate(found.taken):
        if taken:
            width, high = groups[number][taken].name.split("x")
            planes[number] = replace(planes[number], tile=(int(width), int(high)))
    return replace(scene, planes=tuple(planes))


def _proof(found: Impossible, question: Question, start: Outcome, every: int) -> list[str]:
    head = f"with {every} {'tick' if every == 1 else 'ticks'} a picture no tiles suffice"
    if found.least_time is not None:
        least = found.least_time / UNITS_PER_US / 1000
        return [
            f"{head}: the best take {least:.2f} ms of {start.allowed_ms:.2f} ms; "
            f"{least - start.allowed_ms:.2f} ms must go, such as a plane or sprites"
        ]
    short = [
        f"{name} lacks {least - most} bytes"
        for (name, _, _), least, most in zip(
            start.memory, found.least_memory, question.most_memory, strict=True
        )
        if least > most
    ]
    return [f"{head}: {'; '.join(short) or 'the memories cannot all be kept at once'}"]


def _words(base: Build, scene: Scene, groups: tuple[tuple[Option, ...], ...]) -> tuple[str, ...]:
    words = []
    for number, (old, new) in enumerate(zip(base.scene.planes, scene.planes, strict=True)):
        if old.tile == new.tile:
            continue
        option = next(o for o in groups[number] if o.name == f"{new.tile[0]}x{new.tile[1]}")
        gain = (max(option.times) - max(groups[number][0].times)) / UNITS_PER_US / 1000
        words.append(
            f"plane {old.name}: tiles of {new.tile[0]} x {new.tile[1]} px instead of "
            f"{old.tile[0]} x {old.tile[1]}: {gain:+.2f} ms, {sum(option.memory):+d} bytes"
        )
    if scene.ticks_per_update != base.scene.ticks_per_update:
        hz = float(base.mode.timing.refresh_hz) / scene.ticks_per_update
        words.append(f"{scene.ticks_per_update} ticks a picture: {hz:.1f} pictures a second")
    return tuple(words)

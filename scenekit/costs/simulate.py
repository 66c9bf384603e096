"""The game's worst case and the scene's time line, with how far off they may be."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil

from scenekit.costs.estimate import Estimate, Priced, PriceList, price
from scenekit.costs.margin import margin_ms
from scenekit.machines.machine import DisplayMode, Machine
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.model.sprites import FACINGS
from scenekit.motion.parallax import camera_at, scroll_at
from scenekit.motion.paths import shown_animation
from scenekit.plan.drawplan import DrawPlanner
from scenekit.plan.work import Work
from scenekit.tables.pieces import EMPTY

PERCENTILES = (50, 90, 95, 99, 100)
MOST_PLACES = 1500
DRIFT_PLACES = 64


@dataclass(frozen=True, slots=True, kw_only=True)
class WorstCase:
    """The dearest picture that the game can ask for: camera anywhere, every sprite wholly in view.

    work_ms        None while a price is unknown
    half_width_ms  half of the 95 % interval around it, None when no price is measured
    spare_ms       what is left of the time an update has; below 0 it does not fit
    places         camera places looked at; `complete` says whether these are all of them
    """

    work_ms: float | None
    half_width_ms: float | None
    spare_ms: float | None
    camera: tuple[int, int]
    places: int
    complete: bool
    costs: tuple[Priced, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeLine:
    """The scene as it plays, each picture waiting for a refresh.

    pictures        drawn in the whole scene
    refreshes       they take; at the wanted rate they would take `wanted`
    missed_a_minute refreshes that show an old picture for want of time, in a minute of play
    percentiles_ms  percent -> work of a picture that so many do not exceed
    """

    pictures: int
    refreshes: int
    wanted: int
    missed_a_minute: float
    percentiles_ms: Mapping[int, float]


def worst_case(
    project: Project, scene: Scene, planner: DrawPlanner, machine: Machine, mode: DisplayMode, line: Estimate
) -> WorstCase:
    """Return the game's worst case.

    Each plane is priced at every place of the camera, each sprite as its dearest frame and facing; all that
    is neither plane nor sprite counts as on the worst tick of the time line.
    """
    prices, period_ms = machine.costs_in(mode.name), float(mode.timing.period_ms)
    places, complete = camera_places(scene)
    best: tuple[float, int] | None = None
    for number, camera in enumerate(places):
        time_us = _time_us(_planes(scene, planner, prices, camera), prices)
        if best is None or round(time_us, 6) > best[0]:
            best = (round(time_us, 6), number)
    camera = places[best[1]] if best is not None else (0, 0)
    work = [
        *_planes(scene, planner, prices, camera),
        *_sprites(project, scene, planner, prices),
        *_others(scene, planner, line),
    ]
    costs = price(work, prices, period_ms)
    times = [cost.time_ms for cost in costs]
    total = None if None in times else sum(time for time in times if time is not None)
    measured = machine.residual_percent > 0 or any(cost.standard_errors_us for cost in prices.values())
    half = margin_ms(work, prices, machine.residual_percent) if measured and total is not None else None
    allowed = period_ms * scene.ticks_per_update
    return WorstCase(
        work_ms=total,
        half_width_ms=half,
        spare_ms=None if total is None else allowed - total,
        camera=camera,
        places=len(places),
        complete=complete,
        costs=costs,
    )


def camera_places(scene: Scene) -> tuple[tuple[tuple[int, int], ...], bool]:
    """Return where the camera's corner can be: within its limits, or wherever its path leads it."""
    if scene.camera.limits is None:
        ticks = range(scene.ticks)
        step = max(1, -(-len(ticks) // (4 * MOST_PLACES)))
        seen = tuple(dict.fromkeys(camera_at(scene, tick) for tick in ticks[::step]))
        return seen[:: max(1, -(-len(seen) // MOST_PLACES))], step == 1 and len(seen) <= MOST_PLACES
    left, top, right, bottom = scene.camera.limits
    wide, high = right - left + 1, bottom - top + 1
    step = 1
    while -(-wide // step) * -(-high // step) > MOST_PLACES:
        step += 1
    places = [(x, y) for y in range(top, bottom + 1, step) for x in range(left, right + 1, step)]
    return tuple(places), step == 1


def _planes(scene: Scene, planner: DrawPlanner, prices: PriceList, camera: tuple[int, int]) -> list[Work]:
    """Return the work of every plane for a camera."""
    numbers = range(len(scene.planes))
    return [w for number in numbers for w in plane_at(scene, planner, prices, camera, number)]


def plane_at(
    scene: Scene, planner: DrawPlanner, prices: PriceList, camera: tuple[int, int], number: int
) -> tuple[Work, ...]:
    """Return the work of one plane for a camera; one that drifts counts at its dearest place."""
    plane = scene.planes[number]
    ticks = [0]
    if any(plane.drift):
        ticks = list(range(0, scene.ticks, max(1, scene.ticks // DRIFT_PLACES)))
    scrolls = dict.fromkeys(scroll_at(plane, camera, tick) for tick in ticks)
    choices = [planner.plane_work(number, scroll) for scroll in scrolls]
    return max(choices, key=lambda choice: round(_time_us(choice, prices), 6))


def _time_us(work: "tuple[Work, ...] | list[Work]", prices: PriceList) -> float:
    """Return the time of work, unknown prices counted by their pixels so that the largest is still found."""
    total = 0.0
    for item in work:
        cost = prices.get(item.operation)
        total += item.pixels if cost is None else cost.time_us(item.calls, item.rows, item.pixels)
    return total


def _sprites(project: Project, scene: Scene, planner: DrawPlanner, prices: PriceList) -> list[Work]:
    """Return the work of every placed sprite as its dearest frame and facing, wholly in view."""
    dearest: dict[str, list[Work]] = {}
    for placed in scene.placed:
        if placed.sprite not in dearest:
            choices = _looks(project, planner, placed.sprite)
            dearest[placed.sprite] = max(choices, key=lambda choice: round(_time_us(choice, prices), 6))
    return [
        Work(name=p.name, operation=w.operation, calls=w.calls, rows=w.rows, pixels=w.pixels)
        for p in scene.placed
        for w in dearest[p.sprite]
    ]


def _looks(project: Project, planner: DrawPlanner, name: str) -> list[list[Work]]:
    sprite = project.sprite(name)
    looked = Work(name=name, operation="sprite", calls=1, rows=0, pixels=0)
    handed = Work(name=name, operation="piece", calls=1, rows=0, pixels=0)
    choices = [[looked]]
    for number in range(len(sprite.animations)):
        for facing in FACINGS:
            shown, flip = shown_animation(sprite, number, facing)
            animation = sprite.animations[shown]
            for step in animation.steps:
                frame = planner.pieces.frames[planner.numbers[animation.sheet, step.frame]]
                if frame.cell != EMPTY:
                    turned = frame.cell % 4 ^ step.flip ^ flip
                    choices.append([looked, handed, *planner.piece_work(frame.cell // 4, 0, 0, turned)])
    return choices


def _others(scene: Scene, planner: DrawPlanner, line: Estimate) -> list[Work]:
    """Return what is neither plane nor sprite, each operation as often as on the tick that has most of it."""
    drawn = {plane.name for plane in scene.planes} | {placed.name for placed in scene.placed}
    most: dict[tuple[str, str], Work] = {}
    for tick in line.ticks:
        for work in planner.plan(tick, max(0, tick - scene.ticks_per_update)):
            if work.name not in drawn:
                key = (work.name, work.operation)
                if key not in most or (work.calls, work.pixels) > (most[key].calls, most[key].pixels):
                    most[key] = work
    return list(most.values())


def time_line(line: Estimate, scene: Scene) -> TimeLine | None:
    """Return how a scene plays when every picture waits for a refresh; None while a price is unknown.

    The exported programs draw every picture they are asked for: late ones slow the game down.
    """
    times = [work for work in line.work_ms if work is not None]
    if len(times) < len(line.work_ms) or not times:
        return None
    wanted = len(times) * scene.ticks_per_update
    refreshes = sum(max(scene.ticks_per_update, _refreshes(work, line.period_ms)) for work in times)
    minutes = refreshes * line.period_ms / 60_000
    ordered = sorted(times)
    return TimeLine(
        pictures=len(times),
        refreshes=refreshes,
        wanted=wanted,
        missed_a_minute=(refreshes - wanted) / minutes,
        percentiles_ms={p: ordered[max(0, ceil(p / 100 * len(ordered)) - 1)] for p in PERCENTILES},
    )


def _refreshes(work_ms: float, period_ms: float) -> int:
    return max(1, ceil(round(work_ms / period_ms, 6)))


def load_ms(machine: Machine, files: Mapping[str, bytes]) -> float | None:
    """Return the time to read an export's files from storage, without unpacking; None while unknown."""
    if machine.storage is None:
        return None
    size = sum(len(data) for data in files.values())
    return len(files) * machine.storage.per_file_ms + size / machine.storage.bytes_per_s * 1000

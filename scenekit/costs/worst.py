"""The game's worst case: the dearest picture that it can ask for, with how far off it may be."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scenekit.costs.estimate import Estimate
from scenekit.costs.margin import margin_ms
from scenekit.costs.pricing import Priced, PriceList, price, price_amounts, rounded, time_us
from scenekit.costs.worstchanges import ChangesAtWorst, due_planes, may_be_whole, sizes_of
from scenekit.costs.worstsprites import largest_look, sprite_numbers, sprite_work
from scenekit.machines.machine import DisplayMode, Machine
from scenekit.model.project import Project
from scenekit.model.scene import Plane, Scene
from scenekit.motion.tracks import cameras_along, scrolls_along
from scenekit.plan.changework import LOOKING
from scenekit.plan.counting import Counter, counter_of
from scenekit.plan.distinct import distinct_pairs
from scenekit.plan.drawplan import DrawPlanner
from scenekit.plan.work import Work

Whole = NDArray[np.int64]
Times = NDArray[np.float64]
MOST_PLACES = 250_000
MOST_SCROLLS = 120_000
MOST_VALUES = 32
WHEN_WHOLE = (LOOKING, "view", "backdrop")
"""Other things that are counted apart where no picture is drawn whole."""

START_UP = ("border",)
"""Things that only the first pictures draw: part of starting the game, not of its worst picture."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WorstCase:
    """The dearest picture that the game can ask for: camera anywhere, every sprite wholly in view.

    work_ms        None while a price is unknown
    half_width_ms  half of the 95 % interval around it, None when no price is measured
    spare_ms       what is left of the time an update has; below 0 it does not fit
    places         camera places looked at; `complete` says whether these are all of them
    numbers        how many of each sprite it holds
    """

    work_ms: float | None
    half_width_ms: float | None
    spare_ms: float | None
    camera: tuple[int, int]
    places: int
    complete: bool
    numbers: tuple[tuple[str, int], ...]
    costs: tuple[Priced, ...]

    def as_dict(self) -> dict[str, object]:
        """Return it as plain JSON data."""
        return {
            "work_ms": rounded(self.work_ms),
            "half_width_ms": rounded(self.half_width_ms),
            "spare_ms": rounded(self.spare_ms),
            "camera": list(self.camera),
            "places": self.places,
            "all_places": self.complete,
            "sprites": dict(self.numbers),
            "costs": [cost.as_dict() for cost in self.costs],
        }


def worst_case(
    project: Project,
    scene: Scene,
    planner: DrawPlanner,
    machine: Machine,
    mode: DisplayMode,
    line: Estimate,
    numbers: Mapping[str, int] | None = None,
) -> WorstCase:
    """Return the game's worst case.

    Each plane is priced at every place of the camera, each sprite as its dearest frame and facing, each item
    of the panel as its dearest value; the rest counts as on the tick of the time line that has most of it.
    Where only changes are drawn and no picture after the first can be drawn whole, whatever sprites do, the
    dearest of the planes that take turns counts, and every sprite at its dearest place.
    numbers  of sprites at the same time, by name; as many as the scene places where it says nothing
    raises   ProjectError: a number for a sprite that the scene does not place
    """
    prices, period_ms = machine.costs_in(mode.name), float(mode.timing.period_ms)
    place = dearest_place(planner, prices)
    held = sprite_numbers(scene, numbers or {})
    work = _work_there(project, planner, prices, place, held, line) if planner.scheme.draws else []
    costs = price(work, prices, period_ms)
    spent = [cost.time_ms for cost in costs]
    total = None if None in spent else sum(time for time in spent if time is not None)
    measured = machine.residual_percent > 0 or any(cost.standard_errors_us for cost in prices.values())
    half = margin_ms(work, prices, machine.residual_percent) if measured and total is not None else None
    allowed = period_ms * scene.ticks_per_update
    return WorstCase(
        work_ms=total,
        half_width_ms=half,
        spare_ms=None if total is None else allowed - total,
        camera=place.camera,
        places=place.places,
        complete=place.complete,
        numbers=tuple(held.items()),
        costs=costs,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where the camera is when all planes together take most.

    scrolls   how far each plane has scrolled there
    places    that were looked at; `complete` says whether these are all
    """

    camera: tuple[int, int]
    scrolls: tuple[tuple[int, int], ...]
    places: int
    complete: bool


def dearest_place(planner: DrawPlanner, prices: PriceList) -> Place:
    """Return where the camera is when all planes together take most."""
    scene, counter = planner.scene, counter_of(planner)
    places, complete = camera_places(scene)
    numbers = range(len(scene.planes))
    if not planner.scheme.draws:
        return Place(
            camera=(0, 0), scrolls=tuple((0, 0) for _ in numbers), places=len(places[0]), complete=complete
        )
    times = [plane_times(counter, scene, number, places, prices) for number in numbers]
    dearest = int(np.argmax(np.round(sum((found[0] for found in times), np.zeros(len(places[0]))), 6)))
    return Place(
        camera=(int(places[0][dearest]), int(places[1][dearest])),
        scrolls=tuple((int(at[0][dearest]), int(at[1][dearest])) for _, at, _ in times),
        places=len(places[0]),
        complete=complete and all(found[2] for found in times),
    )


def _work_there(
    project: Project,
    planner: DrawPlanner,
    prices: PriceList,
    place: Place,
    held: Mapping[str, int],
    line: Estimate,
) -> list[Work]:
    """Return the work of the dearest picture at a place: whole, or of changes where none can be whole."""
    others, panel = _others(planner, line), _panel(project, planner, prices)
    changed = _dearest_changes(changes_at_worst(project, planner, prices, place, held))
    if changed is not None:
        return [*changed, *(w for w in others if w.name not in WHEN_WHOLE), *panel]
    planes = [w for number, scroll in enumerate(place.scrolls) for w in planner.plane_work(number, scroll)]
    return [*planes, *sprite_work(project, planner, prices, held), *others, *panel]


def changes_at_worst(
    project: Project, planner: DrawPlanner, prices: PriceList, place: Place, held: Mapping[str, int]
) -> ChangesAtWorst | None:
    """Return what pictures of changes take at a place, None where they may be whole whatever moves."""
    if not planner.changes or may_be_whole(planner):
        return None
    shapes = {name: largest_look(project, planner, name) for name in held}
    drawn = sprite_work(project, planner, prices, held)
    once = [work for work in drawn if work.operation != "box-sprite"]
    return ChangesAtWorst(planner, prices, place.scrolls, sizes_of(shapes, held), once)


def _dearest_changes(at_worst: ChangesAtWorst | None) -> list[Work] | None:
    """Return the work of the dearest picture that draws changes, None where one may be drawn whole."""
    if at_worst is None:
        return None
    found = []
    planner, prices = at_worst.planner, at_worst.prices
    for due in sorted(due_planes(planner.scene, at_worst.back), key=sorted):
        work = at_worst.work(due)
        if work is None:
            return None
        found.append(work)
    return max(found, key=lambda work: round(time_us(work, prices), 6))


def still_work(
    project: Project, planner: DrawPlanner, prices: PriceList, at_worst: ChangesAtWorst, line: Estimate
) -> list[Work] | None:
    """Return the work of a picture of changes in which no plane moved, None where it may be drawn whole."""
    work = at_worst.work(())
    if work is None:
        return None
    others = [w for w in _others(planner, line) if w.name not in WHEN_WHOLE]
    return [*work, *others, *_panel(project, planner, prices)]


def camera_places(scene: Scene) -> tuple[tuple[Whole, Whole], bool]:
    """Return x and y where the camera's corner can be, and whether these are all places.

    It can be anywhere within its limits, or wherever its path leads it when it has none.
    """
    if scene.camera.limits is None:
        x, y = cameras_along(scene, np.arange(scene.ticks, dtype=np.int64))
        pairs = np.stack(distinct_pairs(y, x)[:2])
    else:
        left, top, right, bottom = scene.camera.limits
        wide, high = right - left + 1, bottom - top + 1
        step = 1
        while -(-wide // step) * -(-high // step) > MOST_PLACES:
            step += 1
        ys, xs = np.arange(top, bottom + 1, step), np.arange(left, right + 1, step)
        pairs = np.stack([np.repeat(ys, len(xs)), np.tile(xs, len(ys))])
        return (pairs[1], pairs[0]), step == 1
    step = -(-pairs.shape[1] // MOST_PLACES)
    return (pairs[1, ::step], pairs[0, ::step]), step == 1


def plane_times(
    counter: Counter, scene: Scene, number: int, places: tuple[Whole, Whole], prices: PriceList
) -> tuple[Times, tuple[Whole, Whole], bool]:
    """Return what a plane takes at places of the camera in us, how far it has scrolled there, and whether
    every place that its drift can bring it to was looked at: a plane that drifts counts at the dearest, and
    so does one that is held, since the camera goes on meanwhile.
    """
    plane = scene.planes[number]
    start = scrolls_along(plane, places, np.zeros(len(places[0]), dtype=np.int64))
    across, down, which = counter.different_scrolls(number, start)
    moved = _drifts(plane, scene, counter.planes[number].whole)
    step = max(1, -(-len(moved) * len(across) // MOST_SCROLLS))
    moved = moved[::step]
    at = (across[:, None] + moved[:, 0]).ravel(), (down[:, None] + moved[:, 1]).ravel()
    times = np.round(_scroll_times(counter, number, at, prices), 6).reshape(len(across), -1)
    if plane.cadence[0] > 1:
        best = np.full(len(across), times.argmax())
    else:
        best = np.arange(len(across)) * times.shape[1] + times.argmax(axis=1)
    return times.ravel()[best][which], (at[0][best][which], at[1][best][which]), step == 1


def _drifts(plane: Plane, scene: Scene, whole: tuple[int, int]) -> Whole:
    """Return the different ways that a plane's drift can have moved it, (N, 2), each repeat counted once."""
    still = Plane(name=plane.name, ratio=(plane.ratio[0] * 0, plane.ratio[1] * 0), drift=plane.drift)
    ticks = np.arange(scene.ticks, dtype=np.int64)
    camera = np.zeros(len(ticks), dtype=np.int64)
    moved = scrolls_along(still, (camera, camera), ticks)
    reduced = (along % whole[axis] if plane.wrap[axis] else along for axis, along in enumerate(moved))
    return np.stack(distinct_pairs(*reduced)[:2], axis=1)


def _scroll_times(counter: Counter, number: int, scroll: tuple[Whole, Whole], prices: PriceList) -> Times:
    """Return what a plane takes at scroll positions, in us."""
    across, down, which = counter.different_scrolls(number, scroll)
    bare = {name: cost for name, cost in prices.items() if not cost.share_percent}
    times = price_amounts(counter.planes[number].at(across, down), bare, 0.0)[0]
    return np.asarray(times[which] * 1000, dtype=np.float64)


def _panel(project: Project, planner: DrawPlanner, prices: PriceList) -> list[Work]:
    """Return the work of every item of the panel that shows a value, as its dearest value."""
    found = []
    limits = {value.name: (value.low, value.high) for value in project.values}
    for place in planner.places:
        if place.item.value not in limits:
            continue
        low, high = limits[place.item.value]
        step = max(1, (high - low) // MOST_VALUES)
        values = sorted({*range(low, high + 1, step), high})
        choices = [planner.value_work(place, value) for value in values]
        dearest = max(choices, key=lambda choice: round(time_us(choice, prices), 6))
        found += [
            Work(name=place.item.name, operation=w.operation, calls=w.calls, rows=w.rows, pixels=w.pixels)
            for w in dearest
        ]
    return found


def _others(planner: DrawPlanner, line: Estimate) -> list[Work]:
    """Return what is neither plane, sprite nor item of the panel, as on the tick that has most of it."""
    items = {place.item.name for place in planner.places}
    whole = Work(name="view", operation="box", calls=1, rows=0, pixels=0)
    return [
        *([whole] if planner.changes else []),
        *(work for work in line.others if work.name not in items and work.name not in START_UP),
    ]

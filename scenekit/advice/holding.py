"""Planes held for some ticks, in turn, so that no picture draws all of them: chosen by an integer program."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from scenekit.advice.choose import Impossible, Option, Question, choose
from scenekit.advice.options import UNITS_PER_US, build_as, parts_of
from scenekit.advice.settings import Setting
from scenekit.build import Build
from scenekit.costs.estimate import estimate
from scenekit.costs.pricing import SOUND, price, sound_share, time_us
from scenekit.costs.worst import changes_at_worst, dearest_place, still_work
from scenekit.costs.worstchanges import ChangesAtWorst, is_due, moves
from scenekit.costs.worstsprites import sprite_numbers
from scenekit.errors import SceneKitError
from scenekit.model.project import Project
from scenekit.model.scene import Plane, Scene
from scenekit.motion.expand import camera_speed
from scenekit.motion.steps import step_pattern
from scenekit.plan.changes import area, most_area

PICTURES = (2, 4, 8)
"""For how many pictures a plane may be held."""

MOST_LAG_PX = 4
PARTS_OF_A_PX = 100
Cadence = tuple[int, int]


def held_planes(base: Build, document: Project) -> Setting | str:
    """Return a setting whose planes are held in turn with as little lag as lets the worst picture fit, or in
    words why there is none; "" where drawing only what changed is out of the question anyway.

    Each plane has a case for each picture of the longest cadence, in which it is drawn or not; further cases
    keep the pixels drawn anew below those with which a picture would be drawn whole.
    """
    target = replace(base.target, redraw="changes")
    try:
        build = build_as(base, document, target, document.scene(base.scene.name))
    except SceneKitError:
        return ""
    prices = build.machine.costs_in(build.mode.name)
    held = sprite_numbers(build.scene, {})
    at_worst = changes_at_worst(
        build.project, build.planner, prices, dearest_place(build.planner, prices), held
    )
    if at_worst is None:
        return ""
    names, cadences, groups = _groups(build, document, at_worst)
    question = _question(build, at_worst, groups)
    if question is None or not groups:
        return "planes held in turn: sprites alone may change so much that a picture is drawn whole"
    found = choose(question)
    if isinstance(found, Impossible):
        return "planes held in turn: no cadences keep the worst picture within its time"
    taken = {
        name: options[number] for name, options, number in zip(names, cadences, found.taken, strict=True)
    }
    if all(every == 1 for every, _ in taken.values()):
        words = "only what changed is drawn"
    else:
        told = [_told(build, document, name, cadence) for name, cadence in taken.items() if cadence[0] > 1]
        words = f"only what changed is drawn, planes held in turn: {', '.join(told)}"
    scene = with_cadences(document.scene(base.scene.name), taken)
    return Setting(words=words, target=target, scene=scene, alone=True)


def with_cadences(scene: Scene, cadences: dict[str, Cadence]) -> Scene:
    """Return a scene with cadences of planes by name."""
    planes = tuple(replace(plane, cadence=cadences.get(plane.name, plane.cadence)) for plane in scene.planes)
    return replace(scene, planes=planes)


def _groups(
    build: Build, document: Project, at_worst: ChangesAtWorst
) -> tuple[list[str], list[list[Cadence]], list[tuple[Option, ...]]]:
    """Return for each plane that moves its name, the cadences it may have, and what each of them takes."""
    names, cadences, groups = [], [], []
    for plane in document.scene(build.scene.name).planes:
        parts = [part for part in parts_of(build.scene, plane.name) if moves(build.scene, part)]
        if not parts:
            continue
        options = _cadences(build, plane, parts)
        names.append(plane.name)
        cadences.append(options)
        groups.append(tuple(_option(build, at_worst, parts, cadence) for cadence in options))
    return names, cadences, groups


def _cadences(build: Build, plane: Plane, parts: Sequence[int]) -> list[Cadence]:
    """Return the cadences that a plane may have, the one it has first."""
    scene, every = build.scene, build.scene.ticks_per_update
    kept = next((placed for placed in scene.placed if placed.name == scene.camera.keeps), None)
    found = [plane.cadence]
    if kept is None or scene.plane_number(kept.moves_with) not in parts:
        for pictures in PICTURES:
            ticks = pictures * every
            if pictures > build.abilities.pages and _lag(scene, parts, ticks) <= MOST_LAG_PX:
                found += [(ticks, first) for first in range(0, ticks, every)]
    return list(dict.fromkeys(found))


def _lag(scene: Scene, parts: Sequence[int], ticks: int) -> Fraction:
    """Return how far from its place a plane is at worst, at the camera's usual speed, when held."""
    usual = camera_speed(scene.camera.path)
    speeds = [usual * scene.planes[part].ratio[0] + scene.planes[part].drift[0] for part in parts]
    return max(step_pattern(speed, ticks).max_lag_px for speed in speeds)


def _option(build: Build, at_worst: ChangesAtWorst, parts: Sequence[int], cadence: Cadence) -> Option:
    """Return what a cadence takes: in each picture time and pixels, and of smoothness parts of a pixel."""
    boxes = [box for box in map(at_worst.strip, parts) if box is not None]
    time = round(sum(time_us(at_worst.inside(box), at_worst.prices) for box in boxes) * UNITS_PER_US)
    pixels = sum(map(area, boxes))
    every = build.scene.ticks_per_update
    due = [
        int(is_due(cadence, number * every, build.abilities.pages * every)) for number in range(max(PICTURES))
    ]
    lag = _lag(build.scene, parts, cadence[0])
    return Option(
        name=f"every {cadence[0]} ticks from {cadence[1]}",
        times=(*(time * now for now in due), *(_share(build, pixels) * now for now in due)),
        memory=(round(lag * PARTS_OF_A_PX),),
    )


def _share(build: Build, pixels: int) -> int:
    """Return pixels that are drawn anew as a part of the time that a picture has."""
    return -(-_allowed(build) * pixels // most_area(build.size))


def _allowed(build: Build) -> int:
    """Return the time of a picture, without what sound takes of it, in units of the integer program."""
    free = 1 - sound_share(build.machine.costs_in(build.mode.name))
    period_us = float(build.mode.timing.period_ms) * build.scene.ticks_per_update * 1000
    return int(period_us * free * UNITS_PER_US)


def _question(build: Build, at_worst: ChangesAtWorst, groups: list[tuple[Option, ...]]) -> Question | None:
    """Return the question, None where sprites alone may make a picture be drawn whole."""
    planner, prices = build.planner, at_worst.prices
    line = estimate(planner, build.machine, build.mode, build.scene, range(build.scene.ticks))
    work = still_work(build.project, planner, prices, at_worst, line)
    if work is None:
        return None
    bare = {name: cost for name, cost in prices.items() if name != SOUND}
    spent = price([*work, *at_worst.drawn_again()], bare, float(build.mode.timing.period_ms))
    fixed = round(sum(item.time_ms or 0.0 for item in spent) * 1000 * UNITS_PER_US)
    pixels = 2 * sum(w * h for w, h in at_worst.sprites)
    count = max(PICTURES)
    return Question(
        groups=tuple(groups),
        fixed_times=(*(fixed,) * count, *(_share(build, pixels),) * count),
        fixed_memory=(0,),
        most_time=_allowed(build),
        most_memory=(1 << 30,),
        memory_first=True,
    )


def _told(build: Build, document: Project, name: str, cadence: Cadence) -> str:
    """Return a plane's cadence in words, with what it costs in smoothness."""
    parts = parts_of(build.scene, name)
    lag = float(_lag(build.scene, parts, cadence[0]))
    return f"{name} {cadence[0]} ticks from tick {cadence[1]} on (at worst {lag:.2f} px from its place)"

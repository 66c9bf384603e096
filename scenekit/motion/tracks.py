"""Where movers are and what sprites show at many ticks at once."""

import numpy as np
from numpy.typing import NDArray

from scenekit.model.scene import Path, Placed, Plane, Scene
from scenekit.model.sprites import Animation, Sprite
from scenekit.motion.keeping import kept_camera
from scenekit.motion.looks import LookTable, look_table
from scenekit.motion.paths import unroll

Whole = NDArray[np.int64]


def places_along(path: Path, start: tuple[int, int], ticks: Whole) -> tuple[Whole, Whole]:
    """Return x and y of a mover at ticks from 0 on, as `place_at` gives them one by one."""
    if not path.segments or not len(ticks):
        return np.full(len(ticks), start[0], np.int64), np.full(len(ticks), start[1], np.int64)
    total, across, down = path.edges[-1]
    laps = np.zeros_like(ticks) if path.repeat == "no" else ticks // total
    rest = np.minimum(ticks, total) if path.repeat == "no" else ticks - laps * total
    once = np.arange(min(total, int(rest.max())) + 1, dtype=np.int64)
    known = len(once) <= len(rest)
    x, y = _within_lap(path, once if known else rest)
    x, y = x + start[0], y + start[1]
    if known:
        x, y = x.take(rest), y.take(rest)
    return (x + laps * across, y + laps * down) if path.repeat == "onward" else (x, y)


def _within_lap(path: Path, rest: Whole) -> tuple[Whole, Whole]:
    """Return how far a mover has come after some ticks of its first lap; its end counts as the last place."""
    edges = np.array(path.edges, dtype=np.int64)
    number = np.searchsorted(edges[:, 0], rest, side="right") - 1
    parts = [(speed.numerator, speed.denominator) for segment in path.segments for speed in segment.speed]
    speeds = np.array([*parts, (0, 1), (0, 1)], dtype=np.int64).reshape(-1, 2, 2)
    spent = rest - edges[number, 0]
    left, top = (
        edges[number, 1 + axis] + speeds[number, axis, 0] * spent // speeds[number, axis, 1]
        for axis in (0, 1)
    )
    return left, top


def cameras_along(scene: Scene, ticks: Whole) -> tuple[Whole, Whole]:
    """Return the camera's position at ticks."""
    if scene.camera.keeps:
        pairs = np.array([kept_camera(scene, tick) for tick in ticks.tolist()], dtype=np.int64)
        return pairs.reshape(-1, 2)[:, 0], pairs.reshape(-1, 2)[:, 1]
    return places_along(scene.camera.path, scene.camera.start, ticks)


def shown_scrolls(
    scene: Scene, plane: Plane, camera: tuple[Whole, Whole], ticks: Whole
) -> tuple[Whole, Whole]:
    """Return how far a plane is shown to have scrolled at ticks, as `shown_scroll` gives it one by one.

    camera   its position at those ticks
    """
    every, first = plane.cadence
    if every == 1:
        return scrolls_along(plane, camera, ticks)
    held = np.maximum(0, ticks - (ticks - first) % every)
    return scrolls_along(plane, cameras_along(scene, held), held)


def scrolls_along(plane: Plane, camera: tuple[Whole, Whole], ticks: Whole) -> tuple[Whole, Whole]:
    """Return how far a plane has scrolled at ticks, as `scroll_at` gives it one by one."""
    across, down = (
        plane.ratio[axis].numerator * camera[axis] // plane.ratio[axis].denominator
        + plane.drift[axis].numerator * ticks // plane.drift[axis].denominator
        - plane.offset[axis]
        for axis in (0, 1)
    )
    return across, down


def looks_along(
    sprite: Sprite, placed: Placed, ticks: Whole, table: LookTable | None = None
) -> tuple[Whole, Whole, Whole]:
    """Return animation, its step, and the flip that a placed sprite shows at ticks.

    table   of the sprite's looks, when it is known already
    """
    table = table or look_table(sprite, placed)
    rows, steps = rows_along(sprite, ticks, table)
    _, animations, flips = np.array(table.changes, dtype=np.int64).T
    turned = np.zeros((len(sprite.animations), longest_animation(sprite)), dtype=np.int64)
    for number, animation in enumerate(sprite.animations):
        turned[number, : len(animation.steps)] = [step.flip for step in animation.steps]
    return animations[rows], steps, flips[rows] ^ turned[animations[rows], steps]


def longest_animation(sprite: Sprite) -> int:
    """Return how many steps the longest of a sprite's animations has."""
    return max(len(animation.steps) for animation in sprite.animations)


def rows_along(sprite: Sprite, ticks: Whole, table: LookTable) -> tuple[Whole, Whole]:
    """Return the row of a table of looks that holds at ticks, and the step of its animation."""
    moved = np.zeros_like(ticks)
    if table.lap_ticks and int(ticks.max(initial=0)) >= 3 * table.lap_ticks:
        moved = np.maximum(ticks // table.lap_ticks - 2, 0) * table.lap_ticks
    starts = np.array(table.starts, dtype=np.int64)
    within = np.minimum(ticks - moved, starts[-1])
    if starts[-1] <= len(ticks):
        rows = np.repeat(np.arange(len(starts)), np.diff(starts, append=starts[-1] + 1)).take(within)
    else:
        rows = np.searchsorted(starts, within, side="right") - 1
    began = np.array([row[0] for row in table.changes], dtype=np.int64)
    later = began >= table.lap_ticks
    elapsed = ticks - began.take(rows)
    elapsed -= moved if later.all() else moved * later.take(rows)
    shown = {row[1] for row in table.changes}
    if len(shown) == 1:
        return rows, steps_along(sprite.animations[shown.pop()], elapsed)
    steps = np.zeros_like(ticks)
    animations = np.array([row[1] for row in table.changes], dtype=np.int64).take(rows)
    for number in shown:
        mine = np.flatnonzero(animations == number)
        steps[mine] = steps_along(sprite.animations[number], elapsed[mine])
    return rows, steps


def steps_along(animation: Animation, elapsed: Whole) -> Whole:
    """Return the step that an animation shows after some ticks, as `step_at` gives it one by one."""
    numbers, again = unroll(animation)
    lengths = [animation.steps[number].ticks for number in numbers]
    total = sum(lengths)
    rest = elapsed - elapsed // total * total if again else np.minimum(elapsed, total - 1)
    return np.repeat(np.array(numbers, dtype=np.int64), lengths).take(rest)

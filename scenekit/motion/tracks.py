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
    x, y = np.full(len(ticks), start[0], dtype=np.int64), np.full(len(ticks), start[1], dtype=np.int64)
    if not path.segments or not len(ticks):
        return x, y
    total, across, down = path.edges[-1]
    rest = np.minimum(ticks, total) if path.repeat == "no" else ticks % total
    if path.repeat == "onward":
        laps = ticks // total
        x, y = x + laps * across, y + laps * down
    once = np.arange(min(total, int(rest.max())) + 1, dtype=np.int64)
    if len(once) <= len(rest):
        left, top = _within_lap(path, once)
        return x + left[rest], y + top[rest]
    left, top = _within_lap(path, rest)
    return x + left, y + top


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
    rows, elapsed = _changes_along(table, ticks)
    animations = np.array([row[1] for row in table.changes], dtype=np.int64)[rows]
    flips = np.array([row[2] for row in table.changes], dtype=np.int64)[rows]
    steps = np.zeros(len(ticks), dtype=np.int64)
    for number in {row[1] for row in table.changes}:
        mine = animations == number
        shown = steps_along(sprite.animations[number], elapsed if mine.all() else elapsed[mine])
        steps[mine] = shown
        for step, detail in enumerate(sprite.animations[number].steps):
            if detail.flip:
                flips[mine & (steps == step)] ^= detail.flip
    return animations, steps, flips


def _changes_along(table: LookTable, ticks: Whole) -> tuple[Whole, Whole]:
    """Return the row of the table that holds at each tick, and the ticks since its animation began."""
    moved = np.zeros(len(ticks), dtype=np.int64)
    if table.lap_ticks:
        moved = np.maximum(ticks // table.lap_ticks - 2, 0) * table.lap_ticks
    starts = np.array(table.starts, dtype=np.int64)
    began = np.array([row[0] for row in table.changes], dtype=np.int64)
    rows = np.searchsorted(starts, ticks - moved, side="right") - 1
    since = began[rows]
    return rows, ticks - since - np.where(since >= table.lap_ticks, moved, 0)


def steps_along(animation: Animation, elapsed: Whole) -> Whole:
    """Return the step that an animation shows after some ticks, as `step_at` gives it one by one."""
    numbers, again = unroll(animation)
    ends = np.cumsum([animation.steps[number].ticks for number in numbers])
    rest = elapsed % ends[-1] if again else np.minimum(elapsed, ends[-1] - 1)
    by_tick = np.array(numbers, dtype=np.int64)[np.searchsorted(ends, np.arange(ends[-1]), side="right")]
    return np.asarray(by_tick[rest], dtype=np.int64)

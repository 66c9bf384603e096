"""What a scene's arithmetic takes between two pictures: ticks, planes, sprites, paths, moving entries."""

import numpy as np

from scenekit.images.reduced import ReducedArt
from scenekit.model.scene import Path, Scene
from scenekit.motion.waking import own_tick, wake_groups, woken_at

TICKS_AT_ONCE = 65_536


def step_counts(scene: Scene, art: ReducedArt, before: int, tick: int) -> dict[str, int]:
    """Return how often each operation of a step is done from one tick to a later one."""
    ticks = max(0, tick - before)
    before = min(before, tick)
    kept = ticks if scene.camera.keeps else 0
    on_paths, gone = _ticks_on(scene.camera.path, before, tick) + kept, 0
    for placed in scene.placed:
        old, own = own_tick(scene, placed, before), own_tick(scene, placed, tick)
        on_paths += _ticks_on(placed.path, old, own)
        asleep = woken_at(scene, placed, before) is None
        gone += own - old + int(asleep and woken_at(scene, placed, tick) is not None)
    counts = {
        "tick": ticks,
        "tick-plane": ticks * planes_of_a_tick(scene),
        "tick-sprite": gone,
        "tick-path": on_paths,
        "mixed-entry": mixed_entries(scene, art, before, tick),
    }
    return {operation: count for operation, count in counts.items() if count}


def planes_of_a_tick(scene: Scene) -> int:
    """Return how many planes a tick moves; a held one counts twice, sleepers of a plane like one more."""
    held = sum(plane.cadence[0] > 1 for plane in scene.planes)
    return len(scene.planes) + held + len(wake_groups(scene))


def _ticks_on(path: Path, before: int, tick: int) -> int:
    """Return at how many of the ticks after one, up to another, a path carries its sprite."""
    if not path.segments:
        return 0
    if path.repeat != "no":
        return tick - before
    end = path.edges[-1][0]
    return min(tick, end) - min(before, end)


def mixed_entries(scene: Scene, art: ReducedArt, before: int, tick: int) -> int:
    """Return how many entries are given colours anew after one tick and up to another."""
    changes = art.changes[scene.name]
    if not art.cycles and not changes:
        return 0
    total = 0
    for first in range(before + 1, tick + 1, TICKS_AT_ONCE):
        ticks = np.arange(first, min(first + TICKS_AT_ONCE, tick + 1), dtype=np.int64)
        changed = np.zeros(len(ticks), dtype=bool)
        entries = np.full(len(ticks), sum(cycle.count for cycle in art.cycles), dtype=np.int64)
        for cycle in art.cycles:
            changed |= ticks % cycle.ticks == 0
        for change in changes:
            begun = (ticks - change.tick) // change.ticks_per_step + 1
            done = np.where(ticks < change.tick, 0, np.minimum(begun, len(change.colours)))
            changed |= (
                (done > 0)
                & (begun <= len(change.colours))
                & ((ticks - change.tick) % change.ticks_per_step == 0)
            )
            entries += (done > 0) * len(change.entries)
        total += int(entries[changed].sum())
    return total

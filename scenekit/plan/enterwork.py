"""What the first picture after a change of scenes takes beside its drawing: entries that change colour."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from scenekit.images.reduced import ReducedArt
from scenekit.model.scene import Scene
from scenekit.plan.drawplan import DrawPlanner
from scenekit.plan.shown import colour_numbers
from scenekit.plan.work import Work

Numbers = NDArray[np.int64]


def entries_written(art: ReducedArt, scene: Scene, tick: int) -> Numbers:
    """Return which colour number each entry shows after a tick was drawn; -1 stands for a scene's own colour.

    The colours of events have other meanings in the next scene, so that they must be written anew.
    """
    numbers = colour_numbers(art, scene.name, tick)
    return np.where(numbers < len(art.palette), numbers, -1)


def first_picture(planner: DrawPlanner, work: Sequence[Work], shown: Numbers, tick: int) -> tuple[Work, ...]:
    """Return the work of a scene's first picture after another scene.

    work    of that picture without a change
    shown   what `entries_written` says of the scene before
    """
    if not planner.abilities.recolours or not planner.scheme.draws:
        return tuple(work)
    kept = [w for w in work if w.operation != "palette"]
    entries = len(planner.art.palette)
    kept.append(Work(name="change", operation="entry", calls=entries, rows=0, pixels=0))
    now = colour_numbers(planner.art, planner.scene.name, tick)
    writes = int(np.count_nonzero(now != shown))
    if writes:
        kept.append(Work(name="change", operation="palette", calls=writes, rows=0, pixels=writes))
    return tuple(kept)

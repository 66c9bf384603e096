"""The tables and arrays of planes that are held between the ticks of their cadence."""

from scenekit.model.scene import Scene
from scenekit.routines.language import Table

EVERY = "plane_every"


def holding_parts(scene: Scene, wanted: bool) -> tuple[tuple[Table, ...], tuple[tuple[str, int], ...]]:
    """Return the tables and arrays of held planes, none where they are not wanted; no plane need be held."""
    if not wanted:
        return (), ()
    tables = (
        Table(EVERY, tuple(p.cadence[0] for p in scene.planes), "ticks from one new place of a plane on"),
        Table("plane_when", tuple(p.cadence[1] for p in scene.planes), "the first tick with a new place"),
    )
    count = len(scene.planes)
    return tables, (("plane_ahead_x", count), ("plane_ahead_y", count))

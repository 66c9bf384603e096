"""Start places of sprites that sleep, sorted by plane and position."""

from scenekit.model.scene import Scene
from scenekit.motion.waking import wake_groups
from scenekit.routines.language import Table

Sizes = tuple[tuple[str, int], ...]


def waking_parts(scene: Scene, wanted: bool) -> tuple[tuple[Table, ...], Sizes, Sizes]:
    """Return tables, variables and arrays, none where they are not wanted; in a scene nobody need sleep.

    Before the first and after the last sorted place stands one more, so that a search may look there.
    """
    if not wanted:
        return (), (), ()
    groups = wake_groups(scene)
    order = [number for _, numbers in groups for number in numbers]
    starts = [1 + sum(len(numbers) for _, numbers in groups[:n]) for n in range(len(groups))]
    axis = scene.wakes.axis
    tables = (
        Table(
            "actor_sleeps", tuple(int(p.asleep) for p in scene.placed), "1 for sprites that sleep at first"
        ),
        Table("wake_plane", tuple(plane for plane, _ in groups), "planes that carry sleepers"),
        Table("wake_first", tuple(starts), "first of each plane's places"),
        Table("wake_count", tuple(len(numbers) for _, numbers in groups), "their number"),
        Table("wake_sprite", (0, *order, 0), "sleepers, sorted by plane and start place"),
        Table("wake_place", (0, *(scene.placed[n].at[axis] for n in order), 0), "those start places"),
    )
    variables = (
        ("wake_groups", len(groups)),
        ("wake_from", scene.wakes.start),
        ("wake_to", scene.wakes.end),
        ("wake_down", axis),
    )
    arrays = (("wake_low", len(groups)), ("wake_high", len(groups)), ("actor_awake", len(scene.placed)))
    return tables, variables, arrays

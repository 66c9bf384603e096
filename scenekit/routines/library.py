"""The routines that every program is put together from."""

from collections.abc import Sequence
from functools import cache
from pathlib import Path

from scenekit.routines.language import Routine
from scenekit.routines.parse import parse_routines

FOLDER = Path(__file__).parent


def library_names() -> tuple[str, ...]:
    """Return the names of all files of routines, sorted."""
    return tuple(sorted(path.stem for path in FOLDER.glob("*.words")))


@cache
def routines_of(name: str) -> tuple[Routine, ...]:
    """Return the routines of one file."""
    return parse_routines((FOLDER / f"{name}.words").read_text(encoding="utf-8"), f"{name}.words")


def gather(names: Sequence[str]) -> tuple[Routine, ...]:
    """Return the routines of several files, in order."""
    return tuple(routine for name in names for routine in routines_of(name))


@cache
def own_names() -> tuple[str, ...]:
    """Return every name that some routine has to itself; such names take no prefix in a program. Sorted."""
    every = gather(library_names())
    return tuple(sorted({name for routine in every for name in (*routine.parameters, *routine.locals)}))


WIDE = frozenset(
    (
        "tick",
        "clock_now",
        "clock_next",
        "clock_last",
        "late_us",
        "refresh_us",
        "bench_took",
        "took",
        "left",
        "top",
        "wide",
        "high",
        "cut",
        "r",
        "c",
        "pose_x",
        "pose_y",
        "hit_left",
        "hit_top",
        "unpacked",
        "number",
        "low",
        "held",
        "kept",
        "stop",
        "s",
        "x",
        "y",
        "u",
        "v",
        "mover_x",
        "mover_y",
        "plane_x",
        "plane_y",
        "plane_ahead_x",
        "plane_ahead_y",
        "plane_part_x",
        "plane_part_y",
        "wrap_base_x",
        "wrap_base_y",
        "start_x",
        "start_y",
        "plane_start_x",
        "plane_start_y",
        "start_base_x",
        "start_base_y",
        "event_tick",
        "event_next",
        "wake_place",
        "lap_x",
        "lap_y",
        "held_x",
        "held_y",
        "map_place",
        "map_number",
        "map_file",
        "flag_file",
        "drawn_x",
        "drawn_y",
        "drawn_plane_x",
        "drawn_plane_y",
        "seen_x",
        "seen_y",
        "moved_x",
        "moved_y",
        "mixed",
        "page_mixed",
        "camera_left",
        "camera_top",
        "camera_right",
        "camera_bottom",
    )
)
"""Variables and arrays whose values grow with the clock and the camera, without a bound of 16 bits."""
WIDE_STARTS = ("calls_", "pixels_", "spare")


def is_wide(name: str) -> bool:
    """Say whether a variable or array may outgrow 16 bits."""
    return name in WIDE or name.startswith(WIDE_STARTS)

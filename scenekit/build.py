"""Builds a scene for a target: what other rooms need of it."""

from scenekit.building.artwork import (
    cut_pieces,
    expand_motion,
    find_target,
    given_colours,
    read_art,
    reduce_colours,
)
from scenekit.building.kept import Kept
from scenekit.building.own import KEYS_FILE, own_files
from scenekit.building.planning import make_planner, plan_drawing
from scenekit.building.stages import STAGES, lay_memory, run_stages
from scenekit.building.state import Build, BuildOptions, Progress
from scenekit.building.tabling import (
    basic_bundle,
    check_values,
    encode_bundle,
    make_tables,
    needed_extras,
    page_variables,
)
from scenekit.building.writing import (
    STOPS_FILE,
    add_stops,
    check_sums,
    number_lists,
    pace_of,
    spelled_constants,
    write_credits,
    write_programs,
)

__all__ = [
    "KEYS_FILE",
    "STAGES",
    "STOPS_FILE",
    "Build",
    "BuildOptions",
    "Kept",
    "Progress",
    "add_stops",
    "basic_bundle",
    "check_sums",
    "check_values",
    "cut_pieces",
    "encode_bundle",
    "expand_motion",
    "find_target",
    "given_colours",
    "lay_memory",
    "make_planner",
    "make_tables",
    "needed_extras",
    "number_lists",
    "own_files",
    "pace_of",
    "page_variables",
    "plan_drawing",
    "read_art",
    "reduce_colours",
    "run_stages",
    "spelled_constants",
    "write_credits",
    "write_programs",
]

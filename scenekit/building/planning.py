"""The stage that plans what drawing each tick takes."""

from dataclasses import replace

from scenekit.building.state import Build
from scenekit.costs.redraw import is_cheaper
from scenekit.errors import ProjectError
from scenekit.motion.shown import Looks
from scenekit.plan.drawplan import DrawPlanner
from scenekit.plan.schemes import (
    Abilities,
    can_move,
)
from scenekit.tables.bundle import needs_border
from scenekit.tables.mapfile import WORDS as MAP_WORDS
from scenekit.tables.mapfile import windows_of


def plan_drawing(build: Build) -> None:
    """Make the planner that knows what each tick takes."""
    if build.looks is None or build.looks.scene != build.scene:
        project, scene = build.project, build.scene
        build.looks = build.kept.get("looks", scene.name, (project, scene), lambda: Looks(project, scene))
    wanted = "memory" if not build.scheme.draws else build.target.maps
    if not build.abilities.words >= MAP_WORDS:
        if wanted == "file":
            raise ProjectError(
                f"target {build.target.name}: maps: got 'file'; must be 'memory' or 'auto', since dialect "
                f"{build.dialect.name} does not read files at any place"
            )
        wanted = "memory"
    wraps = [plane.wrap for plane in build.scene.planes]
    build.windows = windows_of(build.pieces, wraps, build.size, wanted)
    build.planner = make_planner(build)
    if build.together:
        return  # a program of several scenes draws everything in every picture
    turning = any(build.planner.turning)
    if turning and build.target.redraw == "changes":
        raise ProjectError(
            f"target {build.target.name}: redraw: got 'changes'; must be 'everything' or 'auto' for scene "
            f"{build.scene.name}, in which tiles take turns"
        )
    if not turning and can_move(
        build.target, build.machine.name, build.dialect.name, build.scheme, build.abilities
    ):
        numbered = any("{page}" in build.dialect.words.get(word, "") for word in ("begin_frame", "end_frame"))
        abilities = build.abilities if numbered else replace(build.abilities, pages=1)
        moving = make_planner(build, abilities, True)
        prices = build.machine.costs_in(build.mode.name)
        if build.target.redraw == "changes" or is_cheaper(moving, build.planner, prices, build.scene):
            build.changes, build.abilities, build.planner = True, abilities, moving


def make_planner(build: Build, abilities: Abilities | None = None, changes: bool = False) -> DrawPlanner:
    """Return a planner that draws everything in each picture, or only what changed."""
    return DrawPlanner(
        build.project,
        build.scene,
        build.cut_art,
        build.pieces,
        build.scheme,
        abilities or build.abilities,
        build.size,
        build.looks,
        bordered=needs_border(build.scene, build.view, build.screen),
        screen=build.screen,
        changes=changes,
        windows=build.windows,
    )

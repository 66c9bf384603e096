"""The first stages of a build: what the target names, motion, art, colours and pieces."""

from dataclasses import replace
from pathlib import Path

import numpy as np

from scenekit.building.state import Build
from scenekit.chosen import choose_for
from scenekit.colour.depth import parse as parse_depth
from scenekit.colour.dither import Dither
from scenekit.colour.given import colours_of_file
from scenekit.errors import ProjectError
from scenekit.images.art import load_art
from scenekit.images.flat import read_picture
from scenekit.images.moving_colours import moving_colour_findings
from scenekit.images.picture import Picture
from scenekit.images.reduced import MOST_ENTRIES, ReducedArt, reduce_art
from scenekit.model.palette import Colour
from scenekit.model.store import inside
from scenekit.motion.expand import expand_project
from scenekit.plan.schemes import (
    PAGE,
    allowed_flips,
)
from scenekit.tables.pieces import EMPTY, gather_pieces, restored
from scenekit.tables.tiling import Tiling, tile_planes
from scenekit.tiles.flags import flag_maps
from scenekit.tiles.turning import first_pictures, project_turning

LARGEST_KEPT_BYTES = 1 << 24
"""Larger picture files are read each time."""


def find_target(build: Build) -> None:
    """Look up machine, display mode and dialect, and what they can do together."""
    chosen = choose_for(build.project, build.scene, build.target, build.together)
    build.machine, build.mode, build.dialect = chosen.machine, chosen.mode, chosen.dialect
    build.abilities, build.scheme = chosen.abilities, chosen.scheme


def expand_motion(build: Build) -> None:
    """Sample shapes of paths, let facings follow, and part planes with bands."""
    build.project = expand_project(build.project)
    build.scene = build.project.scene(build.scene.name)


def read_art(build: Build) -> None:
    """Read every picture of the project."""
    art = load_art(build.project, lambda path, key: _read_picture(build, path, key))
    build.art = replace(art, findings=(*art.findings, *moving_colour_findings(build.project, art)))
    build.findings += build.art.findings


def _read_picture(build: Build, path: Path, key: Colour | None) -> Picture:
    """Read a picture whose file has other bytes than before."""
    if not path.is_file() or path.stat().st_size > LARGEST_KEPT_BYTES:
        return read_picture(path, key=key)
    given = path.read_bytes(), key
    return build.kept.get("picture", (str(path), key), given, lambda: read_picture(path, key=key))


def reduce_colours(build: Build) -> None:
    """Reduce all pictures to the palette of the target."""
    target, mode = build.target, build.mode
    most = mode.entries if mode.indexed else MOST_ENTRIES
    entries = min(most, target.colours or most)
    if target.transparent >= entries:
        raise ProjectError(
            f"target {target.name}: transparent: got {target.transparent}; "
            f"must be 0 to {entries - 1} in this mode"
        )
    for entry, _ in target.reserved:
        if entry >= entries or entry == target.transparent:
            raise ProjectError(
                f"target {target.name}: reserved entry {entry}: must be 0 to {entries - 1} "
                "and not the transparent one"
            )
    art, own = build.art, given_colours(build)
    given = build.project, art.sheets, art.planes, art.maps, target, mode, build.size, own
    build.reduced = build.kept.get("colours", target.name, given, lambda: _reduced(build, entries, own))


def _reduced(build: Build, entries: int, own: tuple[Colour, ...]) -> ReducedArt:
    target = build.target
    reduced = reduce_art(
        build.project,
        build.art,
        entries=entries,
        depth=parse_depth(build.mode.depth),
        transparent=target.transparent,
        given=own,
        reserved=dict(target.reserved),
        dither=Dither(kind=target.dither, strength_percent=target.dither_percent),
        view=build.size,
    )
    turning = project_turning(build.project, build.art.maps)
    if not turning:
        return reduced
    planes = first_pictures(build.project, turning, reduced.planes, reduced.sheets)
    return replace(reduced, turning=turning, planes=planes)


def given_colours(build: Build) -> tuple[Colour, ...]:
    """Return the colours of the palette that the target takes as given, none when it takes none."""
    palette = next((p for p in build.project.palettes if p.name == build.target.palette), None)
    if palette is None:
        return ()
    if not palette.file:
        return palette.colours
    return colours_of_file(inside(build.project.folder, palette.file))


def filled_art(build: Build) -> ReducedArt:
    """Return the art with the backdrop in the holes of the scene's rearmost plane.

    raises   ProjectError: frames of that plane take turns
    """
    art, key = build.reduced, (build.scene.name, build.scene.planes[0].name)
    if art.turning.get(key):
        raise ProjectError(
            f"target {build.target.name}: holes: got 'filled'; must be 'clear' for scene {key[0]}, in which "
            f"frames of plane {key[1]} take turns"
        )
    picture, backdrop = art.planes[key], art.backdrops[build.scene.name]
    filled = np.where(picture == art.transparent, picture.dtype.type(backdrop), picture)
    filled.flags.writeable = False
    return replace(art, planes={**art.planes, key: filled})


def cut_pieces(build: Build) -> None:
    """Cut planes into tiles and trim frames; equal ones are shared, flips too."""
    flips = allowed_flips(build.scheme, build.abilities)
    build.flags = flag_maps(build.project, build.scene, build.art.maps)
    build.cut_art = build.reduced if build.target.holes == "clear" else filled_art(build)
    build.pieces = gather_pieces(
        build.project,
        build.scene,
        build.cut_art,
        _tiling(build, flips),
        flips,
        width_px=build.mode.width_px if build.scheme is PAGE else 0,
        common=build.common,
    )
    for number, plane in enumerate(build.scene.planes):
        whole = build.cut_art.planes[build.scene.name, plane.name].astype(np.int16)
        again = restored(build.pieces, number)
        if not np.array_equal(np.where(again == EMPTY, build.reduced.transparent, again), whole):
            raise AssertionError(f"plane {plane.name}: tiles do not give the picture again")


def _tiling(build: Build, flips: frozenset[int]) -> Tiling:
    """Cut planes into tiles where their entries are others than before."""
    scene, reduced = build.scene, build.cut_art
    planes = [reduced.planes[scene.name, plane.name] for plane in scene.planes]
    turning = (reduced.turning, build.project.sheets, reduced.sheets) if reduced.turning else None
    given = scene.planes, planes, reduced.transparent, turning, flips, build.common
    return build.kept.get(
        "tiles",
        (*build.label, bool(build.common)),
        given,
        lambda: tile_planes(build.project, scene, reduced, flips, build.common),
    )

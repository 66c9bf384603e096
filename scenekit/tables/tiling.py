"""Planes cut into tiles that are shared, and cells of maps whose tiles take turns."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from scenekit.images.reduced import ReducedArt
from scenekit.model.arrays import Indices
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.tables.sharing import EMPTY, share
from scenekit.tiles.planes import CutPlane, cut_plane
from scenekit.tiles.turning import cell_picture


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TurnedTiles:
    """Cells of maps whose tiles take turns: map cell base + n stands for the nth list.

    lists   of each (ticks, cells 4 x tile + flip or EMPTY that take turns, the one at tick 0 first)
    """

    base: int
    lists: tuple[tuple[int, tuple[int, ...]], ...]

    def shown(self, cell: int, tick: int) -> int:
        """Return the cell that a cell from the base on stands for at a tick."""
        ticks, cells = self.lists[cell - self.base]
        return cells[tick // ticks % len(cells)]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Tiling:
    """The planes of a scene as tiles.

    pictures  the different tiles, common ones of several scenes left out
    maps      for each plane, cells 4 x tile + flip in reading order, or EMPTY
    keys      every way in which cells take turns
    turning   cells of the pictures of each of these, in their order
    """

    planes: tuple[CutPlane, ...]
    pictures: tuple[Indices, ...]
    maps: "Maps"
    keys: tuple["TurnKey", ...]
    turning: tuple[int, ...]


Maps = tuple[tuple[int, ...], ...]
TurnKey = tuple[int, int, int, int]
"""Number of a plane, of its turn, the place in it at tick 0, and the flip."""


def tile_planes(
    project: Project,
    scene: Scene,
    art: ReducedArt,
    flips: frozenset[int],
    common: Sequence[Indices] = (),
) -> Tiling:
    """Cut planes into tiles and share what is equal up to the given flips.

    common    pieces that several scenes share: they come first
    """
    planes = tuple(
        cut_plane(art.planes[scene.name, plane.name], plane.tile, art.transparent) for plane in scene.planes
    )
    cells = [cell for plane in planes for cell in plane.cells if cell is not None]
    keys, extra = _turning(project, scene, art)
    drawn_extra = [None if np.all(picture == art.transparent) else picture for picture in extra]
    cells += [picture for picture in drawn_extra if picture is not None]
    pictures, tile_cells = share(cells, flips, len(common), common)
    kept = iter(tile_cells[len(tile_cells) - sum(picture is not None for picture in drawn_extra) :])
    return Tiling(
        planes=planes,
        pictures=pictures,
        maps=_maps(planes, tile_cells),
        keys=tuple(keys),
        turning=tuple(EMPTY if picture is None else next(kept) for picture in drawn_extra),
    )


def with_turns(tiling: Tiling, scene: Scene, art: ReducedArt, pictures: int) -> tuple[Maps, TurnedTiles]:
    """Return maps in which cells whose tiles take turns name their list, and the lists.

    pictures  how many pieces there are
    """
    turns = _turned_tiles(scene, tiling, pictures)
    found = []
    for number, (plane, cut, cells) in enumerate(zip(scene.planes, tiling.planes, tiling.maps, strict=True)):
        changed = list(cells)
        for row, column, turn, place, flip in art.turning.get((scene.name, plane.name), ()):
            changed[row * cut.columns + column] = turns.base + tiling.keys.index((number, turn, place, flip))
        found.append(tuple(changed))
    return tuple(found), turns


def _turning(project: Project, scene: Scene, art: ReducedArt) -> tuple[list[TurnKey], list[Indices]]:
    """Return every way in which cells take turns, and the pictures of each in their order."""
    keys: dict[TurnKey, None] = {}
    for number, plane in enumerate(scene.planes):
        for _, _, turn, place, flip in art.turning.get((scene.name, plane.name), ()):
            keys[number, turn, place, flip] = None
    pictures = []
    for number, turn, place, flip in keys:
        plane = scene.planes[number]
        sheet, frames = project.sheet(plane.sheet), plane.turns[turn].frames
        for name in (*frames[place:], *frames[:place]):
            pictures.append(cell_picture(sheet, art.sheets[plane.sheet], name, flip))
    return list(keys), pictures


def _turned_tiles(scene: Scene, tiling: Tiling, pictures: int) -> TurnedTiles:
    lists, at = [], 0
    for number, turn, _, _ in tiling.keys:
        one = scene.planes[number].turns[turn]
        lists.append((one.ticks, tiling.turning[at : at + len(one.frames)]))
        at += len(one.frames)
    return TurnedTiles(base=4 * pictures, lists=tuple(lists))


def _maps(planes: Sequence[CutPlane], cells: list[int]) -> tuple[tuple[int, ...], ...]:
    drawn = iter(cells)
    return tuple(tuple(EMPTY if cell is None else next(drawn) for cell in plane.cells) for plane in planes)

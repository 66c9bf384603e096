"""Pieces: every different picture that a target draws, shared up to flips, and their packing."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scenekit.images.reduced import ReducedArt
from scenekit.model.arrays import Indices
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.symmetry.flips import flip_picture
from scenekit.tables.framing import add_turned, needed_flips, trim_frames
from scenekit.tables.packing import LARGEST_SIDE_PX, pack, runs_of
from scenekit.tables.sharing import EMPTY, common_pictures, share
from scenekit.tables.tiling import Tiling, TurnedTiles, with_turns
from scenekit.tiles.planes import CutPlane

__all__ = [
    "EMPTY",
    "LARGEST_SIDE_PX",
    "FramePlace",
    "Pieces",
    "TurnedTiles",
    "common_pictures",
    "gather_pieces",
    "pack",
    "restored",
    "runs_of",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class FramePlace:
    """How a frame is drawn: cell = 4 x piece + flip (or EMPTY), and its offset from the pivot."""

    sheet: str
    name: str
    cell: int
    x: int
    y: int
    pivot: tuple[int, int]
    hit_box: tuple[int, int, int, int]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pieces:
    """Every different picture of a scene.

    pictures  (h, w) entries of each piece: common ones of several scenes, tiles (these are `tiles` pieces),
              then frames
    solid     whether a piece has no transparent pixel
    places    (x, y) of each piece in the packed picture, common ones left out
    packed    the packed picture
    maps      for each plane, cells 4 x tile + flip in reading order, or EMPTY
    frames    the frames that the scene's sprites use, in order, then mirrored copies of some
    turned    frame of a mirrored copy by (frame, flip), where the machine cannot mirror so
    """

    pictures: tuple[Indices, ...]
    tiles: int
    solid: tuple[bool, ...]
    places: tuple[tuple[int, int], ...]
    packed: Indices
    planes: tuple[CutPlane, ...]
    maps: tuple[tuple[int, ...], ...]
    frames: tuple[FramePlace, ...]
    turned: dict[tuple[int, int], int]
    turns: TurnedTiles

    def shown_cell(self, cell: int, tick: int) -> int:
        """Return 4 x tile + flip, or EMPTY, that a cell of a map stands for at a tick."""
        return self.turns.shown(cell, tick) if self.turns.lists and cell >= self.turns.base else cell

    def frame_number(self, sheet: str, name: str) -> int:
        """Return the number of a frame."""
        return next(n for n, f in enumerate(self.frames) if (f.sheet, f.name) == (sheet, name))


def gather_pieces(
    project: Project,
    scene: Scene,
    art: ReducedArt,
    tiling: Tiling,
    flips: frozenset[int],
    width_px: int = 0,
    common: Sequence[Indices] = (),
) -> Pieces:
    """Trim frames of a scene, share what is equal up to the given flips, and join them to its tiles.

    width_px  width of the packed picture; 0 chooses one
    common    pieces that several scenes share: they come first, and only the others are packed
    """
    frames, trimmed, offsets = trim_frames(project, scene, art)
    turned = add_turned(needed_flips(project, scene), flips, frames, trimmed, offsets)
    count = len(common) + len(tiling.pictures)
    frame_pieces, frame_cells = share([t for t in trimmed if t is not None], flips, count, common)
    own = (*tiling.pictures, *frame_pieces)
    pictures = (*common, *own)
    places, packed = pack(own, art.transparent, width_px)
    maps, turns = with_turns(tiling, scene, art, len(pictures))
    drawn = iter(frame_cells)
    shown = [EMPTY if t is None else next(drawn) for t in trimmed]
    return Pieces(
        pictures=pictures,
        tiles=count,
        solid=tuple(bool(np.all(picture != art.transparent)) for picture in pictures),
        places=places,
        packed=packed,
        planes=tiling.planes,
        maps=maps,
        frames=tuple(
            FramePlace(
                sheet=sheet,
                name=frame.name,
                cell=cell,
                x=x,
                y=y,
                pivot=frame.pivot,
                hit_box=frame.hit_box if frame.hit_box is not None else (0, 0, 0, 0),
            )
            for (sheet, frame), cell, (x, y) in zip(frames, shown, offsets, strict=True)
        ),
        turned=turned,
        turns=turns,
    )


def restored(pieces: Pieces, plane: int) -> NDArray[np.int16]:
    """Return the picture of a plane put together again from its pieces and map (a self-check)."""
    cut = pieces.planes[plane]
    rows = []
    for row in range(cut.rows):
        height = cut.last_h_px if row == cut.rows - 1 else cut.tile_h_px
        parts = []
        for column in range(cut.columns):
            width = cut.last_w_px if column == cut.columns - 1 else cut.tile_w_px
            cell = pieces.shown_cell(pieces.maps[plane][row * cut.columns + column], 0)
            if cell == EMPTY:
                parts.append(np.full((height, width), -1, dtype=np.int16))
            else:
                parts.append(flip_picture(pieces.pictures[cell // 4], cell % 4).astype(np.int16))
        rows.append(np.hstack(parts))
    return np.vstack(rows)

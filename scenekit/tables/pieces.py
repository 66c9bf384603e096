"""Pieces: every different picture that a target draws, shared up to flips, and their packing."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scenekit.errors import EncodingError
from scenekit.images.reduced import ReducedArt
from scenekit.model.arrays import Indices, freeze
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.model.sprites import Frame
from scenekit.symmetry.flips import find_equal, flip_picture
from scenekit.tiles.planes import CutPlane, cut_plane
from scenekit.tiles.turning import cell_picture

EMPTY = -1
LARGEST_SIDE_PX = 4096


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
    flips: frozenset[int],
    width_px: int = 0,
    common: Sequence[Indices] = (),
) -> Pieces:
    """Cut planes and trim frames of a scene, and share what is equal up to the given flips.

    width_px  width of the packed picture; 0 chooses one
    common    pieces that several scenes share: they come first, and only the others are packed
    """
    planes = tuple(
        cut_plane(art.planes[scene.name, plane.name], plane.tile, art.transparent) for plane in scene.planes
    )
    cells = [cell for plane in planes for cell in plane.cells if cell is not None]
    keys, extra = _turning(project, scene, art)
    drawn_extra = [None if np.all(picture == art.transparent) else picture for picture in extra]
    cells += [picture for picture in drawn_extra if picture is not None]
    tile_pieces, tile_cells = _share(cells, flips, len(common), common)
    frames, trimmed, offsets = _trim_frames(project, scene, art)
    turned = _add_turned(needed_flips(project, scene), flips, frames, trimmed, offsets)
    count = len(common) + len(tile_pieces)
    frame_pieces, frame_cells = _share([t for t in trimmed if t is not None], flips, count, common)
    own = (*tile_pieces, *frame_pieces)
    pictures = (*common, *own)
    places, packed = pack(own, art.transparent, width_px)
    kept = iter(tile_cells[len(tile_cells) - sum(picture is not None for picture in drawn_extra) :])
    turns = _turned_tiles(
        scene, keys, [EMPTY if p is None else next(kept) for p in drawn_extra], len(pictures)
    )
    drawn = iter(frame_cells)
    shown = [EMPTY if t is None else next(drawn) for t in trimmed]
    return Pieces(
        pictures=pictures,
        tiles=count,
        solid=tuple(bool(np.all(picture != art.transparent)) for picture in pictures),
        places=places,
        packed=packed,
        planes=planes,
        maps=_with_turns(_maps(planes, tile_cells), scene, art, planes, keys, turns.base),
        frames=tuple(
            FramePlace(
                sheet=sheet,
                name=frame.name,
                cell=cell,
                x=x,
                y=y,
                pivot=frame.pivot,
                hit_box=_hit(frame.hit_box),
            )
            for (sheet, frame), cell, (x, y) in zip(frames, shown, offsets, strict=True)
        ),
        turned=turned,
        turns=turns,
    )


TurnKey = tuple[int, int, int, int]
"""Number of a plane, of its turn, the place in it at tick 0, and the flip."""


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


def _turned_tiles(scene: Scene, keys: list[TurnKey], cells: list[int], pictures: int) -> TurnedTiles:
    lists, at = [], 0
    for number, turn, _, _ in keys:
        one = scene.planes[number].turns[turn]
        lists.append((one.ticks, tuple(cells[at : at + len(one.frames)])))
        at += len(one.frames)
    return TurnedTiles(base=4 * pictures, lists=tuple(lists))


def _with_turns(
    maps: tuple[tuple[int, ...], ...],
    scene: Scene,
    art: ReducedArt,
    planes: Sequence[CutPlane],
    keys: list[TurnKey],
    base: int,
) -> tuple[tuple[int, ...], ...]:
    """Return maps in which cells whose tiles take turns name their list."""
    found = []
    for number, (plane, cut, cells) in enumerate(zip(scene.planes, planes, maps, strict=True)):
        changed = list(cells)
        for row, column, turn, place, flip in art.turning.get((scene.name, plane.name), ()):
            changed[row * cut.columns + column] = base + keys.index((number, turn, place, flip))
        found.append(tuple(changed))
    return tuple(found)


def needed_flips(project: Project, scene: Scene) -> list[tuple[str, str, int]]:
    """Return (sheet, frame, flip) of everything that the sprites of a scene may show mirrored, in order."""
    needed: dict[tuple[str, str, int], None] = {}
    for name in dict.fromkeys(placed.sprite for placed in scene.placed):
        sprite = project.sprite(name)
        for animation in sprite.animations:
            for step in animation.steps:
                for facing in sprite.facings:
                    own = animation.name in dict(facing.own).values()
                    for flip in {step.flip, step.flip ^ facing.flip} if own else {step.flip ^ facing.flip}:
                        if flip:
                            needed[animation.sheet, step.frame, flip] = None
    return sorted(needed)


def _add_turned(
    needed: Sequence[tuple[str, str, int]],
    flips: frozenset[int],
    frames: list[tuple[str, Frame]],
    trimmed: list[Indices | None],
    offsets: list[tuple[int, int]],
) -> dict[tuple[int, int], int]:
    """Add a mirrored copy of each frame that must be mirrored in a way that the machine does not have."""
    numbers = {(sheet, frame.name): n for n, (sheet, frame) in enumerate(frames)}
    turned: dict[tuple[int, int], int] = {}
    for sheet, name, flip in needed:
        number = numbers[sheet, name]
        picture = trimmed[number]
        if flip in flips or picture is None:
            continue
        turned[number, flip] = len(frames)
        x, y = offsets[number]
        h, w = picture.shape
        frames.append(frames[number])
        trimmed.append(np.ascontiguousarray(flip_picture(picture, flip)))
        offsets.append((-(x + w - 1) if flip & 1 else x, -(y + h - 1) if flip & 2 else y))
    return turned


def _hit(box: tuple[int, int, int, int] | None) -> tuple[int, int, int, int]:
    return box if box is not None else (0, 0, 0, 0)


def _share(
    arrays: Sequence[Indices], flips: frozenset[int], base: int, common: Sequence[Indices] = ()
) -> tuple[tuple[Indices, ...], list[int]]:
    """Return the different pictures that are not common, and for each array 4 x its number + flip.

    base     number of the first of them; common ones have the numbers from 0 on
    """
    found = find_equal([*common, *arrays], flips)[len(common) :]
    numbers: dict[int, int] = {number: number for number in range(len(common))}
    kept: list[Indices] = []
    cells = []
    for first, flip in found:
        if first not in numbers:
            numbers[first] = base + len(kept)
            kept.append(freeze(arrays[first - len(common)]))
        cells.append(4 * numbers[first] + flip)
    return tuple(kept), cells


def common_pictures(scenes: Sequence[Sequence[Indices]], flips: frozenset[int]) -> tuple[Indices, ...]:
    """Return the pictures that stand in two scenes or more up to the given flips, in order of first use."""
    arrays = [picture for pictures in scenes for picture in pictures]
    owner = [number for number, pictures in enumerate(scenes) for _ in pictures]
    used: dict[int, set[int]] = {}
    for place, (first, _) in enumerate(find_equal(arrays, flips)):
        used.setdefault(first, set()).add(owner[place])
    return tuple(freeze(arrays[first]) for first, owners in used.items() if len(owners) > 1)


def _maps(planes: Sequence[CutPlane], cells: list[int]) -> tuple[tuple[int, ...], ...]:
    drawn = iter(cells)
    return tuple(tuple(EMPTY if cell is None else next(drawn) for cell in plane.cells) for plane in planes)


Trimmed = tuple[list[tuple[str, Frame]], list[Indices | None], list[tuple[int, int]]]


def _trim_frames(project: Project, scene: Scene, art: ReducedArt) -> Trimmed:
    """Return the frames that a scene uses, each trimmed to what is drawn, and its offset from the pivot."""
    frames: list[tuple[str, Frame]] = []
    trimmed: list[Indices | None] = []
    offsets: list[tuple[int, int]] = []
    for sheet, frame in used_frames(project, scene):
        x, y, w, h = frame.box
        picture = art.sheets[sheet][y : y + h, x : x + w]
        drawn = picture != art.transparent
        rows, columns = np.flatnonzero(drawn.any(axis=1)), np.flatnonzero(drawn.any(axis=0))
        frames.append((sheet, frame))
        if not len(rows):
            trimmed.append(None)
            offsets.append((0, 0))
            continue
        top, left = int(rows[0]), int(columns[0])
        trimmed.append(picture[top : int(rows[-1]) + 1, left : int(columns[-1]) + 1])
        offsets.append((left - frame.pivot[0], top - frame.pivot[1]))
    return frames, trimmed, offsets


def used_frames(project: Project, scene: Scene) -> list[tuple[str, Frame]]:
    """Return (sheet, frame) of every frame that the sprites of a scene show, in document order."""
    wanted = {
        (animation.sheet, step.frame)
        for name in dict.fromkeys(placed.sprite for placed in scene.placed)
        for animation in project.sprite(name).animations
        for step in animation.steps
    }
    wanted |= panel_frames(project, scene)
    return [(s.name, f) for s in project.sheets for f in s.frames if (s.name, f.name) in wanted]


def panel_frames(project: Project, scene: Scene) -> set[tuple[str, str]]:
    """Return (sheet, frame name) of every frame that a scene's panel shows: icons, pictures, whole fonts."""
    wanted: set[tuple[str, str]] = set()
    for item in scene.panel.items if scene.panel is not None else ():
        wanted |= {(item.sheet, name) for name in (item.lit, item.dark) if name}
        for font in project.fonts:
            if font.name == item.font:
                frames = project.sheet(font.sheet).frames[: len(font.characters)]
                wanted |= {(font.sheet, frame.name) for frame in frames}
    return wanted


def pack(
    pictures: Sequence[Indices], transparent: int, width_px: int = 0
) -> tuple[tuple[tuple[int, int], ...], Indices]:
    """Place pictures on shelves, tallest first, and return their places and the packed picture.

    width_px  of the packed picture; 0 chooses one
    raises   EncodingError: more than a picture of LARGEST_SIDE_PX square holds
    """
    if not pictures:
        return (), freeze(np.full((1, 1), transparent, dtype=np.uint8))
    area = sum(picture.size for picture in pictures)
    widest = max(picture.shape[1] for picture in pictures)
    width = width_px or max(widest, min(LARGEST_SIDE_PX, 1 << max(4, (int(area**0.5) - 1).bit_length())))
    order = sorted(range(len(pictures)), key=lambda n: (-pictures[n].shape[0], -pictures[n].shape[1], n))
    places: list[tuple[int, int]] = [(0, 0)] * len(pictures)
    x = y = shelf = 0
    for number in order:
        h, w = pictures[number].shape
        if x + w > width:
            x, y, shelf = 0, y + shelf, 0
        places[number] = (x, y)
        x, shelf = x + w, max(shelf, h)
    height = y + shelf
    if height > LARGEST_SIDE_PX:
        raise EncodingError(
            f"art: {width} x {height} px packed; at most {LARGEST_SIDE_PX} px high; use fewer frames"
        )
    packed = np.full((height, width), transparent, dtype=np.uint8)
    for (left, top), picture in zip(places, pictures, strict=True):
        packed[top : top + picture.shape[0], left : left + picture.shape[1]] = picture
    return tuple(places), freeze(packed)


def runs_of(picture: Indices, transparent: int) -> list[tuple[int, int, int, int]]:
    """Return the horizontal runs of one colour of a picture as (x, y, length, entry), row by row."""
    padded = np.full((picture.shape[0], picture.shape[1] + 2), -1, dtype=np.int16)
    padded[:, 1:-1] = picture
    starts = padded[:, 1:] != padded[:, :-1]
    ys, edges = np.nonzero(starts)
    runs = []
    for row, left, right in zip(ys[:-1], edges[:-1], edges[1:], strict=True):
        if right > left:
            entry = int(picture[row, left])
            if entry != transparent:
                runs.append((int(left), int(row), int(right - left), entry))
    return runs


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

"""Compares what a program drew and said with what the reference says."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from scenekit.images.reduced import ReducedArt
from scenekit.model.arrays import Pixels
from scenekit.model.project import Project
from scenekit.model.scene import Placed, Plane, Scene
from scenekit.motion.covers import turned_at, turnover_of
from scenekit.motion.looks import look_at
from scenekit.motion.parallax import camera_at, shown_scroll
from scenekit.motion.paths import place_at
from scenekit.motion.shown import Shown, sprite_at
from scenekit.motion.waking import own_tick, woken_at
from scenekit.sprites.outline import Outline, outline, touch
from scenekit.sprites.panels import values_at
from scenekit.tables.bundle import Bundle
from scenekit.tiles.flags import FlagMap

GAP_PX = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class TickResult:
    """How a screen compares: pixels in all, how many differ, and the box around those.

    scene   its scene, where several are proved together
    """

    tick: int
    pixels: int
    different: int
    box: tuple[int, int, int, int] | None
    scene: str = ""

    @property
    def where(self) -> str:
        """Return which screen it is, in words."""
        return f"{self.scene}, tick {self.tick}" if self.scene else f"tick {self.tick}"

    def as_dict(self) -> dict[str, object]:
        """Return the result as plain JSON data."""
        of_scene: dict[str, object] = {"scene": self.scene} if self.scene else {}
        counts = {"tick": self.tick, "pixels": self.pixels, "different": self.different}
        return {**of_scene, **counts, "box": self.box}


def compare_screen(tick: int, wanted: Pixels, got: Pixels) -> TickResult:
    """Compare two (H, W, 3) pictures; a picture of another size differs in every pixel."""
    height, width = wanted.shape[:2]
    if wanted.shape != got.shape:
        return TickResult(
            tick=tick, pixels=height * width, different=height * width, box=(0, 0, width, height)
        )
    rows, columns = np.nonzero((wanted != got).any(axis=-1))
    if not len(rows):
        return TickResult(tick=tick, pixels=height * width, different=0, box=None)
    left, top = int(columns.min()), int(rows.min())
    box = (left, top, int(columns.max()) - left + 1, int(rows.max()) - top + 1)
    return TickResult(tick=tick, pixels=height * width, different=len(rows), box=box)


def difference_picture(wanted: Pixels, got: Pixels) -> Pixels:
    """Return the reference, the screen, and where they differ, side by side, (H, W, 3) uint8."""
    height = max(wanted.shape[0], got.shape[0])
    panels = []
    for picture in (wanted, got, marked_picture(wanted, got)):
        panel = np.full((height, picture.shape[1] + GAP_PX, 3), 64, dtype=np.uint8)
        panel[: picture.shape[0], : picture.shape[1]] = picture
        panels.append(panel)
    return np.hstack(panels)[:, :-GAP_PX]


def marked_picture(wanted: Pixels, got: Pixels) -> Pixels:
    """Return where two pictures differ, (H, W, 3) uint8.

    Equal pixels are a dim grey of the reference, different ones are white on a dark frame of three pixels,
    so that a single one is found.
    """
    if wanted.shape == got.shape:
        wrong = (wanted != got).any(axis=-1)
    else:
        wrong = np.ones(wanted.shape[:2], dtype=bool)
    grey = (wanted.astype(np.uint16).sum(axis=-1) // 6).astype(np.uint8)
    marked = np.repeat(grey[..., None], 3, axis=-1)
    marked[_grown(wrong, 3)] = 0
    marked[wrong] = 255
    return marked


def _grown(mask: NDArray[np.bool_], by_px: int) -> NDArray[np.bool_]:
    padded = np.pad(mask, by_px)
    grown = np.zeros_like(mask)
    height, width = mask.shape
    for y in range(2 * by_px + 1):
        for x in range(2 * by_px + 1):
            grown |= padded[y : y + height, x : x + width]
    return grown


def table_values(bundle: Bundle) -> list[int]:
    """Return every table's values in the order in which a program reports them."""
    return [value for table in bundle.tables for value in table.values]


def state_values(
    project: Project,
    scene: Scene,
    art: ReducedArt,
    bundle: Bundle,
    frames: dict[tuple[str, str], int],
    flags: Sequence[FlagMap | None],
    tick: int,
) -> list[int]:
    """Return what a program must report of a tick, from the reference's own arithmetic."""
    camera = camera_at(scene, tick)
    values = [tick, *camera]
    for plane in scene.planes:
        values += shown_scroll(scene, plane, tick, camera)
    for placed in scene.placed:
        own = own_tick(scene, placed, tick)
        place = place_at(placed.path, placed.at, own)
        shown = sprite_at(project, scene, placed, tick)
        flip = look_at(project.sprite(placed.sprite), placed, own).flip
        values += [place.x, place.y, frames[shown.sheet, shown.frame], flip]
    values += _collisions(project, scene, flags, tick)
    view = dict(bundle.variables)
    if any(table.name == "span_rows" for table in bundle.tables):
        values += row_touches(project, scene, art, tick)
    if "wake_groups" in view:
        values += [int(woken_at(scene, placed, tick) is not None) for placed in scene.placed]
    for transition in scene.transitions:
        turns = turnover_of(transition, (view["view_w"], view["view_h"]), scene.name)
        values.append(turned_at(transition, turns, tick))
    values += values_at(project, scene, tick).values()
    palette = art.palette_at(scene.name, tick)
    for entry in bundle.table("moving_entry").values:
        values += [int(channel) for channel in palette[entry]]
    return values


def hit_box_at(project: Project, shown: Shown) -> tuple[int, int, int, int]:
    """Return the hit box of a shown sprite in the view, mirrored with its flip; width 0 when it has none."""
    frame = project.sheet(shown.sheet).frame(shown.frame)
    assert frame is not None
    if frame.hit_box is None:
        # What the program reports of a frame without one: an empty box at the pivot.
        return shown.x + (shown.flip & 1), shown.y + (shown.flip >> 1 & 1), 0, 0
    x, y = frame.hit_box[0] - frame.pivot[0], frame.hit_box[1] - frame.pivot[1]
    w, h = frame.hit_box[2:]
    left = shown.x - x - w + 1 if shown.flip & 1 else shown.x + x
    top = shown.y - y - h + 1 if shown.flip & 2 else shown.y + y
    return left, top, w, h


def _collisions(project: Project, scene: Scene, flags: Sequence[FlagMap | None], tick: int) -> list[int]:
    """Return what a program must report of hit boxes, touching sprites and the cells that they stand on."""
    values: list[int] = []
    before: tuple[int, int, int, int] | None = None
    for placed in scene.placed:
        box = hit_box_at(project, sprite_at(project, scene, placed, tick))
        if woken_at(scene, placed, tick) is None:
            box = (*box[:2], 0, box[3])
        values += box
        if before is not None:
            values.append(int(overlap(before, box)))
        before = box
        if placed.moves_with != "screen":
            place = place_at(placed.path, placed.at, own_tick(scene, placed, tick))
            number = scene.plane_number(placed.moves_with)
            values.append(_flags_at(scene.planes[number], flags[number], place.x, place.y + 1))
    return values


def row_touches(project: Project, scene: Scene, art: ReducedArt, tick: int) -> list[int]:
    """Return what a program must report of neighbours' drawn rows: 0 where a sprite does not ask for rows."""
    spanned = {
        (animation.sheet, step.frame)
        for placed in scene.placed
        for animation in project.sprite(placed.sprite).animations
        for step in animation.steps
        if project.sprite(placed.sprite).spans
    }
    found = [_rows_at(project, scene, art, spanned, placed, tick) for placed in scene.placed]
    return [
        int(a is not None and b is not None and touch(a[0], b[0], (b[1][0] - a[1][0], b[1][1] - a[1][1])))
        for a, b in pairwise(found)
    ]


def _rows_at(
    project: Project,
    scene: Scene,
    art: ReducedArt,
    spanned: set[tuple[str, str]],
    placed: Placed,
    tick: int,
) -> tuple[Outline, tuple[int, int]] | None:
    """Return the outline of a placed sprite and where its frame's top left corner is in the view."""
    shown = sprite_at(project, scene, placed, tick)
    frame = project.sheet(shown.sheet).frame(shown.frame)
    if frame is None or (shown.sheet, shown.frame) not in spanned or woken_at(scene, placed, tick) is None:
        return None
    x, y, w, h = frame.box
    drawn = art.sheets[shown.sheet][y : y + h, x : x + w] != art.transparent
    pivot_x = w - 1 - frame.pivot[0] if shown.flip & 1 else frame.pivot[0]
    pivot_y = h - 1 - frame.pivot[1] if shown.flip & 2 else frame.pivot[1]
    return outline(drawn).flipped(shown.flip), (shown.x - pivot_x, shown.y - pivot_y)


def overlap(a: tuple[int, int, int, int], b: tuple[int, int, int, int]) -> bool:
    """Say whether two boxes (x, y, w, h) share a pixel."""
    wide = min(a[0] + a[2], b[0] + b[2]) - max(a[0], b[0])
    high = min(a[1] + a[3], b[1] + b[3]) - max(a[1], b[1])
    return a[2] > 0 and b[2] > 0 and wide > 0 and high > 0


def _flags_at(plane: Plane, flags: FlagMap | None, x: int, y: int) -> int:
    if flags is None:
        return 0
    width, height = len(flags.cells[0]) * flags.size[0], len(flags.cells) * flags.size[1]
    x = x % width if plane.wrap[0] else x
    y = y % height if plane.wrap[1] else y
    return flags.at(x, y) if 0 <= x < width and 0 <= y < height else 0

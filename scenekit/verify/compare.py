"""Compares what a program drew and said with what the reference says."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scenekit.images.reduced import ReducedArt
from scenekit.model.arrays import Pixels
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.motion.covers import turned_at, turnover_of
from scenekit.motion.parallax import camera_at, scroll_at
from scenekit.motion.paths import look_at, place_at
from scenekit.motion.shown import sprite_at
from scenekit.sprites.panels import values_at
from scenekit.tables.bundle import Bundle

GAP_PX = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class TickResult:
    """How a screen compares: pixels in all, how many differ, and the box around those."""

    tick: int
    pixels: int
    different: int
    box: tuple[int, int, int, int] | None

    def as_dict(self) -> dict[str, object]:
        """Return the result as plain JSON data."""
        return {"tick": self.tick, "pixels": self.pixels, "different": self.different, "box": self.box}


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
    """Return the reference, the screen, and where they differ, side by side, (H, W, 3) uint8.

    In the third picture equal pixels are a dim grey of the reference, different ones are white on
    a dark frame of three pixels, so that a single one is found.
    """
    height = max(wanted.shape[0], got.shape[0])
    if wanted.shape == got.shape:
        wrong = (wanted != got).any(axis=-1)
    else:
        wrong = np.ones(wanted.shape[:2], dtype=bool)
    grey = (wanted.astype(np.uint16).sum(axis=-1) // 6).astype(np.uint8)
    marked = np.repeat(grey[..., None], 3, axis=-1)
    marked[_grown(wrong, 3)] = 0
    marked[wrong] = 255
    panels = []
    for picture in (wanted, got, marked):
        panel = np.full((height, picture.shape[1] + GAP_PX, 3), 64, dtype=np.uint8)
        panel[: picture.shape[0], : picture.shape[1]] = picture
        panels.append(panel)
    return np.hstack(panels)[:, :-GAP_PX]


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
    tick: int,
) -> list[int]:
    """Return what a program must report of a tick, from the reference's own arithmetic."""
    camera = camera_at(scene, tick)
    values = [tick, *camera]
    for plane in scene.planes:
        values += scroll_at(plane, camera, tick)
    for placed in scene.placed:
        place = place_at(placed.path, placed.at, tick)
        shown = sprite_at(project, scene, placed, tick)
        flip = look_at(project.sprite(placed.sprite), placed, tick).flip
        values += [place.x, place.y, frames[shown.sheet, shown.frame], flip]
    view = dict(bundle.variables)
    for transition in scene.transitions:
        turns = turnover_of(transition, (view["view_w"], view["view_h"]), scene.name)
        values.append(turned_at(transition, turns, tick))
    values += values_at(project, scene, tick).values()
    palette = art.palette_at(scene.name, tick)
    for entry in bundle.table("moving_entry").values:
        values += [int(channel) for channel in palette[entry]]
    return values

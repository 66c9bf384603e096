"""How much each picture counts in the choice of colours: by its share of the screen."""

from collections.abc import Mapping
from math import isqrt

import numpy as np

from scenekit.colour.depth import OPAQUE_ALPHA
from scenekit.colour.histogram import Mask
from scenekit.images.art import Art
from scenekit.model.arrays import Pixels
from scenekit.model.project import Project
from scenekit.model.scene import Plane
from scenekit.model.sprites import Sheet
from scenekit.model.usage import frames_in_use

UNIT = 64
"""Weight of a picture each of whose pixels is on screen once."""


def screen_weights(project: Project, art: Art, view: tuple[int, int]) -> tuple[int, ...]:
    """Return a weight of at least 1 for each sheet, then for each plane, by pixels on screen per pixel drawn.

    It is the square root of that share, so that small bright things keep colours of their own.
    view   (width, height) in pixels
    """
    shown = shown_sheet_pixels(project)
    used = frames_in_use(project)
    weights = []
    for name, pixels in art.sheets.items():
        frames = [frame for frame in project.sheet(name).frames if (name, frame.name) in used]
        area = sum(frame.box[2] * frame.box[3] for frame in frames) or pixels.shape[0] * pixels.shape[1]
        weights.append(_weight(shown.get(name, area), area))
    planes = {(scene.name, plane.name): plane for scene in project.scenes for plane in scene.planes}
    for key, pixels in art.planes.items():
        height, width = pixels.shape[:2]
        weights.append(_weight(_plane_pixels(planes[key], (width, height), view), width * height))
    return tuple(weights)


def _weight(shown_px: int, area_px: int) -> int:
    return max(1, min(8 * UNIT, isqrt(shown_px * UNIT * UNIT // max(1, area_px))))


def _plane_pixels(plane: Plane, size: tuple[int, int], view: tuple[int, int]) -> int:
    """Return how many pixels of a plane the view shows at most."""
    sides = [view[n] if plane.wrap[n] else min(view[n], size[n]) for n in (0, 1)]
    return sides[0] * sides[1]


def shown_sheet_pixels(project: Project) -> Mapping[str, int]:
    """Return for each sheet the pixels of one mean frame for each sprite of it, as often as it is placed.

    A sprite that stands nowhere yet counts once.
    """
    totals: dict[str, int] = {}
    areas = {(s.name, f.name): f.box[2] * f.box[3] for s in project.sheets for f in s.frames}
    placed = [p.sprite for scene in project.scenes for p in scene.placed]
    for name in [*placed, *(sprite.name for sprite in project.sprites if sprite.name not in placed)]:
        animations = project.sprite(name).animations
        steps = [(animation.sheet, step.frame) for animation in animations for step in animation.steps]
        for sheet in dict.fromkeys(sheet for sheet, _ in steps):
            own = [areas[step] for step in steps if step[0] == sheet]
            totals[sheet] = totals.get(sheet, 0) + sum(own) // len(steps)
    return totals


def seen_parts(project: Project, art: Art) -> tuple[Mask | None, ...]:
    """Return what counts of each sheet, then of each plane: None for all of it, else (H, W) bool.

    Of a sheet only frames in use count: what nothing shows shall not take entries from what is on screen.
    Where the project shows nothing yet, all of it counts.
    """
    used = frames_in_use(project)
    if not used and not art.planes:
        return (None,) * len(art.sheets)
    sheets = (_seen(project.sheet(name), pixels, used) for name, pixels in art.sheets.items())
    return (*sheets, *(None for _ in art.planes))


def _seen(sheet: Sheet, pixels: Pixels, used: set[tuple[str, str]]) -> Mask | None:
    seen = np.zeros(pixels.shape[:2], dtype=np.bool_)
    for frame in sheet.frames:
        if (sheet.name, frame.name) in used:
            x, y, w, h = frame.box
            seen[y : y + h, x : x + w] = True
    return None if seen[pixels[..., 3] >= OPAQUE_ALPHA].all() else seen

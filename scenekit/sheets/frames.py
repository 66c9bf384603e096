"""Makes a project's frames of a cut: names, pivots on the foot line, hit boxes."""

from scenekit.errors import SliceError
from scenekit.model.arrays import Pixels
from scenekit.model.fields import NAME_PATTERN
from scenekit.model.sprites import Frame
from scenekit.slicing.art import art_mask
from scenekit.slicing.cut import Cut, Pair
from scenekit.sprites.outline import Outline, outline
from scenekit.sprites.pivots import foot_line_pivots
from scenekit.sprites.trim import default_hit_box


def frames_of(pixels: Pixels, cut: Cut, shrink: Pair = (0, 0)) -> tuple[Frame, ...]:
    """Return frames; those of one size share a pivot, so that nothing jumps.

    pixels   (H, W, 4) uint8, the sheet that was cut
    shrink   (x, y) pixels taken off each side of the drawn area for the hit box
    raises   SliceError: a name that a project cannot hold
    """
    for found in cut.frames:
        if not NAME_PATTERN.fullmatch(found.name):
            raise SliceError(
                f"frame {found.name!r}: in a project names are letters, digits, - and _, "
                "at most 40, and begin with a letter or digit"
            )
    return tuple(
        Frame(
            name=found.name,
            box=found.box,
            pivot=pivot if found.pivot is None else found.pivot,
            hit_box=default_hit_box(found.box, found.content, shrink),
        )
        for found, pivot in zip(cut.frames, pivots_of(pixels, cut), strict=True)
    )


def pivots_of(pixels: Pixels, cut: Cut) -> tuple[Pair, ...]:
    """Return a pivot for each frame of a cut; cells of a grid share one, also those cut off by an edge."""
    mask = art_mask(pixels, cut.background.colours)
    boxes = [frame.box for frame in cut.frames]
    own = foot_line_pivots(mask, boxes)
    whole = [box for box in boxes if cut.grid is not None and box[2:] == cut.grid.cell]
    if cut.grid is None or len(whole) in (0, len(boxes)):
        return own
    shared = foot_line_pivots(mask, whole)[0]
    starts = [{box[axis] for box in whole} for axis in (0, 1)]
    return tuple(
        shared if box in whole or (box[0] in starts[0] or box[1] in starts[1]) else pivot
        for box, pivot in zip(boxes, own, strict=True)
    )


def outlines_of(pixels: Pixels, cut: Cut) -> tuple[Outline, ...]:
    """Return the outline of each frame of a cut as row spans, from the top left of its box.

    pixels   (H, W, 4) uint8, the sheet that was cut
    """
    mask = art_mask(pixels, cut.background.colours)
    return tuple(outline(mask[y : y + h, x : x + w]) for x, y, w, h in (frame.box for frame in cut.frames))

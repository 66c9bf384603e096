"""What a program must remember of each page to draw only what changed."""

from collections.abc import Mapping, Sequence

import numpy as np

from scenekit.model.arrays import Indices
from scenekit.model.scene import Scene
from scenekit.routines.language import Table

Sizes = tuple[tuple[str, int], ...]
PER_SPRITE = ("drawn_look", "drawn_piece", "drawn_flip", "drawn_x", "drawn_y", "drawn_w", "drawn_h")


Box = tuple[int, int, int, int]


def inked_box(picture: Indices, transparent: int) -> Box:
    """Return the smallest box around all that a plane's picture shows; no size where it shows nothing."""
    drawn = picture != transparent
    rows, columns = np.flatnonzero(drawn.any(axis=1)), np.flatnonzero(drawn.any(axis=0))
    if not len(rows):
        return 0, 0, 0, 0
    left, top = int(columns[0]), int(rows[0])
    return left, top, int(columns[-1]) + 1 - left, int(rows[-1]) + 1 - top


def inked_tables(inked: Sequence[Box]) -> tuple[Table, ...]:
    """Return the tables of the boxes around what each plane's picture shows."""
    names = ("ink_x", "ink_y", "ink_w", "ink_h")
    remarks = ("box of all that each plane shows, in its picture", "", "width 0 is nothing", "")
    columns = zip(names, zip(*inked, strict=True), remarks, strict=True)
    return tuple(Table(name, values, remark) for name, values, remark in columns)


def change_parts(scene: Scene, pages: int, known: Mapping[str, int], most_boxes: int) -> tuple[Sizes, Sizes]:
    """Return variables and arrays.

    known        variables that the program has already
    most_boxes   boxes of one picture
    """
    corner = {"view_x": 0, "view_y": 0, "mixed": 0, "apart": 0, "most_boxes": most_boxes}
    variables = tuple((name, value) for name, value in corner.items() if name not in known)
    arrays = [(name, max(1, pages * len(scene.placed))) for name in PER_SPRITE]
    arrays += [(name, pages * len(scene.planes)) for name in ("drawn_plane_x", "drawn_plane_y")]
    arrays += [(name, pages) for name in ("page_kept", "page_mixed")]
    arrays += [(name, most_boxes) for name in ("box_x", "box_y", "box_w", "box_h")]
    return variables, tuple(arrays)

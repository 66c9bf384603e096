"""What a program must remember of each page to draw only what changed."""

from collections.abc import Mapping

from scenekit.model.scene import Scene

Sizes = tuple[tuple[str, int], ...]
PER_SPRITE = ("drawn_look", "drawn_piece", "drawn_flip", "drawn_x", "drawn_y", "drawn_w", "drawn_h")


def change_parts(scene: Scene, pages: int, known: Mapping[str, int], most_boxes: int) -> tuple[Sizes, Sizes]:
    """Return variables and arrays.

    known        variables that the program has already
    most_boxes   boxes of one picture
    """
    corner = {"view_x": 0, "view_y": 0, "mixed": 0, "most_boxes": most_boxes}
    variables = tuple((name, value) for name, value in corner.items() if name not in known)
    arrays = [(name, max(1, pages * len(scene.placed))) for name in PER_SPRITE]
    arrays += [(name, pages * len(scene.planes)) for name in ("drawn_plane_x", "drawn_plane_y")]
    arrays += [(name, pages) for name in ("page_kept", "page_mixed")]
    arrays += [(name, most_boxes) for name in ("box_x", "box_y", "box_w", "box_h")]
    return variables, tuple(arrays)

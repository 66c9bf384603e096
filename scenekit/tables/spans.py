"""Rows of frames from their first to their last pixel, for collisions that a box is too coarse for."""

import numpy as np

from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.routines.language import Table
from scenekit.symmetry.flips import flip_picture
from scenekit.tables.pieces import EMPTY, Pieces

Frames = frozenset[tuple[str, str]]


def spanned_frames(project: Project, scene: Scene) -> Frames:
    """Return (sheet, frame) of all frames of the scene's sprites that ask for their rows."""
    return frozenset(
        (animation.sheet, step.frame)
        for name in dict.fromkeys(placed.sprite for placed in scene.placed)
        for sprite in (project.sprite(name),)
        if sprite.spans
        for animation in sprite.animations
        for step in animation.steps
    )


def span_tables(pieces: Pieces, frames: Frames, transparent: int) -> tuple[Table, ...]:
    """Return the tables of rows, counted from the pivot; frames that no sprite asks for have none."""
    copies = set(pieces.turned.values())
    first, rows, top, left, wide = [], [], [], list[int](), list[int]()
    for number, frame in enumerate(pieces.frames):
        first.append(len(left))
        top.append(frame.y)
        if (frame.sheet, frame.name) not in frames or frame.cell == EMPTY or number in copies:
            rows.append(0)
            continue
        picture = flip_picture(pieces.pictures[frame.cell // 4], frame.cell % 4)
        rows.append(picture.shape[0])
        for row in picture != transparent:
            drawn = np.flatnonzero(row)
            left.append(frame.x + int(drawn[0]) if len(drawn) else 0)
            wide.append(int(drawn[-1] - drawn[0]) + 1 if len(drawn) else 0)
    return (
        Table("span_first", tuple(first), "first of each frame's rows"),
        Table("span_rows", tuple(rows), "how many, 0 for frames without"),
        Table("span_top", tuple(top), "the first one's place from the pivot"),
        Table("span_x", tuple(left), "first pixel of each row, from the pivot"),
        Table("span_w", tuple(wide), "pixels to its last one, 0 for an empty row"),
    )

"""The frames that a scene shows, each trimmed to what is drawn, and mirrored copies where they are needed."""

from collections.abc import Sequence

import numpy as np

from scenekit.images.reduced import ReducedArt
from scenekit.model.arrays import Indices
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.model.sprites import Frame
from scenekit.model.usage import used_frames
from scenekit.symmetry.flips import flip_picture

Trimmed = tuple[list[tuple[str, Frame]], list[Indices | None], list[tuple[int, int]]]


def trim_frames(project: Project, scene: Scene, art: ReducedArt) -> Trimmed:
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


def add_turned(
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

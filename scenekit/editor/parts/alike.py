"""Which frames of a sheet show the same picture, as they are or flipped, so that it is stored once."""

from collections.abc import Sequence

import numpy as np

from scenekit.editor.desk import Desk
from scenekit.model.arrays import Pixels
from scenekit.model.sprites import Frame, Sheet

FLIP_WORDS = ("", ", mirrored", ", upside down", ", turned by half")


def alike(pixels: Pixels, frames: Sequence[Frame]) -> dict[str, tuple[str, int]]:
    """Return, for each frame that repeats an earlier one, that one's name and the flip between them."""
    first: dict[tuple[tuple[int, int], bytes], str] = {}
    found: dict[str, tuple[str, int]] = {}
    for frame in frames:
        x, y, w, h = frame.box
        art = pixels[y : y + h, x : x + w].copy()
        art[art[..., 3] == 0] = 0
        if not art[..., 3].any():
            continue
        turned = (art, art[:, ::-1], art[::-1], art[::-1, ::-1])
        keys = [((w, h), np.ascontiguousarray(part).tobytes()) for part in turned]
        flip = next((n for n, key in enumerate(keys) if key in first), None)
        if flip is None:
            first[keys[0]] = frame.name
        else:
            found[frame.name] = (first[keys[flip]], flip)
    return found


def likeness(desk: Desk, sheet: Sheet) -> dict[str, tuple[str, int]]:
    """Return which frames of a sheet repeat others, once its picture is read."""
    pixels = desk.sheet_pixels(sheet.name)
    if pixels is None:
        return {}
    made: dict[str, tuple[str, int]] = desk.remember(
        f"alike {sheet.name}", lambda: alike(pixels, sheet.frames), pixels, sheet.frames
    )
    return made


def like_words(other: tuple[str, int]) -> str:
    """Return a likeness in words."""
    return f"{other[0]}{FLIP_WORDS[other[1]]}"

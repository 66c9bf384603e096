"""One frame of a sheet drawn into a box."""

import math

import numpy as np

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.model.arrays import Pixels
from scenekit.model.sprites import Frame, Sheet

Area = tuple[int, int, int, int]


def draw_frame(
    desk: Desk, sheet: Sheet | None, name: str, box: Box, flip: int = 0, *, trimmed: bool = False
) -> None:
    """Draw a frame as large as it fits a box, in whole pixels where there is room.

    trimmed   without the rows and columns that no frame of its size draws in; what must be made smaller
              is averaged then, so that large art can be told apart in a list
    """
    frame = sheet.frame(name) if sheet is not None else None
    pixels = desk.sheet_pixels(sheet.name) if sheet is not None else None
    if sheet is None or frame is None or pixels is None:
        return
    x, y, w, h = drawn_area(desk, sheet, frame, pixels) if trimmed else frame.box
    scale = min(box[2] / w, box[3] / h)
    scale = math.floor(scale) if scale >= 1 else scale
    size = max(1, round(w * scale)), max(1, round(h * scale))
    if flip or (trimmed and scale < 1):

        def made() -> Pixels:
            part = pixels[y : y + h, x : x + w]
            part = part[:, ::-1] if flip & 1 else part
            part = part[::-1] if flip & 2 else part
            return shrunk(part, size) if trimmed and scale < 1 else part.copy()

        key = f"frame {sheet.name} {name} {flip} {trimmed}"
        number = desk.picture(desk.remember(key, made, pixels, (x, y, w, h), size))
        uv = (0.0, 0.0, 1.0, 1.0)
    else:
        high, wide = pixels.shape[:2]
        uv, number = (x / wide, y / high, (x + w) / wide, (y + h) / high), desk.picture(pixels)
    place = round(box[0] + (box[2] - size[0]) / 2), round(box[1] + (box[3] - size[1]) / 2), *size
    desk.ui.backend.image(number, place, uv)


def drawn_area(desk: Desk, sheet: Sheet, frame: Frame, pixels: Pixels) -> Area:
    """Return the part of a frame's box in which any frame of its size draws."""
    areas = desk.remember(
        f"drawn areas {sheet.name}", lambda: drawn_areas(sheet.frames, pixels), pixels, sheet.frames
    )
    left, top, w, h = areas[frame.box[2:]]
    return frame.box[0] + left, frame.box[1] + top, w, h


def drawn_areas(frames: tuple[Frame, ...], pixels: Pixels) -> dict[tuple[int, int], Area]:
    """Return, for each size of frames, the box in it in which any of them draws; all of it if none does."""
    drawn: dict[tuple[int, int], np.ndarray[tuple[int, int], np.dtype[np.bool_]]] = {}
    for frame in frames:
        x, y, w, h = frame.box
        seen = drawn.setdefault((w, h), np.zeros((h, w), dtype=np.bool_))
        part = pixels[y : y + h, x : x + w, 3] > 0
        seen[: part.shape[0], : part.shape[1]] |= part
    areas: dict[tuple[int, int], Area] = {}
    for (w, h), seen in drawn.items():
        rows, columns = np.flatnonzero(seen.any(axis=1)), np.flatnonzero(seen.any(axis=0))
        if rows.size:
            left, top = int(columns[0]), int(rows[0])
            areas[w, h] = left, top, int(columns[-1]) + 1 - left, int(rows[-1]) + 1 - top
        else:
            areas[w, h] = 0, 0, w, h
    return areas


def shrunk(part: Pixels, size: tuple[int, int]) -> Pixels:
    """Return a picture at a smaller (width, height), each pixel the mean of those that it stands for."""
    from PIL import Image

    whole = Image.fromarray(np.ascontiguousarray(part)).convert("RGBa")
    return np.array(whole.resize(size, Image.Resampling.BOX).convert("RGBA"))

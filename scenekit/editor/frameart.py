"""One frame of a sheet drawn into a box."""

import math

from scenekit.editor.backend import Box
from scenekit.editor.desk import Desk
from scenekit.model.sprites import Sheet


def draw_frame(desk: Desk, sheet: Sheet | None, name: str, box: Box, flip: int = 0) -> None:
    """Draw a frame as large as it fits a box, in whole pixels where there is room."""
    ui = desk.ui
    frame = sheet.frame(name) if sheet is not None else None
    pixels = desk.sheet_pixels(sheet.name) if sheet is not None else None
    if frame is None or pixels is None:
        return
    x, y, w, h = frame.box
    scale = min(box[2] / w, box[3] / h)
    scale = math.floor(scale) if scale >= 1 else scale
    if flip:

        def turned() -> object:
            part = pixels[y : y + h, x : x + w]
            part = part[:, ::-1] if flip & 1 else part
            return (part[::-1] if flip & 2 else part).copy()

        made = desk.remember(f"flip {sheet.name if sheet else ''} {name} {flip}", turned, pixels, frame.box)
        uv, number = (0.0, 0.0, 1.0, 1.0), desk.picture(made)
    else:
        high, wide = pixels.shape[:2]
        uv, number = (x / wide, y / high, (x + w) / wide, (y + h) / high), desk.picture(pixels)
    place = (
        round(box[0] + (box[2] - w * scale) / 2),
        round(box[1] + (box[3] - h * scale) / 2),
        max(1, round(w * scale)),
        max(1, round(h * scale)),
    )
    ui.backend.image(number, place, uv)

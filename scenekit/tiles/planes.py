"""Cuts the picture of a plane into tiles."""

from dataclasses import dataclass

import numpy as np

from scenekit.model.arrays import Indices


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CutPlane:
    """A plane's picture as cells; the last column and row may be narrower.

    cells   rows x columns pictures in reading order, None where nothing is drawn
    """

    width_px: int
    height_px: int
    tile_w_px: int
    tile_h_px: int
    columns: int
    rows: int
    last_w_px: int
    last_h_px: int
    cells: tuple[Indices | None, ...]


def cut_plane(picture: Indices, tile: tuple[int, int], transparent: int) -> CutPlane:
    """Cut a picture into tiles of (width, height) pixels from its top left corner."""
    height, width = picture.shape
    tile_w, tile_h = min(tile[0], width), min(tile[1], height)
    columns, rows = -(-width // tile_w), -(-height // tile_h)
    cells: list[Indices | None] = []
    for row in range(rows):
        for column in range(columns):
            part = picture[row * tile_h : (row + 1) * tile_h, column * tile_w : (column + 1) * tile_w]
            cells.append(None if np.all(part == transparent) else part)
    return CutPlane(
        width_px=width,
        height_px=height,
        tile_w_px=tile_w,
        tile_h_px=tile_h,
        columns=columns,
        rows=rows,
        last_w_px=width - (columns - 1) * tile_w,
        last_h_px=height - (rows - 1) * tile_h,
        cells=tuple(cells),
    )

"""Turns lists of triangles into steps that paint fast: boxes, glyphs, pictures, lines and polygons."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import pygame
from numpy.typing import NDArray

VERTEX = np.dtype([("x", "<f4"), ("y", "<f4"), ("u", "<f4"), ("v", "<f4"), ("colour", "<u4")])

Rgba = tuple[int, int, int, int]
Run = tuple[tuple[float, float, float, float], int, int, int, int]
"""(clip left, top, right, bottom), texture, first index, number of indices, first vertex."""


@dataclass(slots=True, eq=False)
class Texture:
    """Something to draw with: a mask that takes any colour, or a picture; a new version is new content."""

    mask: NDArray[np.uint8] | None = None
    picture: pygame.Surface | None = None
    version: int = 0

    @property
    def size(self) -> tuple[int, int]:
        """Return (width, height)."""
        if self.picture is not None:
            return self.picture.get_size()
        assert self.mask is not None
        return self.mask.shape[1], self.mask.shape[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawList:
    """Triangles of one part of the window, in drawing order."""

    vertices: bytes
    indices: bytes
    runs: tuple[Run, ...]


Step = tuple[pygame.Rect, str, Any]
"""(clip, kind, what the kind needs): one thing to paint."""

Glyph = Callable[[int, Texture, tuple[float, float, float, float], int], pygame.Surface]


Shape = tuple[Any, ...]
"""Whether it is an upright box, whether it is plain, whether it is a quad, its first triangle, its corners on
the window (left, top, right, bottom) and in the texture, and its colour."""


def steps_of(
    shapes: Sequence[Shape],
    vertices: NDArray[Any],
    triangles: NDArray[np.int64],
    number: int,
    texture: Texture | None,
    clip: pygame.Rect,
    glyph_of: Glyph,
    first: int = 0,
) -> list[Step]:
    """Turn shapes into boxes, glyphs, pictures and, where nothing else fits, polygons.

    first    the number, in `shapes`, of the first of the triangles
    """
    steps: list[Step] = []
    for box, flat, quad, head, x0, y0, x1, y1, u0, v0, u1, v1, packed in shapes:
        colour = rgba(packed)
        if not colour[3]:
            continue
        if box and not flat and texture is not None:
            if texture.picture is not None:
                data = (number, (u0, v0, u1, v1), (x0, y0, x1, y1), texture.version)
                steps.append((clip, "picture", data))
            elif x1 > x0 and y1 > y0:
                glyph = glyph_of(number, texture, (u0, v0, u1, v1), packed)
                if steps and steps[-1][1] == "glyphs":
                    steps[-1][2].append((glyph, (x0, y0)))
                else:
                    steps.append((clip, "glyphs", [(glyph, (x0, y0))]))
        elif box:
            rect = pygame.Rect(x0, y0, x1 - x0, y1 - y0)
            steps.append((clip, "fill" if colour[3] == 255 else "veil", (colour, rect)))
        else:
            which = corners_of(triangles, head - first, quad)
            points = [(float(vertices["x"][i]), float(vertices["y"][i])) for i in which]
            thin = _thin_line(points) if quad else None
            steps.append((clip, "line", (colour, *thin)) if thin else (clip, "polygon", (colour, points)))
    return steps


def shapes_of(vertices: NDArray[Any], triangles: NDArray[np.int64]) -> list[Shape]:
    """Join triangles to quads, where two of them are one, and describe each."""
    a = triangles[:, 0]
    starts = np.zeros(len(triangles), dtype=bool)
    if len(triangles) > 1:
        follows = (triangles[1:, 0] == a[:-1]) & (triangles[1:, 1] == a[:-1] + 2)
        starts[:-1] = (triangles[:-1, 1] == a[:-1] + 1) & (triangles[:-1, 2] == a[:-1] + 2)
        starts[:-1] &= follows & (triangles[1:, 2] == a[:-1] + 3)
    single = ~starts
    single[1:] &= ~starts[:-1]
    heads = np.flatnonzero(starts | single)
    quads = starts[heads]
    corners = vertices[np.minimum(a[heads][:, None] + np.arange(4), len(vertices) - 1)]
    x, y = corners["x"], corners["y"]
    near = 0.01
    upright = (abs(x[:, 0] - x[:, 3]) < near) & (abs(x[:, 1] - x[:, 2]) < near)
    upright &= (abs(y[:, 0] - y[:, 1]) < near) & (abs(y[:, 2] - y[:, 3]) < near)
    turned = (abs(x[:, 0] - x[:, 1]) < near) & (abs(x[:, 2] - x[:, 3]) < near)
    turned &= (abs(y[:, 1] - y[:, 2]) < near) & (abs(y[:, 0] - y[:, 3]) < near)
    lo_x, lo_y = np.rint(x.min(axis=1)).astype(int), np.rint(y.min(axis=1)).astype(int)
    hi_x, hi_y = np.rint(x.max(axis=1)).astype(int), np.rint(y.max(axis=1)).astype(int)
    lo_u, lo_v = corners["u"].min(axis=1), corners["v"].min(axis=1)
    hi_u, hi_v = corners["u"].max(axis=1), corners["v"].max(axis=1)
    plain = (hi_u - lo_u < 1e-6) & (hi_v - lo_v < 1e-6)
    boxes = quads & (upright | turned)
    columns = (boxes, plain, quads, heads, lo_x, lo_y, hi_x, hi_y, lo_u, lo_v, hi_u, hi_v,
               corners["colour"][:, 0])  # fmt: skip
    return list(zip(*(column.tolist() for column in columns), strict=True))


def corners_of(triangles: NDArray[np.int64], head: int, quad: bool) -> list[int]:
    """Return the vertices of a triangle, or of the two that make a quad."""
    first = triangles[head].tolist()
    return [*first, int(triangles[head + 1][2])] if quad else first


def rgba(packed: int) -> Rgba:
    """Return (red, green, blue, alpha) of a packed colour."""
    return packed & 255, packed >> 8 & 255, packed >> 16 & 255, packed >> 24


def _thin_line(points: Sequence[tuple[float, float]]) -> tuple[Any, Any, int] | None:
    """Return the ends and width of a four-cornered polygon that is a line, else None."""
    (a, b, c, d) = points
    sides = (float(np.hypot(a[0] - b[0], a[1] - b[1])), float(np.hypot(b[0] - c[0], b[1] - c[1])))
    if min(sides) > 3.5:
        return None
    pairs = ((a, d), (b, c)) if sides[0] > sides[1] else ((a, b), (c, d))
    ends = [((p[0] + q[0]) / 2 - 0.5, (p[1] + q[1]) / 2 - 0.5) for p, q in pairs]
    return ends[0], ends[1], max(1, round(min(sides)))

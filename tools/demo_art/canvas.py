"""A picture of palette indices with the few drawing operations that the demo needs, all on integers."""

from collections.abc import Mapping, Sequence
from itertools import pairwise

import numpy as np

from demo_art.palette import COLOURS, INDEX, NAMES, rgb

BAYER = ((0, 8, 2, 10), (12, 4, 14, 6), (3, 11, 1, 9), (15, 7, 13, 5))


def noise(x: int, y: int, seed: int) -> int:
    """Give a fixed number 0..255 for a place; the same on every machine."""
    value = (x * 374761393 + y * 668265263 + seed * 2147483647) & 0xFFFFFFFF
    value = ((value ^ (value >> 13)) * 1274126177) & 0xFFFFFFFF
    value = ((value ^ (value >> 15)) * 2246822519) & 0xFFFFFFFF
    return (value ^ (value >> 16)) & 0xFF


class Canvas:
    """Indices (H, W), 0 is transparent; with `wrap` the left and right edges are neighbours."""

    def __init__(self, width: int, height: int, *, wrap: bool = False) -> None:
        self.width, self.height, self.wrap = width, height, wrap
        self.index = np.zeros((height, width), np.uint8)

    def put(self, x: int, y: int, colour: str) -> None:
        if self.wrap:
            x %= self.width
        if 0 <= x < self.width and 0 <= y < self.height:
            self.index[y, x] = INDEX[colour]

    def get(self, x: int, y: int) -> str:
        if self.wrap:
            x %= self.width
        inside = 0 <= x < self.width and 0 <= y < self.height
        return NAMES[self.index[y, x]] if inside else ""

    def rect(self, x: int, y: int, width: int, height: int, colour: str) -> None:
        for row in range(y, y + height):
            for column in range(x, x + width):
                self.put(column, row, colour)

    def frame(self, x: int, y: int, width: int, height: int, colour: str) -> None:
        self.rect(x, y, width, 1, colour)
        self.rect(x, y + height - 1, width, 1, colour)
        self.rect(x, y, 1, height, colour)
        self.rect(x + width - 1, y, 1, height, colour)

    def line(self, x0: int, y0: int, x1: int, y1: int, colour: str, thick: int = 1) -> None:
        """Draw a line of square dots; `thick` grows to the right, or down on flat lines."""
        steps = max(abs(x1 - x0), abs(y1 - y0), 1)
        flat = abs(x1 - x0) >= abs(y1 - y0)
        for step in range(steps + 1):
            x = x0 + (2 * step * (x1 - x0) + steps) // (2 * steps)
            y = y0 + (2 * step * (y1 - y0) + steps) // (2 * steps)
            for extra in range(thick):
                self.put(x + (0 if flat else extra), y + (extra if flat else 0), colour)

    def polygon(self, points: Sequence[tuple[int, int]], colour: str) -> None:
        """Fill a convex outline."""
        edges = list(zip(points, [*points[1:], points[0]], strict=True))
        rows = [y for _, y in points]
        for y in range(min(rows), max(rows) + 1):
            crossings: list[int] = []
            for (xa, ya), (xb, yb) in edges:
                if min(ya, yb) <= y <= max(ya, yb):
                    crossings += [xa, xb] if ya == yb else [xa + (y - ya) * (xb - xa) // (yb - ya)]
            for x in range(min(crossings), max(crossings) + 1):
                self.put(x, y, colour)

    def disc(self, x: int, y: int, across: int, colour: str, *, level: int = 16) -> None:
        """Fill a disc whose box starts at (x, y) and is `across` pixels wide, dithered below level 16."""
        for row in range(across):
            for column in range(across):
                far = (2 * column + 1 - across) ** 2 + (2 * row + 1 - across) ** 2
                if far <= across * across - across // 3:
                    self.dot(x + column, y + row, colour, level)

    def ring(self, x: int, y: int, across: int, colour: str) -> None:
        """Draw the one-pixel outline of `disc`."""
        mask = Canvas(across + 2, across + 2)
        mask.disc(1, 1, across, "k")
        solid = mask.index > 0
        inner = solid[1:-1, :-2] & solid[1:-1, 2:] & solid[:-2, 1:-1] & solid[2:, 1:-1]
        edge = solid[1:-1, 1:-1] & ~inner
        for row, column in np.argwhere(edge):
            self.put(x + int(column), y + int(row), colour)

    def dot(self, x: int, y: int, colour: str, level: int) -> None:
        """Put the pixel if the ordered pattern at this place lies below `level` (0..16)."""
        if BAYER[y % 4][x % 4] < level:
            self.put(x, y, colour)

    def dither(self, x: int, y: int, width: int, height: int, colour: str, level: int) -> None:
        for row in range(y, y + height):
            for column in range(x, x + width):
                self.dot(column, row, colour, level)

    def stamp(
        self, rows: Sequence[str], legend: Mapping[str, str], x: int, y: int, *, mirror: bool = False
    ) -> None:
        """Copy a pixel map; characters outside the legend leave the picture as it is."""
        for down, text in enumerate(rows):
            for across, mark in enumerate(reversed(text) if mirror else text):
                if mark in legend:
                    self.put(x + across, y + down, legend[mark])

    def paste(self, other: "Canvas", x: int, y: int, *, mirror: bool = False) -> None:
        """Copy the drawn pixels of another picture."""
        source = other.index[:, ::-1] if mirror else other.index
        for row, column in np.argwhere(source > 0):
            self.put(x + int(column), y + int(row), NAMES[source[row, column]])

    def outline(self, colour: str) -> None:
        """Put a one-pixel line round everything drawn."""
        solid = np.pad(self.index > 0, 1)
        near = solid[1:-1, :-2] | solid[1:-1, 2:] | solid[:-2, 1:-1] | solid[2:, 1:-1]
        self.index[near & (self.index == 0)] = INDEX[colour]

    def rgba(self) -> np.ndarray:
        """Give (H, W, 4) uint8 with alpha 0 or 255."""
        table = np.zeros((len(NAMES), 4), np.uint8)
        for name, value in COLOURS.items():
            table[INDEX[name]] = (*rgb(value), 255)
        return table[self.index]


def ridge(points: Sequence[tuple[int, int]], width: int) -> list[int]:
    """Give the height for each column through the points, eased, joined round the right edge."""
    heights = []
    closed = [*points, (points[0][0] + width, points[0][1])]
    for x in range(width):
        at = x if x >= points[0][0] else x + width
        for (xa, ya), (xb, yb) in pairwise(closed):
            if xa <= at < xb:
                span, along = xb - xa, at - xa
                eased = along * along * (3 * span - 2 * along)
                heights.append(ya + (2 * (yb - ya) * eased + span**3) // (2 * span**3))
                break
    return heights

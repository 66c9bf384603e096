"""Measure how fast large sheets are cut into islands and cells, beside pygame's bounding boxes on one mask.

usage: python tools/bench/cut_speed.py [--side 8192]

The sheet is drawn here: round blobs of many sizes in a loose grid.  Peak memory is that of the whole process.
"""

import argparse
import os
import resource
import sys
import time

import numpy as np

from scenekit.model.arrays import Pixels
from scenekit.slicing.cells import cut_cells
from scenekit.slicing.cut import Cut, SliceOptions
from scenekit.slicing.islands import cut_islands


def draw_sheet(width: int, height: int) -> Pixels:
    """Draw blobs of 10 to 110 px across in cells of 128."""
    pixels = np.zeros((height, width, 4), np.uint8)
    y, x = np.ogrid[:128, :128]
    for row in range(height // 128):
        for column in range(width // 128):
            radius = 5 + (row * 37 + column * 61) % 50
            blob = (y - 64) ** 2 + (x - 64) ** 2 <= radius * radius
            cell = pixels[row * 128 : row * 128 + 128, column * 128 : column * 128 + 128]
            cell[blob] = (row % 256, column % 256, radius, 255)
    return pixels


def pygame_seconds(pixels: Pixels) -> tuple[int, float]:
    """Return how many boxes pygame finds on the same mask, and its seconds for finding them."""
    os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")
    import pygame

    size = (pixels.shape[1], pixels.shape[0])
    mask = pygame.mask.from_surface(pygame.image.frombuffer(pixels.tobytes(), size, "RGBA"), 0)
    start = time.perf_counter()
    found = mask.get_bounding_rects()
    return len(found), time.perf_counter() - start


def report(name: str, cut: Cut, seconds: float) -> None:
    """Print one row."""
    print(f"  {name:8s} {len(cut.frames):5d} frames in {seconds:.3f} s")


def main() -> int:
    """Print a row per sheet and way of cutting."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--side", type=int, default=0, help="also a square sheet of that side")
    options = parser.parse_args()
    sizes = [(4096, 3584)] + ([(options.side, options.side)] if options.side else [])
    start = time.perf_counter()
    cut_islands(draw_sheet(128, 128), SliceOptions())
    print(f"first use, with its imports: {time.perf_counter() - start:.3f} s")
    for width, height in sizes:
        pixels = draw_sheet(width, height)
        print(f"{width} x {height}")
        for name, cutter in (("islands", cut_islands), ("cells", cut_cells)):
            start = time.perf_counter()
            cut = cutter(pixels, SliceOptions(cell=(128, 128)))
            report(name, cut, time.perf_counter() - start)
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        print(f"  peak memory {peak:.0f} MiB with the sheet itself ({pixels.nbytes >> 20} MiB)")
        if (width, height) == sizes[0]:
            count, seconds = pygame_seconds(pixels)
            print(f"  pygame   {count:5d} boxes in {seconds:.3f} s")
    return 0


if __name__ == "__main__":
    sys.exit(main())

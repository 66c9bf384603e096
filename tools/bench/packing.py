"""Measure the packer on 1,000 real frame sizes a set, beside a published strip packer where one is installed.

usage: python tools/bench/packing.py [--times N]

The sizes stand in tests/reference/packing_sizes.csv.  A frame counts with a gutter of 1 px; the strip is as
wide as the next power of two above 1.02 times the root of the area; density is area to strip.  The other
packer is rectpack (pip install rectpack), with three of its families, longest side first, padded alike.
"""

import argparse
import csv
import time
from importlib import import_module
from math import ceil, log2
from pathlib import Path

from scenekit.sprites.pack import pack

SIZES = Path(__file__).parents[2] / "tests" / "reference" / "packing_sizes.csv"
FAMILIES = ("maxrects.MaxRectsBl", "guillotine.GuillotineBssfSas", "skyline.SkylineBl")
Sizes = list[tuple[int, int]]


def read_sets() -> dict[str, Sizes]:
    """Return the sizes of each set, padded by the gutter."""
    with SIZES.open(encoding="utf-8") as file:
        rows = list(csv.DictReader(line for line in file if not line.startswith("#")))
    sets: dict[str, Sizes] = {}
    for row in rows:
        sets.setdefault(row["set"], []).append((int(row["width_px"]) + 1, int(row["height_px"]) + 1))
    return sets


def ours(sizes: Sizes, width: int, times: int) -> tuple[float, float]:
    """Return our density and the seconds of the fastest run."""
    seconds = []
    for _ in range(times):
        start = time.perf_counter()
        packing = pack(sizes, width)
        seconds.append(time.perf_counter() - start)
    return area(sizes) / (width * packing.heights[0]), min(seconds)


def theirs(sizes: Sizes, width: int, family: str) -> tuple[float, float]:
    """Return the other packer's density and seconds."""
    rectpack = import_module("rectpack")
    module, name = family.split(".")
    algorithm = getattr(import_module(f"rectpack.{module}"), name)
    packer = rectpack.newPacker(
        mode=rectpack.PackingMode.Offline,
        pack_algo=algorithm,
        sort_algo=rectpack.SORT_LSIDE,
        rotation=False,
    )
    for w, h in sizes:
        packer.add_rect(w, h)
    packer.add_bin(width, 1 << 20)
    start = time.perf_counter()
    packer.pack()
    seconds = time.perf_counter() - start
    return area(sizes) / (width * max(y + h for _, _, y, _, h, _ in packer.rect_list())), seconds


def area(sizes: Sizes) -> int:
    """Return the area of all boxes."""
    return sum(w * h for w, h in sizes)


def main() -> None:
    """Print a row per set."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--times", type=int, default=5, help="runs of ours; the fastest counts")
    options = parser.parse_args()
    try:
        import_module("rectpack")
        families = FAMILIES
    except ImportError:
        print("rectpack is not installed; only ours is measured")
        families = ()
    total_ours = total_best = 0.0
    for name, sizes in read_sets().items():
        width = 2 ** ceil(log2(1.02 * area(sizes) ** 0.5))
        density, seconds = ours(sizes, width, options.times)
        print(
            f"{name:14s} {len(sizes)} boxes, {width} px wide: ours {density:.4f} in {seconds * 1000:.1f} ms"
        )
        rows = [(*theirs(sizes, width, family), family) for family in families]
        for other, took, family in rows:
            print(f"  {family:30s} {other:.4f} in {took * 1000:8.1f} ms")
        if rows:
            best = max(rows)
            print(f"  best {best[0]:.4f}: ours takes 1/{best[1] / seconds:.1f} of its time")
            total_ours, total_best = total_ours + seconds, total_best + best[1]
    if families:
        print(f"all sets: {total_ours:.3f} s to {total_best:.3f} s, 1/{total_best / total_ours:.0f}")


if __name__ == "__main__":
    main()

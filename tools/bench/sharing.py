"""Compare what we find equal on a folder of sheets with known boxes with counts made elsewhere.

usage: python tools/bench/sharing.py FOLDER [--only SHEET] [--report]

FOLDER holds manifest.json, truth/*.json and files/*; the counts stand in tests/reference/sharing.csv.  Exit
code 1 when a count differs or a sheet is missing.  --report also lists recolours and near pairs, and how long
that took.
"""

import argparse
import csv
import json
import sys
import time
from pathlib import Path
from typing import Any

import numpy as np
from PIL import Image

from scenekit.images.flat import read_picture
from scenekit.model.arrays import Pixels
from scenekit.sprites.sharing import LEVELS, cut_out, find_sharing
from scenekit.symmetry.flips import find_equal

COUNTS = Path(__file__).parents[2] / "tests" / "reference" / "sharing.csv"
COLUMNS = ("nonempty", "distinct", "distinct_h", "distinct_8_symmetries")
COMPARED = tuple(codes for name, codes in LEVELS if name != "h, v, hv")


def read_sheet(folder: Path, entry: dict[str, Any]) -> list[Pixels]:
    """Return the pictures in the known boxes of a sheet."""
    truth = json.loads((folder / entry["truth_file"]).read_text(encoding="utf-8"))
    key, path = truth.get("colorkey"), folder / entry["file"]
    pixels = read_picture(path, key=tuple(key) if isinstance(key, list) else None).pixels
    if isinstance(key, dict):
        with Image.open(path) as image:
            entries = np.asarray(image)
        clear = (entries == key["index"]) | (entries == key["background_index"])
        pixels = np.where(clear[..., None], np.uint8(0), pixels)
    return cut_out(pixels, [tuple(rect[:4]) for rect in truth["rects"]])


def count(pictures: list[Pixels]) -> tuple[int, ...]:
    """Return how many pictures have art, and how many are kept at each level compared."""
    drawn = [picture for picture in pictures if picture[..., 3].any()]
    kept = [
        sum(first == index for index, (first, _) in enumerate(find_equal(drawn, codes))) for codes in COMPARED
    ]
    return len(drawn), *kept


def main() -> int:
    """Print a row per sheet."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", type=Path)
    parser.add_argument("--only")
    parser.add_argument("--report", action="store_true")
    options = parser.parse_args()
    manifest = json.loads((options.folder / "manifest.json").read_text(encoding="utf-8"))
    entries = {entry["id"]: entry for entry in manifest}
    with COUNTS.open(encoding="utf-8") as file:
        rows = list(csv.DictReader(line for line in file if not line.startswith("#")))
    wrong = 0
    chosen = [row for row in rows if options.only in (None, row["sheet"])]
    for row in chosen:
        expected = tuple(int(row[column]) for column in COLUMNS)
        pictures = read_sheet(options.folder, entries[row["sheet"]])
        got = count(pictures)
        wrong += got != expected
        print(f"{row['sheet']:30s} {got} {'as known' if got == expected else f'known: {expected}'}")
        if options.report:
            start = time.perf_counter()
            sharing = find_sharing(pictures)
            seconds = time.perf_counter() - start
            closest = f", closest {sharing.near[0]}" if sharing.near else ""
            print(f"  {len(sharing.recolours)} recolours, {len(sharing.near)} near{closest}; {seconds:.2f} s")
    print(f"{len(chosen) - wrong} of {len(chosen)} sheets as known")
    return 1 if wrong or not chosen else 0


if __name__ == "__main__":
    sys.exit(main())

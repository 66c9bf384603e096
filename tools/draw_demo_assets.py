"""Draw every picture of the lamplighter demo into demo_assets/, or check that the files still match."""

import argparse
import sys
from collections.abc import Callable
from pathlib import Path

import numpy as np
from demo_art import lamps, panel, quay, trolley
from demo_art.boat import draw_boat
from demo_art.canvas import Canvas
from demo_art.font import CHARACTERS, draw_font
from demo_art.front import draw_front
from demo_art.gull import draw_gull
from demo_art.hills import draw_hills
from demo_art.palette import FAR, FAR_NIGHT, NIGHT, SKY, WATER
from demo_art.pier import draw_pier_deck, draw_pier_front, draw_pier_sea
from demo_art.sky import draw_pier_sky, draw_sky
from demo_art.spark import draw_spark
from demo_art.warehouses import draw_warehouses
from PIL import Image

FOLDER = Path(__file__).resolve().parent.parent / "demo_assets"

PICTURES: dict[str, Callable[[], Canvas]] = {
    "layers/sky.png": draw_sky,
    "layers/hills.png": draw_hills,
    "layers/warehouses.png": draw_warehouses,
    "layers/quay.png": quay.draw_quay,
    "layers/front.png": draw_front,
    "layers/pier_sky.png": draw_pier_sky,
    "layers/pier_sea.png": draw_pier_sea,
    "layers/pier_deck.png": draw_pier_deck,
    "layers/pier_front.png": draw_pier_front,
    "sheets/trolley.png": trolley.draw_trolley,
    "sheets/gull.png": draw_gull,
    "sheets/boat.png": draw_boat,
    "sheets/lamp.png": lamps.draw_lamp,
    "sheets/spark.png": draw_spark,
    "sheets/panel.png": panel.draw_panel,
    "fonts/small.png": draw_font,
}


def colour_lists() -> str:
    """Give colours.toml: which colours rotate, and which darken to what at night."""
    lists = (("water", WATER), ("sky", SKY), ("night", NIGHT), ("far", FAR), ("far_night", FAR_NIGHT))
    lines = ["# written by tools/draw_demo_assets.py; sky and night, far and far_night belong together"]
    for name, values in lists:
        quoted = ", ".join(f'"{value}"' for value in values)
        lines.append(f"{name} = [{quoted}]")
    return "\n".join(lines) + "\n"


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--check", action="store_true", help="compare with the files and write nothing")
    arguments = parser.parse_args()
    wrong = 0
    for name, draw in PICTURES.items():
        path = FOLDER / name
        pixels = draw().rgba()
        path.parent.mkdir(parents=True, exist_ok=True)
        Image.fromarray(pixels).save(path, optimize=False)
    (FOLDER / "colours.toml").write_text(colour_lists())
    return wrong


if __name__ == "__main__":
    sys.exit(main())

"""Draw every picture of the lamplighter demo into demo_assets/, or check that the files still match."""

import argparse
import sys
from collections.abc import Callable
from pathlib import Path

import numpy as np
from demo_art import lamps, palette, panel, quay, spark, trolley
from demo_art.boat import draw_boat
from demo_art.canvas import Canvas
from demo_art.font import CHARACTERS, draw_font
from demo_art.front import draw_front
from demo_art.gull import draw_gull
from demo_art.hills import draw_hills
from demo_art.pier import draw_pier_deck, draw_pier_front, draw_pier_sea
from demo_art.sky import draw_pier_sky, draw_sky
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
    "sheets/spark.png": spark.draw_spark,
    "sheets/panel.png": panel.draw_panel,
    "sheets/slot.png": panel.draw_slot,
    "fonts/small.png": draw_font,
}

# top left corner of each plane on a 320 x 200 screen, the layout the pictures were composed for
PLACES = (
    ("quay", (("sky", 0), ("hills", 50), ("warehouses", 6), ("quay", 104), ("front", 136))),
    ("pier", (("pier_sky", 0), ("pier_sea", 100), ("pier_deck", 120), ("pier_front", 152))),
)


def colour_lists() -> str:
    """Give colours.toml: which colours rotate, and what each becomes at night."""
    lines = ["# written by tools/draw_demo_assets.py; a _night list belongs to the list before it, in order"]
    for name, values in (
        ("water", palette.WATER),
        ("water_night", palette.WATER_NIGHT),
        ("sky", palette.SKY),
        ("night", palette.NIGHT),
        ("far", palette.FAR),
        ("far_night", palette.FAR_NIGHT),
    ):
        quoted = ", ".join(f'"{value}"' for value in values)
        lines.append(f"{name} = [{quoted}]")
    return "\n".join(lines) + "\n"


def table() -> str:
    """Give the coordinates that scenes need, one fact a line."""
    lines = [
        f"scene {scene}: top rows on a 320 x 200 screen: {', '.join(f'{name} {y}' for name, y in planes)}"
        for scene, planes in PLACES
    ]
    rail = quay.NEAR_RAIL
    lines += [
        f"rails (quay and pier_deck): near rail plane row {rail}, far rail plane row {quay.FAR_RAIL}",
        f"wheels stand on plane row {rail - 1}",
        f"lamp heads (quay and pier_deck): row {lamps.HEAD_ROW}, columns {lamps.POST_XS}",
        "lamp cells 24 x 24, 4 frames unlit kindling lit bright: cell pixel (12, 12) goes on the lamp head",
        "trolley cells 64 x 56, 4 rows of 6:"
        f" ground row {trolley.GROUND}, pivot ({trolley.MIDDLE}, {trolley.GROUND})",
        "  row 0 ride right 6; row 1 ride left 6; row 2 brake right 2, turn right to left 4;"
        " row 3 light 4, brake left 2",
        f"  pole tip in the last light frame at {trolley.LIGHT_POLES[-1][1]}:"
        f" stop with pivot x = lamp x - {trolley.LIGHT_POLES[-1][1][0] - trolley.MIDDLE}",
        "gull cells 24 x 16, 4 frames; boat cells 40 x 32, 2 frames, water line row 28",
        f"panel: slot cells 11 x 12 at y {panel.SLOT_Y}, x {panel.SLOT_XS}; gauge box {panel.GAUGE};"
        f" digits at {panel.DIGITS}",
        f"font cells 6 x 8, 16 a row: {CHARACTERS!r}",
        f"water: quay rows {quay.WATER_TOP}..{quay.KERB - 2}",
        "islands of spark.png (x, y, w, h): "
        + ", ".join(str((x, y, len(rows[0]), len(rows))) for rows, _, x, y in spark.PLACES),
    ]
    return "\n".join(lines)


def same_pixels(path: Path, pixels: np.ndarray) -> bool:
    """Compare decoded pixels; a missing or unreadable file is different."""
    try:
        with Image.open(path) as picture:
            return np.array_equal(np.asarray(picture.convert("RGBA")), pixels)
    except OSError:
        return False


def check() -> int:
    """Redraw in memory and name every file that differs; give the exit code."""
    wrong = [name for name, draw in PICTURES.items() if not same_pixels(FOLDER / name, draw().rgba())]
    colours = FOLDER / "colours.toml"
    if not colours.is_file() or colours.read_text(encoding="utf-8") != colour_lists():
        wrong.append(colours.name)
    for name in wrong:
        print(f"{name}: differs from what the script draws")
    return 1 if wrong else 0


def write_all() -> None:
    for name, draw in PICTURES.items():
        path = FOLDER / name
        path.parent.mkdir(parents=True, exist_ok=True)
        Image.fromarray(draw().rgba()).save(path)
    (FOLDER / "colours.toml").write_text(colour_lists(), encoding="utf-8", newline="\n")
    print(table())


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--check", action="store_true", help="compare with the files and write nothing")
    if parser.parse_args().check:
        return check()
    write_all()
    return 0


if __name__ == "__main__":
    sys.exit(main())

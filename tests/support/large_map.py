"""A map of 200 screens with three more planes, for tests."""

from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from scenekit.model.project import Project
from scenekit.model.store import load

SCREENS = (20, 10)
TILE = 16
COLUMNS, ROWS = 20 * SCREENS[0], 13 * SCREENS[1]
TARGETS = {
    "board": ("indexed-board", "320x200", "plain"),
    "colour": ("brandy-pc", "320x200-colour", "brandy"),
    "sdl": ("sdlbrt-pc", "320x200", "sdlbrt"),
    "yab": ("yabasic-pc", "320x200", "yabasic"),
}
PLACES = tuple(range(0, 600, 30))
"""20 ticks at which the camera stands somewhere else."""
FLAGS = ("solid", "ladder", "deadly", "slippery")


def large_map(folder: Path, maps: str = "auto", land: tuple[int, int] = (COLUMNS, ROWS)) -> Project:
    """Write the project into a folder and return it: 400 x 130 cells, 4 planes, a sprite on the map."""
    (folder / "scenes").mkdir(parents=True)
    chosen = np.random.default_rng(5)
    _tiles(folder / "tiles.png", chosen)
    _map(folder / "land.csv", chosen, *land, 0, 0.3)
    _map(folder / "sky.csv", chosen, 60, 20, 0, 0.0)
    _map(folder / "hills.csv", chosen, 90, 20, 10, 0.4)
    _map(folder / "near.csv", chosen, 120, 20, 14, 0.6)
    lines = ["format = 1", 'name = "large"', 'scenes = ["one"]', "[[sheets]]", 'name = "tiles"']
    lines.append('file = "tiles.png"')
    for n in range(20):
        lines += ["[[sheets.frames]]", f'name = "t{n}"', f"box = [{n * TILE}, 0, {TILE}, {TILE}]"]
        lines += [f'flags = ["{FLAGS[n % 4]}"]'] if n % 3 else []
    lines += ["[[sprites]]", 'name = "imp"', "[[sprites.animations]]", 'name = "go"', 'sheet = "tiles"']
    lines.append('steps = [["t18", 5], ["t19", 3]]')
    for name, (machine, mode, dialect) in TARGETS.items():
        lines += ["[[targets]]", f'name = "{name}"', f'machine = "{machine}"', f'mode = "{mode}"']
        lines += [f'dialect = "{dialect}"', f'maps = "{maps}"']
    (folder / "project.toml").write_text("\n".join(lines) + "\n", encoding="ascii")
    scene = ["format = 1", "ticks = 600", "[camera]", "start = [40, 20]", 'repeat = "from-start"', "path = ["]
    for across, down in ((23, 9), (17, -5), (-21, 11), (9, 12), (-28, -27)):
        scene.append(f"    {{ ticks = 120, speed = [{across}, {down}] }},")
    scene.append("]")
    for name, ratio in (("sky", "1/4"), ("hills", "1/2"), ("land", "1"), ("near", "5/4")):
        scene += ["[[planes]]", f'name = "{name}"', f'map = "{name}.csv"', 'sheet = "tiles"']
        scene += [f'ratio = ["{ratio}", "{ratio}"]']
        scene.append(f"wrap = {'[false, false]' if name == 'land' else '[true, true]'}")
    scene += ["[[placed]]", 'name = "imp"', 'sprite = "imp"', 'over = "land"', "at = [150, 100]"]
    scene.append("path = [{ ticks = 600, speed = [9, 3] }]")
    (folder / "scenes" / "one.toml").write_text("\n".join(scene) + "\n", encoding="ascii")
    return load(folder)


def _tiles(path: Path, chosen: np.random.Generator) -> None:
    tiles: NDArray[np.uint8] = np.zeros((TILE, TILE * 20, 4), dtype=np.uint8)
    for n in range(20):
        colours = chosen.integers(0, 255, (5, 3))
        patch = chosen.integers(0, 5, (4, 4)).repeat(4, axis=0).repeat(4, axis=1)
        tiles[:, n * TILE : (n + 1) * TILE, :3] = colours[patch]
        tiles[:, n * TILE : (n + 1) * TILE, 3] = np.where((patch < 2) & (n > 13), 0, 255)
    Image.fromarray(tiles).save(path)


def _map(path: Path, chosen: np.random.Generator, columns: int, rows: int, low: int, empty: float) -> None:
    flips = ("", "h", "v", "hv")
    lines = []
    for _ in range(rows):
        cells = [
            "-1" if chosen.random() < empty else f"{chosen.integers(low, 20)}{flips[chosen.integers(4)]}"
            for _ in range(columns)
        ]
        lines.append(",".join(cells))
    path.write_text("\n".join(lines) + "\n", encoding="ascii")

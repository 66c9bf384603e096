"""A project with every effect of colour and motion: in one scene, and in four for little memory."""

from pathlib import Path

import numpy as np
from PIL import Image

PROJECT = """
format = 1
name = "effects"
scenes = ["all", "moves", "shapes", "colours", "covers"]

[[targets]]
name = "board"
machine = "indexed-board"
mode = "320x200"
dialect = "plain"

[[targets]]
name = "colour"
machine = "brandy-pc"
mode = "320x200-colour"
dialect = "brandy"

[[targets]]
name = "sixteen"
machine = "brandy-pc"
mode = "320x200-16"
dialect = "brandy"

[[targets]]
name = "sdl"
machine = "sdlbrt-pc"
mode = "320x200"
dialect = "sdlbrt"

[[targets]]
name = "yab"
machine = "yabasic-pc"
mode = "320x200"
dialect = "yabasic"

[[targets]]
name = "small"
machine = "pcbasic-pc"
mode = "640x350"
dialect = "pcbasic"
view = [0, 0, 160, 96]

[[sheets]]
name = "car"
file = "car.png"
[[sheets.frames]]
name = "a"
box = [0, 0, 16, 12]
pivot = [8, 11]
[[sheets.frames]]
name = "b"
box = [16, 0, 16, 12]
pivot = [8, 11]
[[sheets.frames]]
name = "c"
box = [32, 0, 16, 12]
pivot = [8, 11]

[[sprites]]
name = "car"
[[sprites.animations]]
name = "roll"
sheet = "car"
steps = [["a", 3], ["b", 5]]
[[sprites.animations]]
name = "turn"
sheet = "car"
play = "once"
steps = [["c", 4], ["b", 3]]
[[sprites.facings]]
facing = "right"
[[sprites.facings]]
facing = "left"
flip = "h"

[[cycles]]
name = "lights"
colours = ["400000", "800000", "c00000"]
ticks = 4
there_and_back = true

[[cycles]]
name = "sea"
colours = ["000040", "000080", "0000c0", "0000ff"]
ticks = 5
direction = "backward"
"""

PLANES = """format = 1
ticks = 300

[camera]
repeat = "from-start"
path = [
    { drive = [90, 0], top = 2, gain = "1/8", brake = "1/5" },
    { ticks = 40, by = [-90, 0], ease = "ease-in-out" },
]

[[planes]]
name = "back"
picture = "back.png"
ratio = ["1/2", 1]
bands = [
    { rows = [0, 40], ratio = ["1/8", 1] },
    { rows = [60, 90], ratio = ["3/4", 1], drift = ["1/3", 0] },
]

[[planes]]
name = "front"
picture = "front.png"
ratio = ["4/3", 1]
offset = [0, 120]

"""
DRIVER = """
[[placed]]
name = "driver"
sprite = "car"
over = "back"
moves_with = "back"
at = [20, 70]
follow = true
turn = "turn"
repeat = "from-start"
path = [
    { drive = [70, 9], top = "3/2", gain = "1/10", brake = "1/6" },
    { ticks = 30, by = [-70, -9], ease = "cubic-bezier(0.4, 0, 0.2, 1)" },
]

"""
OTHERS = """
[[placed]]
name = "jumper"
sprite = "car"
over = "front"
at = [60, 20]
repeat = "onward"
path = [
    { jump = [9, 1], speed = ["3/2", 0] },
    { ticks = 12, speed = ["-1/2", 0] },
]

[[placed]]
name = "circler"
sprite = "car"
over = "front"
moves_with = "screen"
at = [200, 90]
follow = true
repeat = "from-start"
path = [{ ticks = 75, circle = 33, turns = -1, from = "bottom" }]

[[placed]]
name = "waver"
sprite = "car"
over = "back"
moves_with = "screen"
at = [-10, 100]
path = [{ ticks = 260, wave = 17, period = 48, speed = ["5/4", "1/9"] }]

"""
EVENTS = """
[[events]]
name = "dusk"
tick = 20
steps = 7
ticks_per_step = 6
colours = ["70a0d0", "506090"]
to = ["201030", "100818"]
mix = "oklab"

[[events]]
name = "blink"
tick = 90
steps = 3
ticks_per_step = 2
colours = ["70a0d0"]
start = ["201030"]
to = ["ffffff"]
back = true

[[events]]
name = "fade-out"
tick = 200
steps = 9
ticks_per_step = 3
to = ["000000"]

"""
TRANSITIONS = """
[[transitions]]
name = "open"
kind = "iris"
tick = 0
ticks = 25
opens = true
cell = [16, 8]

[[transitions]]
name = "wipe"
kind = "wipe"
tick = 150
ticks = 20
cell = [32, 8]
side = "down"
colour = "506090"

[[transitions]]
name = "reveal"
kind = "dissolve"
tick = 130
ticks = 30
opens = true
cell = [20, 4]
colour = "000000"
"""

TICKS = (0, 1, 9, 24, 25, 40, 66, 77, 93, 97, 119, 131, 151, 163, 169, 180, 201, 222, 260, 299)
SMALL_TICKS = (1, 24, 40, 77, 107)


def _sooner(text: str) -> str:
    """Return a scene whose effects are over within the small ticks and fit a view of 160 x 96 px."""
    changes = {
        "offset = [0, 120]": "offset = [0, 40]",
        "tick = 200": "tick = 96",
        "tick = 150": "tick = 70",
        "tick = 130": "tick = 30",
        "ticks = 300": "ticks = 120",
        "back.png": "back-small.png",
        "front.png": "front-small.png",
    }
    for old, new in changes.items():
        text = text.replace(old, new)
    return text


SCENES = {
    "all": PLANES + DRIVER + OTHERS + EVENTS + TRANSITIONS,
    "moves": _sooner(PLANES + DRIVER),
    "shapes": _sooner(PLANES + OTHERS),
    "colours": _sooner(PLANES + EVENTS),
    "covers": _sooner(PLANES + TRANSITIONS),
}


def draw(folder: Path) -> None:
    """Draw the pictures of the scene."""
    y, x = np.mgrid[0:130, 0:176]
    back = np.zeros((130, 176, 4), dtype=np.uint8)
    back[..., 3] = 255
    back[..., :3] = np.where(
        ((x // 11 + y // 13) % 2 == 0)[..., None], (0x70, 0xA0, 0xD0), (0x50, 0x60, 0x90)
    )
    sea = [(0, 0, 0x40), (0, 0, 0x80), (0, 0, 0xC0), (0, 0, 0xFF)]
    for n, colour in enumerate(sea):
        back[(y >= 95) & ((x + y) % 4 == n), :3] = colour
    Image.fromarray(back).save(folder / "back.png")
    Image.fromarray(back[26:122, :88]).save(folder / "back-small.png")
    y, x = np.mgrid[0:70, 0:133]
    front = np.zeros((70, 133, 4), dtype=np.uint8)
    front[y > 20 + (x % 29)] = (60, 110, 50, 255)
    for n, colour in enumerate([(0x40, 0, 0), (0x80, 0, 0), (0xC0, 0, 0)]):
        front[(y > 50) & (x // 3 % 3 == n) & (y % 5 == 0)] = (*colour, 255)
    Image.fromarray(front).save(folder / "front.png")
    Image.fromarray(front[:, :58]).save(folder / "front-small.png")
    car = np.zeros((12, 48, 4), dtype=np.uint8)
    for n in range(3):
        car[3 + n : 10, n * 16 + 2 : n * 16 + 14] = (200, 180 - 50 * n, 40, 255)
        car[1 : 3 + n, n * 16 + 3 : n * 16 + 7] = (240, 240, 220, 255)
        car[10:12, n * 16 + 3 : n * 16 + 6] = (20, 20, 20, 255)
        car[10:12, n * 16 + 10 + n : n * 16 + 12 + n] = (20, 20, 20, 255)
    Image.fromarray(car).save(folder / "car.png")


def write(folder: Path) -> Path:
    """Write the project with its pictures into a folder, and return the folder."""
    (folder / "scenes").mkdir(parents=True)
    (folder / "project.toml").write_text(PROJECT, encoding="utf-8")
    for name, text in SCENES.items():
        (folder / "scenes" / f"{name}.toml").write_text(text, encoding="utf-8")
    draw(folder)
    return folder

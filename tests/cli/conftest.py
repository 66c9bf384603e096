"""A command line for tests, and art that is not the demo's."""

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from scenekit.cli.main import outcome


@dataclass(frozen=True)
class Called:
    """What a call of the command line gave."""

    code: int
    out: str
    err: str

    def json(self) -> Any:
        return json.loads(self.out)


Caller = Callable[..., Called]


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str]) -> Caller:
    """Return a function that runs `scenekit` with arguments."""

    def run(*arguments: object) -> Called:
        capsys.readouterr()
        code = outcome([str(argument) for argument in arguments])
        printed = capsys.readouterr()
        assert "Traceback" not in printed.err
        return Called(code, printed.out, printed.err)

    return run


def strip(path: Path, frames: int = 4, size: tuple[int, int] = (12, 16)) -> Path:
    """Draw a strip of little walkers, each different."""
    w, h = size
    picture = np.zeros((h, w * frames, 4), dtype=np.uint8)
    for n in range(frames):
        x = n * w
        picture[2:6, x + 4 : x + 8] = (230, 180, 140, 255)
        picture[6:11, x + 3 : x + 9] = (40, 60 + 30 * n, 200, 255)
        picture[11 : 14 + n % 2, x + 3 : x + 5] = (30, 30, 40, 255)
        picture[11 : 15 - n % 2, x + 7 : x + 9] = (30, 30, 40, 255)
    Image.fromarray(picture).save(path)
    return path


def backdrop(path: Path, size: tuple[int, int] = (96, 64), holes: bool = False) -> Path:
    """Draw a picture of stripes and blocks; with holes, its upper part is empty."""
    w, h = size
    y, x = np.mgrid[0:h, 0:w]
    picture = np.zeros((h, w, 4), dtype=np.uint8)
    picture[..., 0] = (x // 8 % 3) * 60 + 20
    picture[..., 1] = (y // 8 % 4) * 40 + 30
    picture[..., 2] = ((x + y) // 16 % 2) * 90 + 60
    picture[..., 3] = 255
    if holes:
        picture[: h // 3] = 0
    Image.fromarray(picture).save(path)
    return path


@pytest.fixture
def game(tmp_path: Path, call: Caller) -> Path:
    """Return a project made with the command line: two planes, one sprite, the executor's board."""
    folder = tmp_path / "game"
    hero, sky = strip(tmp_path / "hero.png"), backdrop(tmp_path / "sky.png")
    road = backdrop(tmp_path / "road.png", (128, 40), holes=True)
    there_and_back = ("--path", "60:1,0@walk@right 60:-1,0@walk@left", "--repeat", "from-start")
    steps: tuple[tuple[object, ...], ...] = (
        ("new", folder),
        ("slice", hero, "--cell", "12x16", "--into", folder, "--author", "A. Painter", "--licence", "CC0"),
        ("add", "animation", folder, "hero", "walk", "--ticks", "5,4,5,4", "--mirror"),
        ("add", "plane", folder, sky, "--ratio", "1/3"),
        ("add", "plane", folder, road, "--at", "0,150"),
        ("add", "placed", folder, "hero", "--over", "road", "--at", "30,12", *there_and_back),
        ("add", "camera", folder, "--path", "60:1/2,0 60:-1/2,0", "--repeat", "from-start", "--ticks", "120"),
    )
    for step in steps:
        called = call(*step)
        assert called.code == 0, called.err
    return folder

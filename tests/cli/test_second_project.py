"""A project made with the command line alone, from a real strip with published timing, verifies."""

import os
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from scenekit.model.store import load

SHEET = Path(__file__).parents[2] / ".open_data" / "human_run.png"
# Debian package mrrescue 1.02e-3 (Tangram Games 2013, CC-BY-SA-3.0), human.lua line 30:
# cells of 20 x 32 px, 0.22 s a frame, 4 frames.
CELL, FRAME_S, FRAMES = (20, 32), Fraction(22, 100), 4


@pytest.fixture
def sheet() -> Path:
    if not SHEET.exists():
        text = f"{SHEET.name} is missing; tools/fetch_open_data.py brings it"
        if os.environ.get("CI") == "true":
            pytest.fail(text)
        pytest.skip(text)
    return SHEET


def hills(path: Path, width: int, height: int, seed: int) -> Path:
    """Draw hills that join at the edges."""
    x = np.arange(width)
    line = height // 3 + (np.sin(2 * np.pi * x / width * seed) * height / 5).astype(int)
    picture = np.zeros((height, width, 4), dtype=np.uint8)
    y = np.arange(height)[:, None]
    below = y >= line
    picture[below] = (40 + 30 * seed, 90, 160 - 40 * seed, 255)
    picture[below & ((x + y) % 7 == 0)] = (80, 130, 90 + 20 * seed, 255)
    Image.fromarray(picture).save(path)
    return path


@pytest.mark.parametrize(
    ("machine", "mode", "dialect"),
    [
        ("indexed-board", "320x200", "plain"),
        ("brandy-pc", "320x200-colour", "brandy"),
        ("brandy-pc", "320x200-16", "brandy"),
    ],
)
def test_real_strip(
    call, tmp_path: Path, sheet: Path, interpreter, machine: str, mode: str, dialect: str
) -> None:
    interpreter(dialect)
    game = tmp_path / "rescue"
    far, near = hills(tmp_path / "far.png", 210, 120, 1), hills(tmp_path / "near.png", 333, 90, 2)
    assert call("new", game, "--machine", machine, "--mode", mode, "--dialect", dialect).code == 0
    cut = call("slice", sheet, "--cell", "20x32", "--into", game, "--name", "human", "--json").json()
    assert len(cut["frames"]) == FRAMES
    ticks = round(FRAME_S * 60)
    there_and_back = ("--path", "170:5/4,0@run@right 90:-7/3,0@run@left", "--repeat", "from-start")
    for arguments in (
        ("add", "animation", game, "human", "run", "--ticks", ticks, "--mirror"),
        ("add", "plane", game, far, "--ratio", "1/4", "--at", "0,80", "--tile", "32x24"),
        ("add", "plane", game, near, "--ratio", "3/4", "--at", "0,110"),
        ("add", "placed", game, "human", "--over", "near", "--at", "-6,60", *there_and_back),
        ("add", "camera", game, "--path", "100:1,0 100:-1,0", "--repeat", "from-start", "--ticks", 260),
    ):
        called = call(*arguments)
        assert called.code == 0, called.err
    assert load(game).sprites[0].animations[0].steps[0].ticks == 13
    called = call("verify", game, "--ticks", "0,1,13,26,40,99,130,171,200,231,259", "--count", "--json")
    assert called.code == 0, called.err
    proof = called.json()
    assert proof["passed"] is True
    assert proof["tables"]["values"] > 300

"""A real window under Xvfb, with real mouse and keys, against what the command line makes."""

import json
import os
import subprocess
import sys
from pathlib import Path

import numpy as np
from PIL import Image

from scenekit.cli.main import outcome

VISIT = Path(__file__).parent / "visit.py"


def draw_art(folder: Path) -> None:
    """Draw art that is not the demo's."""
    folder.mkdir()
    walker = np.zeros((16, 48, 4), dtype=np.uint8)
    for n in range(4):
        x = n * 12
        walker[2:6, x + 4 : x + 8] = (230, 180, 140, 255)
        walker[6:11, x + 3 : x + 9] = (40, 60 + 30 * n, 200, 255)
        walker[11 : 14 + n % 2, x + 3 : x + 5] = (30, 30, 40, 255)
        walker[11 : 15 - n % 2, x + 7 : x + 9] = (30, 30, 40, 255)
    Image.fromarray(walker).save(folder / "walker.png")
    for name, (w, h), seed in (("sky", (96, 120), 2), ("wall", (150, 70), 5)):
        y, x = np.mgrid[0:h, 0:w]
        picture = np.full((h, w, 4), 255, dtype=np.uint8)
        picture[..., 0] = (x // 8 % seed) * 40 + 20
        picture[..., 1] = (y // 8 % 4) * 40 + 30
        picture[..., 2] = ((x + y) // 16 % 2) * 90 + 60
        if name == "wall":
            picture[: h // 3] = 0
        Image.fromarray(picture).save(folder / f"{name}.png")


def edit_by_hand(folder: Path) -> None:
    """Write into a project's files, as they are meant to be written into, what no command adds."""
    project, scene = folder / "project.toml", folder / "scenes" / "first.toml"
    old = "box = [12, 0, 12, 16]\npivot = [5, 14]\nhit_box = [3, 2, 6, 13]\n"
    text = project.read_text()
    assert old in text
    text = text.replace(old, "box = [12, 0, 12, 16]\npivot = [4, 14]\nhit_box = [2, 2, 8, 13]\n")
    cycle = 'name = "cycle-1"\ncolours = ["141e96", "144696"]\nticks = 12\ndirection = "forward"\n'
    value = 'name = "score"\nlow = 0\nhigh = 99\nstart = 0\n'
    project.write_text(f"{text}\n[[cycles]]\n{cycle}\n[[values]]\n{value}")
    event = 'name = "fade"\ntick = 1\nsteps = 16\nticks_per_step = 4\nto = ["000000"]\n'
    scene.write_text(f"{scene.read_text()}\n[[events]]\n{event}")


def cli(*arguments: object) -> None:
    assert outcome([str(argument) for argument in arguments]) == 0


def make_by_words(by_words: Path, art: Path) -> None:
    """Make by the command line what the visit makes by hand."""
    cli(
        "slice",
        art / "walker.png",
        "--cell",
        "12x16",
        "--into",
        by_words,
        "--author",
        "A. Painter",
        "--licence",
        "CC0",
    )
    cli("add", "animation", by_words, "walker", "walk", "--ticks", 8, "--mirror")
    cli("add", "plane", by_words, art / "sky.png", "--ratio", "1/4", "--key", "141e3c")
    cli("add", "plane", by_words, art / "wall.png", "--ratio", "3/4", "--at", "0,74")
    cli("add", "camera", by_words, "--path", "100:1,0 100:-1,0", "--repeat", "from-start", "--ticks", 200)
    way = "90:3/2,0@walk@right 90:-3/2,0@@left"
    cli(
        "add",
        "placed",
        by_words,
        "walker",
        "--over",
        "wall",
        "--at",
        "30,40",
        "--path",
        way,
        "--repeat",
        "from-start",
    )


def test_from_an_empty_project_to_a_proof(screen: str, tmp_path: Path):
    art, by_hand, by_words = tmp_path / "art", tmp_path / "hand" / "game", tmp_path / "words" / "game"
    draw_art(art)
    for folder in (by_hand, by_words):
        folder.parent.mkdir()
        cli("new", folder)
    result = tmp_path / "visit.json"
    environment = {**os.environ, "DISPLAY": screen, "SDL_VIDEODRIVER": "x11", "SDL_VIDEO_WINDOW_POS": "0,0",
                   "PYTHONPATH": str(VISIT.parents[2])}  # fmt: skip
    run = subprocess.run(
        [sys.executable, str(VISIT), str(by_hand), str(art), str(result)],
        env=environment, capture_output=True, text=True, timeout=150, check=False,
    )  # fmt: skip
    assert run.returncode == 0, run.stdout + run.stderr
    said = json.loads(result.read_text())
    assert said["driver"] == "x11"
    assert said["error"] == ""
    assert said["proof"]["passed"] is True
    assert len(said["proof"]["ticks"]) == said["screens"] == 10
    assert sum(tick["different"] for tick in said["proof"]["ticks"]) == 0
    assert "first.bas" in " ".join(said["files"]) or any(name.startswith("first") for name in said["files"])
    for name in said["files"]:
        assert (Path(said["folder"]) / name).is_file()
    make_by_words(by_words, art)
    edit_by_hand(by_words)
    cli("check", by_words)
    for name in (
        "project.toml",
        "scenes/first.toml",
        "sheets/walker.png",
        "layers/sky.png",
        "layers/wall.png",
    ):
        assert (by_hand / name).read_bytes() == (by_words / name).read_bytes(), name
    words = ("export", by_words, "--play", "--prefix", "sk_", "--first-line", 1000)
    cli(*words, "--out", tmp_path / "out", "--to", tmp_path / "board", "--check")
    for folder, names, other in (
        (Path(said["folder"]), said["files"], tmp_path / "out"),
        (tmp_path / "card", said["card"], tmp_path / "board"),
    ):
        assert {path.name for path in folder.iterdir()} == {path.name for path in other.iterdir()}
        for name in names:
            assert (folder / name).read_bytes() == (other / name).read_bytes(), name

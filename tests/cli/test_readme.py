"""Every command of the README's walk from a sheet to a program runs as it stands there."""

import re
import shlex
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

README = Path(__file__).parents[2] / "README.md"


def commands() -> list[list[str]]:
    """Return the arguments of each command of the section on the way from a sheet to a program."""
    text = README.read_text(encoding="utf-8")
    section = text.split("## From a sheet to a program", 1)[1].split("\n## ", 1)[0]
    lines = [line.strip() for line in section.splitlines() if line.startswith("    scenekit ")]
    return [shlex.split(line, comments=True)[1:] for line in lines]


def draw(folder: Path) -> None:
    """Draw the sheet and the planes that the section names."""
    random = np.random.default_rng(4)
    hero = np.zeros((32, 192, 4), dtype=np.uint8)
    for n in range(6):
        hero[8:31, n * 32 + 9 : n * 32 + 20 + n % 3] = (*random.integers(60, 250, 3), 255)
    Image.fromarray(hero).save(folder / "hero.png")
    for name, size in (("sky", (320, 200)), ("town", (256, 120)), ("road", (400, 60))):
        picture = np.full((size[1], size[0], 4), 255, dtype=np.uint8)
        picture[..., :3] = random.integers(0, 255, (size[1] // 20, 1, 3), dtype=np.uint8).repeat(20, axis=0)
        if name != "sky":
            picture[:12] = 0
        Image.fromarray(picture).save(folder / f"{name}.png")


def test_the_way_from_a_sheet_to_a_program(call, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    draw(tmp_path)
    found = commands()
    assert len(found) >= 12
    for arguments in found:
        called = call(*arguments)
        findings = "the worst tick" in called.err
        assert called.code == (1 if findings else 0), f"{arguments}: {called.err}"
    for name in ("look.png", "look.gif", "budget.png", "ruler.png", "palette.png", "board/first.words"):
        assert (tmp_path / name).exists()


def test_every_command_is_in_the_readme() -> None:
    from scenekit.cli.main import COMMANDS

    text = README.read_text(encoding="utf-8")
    missing = [name for name in COMMANDS if not re.search(rf"scenekit {name}\b", text)]
    assert missing == []

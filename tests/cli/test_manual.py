"""Every command line of every page of the manual runs as it stands there."""

import re
import shlex
import tomllib
from pathlib import Path

import numpy as np
import pytest
from invented_log import invented_log
from PIL import Image

from scenekit.cli.commands.manual_command import PAGES, page_text
from scenekit.cli.main import COMMANDS
from scenekit.machines.profile import machine_from_table
from scenekit.model.fields import Fields
from scenekit.model.paths import SHAPES, read_path

TESTED_ELSEWHERE = {"own_target": "tests/cli/test_target.py follows that page from a blank file"}
FOUND = 1
"""Exit code of a command that found something to say at error level."""


def lines_of(page):
    """Return the arguments of each command line of a page."""
    lines = [line[4:] for line in page_text(page).splitlines() if line.startswith("    scenekit ")]
    return [shlex.split(line, comments=True)[1:] for line in lines]


def records_of(page: str) -> list[dict[str, object]]:
    """Return what each block of a page says that is to be written into a file."""
    return [tomllib.loads(block) for block in blocks_of(page)]


def blocks_of(page: str) -> list[str]:
    return re.findall(r"```toml\n(.*?)```", page_text(page), re.DOTALL)


def draw(folder: Path) -> None:
    """Draw what the pages name: sheets, a zip of steps, planes, a log."""
    import zipfile

    random = np.random.default_rng(4)
    hero = np.zeros((32, 192, 4), dtype=np.uint8)
    for n in range(6):
        hero[8:31, n * 32 + 9 : n * 32 + 20 + n % 3] = (*random.integers(60, 250, 3), 255)
    Image.fromarray(hero).save(folder / "hero.png")
    changed = hero.copy()
    changed[10:14, 40:44] = (250, 250, 10, 255)
    Image.fromarray(changed).save(folder / "hero-new.png")
    with zipfile.ZipFile(folder / "sheets.zip", "w") as archive:
        for n in range(6):
            path = folder / "step.png"
            Image.fromarray(np.ascontiguousarray(hero[:, n * 32 : n * 32 + 32])).save(path)
            archive.write(path, f"walk-{n + 1:02}.png")
    for name, size in (("sky", (320, 200)), ("town", (256, 120)), ("road", (400, 60))):
        picture = np.full((size[1], size[0], 4), 255, dtype=np.uint8)
        picture[..., :3] = random.integers(0, 255, (size[1] // 20, 1, 3), dtype=np.uint8).repeat(20, axis=0)
        if name != "sky":
            picture[:12] = 0
        Image.fromarray(picture).save(folder / f"{name}.png")
    (folder / "card").mkdir()


def make_game(call, folder: Path) -> None:
    """Make the project with which every page but the example begins."""
    walk = ("--path", "60:1,0@walk@right 60:-1,0@walk@left", "--repeat", "from-start")
    board = ("--machine", "indexed-board", "--mode", "320x200", "--dialect", "plain")
    for arguments in (
        ("new", "game", *board),
        ("slice", "hero.png", "--cell", "32x32", "--into", "game", "--author", "me", "--licence", "CC0-1.0"),
        ("add", "animation", "game", "hero", "walk", "--frames", "r00c00..r00c05", "--ticks", 6, "--mirror"),
        ("add", "plane", "game", "sky.png", "--ratio", "1/8"),
        ("add", "plane", "game", "road.png", "--at", "0,140"),
        ("add", "placed", "game", "hero", "--over", "road", "--at", "40,150", *walk),
        ("add", "camera", "game", "--path", "60:1,0 60:-1,0", "--repeat", "from-start", "--ticks", 120),
    ):
        assert call(*arguments).code == 0, arguments


@pytest.mark.parametrize("page", [page for page in PAGES if page not in TESTED_ELSEWHERE])
def test_every_line_of_a_page_runs(page, call, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    draw(tmp_path)
    if page != "example":
        make_game(call, tmp_path)
    if page == "calibrate":
        (tmp_path / "log.txt").write_text(invented_log(tmp_path / "game"))
    if page == "own_machine":
        (tmp_path / "game" / "mine.toml").write_text(blocks_of(page)[0])
    monkeypatch.setattr("scenekit.editor.window.open_window", lambda project, size: None)
    for arguments in lines_of(page):
        called = call(*arguments)
        findings = called.code == FOUND and not called.err.startswith("error:")
        assert called.code == 0 or findings, f"{arguments}: {called.err}"


def test_what_is_to_be_written_into_files_is_right() -> None:
    assert all(records_of(page) for page in PAGES if blocks_of(page))
    table, signal = records_of("own_machine")
    assert machine_from_table("mine", "mine.toml", table).modes["320x240"].timing.refresh_hz > 0
    table["modes"][0] |= signal
    assert machine_from_table("mine", "mine.toml", table).modes["320x240"].timing.lines_per_row == 2
    (path,) = records_of("motion")
    found = read_path(Fields(path, "motion"))
    assert {segment.shape.kind for segment in found.segments if segment.shape} == set(SHAPES)


def test_every_page_has_lines_to_run() -> None:
    assert all(lines_of(page) for page in PAGES)


def test_pages_and_files_are_the_same() -> None:
    import scenekit

    folder = Path(scenekit.__file__).parent / "manual"
    assert {path.stem for path in folder.glob("*.md")} == set(PAGES)


def test_every_link_leads_to_a_page() -> None:
    for page in PAGES:
        for target in re.findall(r"\]\(([^)]+)\)", page_text(page)):
            assert target.removesuffix(".md") in PAGES, f"{page}: {target}"


def test_every_command_has_its_place() -> None:
    whole = "\n".join(page_text(page) for page in PAGES)
    missing = [name for name in COMMANDS if not re.search(rf"scenekit {name}\b", whole)]
    assert set(missing) <= {"demo", "edit", "manual"}


def test_pages_are_printed_listed_and_written(call, tmp_path) -> None:
    assert call("manual", "budget").out == page_text("budget")
    listed = call("manual").out
    assert all(page in listed for page in PAGES)
    assert call("manual", "--out", tmp_path / "pages").code == 0
    assert {path.stem for path in (tmp_path / "pages").iterdir()} == set(PAGES)
    called = call("manual", "budgte")
    assert called.code == 2
    assert "budget" in called.err

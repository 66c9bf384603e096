"""A build after a change makes again only what depends on it, and gives the bytes of a build from nothing."""

from pathlib import Path

import numpy as np
import pytest
from effects_scene import write
from PIL import Image
from small_scene import small_project

from scenekit.build import Build, BuildOptions, Kept, run_stages
from scenekit.building.kept import alike
from scenekit.model.store import load

PLAYED = BuildOptions(play=True)


@pytest.fixture
def game(tmp_path: Path) -> Path:
    small_project(tmp_path / "game")
    return tmp_path / "game"


def built(folder: Path, kept: Kept, target: str = "board", options: BuildOptions = PLAYED) -> Build:
    """Build with what is kept, compare with a build from nothing, and return it."""
    build = run_stages(load(folder), target, options=options, kept=kept)
    fresh = run_stages(load(folder), target, options=options)
    assert build.files == fresh.files
    assert build.findings == fresh.findings
    assert build.memory == fresh.memory
    assert alike(build.bundle, fresh.bundle)
    assert alike(build.reduced, fresh.reduced)
    assert alike(build.pieces, fresh.pieces)
    return build


def made(kept: Kept) -> set[str]:
    return {kind for kind, _ in kept.made}


def swap(path: Path, one: tuple[int, int], other: tuple[int, int]) -> None:
    """Let two pixels of different colours change places."""
    pixels = np.array(Image.open(path).convert("RGBA"))
    assert tuple(pixels[one]) != tuple(pixels[other])
    pixels[[one[0], other[0]], [one[1], other[1]]] = pixels[[other[0], one[0]], [other[1], one[1]]]
    Image.fromarray(pixels).save(path)


def pixels_to_swap(path: Path, columns: range) -> tuple[tuple[int, int], tuple[int, int]]:
    """Return two drawn pixels of different colours within some columns."""
    pixels = np.array(Image.open(path).convert("RGBA"))
    drawn = [(y, x) for y in range(pixels.shape[0]) for x in columns if pixels[y, x, 3]]
    one = drawn[0]
    return one, next(at for at in drawn if tuple(pixels[at]) != tuple(pixels[one]))


def test_nothing_is_made_again_when_nothing_changed(game: Path) -> None:
    kept = Kept()
    built(game, kept)
    assert {"picture", "colours", "tiles", "looks", "table", "library", "play"} == made(kept)
    built(game, kept)
    assert kept.made == []


def test_a_painted_sheet_leaves_planes_motion_and_tables_of_others_alone(game: Path) -> None:
    kept = Kept()
    built(game, kept)
    tables = sum(kind == "table" for kind, _ in kept.made)
    sheet = game / "cat.png"
    swap(sheet, *pixels_to_swap(sheet, range(8)))
    built(game, kept)
    assert [name[0] for kind, name in kept.made if kind == "picture"] == [str(sheet)]
    assert not made(kept) & {"tiles", "looks"}
    assert sum(kind == "table" for kind, _ in kept.made) < tables / 2


def test_pixels_that_no_table_holds_change_no_program(game: Path) -> None:
    kept = Kept()
    before = built(game, kept).files
    sheet = game / "cat.png"
    swap(sheet, *pixels_to_swap(sheet, range(26, 30)))
    build = built(game, kept)
    assert [name for name in build.files if build.files[name] != before[name]] == [build.art_file]
    assert made(kept) == {"picture", "colours"}


def test_a_moved_camera_reads_no_picture_and_cuts_no_plane(game: Path) -> None:
    kept = Kept()
    built(game, kept)
    scene = game / "scenes/yard.toml"
    scene.write_text(scene.read_text("utf-8").replace("start = [5, -3]", "start = [6, -3]"), encoding="utf-8")
    built(game, kept)
    assert {"looks", "library", "play"} <= made(kept)
    assert not made(kept) & {"picture", "tiles"}


EDITS = (
    ("project.toml", "ticks = 4\n", "ticks = 5\n"),
    ("project.toml", "box = [8, 0, 8, 9]", "box = [9, 0, 7, 8]"),
    ("project.toml", "[32, 0, 8, 9]\npivot = [3", "[32, 0, 8, 9]\npivot = [2"),
    ("project.toml", 'author = "nobody"', 'author = "somebody"'),
    ("project.toml", 'licence = "MIT"\n', 'licence = "MIT"\nkey = "141414"\n'),
    ("scenes/yard.toml", "start = [5, -3]", "start = [2, 1]"),
    ("scenes/yard.toml", 'picture = "fence.png"\n', 'picture = "fence.png"\nkey = "3c5a32"\n'),
    ("scenes/yard.toml", 'picture = "fence.png"\n', 'picture = "fence.png"\nrows = [2, 9]\n'),
    ("scenes/yard.toml", "backdrop = ", 'backdrop = "010203" # '),
    ("small.toml", "pages = 2", "pages = 1"),
)


@pytest.mark.parametrize("target", ["board", "colour", "sixteen", "tables"])
def test_after_any_edit_the_bytes_are_those_of_a_build_from_nothing(game: Path, target: str) -> None:
    kept, texts, done = Kept(), {}, 0
    built(game, kept, target)
    for file, old, new in EDITS:
        path = game / file
        text = texts.setdefault(file, path.read_text("utf-8"))
        if old not in text:
            continue
        done += 1
        path.write_text(text.replace(old, new, 1), encoding="utf-8")
        built(game, kept, target)
        built(game, kept, target, BuildOptions(play=True, counting=True, encode="never"))
        path.write_text(text, encoding="utf-8")
    for picture in ("wall.png", "fence.png", "cat.png", "sign.png"):
        swap(game / picture, *pixels_to_swap(game / picture, range(9)))
        built(game, kept, target)
    assert done >= 7


def test_targets_and_scenes_do_not_take_each_others_parts(tmp_path: Path) -> None:
    folder = write(tmp_path / "effects")
    project, kept = load(folder), Kept()
    for _ in range(2):
        for target in ("board", "sixteen"):
            for scene in ("moves", "colours"):
                build = run_stages(project, target, scene, kept=kept)
                assert build.files == run_stages(project, target, scene).files
    assert kept.made == []


def test_content_counts_and_not_identity() -> None:
    assert alike({"a": [np.arange(3), (1, "x")]}, {"a": [np.arange(3), (1, "x")]})
    others = ({"a": [np.arange(4), (1, "x")]}, {"a": [np.arange(3.0), (1, "x")]}, {"b": []}, [], {"a": ()})
    for other in others:
        assert not alike({"a": [np.arange(3), (1, "x")]}, other)

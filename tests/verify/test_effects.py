"""Shapes of paths, following facings, bands, cycles, fades, flashes and transitions, proved in programs."""

from pathlib import Path

import pytest
from effects_scene import SMALL_TICKS, TICKS, write

from scenekit.build import BuildOptions, run_stages
from scenekit.errors import DialectError
from scenekit.model.store import load, save
from scenekit.verify.prove import prove


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write(tmp_path_factory.mktemp("effects") / "project")


@pytest.mark.parametrize(
    ("target", "dialect", "scene"),
    [
        ("board", "plain", "all"),
        ("colour", "brandy", "all"),
        ("sixteen", "brandy", "all"),
        ("sdl", "sdlbrt", "all"),
        ("yab", "yabasic", "all"),
        ("small", "pcbasic", "moves"),
        ("small", "pcbasic", "shapes"),
        ("small", "pcbasic", "colours"),
        ("small", "pcbasic", "covers"),
    ],
)
def test_every_effect_is_proved(folder: Path, interpreter, target: str, dialect: str, scene: str) -> None:
    interpreter(dialect)
    build = run_stages(load(folder), target, scene, options=BuildOptions(play=True, counting=scene == "all"))
    proof = prove(build, TICKS if scene == "all" else SMALL_TICKS, pictures=folder / "pictures")
    assert [tick.tick for tick in proof.ticks if tick.different] == []
    assert (proof.different, proof.counts_different) == (0, 0)
    assert proof.passed


def test_what_outgrows_a_small_memory_is_refused_with_the_number(folder: Path) -> None:
    with pytest.raises(
        DialectError, match=r"program, arrays and variables take \d+ bytes; at most 60000; use"
    ):
        run_stages(load(folder), "small", "all", options=BuildOptions(play=True, counting=True))


def test_document_keeps_every_effect(folder: Path) -> None:
    document = load(folder)
    save(document)
    again = load(folder)
    assert again == document
    scene = again.scenes[0]
    kinds = [
        s.shape.kind
        for p in (scene.camera.path, *(q.path for q in scene.placed))
        for s in p.segments
        if s.shape
    ]
    assert kinds == ["drive", "ease", "drive", "ease", "jump", "circle", "wave"]
    assert scene.planes[0].bands[1].drift[0] * 3 == 1
    assert [t.kind for t in scene.transitions] == ["iris", "wipe", "dissolve"]


def test_sprite_rests_where_its_drive_ends(folder: Path) -> None:
    from scenekit.motion.paths import lap_travel

    build = run_stages(load(folder), "board", last="motion")
    driver = next(placed for placed in build.scene.placed if placed.name == "driver")
    assert lap_travel(driver.path) == (0, 0)
    assert lap_travel(build.scene.camera.path) == (0, 0)
    turns = [segment for segment in driver.path.segments if segment.animation == "turn"]
    assert [segment.ticks for segment in turns] == [7, 7], "once out there, once before it begins again"

"""Maps larger than any page, whole in memory or read from a file as the camera moves."""

import random
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from large_map import COLUMNS, PLACES, ROWS, SCREENS, TARGETS, large_map
from random_scenes import random_project

from scenekit.build import Build, BuildOptions, run_stages
from scenekit.errors import ProjectError
from scenekit.interpreters.executor import Machine
from scenekit.model.project import Project
from scenekit.motion.parallax import camera_at
from scenekit.tables import mapfile
from scenekit.verify.prove import prove

PROVING = BuildOptions(play=True, counting=True)


@pytest.fixture(scope="module")
def filed(tmp_path_factory) -> Project:
    return large_map(tmp_path_factory.mktemp("large") / "p")


@pytest.fixture(scope="module")
def kept(tmp_path_factory) -> Project:
    return large_map(tmp_path_factory.mktemp("large") / "p", maps="memory")


def prove_all(build: Build, ticks) -> None:
    proof = prove(build, ticks)
    assert [(tick.tick, tick.box) for tick in proof.ticks if tick.different] == []
    assert len(proof.ticks) == len(ticks)
    assert (proof.different, proof.counts_different) == (0, 0)
    assert proof.passed


@pytest.mark.parametrize("target", TARGETS)
def test_200_screens_in_a_file_at_20_places(filed: Project, interpreter, target: str) -> None:
    interpreter(TARGETS[target][2])
    scene = filed.scene(None)
    assert SCREENS[0] * SCREENS[1] == 200
    assert len(scene.planes) == 4
    assert len({camera_at(scene, tick) for tick in PLACES}) == len(PLACES) == 20
    build = run_stages(filed, target, options=PROVING)
    assert build.windows[2] == (21, 14)
    prove_all(build, PLACES)


@pytest.mark.parametrize("target", ["board", "colour", "sdl"])
def test_200_screens_in_memory_at_20_places(kept: Project, interpreter, target: str) -> None:
    interpreter(TARGETS[target][2])
    build = run_stages(kept, target, options=PROVING)
    assert not any(build.windows)
    prove_all(build, PLACES)


def places_used(build: Build, folder: Path) -> int:
    """Return the array places that the exported program takes when it runs."""
    folder.mkdir()
    for name, data in build.files.items():
        (folder / name).write_bytes(data)
    (folder / "stops.txt").write_text("0\n90\n", encoding="ascii")
    text = (folder / build.play_file).read_text(encoding="ascii")
    machine = Machine(folder, text, "large", 60.0, build.abilities.flips)
    sizes: list[int] = []

    def array(size: int) -> list[int]:
        sizes.append(size)
        return [0] * size

    words = machine.words()
    machine.words = lambda: {**words, "w_array": array}  # type: ignore[method-assign]
    machine.run()
    return sum(sizes)


@pytest.mark.parametrize("encode", ["never", "always"])
@pytest.mark.parametrize("maps", ["filed", "kept"])
def test_memory_is_as_predicted(request, tmp_path: Path, maps: str, encode: str) -> None:
    """The budget's bytes are the places of the arrays that the running program asked for."""
    build = run_stages(request.getfixturevalue(maps), "board", options=replace(PROVING, encode=encode))
    told = {item.name: item.size_bytes for filled in build.memory for item, _ in filled.items}
    took = places_used(build, tmp_path / "run") * build.dialect.element_bytes
    assert told["tables"] + told["working arrays"] == took
    cells = COLUMNS * ROWS * build.dialect.element_bytes
    assert took < cells / 4 if maps == "filed" else took > cells


def test_a_map_in_a_file_keeps_only_its_window(filed: Project) -> None:
    build = run_stages(filed, "board")
    windows = [w for w in build.windows if w is not None]
    assert dict(build.bundle.arrays)["map_window"] == sum(w * h for w, h in windows)
    assert len(build.files["one-maps.raw"]) >= 2 * 2 * COLUMNS * ROWS
    assert len(build.files["one.words"]) < 100_000


@pytest.mark.parametrize("seed", range(4000, 4020))
@pytest.mark.parametrize("redraw", ["everything", "changes"])
def test_random_scenes_from_files(tmp_path: Path, monkeypatch, seed: int, redraw: str) -> None:
    """Planes of a few dozen cells count as large here, so that every edge of a window is met."""
    monkeypatch.setattr(mapfile, "LEAST_CELLS", 2)
    monkeypatch.setattr(mapfile, "TIMES_LARGER", 1)
    project = random_project(tmp_path / "p", seed, {"small": (11, 9)})
    profile = project.folder / "small.toml"
    text = profile.read_text(encoding="utf-8")
    profile.write_text(text.replace('"page"]', '"page", "move"]'), encoding="utf-8")
    small = replace(project.target("small"), maps="file", redraw=redraw)
    scene = project.scenes[0]
    if seed % 2:
        one, none = (Fraction(1), Fraction(1)), (Fraction(0), Fraction(0))
        scene = replace(
            scene, planes=tuple(replace(p, ratio=one, drift=none, bands=()) for p in scene.planes)
        )
    build = run_stages(replace(project, targets=(small,), scenes=(scene,)), options=PROVING)
    chosen = random.Random(seed)
    prove_all(build, sorted({*range(6), *chosen.sample(range(6, 150), 6)}))


def test_random_scenes_do_use_files(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.setattr(mapfile, "LEAST_CELLS", 2)
    monkeypatch.setattr(mapfile, "TIMES_LARGER", 1)
    used = 0
    for seed in range(4000, 4020):
        project = random_project(tmp_path / str(seed), seed, {"small": (11, 9)})
        small = replace(project.target("small"), maps="file")
        used += any(run_stages(replace(project, targets=(small,)), last="plan").windows)
    assert used >= 10


def test_a_dialect_that_reads_no_files_says_so(filed: Project) -> None:
    target = replace(filed.targets[0], dialect="pcbasic", machine="pcbasic-pc", mode="640x350", maps="file")
    with pytest.raises(ProjectError, match="does not read files at any place"):
        run_stages(replace(filed, targets=(target,)))

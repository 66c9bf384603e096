"""Holes of the rearmost plane, filled with the backdrop as part of its art: the same pixels."""

import random
from dataclasses import replace
from pathlib import Path

import pytest
from random_scenes import random_project

from scenekit.build import Build, BuildOptions, run_stages
from scenekit.errors import ProjectError
from scenekit.model.planes import Turn
from scenekit.model.project import Project
from scenekit.model.store import load, save
from scenekit.verify.prove import prove

PROVING = BuildOptions(play=True, counting=True)


def filled(folder: Path, seed: int, target: str, wraps: bool) -> Build:
    """Return the build of a random scene with holes in its rearmost plane, which are filled."""
    project: Project = random_project(folder, seed)
    scene = project.scenes[0]
    rear = replace(scene.planes[-1], wrap=(wraps, wraps), bands=())
    others = tuple(replace(plane, bands=()) for plane in scene.planes[:-1])
    targets = tuple(replace(t, holes="filled") for t in project.targets)
    project = replace(project, targets=targets, scenes=(replace(scene, planes=(rear, *others)),))
    return run_stages(project, target, options=PROVING)


def prove_all(build: Build, seed: int) -> None:
    proof = prove(build, sorted({0, 1, *random.Random(seed).sample(range(2, 120), 4)}))
    assert [(tick.tick, tick.box) for tick in proof.ticks if tick.different] == []
    assert (proof.different, proof.counts_different) == (0, 0)
    assert proof.passed


@pytest.mark.parametrize("seed", range(5000, 5016))
def test_random_scenes_with_holes_filled(tmp_path: Path, seed: int) -> None:
    build = filled(tmp_path / "p", seed, "small", wraps=seed % 3 > 0)
    assert not (build.planner.clears and build.scene.planes[0].wrap == (True, True))
    prove_all(build, seed)


@pytest.mark.parametrize("seed", range(5020, 5024))
@pytest.mark.parametrize("target", ["colour", "sixteen"])
def test_random_scenes_with_holes_filled_by_runs(tmp_path: Path, interpreter, target: str, seed: int) -> None:
    interpreter("brandy")
    prove_all(filled(tmp_path / "p", seed, target, wraps=True), seed)


def test_some_of_them_have_holes(tmp_path: Path) -> None:
    builds = [filled(tmp_path / str(seed), seed, "small", wraps=True) for seed in range(5000, 5016)]
    keys = [(build.scene.name, build.scene.planes[0].name) for build in builds]
    filled_px = [
        (b.cut_art.planes[k] != b.reduced.planes[k]).sum() for b, k in zip(builds, keys, strict=True)
    ]
    assert sum(pixels > 0 for pixels in filled_px) >= 8


def test_what_becomes_of_holes_is_kept(tmp_path: Path) -> None:
    project = random_project(tmp_path / "p", 1)
    save(replace(project, targets=(replace(project.targets[0], holes="filled"),)))
    assert load(tmp_path / "p").targets[0].holes == "filled"
    path = tmp_path / "p" / "project.toml"
    path.write_text(path.read_text().replace('holes = "filled"', 'holes = "full"'))
    with pytest.raises(ProjectError, match="holes"):
        load(tmp_path / "p")


def test_frames_that_take_turns_are_refused(tmp_path: Path) -> None:
    from large_map import large_map

    project = large_map(tmp_path / "p")
    scene = project.scenes[0]
    turns = (Turn(frames=("t2", "t15"), ticks=5),)
    planes = (replace(scene.planes[0], turns=turns), *scene.planes[1:])
    target = replace(project.targets[0], holes="filled")
    project = replace(project, targets=(target,), scenes=(replace(scene, planes=planes),))
    with pytest.raises(ProjectError, match="take turns"):
        run_stages(project, last="plan")

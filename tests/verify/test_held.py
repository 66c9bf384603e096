"""Planes held between the ticks of their cadence, proved in programs: pixels, values and counts."""

import random
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from changing import MODES, PROVING, changing, moved_pictures, prove_all, small_targets
from held_strips import strips
from random_scenes import random_project
from small_scene import small_project

from scenekit.build import run_stages
from scenekit.model.project import Project
from scenekit.model.store import load, save
from scenekit.model.target import Target
from scenekit.motion.expand import expand_project
from scenekit.motion.parallax import camera_at, scroll_at, shown_scroll
from scenekit.motion.tracks import cameras_along, shown_scrolls


def held(project: Project, seed: int) -> Project:
    """Return a project whose planes are held for 1 to 5 ticks."""
    chosen = random.Random(seed)
    scene = project.scenes[0]
    planes = []
    for plane in scene.planes:
        every = chosen.randint(1, 5) if plane is not scene.planes[0] else chosen.randint(2, 5)
        planes.append(replace(plane, cadence=(every, chosen.randrange(every))))
    save(replace(project, scenes=(replace(scene, planes=tuple(planes)),)))
    return load(project.folder)


@pytest.mark.parametrize("seed", range(4000, 4012))
def test_random_scenes_with_held_planes(tmp_path: Path, seed: int) -> None:
    project = held(random_project(tmp_path / "p", seed), seed)
    build = run_stages(project, "small", options=PROVING)
    prove_all(build, sorted({*range(9), *random.Random(seed).sample(range(9, 110), 5)}))


@pytest.mark.parametrize("name", ["brandy", "sdlbrt", "yabasic", "pcbasic"])
def test_held_planes_in_an_interpreter(tmp_path: Path, interpreter, name: str) -> None:
    interpreter(name)
    project = held(small_project(tmp_path / "p"), 5)
    machines = {
        "brandy": ("brandy-pc", "320x200-colour"),
        "sdlbrt": ("sdlbrt-pc", "320x200"),
        "yabasic": ("yabasic-pc", "160x100"),
        "pcbasic": ("pcbasic-pc", "640x350"),
    }
    machine, mode = machines[name]
    view = (0, 0, 40, 24)
    target = Target(name="t", machine=machine, mode=mode, dialect=name, view=view)
    build = run_stages(replace(project, targets=(target,)), "t", options=PROVING)
    prove_all(build, (0, 1, 2, 3, 4, 7, 10))


@pytest.mark.parametrize("target", MODES)
@pytest.mark.parametrize("seed", [1, 2])
def test_strips_that_move_in_turn_are_drawn_in_turn(
    tmp_path: Path, interpreter, target: str, seed: int
) -> None:
    interpreter(MODES[target][1])
    project = changing(strips(tmp_path / "p", seed), small_targets("yard"), False)
    build = run_stages(project, target, options=PROVING)
    ticks = tuple(range(18))
    assert moved_pictures(build, ticks) >= 14
    prove_all(build, ticks)


@pytest.mark.parametrize("seed", range(4100, 4112))
def test_random_held_planes_of_which_only_changes_are_drawn(tmp_path: Path, seed: int) -> None:
    project = held(random_project(tmp_path / "p", seed), seed)
    view = project.target("small").mode.rsplit("-", 1)[0]
    build = run_stages(changing(project, small_targets(view), False), "board", options=PROVING)
    assert build.changes
    prove_all(build, sorted({*range(9), *random.Random(seed).sample(range(9, 110), 5)}))


@pytest.mark.parametrize("seed", range(12))
def test_a_held_plane_shows_the_place_of_its_last_tick(tmp_path: Path, seed: int) -> None:
    """From the definition: of the ticks so far, the latest that the cadence names, or the first of all."""
    project = expand_project(held(random_project(tmp_path / "p", seed), seed))
    scene = project.scenes[0]
    ticks = np.arange(60, dtype=np.int64)
    for plane in scene.planes:
        every, first = plane.cadence
        found = list(
            zip(*map(list, shown_scrolls(scene, plane, cameras_along(scene, ticks), ticks)), strict=True)
        )
        for tick in range(60):
            last = max([0, *(t for t in range(tick + 1) if t % every == first)])
            wanted = scroll_at(plane, camera_at(scene, last), last)
            assert shown_scroll(scene, plane, tick) == found[tick] == wanted

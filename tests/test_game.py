"""Libraries of several scenes: parts that only a library of one scene has are refused, by name."""

from dataclasses import replace

import pytest
from large_map import large_map
from random_scenes import random_project

from scenekit.build import BuildOptions, run_stages
from scenekit.errors import ProjectError
from scenekit.game import build_game
from scenekit.model.project import Project
from scenekit.model.scene import Turn

TURNS = (Turn(frames=("t2", "t15", "t9"), ticks=5), Turn(frames=("t19", "t1"), ticks=8))


def twice(project: Project, **changed) -> Project:
    """Return a project with its scene, and a second one that is changed."""
    return replace(project, scenes=(project.scenes[0], replace(project.scenes[0], name="other", **changed)))


def refused(project: Project, target: str, part: str, scene: str) -> None:
    with pytest.raises(ProjectError) as caught:
        build_game(project, target)
    message = str(caught.value)
    assert message.startswith(f"scene {scene}: {part}: ")
    assert message.endswith(f"--scene {scene}")
    assert "\n" not in message
    assert run_stages(project, target, scene, options=BuildOptions(play=True)).files


def test_sprites_that_sleep(tmp_path) -> None:
    project = random_project(tmp_path / "p", 5003)
    placed = tuple(replace(p, asleep=p.moves_with != "screen") for p in project.scenes[0].placed)
    assert any(p.asleep for p in placed)
    refused(twice(project, placed=placed), "small", "sprites that sleep", "other")


def test_collisions_by_rows(tmp_path) -> None:
    project = random_project(tmp_path / "p", 6003)
    sprites = tuple(replace(sprite, spans=True) for sprite in project.sprites)
    project = twice(replace(project, sprites=sprites))
    refused(project, "small", "collisions by rows", project.scenes[0].name)


@pytest.fixture(scope="module")
def large(tmp_path_factory) -> Project:
    return large_map(tmp_path_factory.mktemp("large") / "p")


def test_a_map_in_a_file(large: Project) -> None:
    refused(twice(large), "board", "a map in a file", large.scenes[0].name)


def test_tiles_that_take_turns(tmp_path) -> None:
    project = large_map(tmp_path / "p", maps="memory")
    planes = tuple(replace(p, turns=TURNS) if p.name == "land" else p for p in project.scenes[0].planes)
    refused(twice(project, planes=planes), "board", "tiles that take turns", "other")


def test_all_parts_without_them_are_built(tmp_path) -> None:
    assert len(build_game(twice(random_project(tmp_path / "p", 5003)), "small").scenes) == 2

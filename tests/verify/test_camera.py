"""Cameras that keep a sprite in a zone, proved in programs."""

import random
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from small_scene import small_project

from scenekit.build import BuildOptions, run_stages
from scenekit.model.edits import put
from scenekit.model.project import Project
from scenekit.model.scene import Camera, Segment
from scenekit.model.scene import Path as Route
from scenekit.model.store import load, save
from scenekit.motion.parallax import camera_at
from scenekit.verify.prove import prove

TARGETS = {"board": "plain", "colour": "brandy", "sixteen": "brandy", "tables": "ecma55"}
TICKS = (0, 1, 5, 11, 17, 24, 30, 31, 44, 60, 79, 110)


def keeping(folder: Path, seed: int) -> Project:
    """Return the small project, its camera keeping a sprite that wanders about."""
    project = small_project(folder)
    chosen = random.Random(seed)
    segments = tuple(
        Segment(
            ticks=chosen.randint(1, 20),
            speed=(Fraction(chosen.randint(-9, 9), 4), Fraction(chosen.randint(-5, 5), 3)),
        )
        for _ in range(6)
    )
    scene = project.scene(None)
    kit = replace(scene.placed[2], path=Route(segments=segments, repeat=chosen.choice(["no", "from-start"])))
    zone = (chosen.randint(0, 20), chosen.randint(0, 10), chosen.randint(1, 15), chosen.randint(1, 12))
    limits = (-30, -9, 25, 14) if seed % 2 else None
    camera = Camera(start=(chosen.randint(-9, 9), 4), keeps="kit", zone=zone, limits=limits)
    scene = replace(scene, camera=camera, placed=put(scene.placed, kit))
    save(replace(project, scenes=(scene,)))
    return load(folder)


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("target", TARGETS)
def test_a_kept_sprite_is_proved(tmp_path, interpreter, target, seed) -> None:
    interpreter(TARGETS[target])
    project = keeping(tmp_path / "p", seed)
    places = {camera_at(project.scene(None), tick) for tick in range(120)}
    assert len(places) > 10, "the camera must move for this to prove anything"
    proof = prove(run_stages(project, target, options=BuildOptions(play=True, counting=True)), TICKS)
    assert (proof.different, proof.counts_different) == (0, 0)
    assert [tick.tick for tick in proof.ticks if tick.different] == []
    assert proof.passed


def test_document_keeps_what_the_camera_keeps(tmp_path) -> None:
    project = keeping(tmp_path / "p", 1)
    camera = project.scene(None).camera
    assert (camera.keeps, camera.limits) == ("kit", (-30, -9, 25, 14))
    save(project)
    assert load(tmp_path / "p") == project


def test_setting_the_camera_by_hand_stays_within_limits(tmp_path) -> None:
    """The library's own routine holds them, so that a game need not."""
    build = run_stages(keeping(tmp_path / "p", 1), "board", options=BuildOptions(play=True))
    text = build.files["yard.words"].decode("ascii")
    assert "if sk_x > sk_camera_right" in text or "camera_right" in text
    free = run_stages(keeping(tmp_path / "q", 2), "board", options=BuildOptions(play=True))
    assert "camera_right" not in free.files["yard.words"].decode("ascii")

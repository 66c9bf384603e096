"""Collisions by the drawn rows of sprites, proved in programs against the outlines of whole frames."""

import random
from dataclasses import replace
from itertools import pairwise

import pytest
from random_scenes import random_project, sleeping

from scenekit.build import BuildOptions, run_stages
from scenekit.model.project import Project
from scenekit.model.scene import Placed
from scenekit.model.store import load, save
from scenekit.plan.changes import meet
from scenekit.verify.compare import row_touches
from scenekit.verify.prove import prove

PROVING = BuildOptions(play=True, counting=True)
TARGETS = {"small": "plain", "sixteen": "brandy", "tables": "ecma55"}


def crowded(project: Project, seed: int) -> Project:
    """Return a project whose sprites stand close together, so that some touch and some only nearly."""
    chosen = random.Random(seed)
    scene = project.scenes[0]
    plane = scene.planes[0].name
    placed = tuple(
        Placed(
            name=f"c{n}",
            sprite=chosen.choice(project.sprites).name,
            over=plane,
            moves_with=plane,
            at=(20 + chosen.randint(-9, 9), 12 + chosen.randint(-7, 7)),
            facing=chosen.choice(("", *(f.facing for f in project.sprites[0].facings))),
            path=scene.placed[n].path if n < len(scene.placed) else scene.camera.path,
        )
        for n in range(6)
    )
    known = {sprite.name: {f.facing for f in sprite.facings} for sprite in project.sprites}
    placed = tuple(p if p.facing in known[p.sprite] else replace(p, facing="") for p in placed)
    names = {s.name: {a.name for a in s.animations} for s in project.sprites}
    good = all(
        (not g.animation or g.animation in names[p.sprite]) and (not g.facing or g.facing in known[p.sprite])
        for p in placed
        for g in p.path.segments
    )
    if not good:
        placed = tuple(replace(p, path=scene.camera.path) for p in placed)
    sprites = tuple(replace(s, spans=n == 0 or seed % 3 > 0) for n, s in enumerate(project.sprites))
    save(replace(project, sprites=sprites, scenes=(replace(scene, placed=placed),)))
    return load(project.folder)


def prove_all(build, seed: int) -> None:
    proof = prove(build, sorted({0, 1, *random.Random(seed).sample(range(2, 120), 6)}))
    assert (proof.different, proof.counts_different) == (0, 0)
    assert proof.passed


@pytest.mark.parametrize("seed", range(6000, 6010))
@pytest.mark.parametrize("target", TARGETS)
def test_rows_are_proved(tmp_path, interpreter, target: str, seed: int) -> None:
    interpreter(TARGETS[target])
    prove_all(run_stages(crowded(random_project(tmp_path / "p", seed), seed), target, options=PROVING), seed)


@pytest.mark.parametrize("seed", range(6020, 6024))
def test_rows_of_sleepers_touch_nothing(tmp_path, seed: int) -> None:
    project = sleeping(random_project(tmp_path / "p", seed), seed)
    sprites = tuple(replace(sprite, spans=True) for sprite in project.sprites)
    prove_all(run_stages(replace(project, sprites=sprites), "small", options=PROVING), seed)


def test_rows_touch_less_often_than_boxes(tmp_path) -> None:
    """Else the proofs above would prove little: both answers occur, and boxes alone would say otherwise."""
    answers, told_apart = set(), 0
    for seed in range(6000, 6010):
        project = crowded(random_project(tmp_path / str(seed), seed), seed)
        build = run_stages(project, "small", last="plan")
        for tick in (0, 7, 40):
            found = row_touches(project, build.scene, build.reduced, tick)
            assert len(found) == 5
            answers |= set(found)
            boxes = [build.planner.seen(shown).box for shown in build.planner.looks.at(tick)]
            told_apart += sum(
                meet(a, b) and not rows for (a, b), rows in zip(pairwise(boxes), found, strict=True)
            )
    assert answers == {0, 1}
    assert told_apart > 0

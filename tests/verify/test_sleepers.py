"""Sprites that sleep until the view comes to them, proved in programs."""

import random
from dataclasses import replace

import pytest
from random_scenes import random_project, sleeping

from scenekit.build import BuildOptions, run_stages
from scenekit.model.store import load, save
from scenekit.motion.waking import woken_at
from scenekit.verify.prove import prove

PROVING = BuildOptions(play=True, counting=True)
TARGETS = {"small": "plain", "colour": "brandy", "sixteen": "brandy", "tables": "ecma55"}


def stops_of(seed: int) -> list[int]:
    return sorted({0, 1, 2, *random.Random(seed).sample(range(3, 120), 6)})


@pytest.mark.parametrize("seed", range(5000, 5008))
@pytest.mark.parametrize("target", TARGETS)
def test_sleepers_are_proved(tmp_path, interpreter, target: str, seed: int) -> None:
    interpreter(TARGETS[target])
    project = sleeping(random_project(tmp_path / "p", seed), seed)
    proof = prove(run_stages(project, target, options=PROVING), stops_of(seed))
    assert [(tick.tick, tick.box) for tick in proof.ticks if tick.different] == []
    assert (proof.different, proof.counts_different) == (0, 0)
    assert proof.passed


def test_some_wake_early_some_late_some_never(tmp_path) -> None:
    """Else the proofs above would prove little."""
    found = []
    for seed in range(5000, 5008):
        scene = sleeping(random_project(tmp_path / str(seed), seed), seed).scenes[0]
        found += [woken_at(scene, placed, 119) for placed in scene.placed if placed.asleep]
    assert sum(when is None for when in found) >= 3
    assert sum(when == 0 for when in found) >= 3
    assert sum(when is not None and when > 0 for when in found) >= 3


@pytest.mark.parametrize("seed", range(5020, 5026))
def test_sleepers_where_only_changes_are_drawn(tmp_path, seed: int) -> None:
    project = sleeping(random_project(tmp_path / "p", seed), seed)
    profile = project.folder / "small.toml"
    text = profile.read_text(encoding="utf-8")
    profile.write_text(text.replace('"page"]', '"page", "move"]'), encoding="utf-8")
    target = replace(project.target("small"), redraw="changes")
    build = run_stages(replace(project, targets=(target,)), options=PROVING)
    assert build.changes
    assert prove(build, [*range(8), 30, 31, 32]).passed


def test_document_keeps_sleepers(tmp_path) -> None:
    project = sleeping(random_project(tmp_path / "p", 5001), 5001)
    assert any(placed.asleep for placed in project.scenes[0].placed)
    save(project)
    assert load(tmp_path / "p") == project

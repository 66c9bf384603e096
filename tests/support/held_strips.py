"""Scenes of strips that are held, and move in turn."""

import random
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

from small_scene import FADING, PLAIN, blocks, small_project

from scenekit.model.project import Project
from scenekit.model.scene import Camera, Segment
from scenekit.model.scene import Path as Route
from scenekit.model.store import load, save
from scenekit.model.target import Target


def strips(folder: Path, seed: int) -> Project:
    """Return a scene of three strips, one below the other, each held for 4 ticks from a tick of its own."""
    project = small_project(folder)
    scene, plain = project.scenes[0], project.scenes[0].planes[0]
    planes = []
    for number in range(3):
        name = f"strip{number}"
        blocks(37, 9, [*PLAIN, FADING[0]], 0.2, seed + number).save(folder / f"{name}.png")
        planes.append(
            replace(
                plain, name=name, picture=f"{name}.png", ratio=(Fraction(number + 1, 2), Fraction(0)),
                wrap=(True, False), bands=(), drift=(Fraction(0), Fraction(0)), offset=(0, 10 * number),
                cadence=(4, number),
            )
        )  # fmt: skip
    placed = tuple(
        replace(p, over="strip1", moves_with="strip1") for p in scene.placed[:1] if p.sprite == "cat"
    )
    quiet = replace(scene, planes=tuple(planes), placed=placed, events=(), transitions=())
    return replace(project, cycles=(), scenes=(quiet,))


def quay(folder: Path, seed: int, cadences: list[tuple[int, int]], sprites: int) -> Project:
    """Return strips of random heights over 320 x 200 px, each with a cadence, and cats that run about."""
    chosen = random.Random(seed)
    project = strips(folder, seed)
    scene = project.scenes[0]
    planes, top = [], 0
    for number, cadence in enumerate(cadences):
        high = chosen.randint(20, 44)
        name = f"wide{number}"
        blocks(90, high, [(9, 9, 9), (80, 90, 70), (200, 190, 120)], 0.3, seed + number).save(
            folder / f"{name}.png"
        )
        planes.append(
            replace(
                scene.planes[0], name=name, picture=f"{name}.png",
                ratio=(Fraction(chosen.randint(1, 4), 3), Fraction(0)),
                offset=(0, top), cadence=cadence,
            )
        )  # fmt: skip
        top += high
    route = Route(segments=(Segment(ticks=40, speed=(Fraction(3, 2), Fraction(1))),), repeat="from-start")
    cat = scene.placed[0]
    placed = tuple(
        replace(
            cat, name=f"cat{n}", over=chosen.choice(planes).name, moves_with="screen", path=route,
            at=(chosen.randint(0, 250), chosen.randint(0, 150)),
        )
        for n in range(sprites)
    )  # fmt: skip
    camera = Camera(
        path=Route(segments=(Segment(ticks=99, speed=(Fraction(1), Fraction(0))),), repeat="onward")
    )
    scene = replace(scene, planes=tuple(planes), placed=placed, camera=camera, ticks=200)
    target = Target(name="t", machine="indexed-board", mode="320x200", dialect="plain", redraw="changes")
    save(replace(project, targets=(target,), scenes=(scene,)))
    return load(folder)

"""A scene of strips that are held, and move in turn."""

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

from small_scene import FADING, PLAIN, blocks, small_project

from scenekit.model.project import Project


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

"""Projects whose targets move pictures along, and proofs of what they draw."""

from dataclasses import replace
from fractions import Fraction

from scenekit.build import BuildOptions
from scenekit.model.project import Project
from scenekit.model.store import load, save
from scenekit.model.target import Target
from scenekit.plan.changework import changes_at
from scenekit.verify.prove import prove

PROVING = BuildOptions(play=True, counting=True)
MODES = {"board": ("indexed", "plain"), "colour": ("direct", "brandy"), "sixteen": ("16", "brandy")}


def changing(project: Project, targets: tuple[Target, ...], joined: bool) -> Project:
    """Return a project whose targets move pictures along; joined planes all scroll with the camera."""
    profile = project.folder / "small.toml"
    text = profile.read_text(encoding="utf-8")
    profile.write_text(text.replace('"page"]', '"page", "move"]'), encoding="utf-8")
    scene = project.scenes[0]
    if joined:
        still = (Fraction(0), Fraction(0))
        planes = tuple(
            replace(p, ratio=(Fraction(1), Fraction(1)), drift=still, bands=()) for p in scene.planes
        )
        scene = replace(scene, planes=planes)
    save(replace(project, targets=targets, scenes=(scene,)))
    return load(project.folder)


def small_targets(view: str) -> tuple[Target, ...]:
    return tuple(
        Target(name=name, machine="small.toml", mode=f"{view}-{kind}", dialect=dialect, redraw="changes")
        for name, (kind, dialect) in MODES.items()
    )


def moved_pictures(build, ticks) -> int:
    """Return how many of the pictures are moved along rather than drawn whole."""
    pages = build.abilities.pages
    olds = [ticks[n - pages] if n >= pages else -1 for n in range(len(ticks))]
    return sum(not changes_at(build.planner, t, o).whole for t, o in zip(ticks, olds, strict=True))


def prove_all(build, ticks) -> None:
    proof = prove(build, ticks)
    assert [(tick.tick, tick.box) for tick in proof.ticks if tick.different] == []
    assert (proof.different, proof.counts_different) == (0, 0)
    assert proof.passed

"""A game of four scenes with other parts each: none, maps in a file and sleepers, turns and rows, all."""

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import large_map

from scenekit.model.planes import Turn
from scenekit.model.project import Project
from scenekit.model.scene import Camera, Placed, Plane, Scene, Segment, Wakes
from scenekit.model.scene import Path as Route
from scenekit.model.target import Target

TARGETS = {**large_map.TARGETS, "sixteen": ("brandy-pc", "320x200-16", "brandy")}
TARGETS["tables"] = ("minimal-pc", "320x200", "ecma55")
TURNS = (Turn(frames=("t1", "t2", "t15"), ticks=7), Turn(frames=("t17", "t4"), ticks=3))


def parts_game(folder: Path, large: bool = True) -> Project:
    """Write the art into a folder and return the project; its scenes stand in memory only.

    large   its maps are so large that they are kept in a file
    """
    project = large_map.large_map(folder, maps="file", land=(150, 60) if large else (40, 20))
    pond = ["1,2h,15,-1,17v,4,0", "6,-1,1hv,17,9,15v,2", "4h,1,1,2,-1,17,5"]
    (folder / "pond.csv").write_text("\n".join(pond) + "\n", encoding="ascii")
    land = project.scenes[0]
    if not large:
        land = replace(land, planes=land.planes[1:3])
    imp = project.sprites[0]
    ghost = replace(imp, name="ghost", spans=True)
    targets = tuple(
        Target(name=n, machine=m, mode=mode, dialect=d, maps="file" if large else "memory")
        for n, (m, mode, d) in TARGETS.items()
    )
    scenes = (_plain(land), _land(land), _waves(land), _all(land))
    return replace(project, sprites=(imp, ghost), scenes=scenes, targets=targets)


def _placed(name: str, over: str, at: tuple[int, int], sprite: str = "imp", asleep: bool = False) -> Placed:
    path = Route(segments=(Segment(ticks=400, speed=(Fraction(2), Fraction(1, 3))),))
    return Placed(name=name, sprite=sprite, over=over, moves_with=over, at=at, asleep=asleep, path=path)


def _plain(land: Scene) -> Scene:
    """A picture in memory, without any part that a program needs only for some scenes."""
    plane = Plane(name="floor", picture="tiles.png", offset=(0, 60), tile=(16, 16))
    placed = (_placed("here", "floor", (40, 8)), _placed("there", "floor", (90, -9)))
    return replace(land, name="plain", ticks=80, planes=(plane,), placed=placed)


def _land(land: Scene) -> Scene:
    """Large maps in the file, and sprites that sleep until the camera comes, at once and later."""
    sleepers = tuple(
        _placed(f"sleeper-{n}", "land", (90 + 450 * n, 60 + 40 * n), asleep=True) for n in range(6)
    )
    wakes = Wakes(axis=0, start=-16, end=336)
    return replace(land, name="land", placed=(*land.placed, *sleepers), wakes=wakes)


def _waves(land: Scene) -> Scene:
    """Tiles that take turns on a small map, which is held for three ticks, and sprites that touch by rows."""
    camera = Camera(
        start=(3, 5), path=Route(segments=(Segment(ticks=90, speed=(Fraction(5, 3), Fraction(1, 2))),))
    )
    small = Plane(name="pond", map="pond.csv", sheet="tiles", wrap=(True, True), turns=TURNS, cadence=(3, 1))
    near = [(30, 40), (37, 44), (44, 33), (60, 46)]
    placed = tuple(_placed(f"ghost-{n}", "pond", at, "ghost") for n, at in enumerate(near))
    placed = tuple(replace(p, path=Route()) if n % 2 else p for n, p in enumerate(placed))
    return replace(land, name="waves", ticks=90, camera=camera, planes=(small,), placed=placed)


def _all(land: Scene) -> Scene:
    """Everything at once: turns on maps in the file, sleepers, rows."""
    scene = _land(land)
    planes = tuple(replace(plane, turns=TURNS if plane.name != "hills" else ()) for plane in scene.planes)
    planes = tuple(replace(plane, cadence=(1 + n, n)) for n, plane in enumerate(planes))
    ghosts = tuple(replace(p, sprite="ghost" if n % 3 else "imp") for n, p in enumerate(scene.placed))
    wakes = Wakes(axis=1, start=-10, end=170)
    return replace(scene, name="all", planes=planes, placed=ghosts, wakes=wakes, missed="catch-up")

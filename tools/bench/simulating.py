"""Times the simulation of 10,000 ticks with 6 planes and 200 sprites, and the memory that it takes.

    python3 tools/bench/simulating.py [--ticks 10000] [--sprites 200] [--planes 6]

Both ways to draw are timed: copies from an image file, and runs of one colour; then both once more in a scene
whose planes all move alike and whose sprites rest for half of the time, of which only what changed is drawn.
Timed is what the command
`simulate` does once a scene is built: every tick counted and priced, the worst case over all places of the
camera, and the time line. One tick in 97 is counted again by the draw plan.
"""

import argparse
import random
import resource
import sys
import tempfile
import time
import tracemalloc
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from PIL import Image

from scenekit.build import Build, run_stages
from scenekit.costs.estimate import estimate
from scenekit.costs.playing import time_line
from scenekit.costs.worst import worst_case
from scenekit.model.project import Project
from scenekit.model.scene import Camera, Placed, Plane, Scene, Segment
from scenekit.model.scene import Path as Route
from scenekit.model.sprites import Animation, Facing, Frame, Sheet, Sprite, Step
from scenekit.model.store import save
from scenekit.model.target import Target
from scenekit.plan.counting import Counter

TARGETS = (("copies", "indexed-board", "640x400", "plain"), ("runs", "brandy-pc", "320x200-colour", "brandy"))

CHANGES = tuple((f"changes by {name}", *rest) for name, *rest in TARGETS)


def noise(chosen: random.Random, size: tuple[int, int], clear: float, run: int) -> Image.Image:
    colours = [tuple(chosen.randrange(256) for _ in range(3)) for _ in range(12)]
    pixels = bytearray()
    for _ in range(size[1]):
        left = size[0]
        while left:
            length = min(left, 1 + int(chosen.expovariate(1 / run)))
            shown = chosen.random() >= clear
            pixels += bytes((*chosen.choice(colours), 255) if shown else (0, 0, 0, 0)) * length
            left -= length
    return Image.frombytes("RGBA", size, bytes(pixels))


def scene_of(chosen: random.Random, ticks: int, planes: int, sprites: int) -> Scene:
    """Return a scene whose camera goes far, so that most planes are at another place every tick."""

    def speed() -> tuple[Fraction, Fraction]:
        return Fraction(chosen.randint(-9, 9), 4), Fraction(chosen.randint(-3, 3), 5)

    layers = tuple(
        Plane(
            name=f"p{number}",
            picture=f"p{number}.png",
            ratio=(Fraction(number + 1, 6), Fraction(number, 12)),
            drift=(Fraction(number % 2, 3), Fraction(0)),
            wrap=(True, number < 3),
            tile=(16, 16),
        )
        for number in range(planes)
    )
    placed = tuple(
        Placed(
            name=f"s{number}",
            sprite=f"k{number % 12}",
            over=f"p{number % planes}",
            moves_with=("screen", f"p{number % planes}")[number % 2],
            at=(chosen.randint(0, 600), chosen.randint(0, 300)),
            path=Route(
                segments=tuple(
                    Segment(
                        ticks=chosen.randint(20, 300), speed=speed(), facing=chosen.choice(("left", "right"))
                    )
                    for _ in range(6)
                ),
                repeat=("from-start", "onward", "no")[number % 3],
            ),
        )
        for number in range(sprites)
    )
    camera = Camera(
        path=Route(segments=(Segment(ticks=4000, speed=(Fraction(3, 2), Fraction(1, 40))),), repeat="onward")
    )
    return Scene(
        name="far",
        ticks=ticks,
        ticks_per_update=1,
        missed="slow",
        backdrop=(0, 0, 0),
        camera=camera,
        planes=layers,
        placed=placed,
        events=(),
    )


def joined(scene: Scene) -> Scene:
    """Return the scene with planes that all move alike, and with sprites of which most rest."""
    one, none = (Fraction(1), Fraction(1)), (Fraction(0), Fraction(0))
    planes = tuple(replace(plane, ratio=one, drift=none) for plane in scene.planes)
    still = Segment(ticks=300, speed=none)
    placed = tuple(
        replace(p, moves_with="p0", path=replace(p.path, segments=(*p.path.segments[:2], still)))
        for p in scene.placed
    )
    return replace(scene, planes=planes, placed=placed)


def make_project(folder: Path, scene: Scene) -> Project:
    chosen = random.Random(7)
    for number, plane in enumerate(scene.planes):
        size = (chosen.randint(400, 1600), chosen.randint(150, 420))
        noise(chosen, size, 0.0 if number == 0 else 0.5, 12).save(folder / plane.picture)
    noise(chosen, (24 * 24, 32), 0.3, 5).save(folder / "sheet.png")
    frames = tuple(Frame(name=f"f{n}", box=(24 * n, 0, 24, 32), pivot=(12, 31)) for n in range(24))
    facings = (Facing(facing="right", flip=0), Facing(facing="left", flip=1))
    sprites = tuple(
        Sprite(
            name=f"k{number}",
            animations=(
                Animation(
                    name="go",
                    sheet="sheet",
                    play=("loop", "there-and-back")[number % 2],
                    steps=tuple(Step(frame=f"f{(number * 2 + n) % 24}", ticks=3 + n) for n in range(6)),
                ),
            ),
            facings=facings,
        )
        for number in range(12)
    )
    project = Project(
        folder=folder,
        name="far",
        sheets=(Sheet(name="sheet", file="sheet.png", frames=frames),),
        sprites=sprites,
        targets=tuple(
            Target(name=n.replace(" ", "-"), machine=m, mode=v, dialect=d, redraw=redraw)
            for redraw, some in (("everything", TARGETS), ("changes", CHANGES))
            for n, m, v, d in some
        ),
        scenes=(scene,),
    )
    save(project)
    return project


def simulate(build: Build) -> float:
    """Return the seconds that a simulation takes; everything that is kept between two is made anew."""
    build.planner.counter = None
    build.planner.done.clear()
    started = time.perf_counter()
    line = estimate(build.planner, build.machine, build.mode, build.scene, range(build.scene.ticks))
    worst_case(build.project, build.scene, build.planner, build.machine, build.mode, line)
    time_line(line, build.scene)
    return time.perf_counter() - started


def wrong_ticks(build: Build) -> int:
    """Return how many ticks out of each hundred the draw plan counts otherwise."""
    import numpy as np

    ticks = np.arange(0, build.scene.ticks, 97, dtype=np.int64)
    before, page = np.maximum(0, ticks - 1), np.maximum(-1, ticks - build.planner.abilities.pages)
    counted = Counter(build.planner).count(ticks, before, page)
    wrong = 0
    for place, tick in enumerate(ticks.tolist()):
        sums: dict[str, tuple[int, int, int]] = {}
        for work in build.planner.plan(tick, int(before[place]), int(page[place])):
            old = sums.get(work.operation, (0, 0, 0))
            sums[work.operation] = (old[0] + work.calls, old[1] + work.rows, old[2] + work.pixels)
        wrong += counted.whole.at(place) != {name: amounts for name, amounts in sums.items() if amounts[0]}
    return wrong


def main() -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--ticks", type=int, default=10_000)
    parser.add_argument("--planes", type=int, default=6)
    parser.add_argument("--sprites", type=int, default=200)
    options = parser.parse_args()
    scene = scene_of(random.Random(3), options.ticks, options.planes, options.sprites)
    with tempfile.TemporaryDirectory(prefix="scenekit-") as temporary:
        project = make_project(Path(temporary), scene)
        for name, *_ in (*TARGETS, *CHANGES):
            if (name, *_) in CHANGES:
                project = replace(project, scenes=(joined(scene),))
            build = run_stages(project, name.replace(" ", "-"), last="plan")
            times = sorted(simulate(build) for _ in range(5))
            tracemalloc.start()
            simulate(build)
            most = tracemalloc.get_traced_memory()[1] / 1e6
            tracemalloc.stop()
            whole = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
            print(
                f"{name}: {options.ticks} ticks, {options.planes} planes, {options.sprites} sprites: "
                f"{times[0]:.3f} s at best, {times[2]:.3f} s median of 5; {most:.0f} MB at most, "
                f"{whole:.0f} MB the whole process; {wrong_ticks(build)} ticks differ",
                flush=True,
            )
    return 0


if __name__ == "__main__":
    sys.exit(main())

"""The scene that a benchmark draws: planes and sprites of many sizes and shapes, the same everywhere."""

import random
import shutil
from dataclasses import dataclass, replace
from fractions import Fraction
from math import isqrt
from pathlib import Path

from scenekit.build import Build, run_stages
from scenekit.chosen import Chosen, choose_for
from scenekit.errors import MachineError
from scenekit.model.palette import Cycle
from scenekit.model.project import Project
from scenekit.model.scene import Camera, Placed, Plane, Scene, Segment
from scenekit.model.scene import Path as Route
from scenekit.model.sprites import Animation, Facing, Frame, Sheet, Sprite, Step
from scenekit.model.store import inside, save
from scenekit.model.target import Target
from scenekit.plan.schemes import BLIT, can_move
from scenekit.tables.mapfile import LEAST_CELLS, TIMES_LARGER
from scenekit.tables.mapfile import WORDS as MAP_WORDS

SEED = 20
COLOURS = 12
TURNING = 4
FRAMES = ((8, 8), (16, 16), (32, 24), (48, 10), (10, 48), (40, 40))
"""Sizes of the frames in px: small, large, tall and wide."""

STILL_SPRITES = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """A plane of the benchmark: its tiles, the share of clear pixels, how long its runs are."""

    name: str
    tile: tuple[int, int]
    clear: float
    run_px: int
    mirrored: bool = False
    wraps: bool = True


GROUNDS = (
    Ground(name="fine", tile=(16, 16), clear=0.0, run_px=2),
    Ground(name="calm", tile=(32, 32), clear=0.0, run_px=24),
    Ground(name="holes", tile=(16, 16), clear=0.5, run_px=6),
    Ground(name="sparse", tile=(8, 8), clear=0.97, run_px=8),
    Ground(name="tall", tile=(8, 40), clear=0.2, run_px=4),
    Ground(name="wide", tile=(40, 8), clear=0.2, run_px=12),
    Ground(name="mirrored", tile=(16, 16), clear=0.3, run_px=4, mirrored=True),
    Ground(name="apart", tile=(8, 8), clear=0.3, run_px=8, wraps=False),
)
PICTURE_PX = (80, 80)


def bench_build(project: Project, target: Target, folder: Path) -> Build:
    """Write the benchmark's project into an empty folder and build its scene for a target.

    raises   MachineError: the target draws nothing
    """
    for name in (target.machine, target.dialect):
        if name.endswith(".toml"):
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(inside(project.folder, name), folder / name)
    chosen = random.Random(SEED)
    colours = _colours(chosen)
    small = Target(
        name=target.name,
        machine=target.machine,
        mode=target.mode,
        dialect=target.dialect,
        transparent=target.transparent,
        view=target.view,
    )
    bench = Project(
        folder=folder,
        name="benchmark",
        sheets=(_sheet(folder, chosen, colours),),
        sprites=_sprites(),
        targets=(small,),
        scenes=(_scene(folder, chosen, colours),),
    )
    way = choose_for(bench, bench.scenes[0], small)
    bench = _with_all_it_can(bench, way)
    if not (way.scheme is BLIT and way.abilities.direct):
        bench = replace(bench, cycles=_cycles(colours))  # art that is copied as colours cannot move them
    save(bench)
    build = run_stages(bench, last="tables")
    if not build.scheme.draws:
        raise MachineError(f"target {target.name}: draws nothing, so there is nothing to time")
    return build


def _with_all_it_can(bench: Project, way: Chosen) -> Project:
    """Return the project with pictures moved along and a map in a file, where its target can do these."""
    target, scene = bench.targets[0], bench.scenes[0]
    moves = can_move(target, way.machine.name, way.dialect.name, way.scheme, way.abilities)
    filed = way.scheme.draws and way.abilities.words >= MAP_WORDS
    target = replace(target, redraw="changes" if moves else "everything", maps="file" if filed else "memory")
    if filed:
        view = target.view or (0, 0, way.mode.width_px, way.mode.height_px)
        scene = replace(scene, planes=(*scene.planes, _far(bench.folder, view[2:])))
        tile = Frame(name="tile", box=bench.sheets[0].frames[-2].box, pivot=(0, 0))
        bench = replace(bench, sheets=(*bench.sheets, Sheet(name="far", file="frames.png", frames=(tile,))))
    return replace(bench, targets=(target,), scenes=(scene,))


def _far(folder: Path, view: tuple[int, int]) -> Plane:
    """Write a map that is large enough to stay in a file, and return its plane."""
    side = FRAMES[-1][0]
    window = (view[0] // side + 2) * (view[1] // side + 2)
    across = isqrt(max(LEAST_CELLS, TIMES_LARGER * window)) + 1
    line = ",".join(["0"] * across)
    (folder / "far.csv").write_text(f"{line}\n" * across, encoding="ascii")
    return Plane(name="far", map="far.csv", sheet="far", wrap=(False, False))


def _cycles(colours: list[tuple[int, int, int]]) -> tuple[Cycle, ...]:
    return (Cycle(name="turn", colours=tuple(colours[:TURNING]), ticks=1, direction="forward"),)


def _colours(chosen: random.Random) -> list[tuple[int, int, int]]:
    return [(chosen.randrange(256), 20 * n, chosen.randrange(256)) for n in range(1, COLOURS + 1)]


def _picture(
    chosen: random.Random, colours: list[tuple[int, int, int]], size: tuple[int, int], clear: float, run: int
) -> bytes:
    """Return RGBA rows of runs of about a length, so many of them clear."""
    pixels = bytearray()
    for _ in range(size[1]):
        left = size[0]
        while left:
            length = min(left, chosen.randint(1, 2 * run - 1))
            shown = chosen.random() >= clear
            pixels += bytes((*chosen.choice(colours), 255) if shown else (0, 0, 0, 0)) * length
            left -= length
    return bytes(pixels)


def _sheet(folder: Path, chosen: random.Random, colours: list[tuple[int, int, int]]) -> Sheet:
    from PIL import Image

    width, height = max(w for w, _ in FRAMES), sum(h for _, h in FRAMES)
    image = Image.new("RGBA", (2 * width, height), (0, 0, 0, 0))
    frames, top = [], 0
    for number, (w, h) in enumerate(FRAMES):
        for left, clear, kind in ((0, 0.0, "full"), (width, 0.4, "open")):
            run = (2, 4, 8)[number % 3]
            part = Image.frombytes("RGBA", (w, h), _picture(chosen, colours, (w, h), clear, run))
            for corner in ((0, 0), (w - 1, h - 1)):
                part.putpixel(corner, (*colours[-1], 255))
            image.paste(part, (left, top))
            frames.append(Frame(name=f"{kind}-{number}", box=(left, top, w, h), pivot=(0, 0)))
        top += h
    image.save(folder / "frames.png")
    return Sheet(name="frames", file="frames.png", frames=tuple(frames))


def _sprites() -> tuple[Sprite, ...]:
    sprites = []
    for number in range(len(FRAMES)):
        for kind in ("full", "open"):
            name = f"{kind}-{number}"
            steps = (Step(frame=name, ticks=2), Step(frame=name, ticks=3))
            sprites.append(
                Sprite(
                    name=name,
                    animations=(Animation(name="still", sheet="frames", play="loop", steps=steps),),
                    facings=(Facing(facing="right", flip=0), Facing(facing="left", flip=1)),
                )
            )
    return tuple(sprites)


def _scene(folder: Path, chosen: random.Random, colours: list[tuple[int, int, int]]) -> Scene:
    from PIL import Image

    planes = []
    for ground in GROUNDS:
        art = _picture(chosen, colours, PICTURE_PX, ground.clear, ground.run_px)
        image = Image.frombytes("RGBA", PICTURE_PX, art)
        if ground.name == "sparse":
            image.paste((0, 0, 0, 0), (16, 0, *PICTURE_PX))
        if ground.mirrored:
            half = image.crop((0, 0, PICTURE_PX[0] // 2, PICTURE_PX[1]))
            image.paste(half.transpose(Image.Transpose.FLIP_LEFT_RIGHT), (PICTURE_PX[0] // 2, 0))
        image.save(folder / f"{ground.name}.png")
        planes.append(
            Plane(
                name=ground.name,
                picture=f"{ground.name}.png",
                tile=ground.tile,
                wrap=(ground.wraps, ground.wraps),
            )
        )
    moves = Segment(ticks=3, speed=(Fraction(1, 2), Fraction(1, 3)))
    back = Segment(ticks=3, speed=(Fraction(-1, 2), Fraction(-1, 3)))
    route = Route(segments=(moves, back), repeat="from-start")
    placed = []
    for number in range(2 * len(FRAMES)):
        kind, size = ("full", "open")[number % 2], number // 2
        placed.append(
            Placed(
                name=f"s{number}",
                sprite=f"{kind}-{size}",
                over="wide",
                moves_with="screen",
                at=(60, 60) if number % 4 < 2 else (50, 40),
                facing=("right", "left")[number % 3 % 2],
                path=Route() if number < STILL_SPRITES else route,
            )
        )
    return Scene(
        name="bench",
        ticks=60,
        ticks_per_update=1,
        missed="slow",
        backdrop=colours[0],
        camera=Camera(start=(0, 0), path=route),
        planes=tuple(planes),
        placed=tuple(placed),
        events=(),
    )

"""Proves scenes of different make on every target that runs here, and prints one table.

    python tools/bench/proof.py [FOLDER OF PARALLAX PICTURES]

Each scene is exported, run to ten ticks in the target's interpreter or the executor, and compared with the
reference: pixels, values, calls. A refusal is printed with its number. The folder may hold pictures of
somebody's parallax planes, named in order from back to front.
"""

import sys
import tempfile
import time
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path

import numpy as np
from PIL import Image

from scenekit.build import BuildOptions, run_stages
from scenekit.cli.main import stop_on_request
from scenekit.errors import SceneKitError
from scenekit.model.paths import Path as ScenePath
from scenekit.model.paths import Segment
from scenekit.model.project import Project
from scenekit.model.scene import Camera, Placed, Plane, Scene
from scenekit.model.sprites import Animation, Facing, Frame, Sheet, Sprite, Step
from scenekit.model.store import load, save
from scenekit.model.target import Target
from scenekit.verify.prove import can_run, prove

ROOT = Path(__file__).resolve().parents[2]
TICKS = 10
SMALL = "small"
"""A scene of 160 x 96 px, for machines with little memory."""


@dataclass(frozen=True)
class Place:
    """A target of the table."""

    name: str
    machine: str
    mode: str
    dialect: str


PLACES = (
    Place("brandy 24-bit", "brandy-pc", "320x200-colour", "brandy"),
    Place("brandy 16", "brandy-pc", "320x200-16", "brandy"),
    Place("sdlbrt", "sdlbrt-pc", "320x200", "sdlbrt"),
    Place("yabasic", "yabasic-pc", "320x200", "yabasic"),
    Place("executor 640x400", "indexed-board", "640x400", "plain"),
    Place("executor 5-6-5", "colour-board", "800x600", "plain"),
    Place("pcbasic", "pcbasic-pc", "640x350", "pcbasic"),
)


def picture(folder: Path, name: str, size: tuple[int, int], colours: int, seed: int, holes: float) -> str:
    """Draw a picture of blocks and hills that wraps, with so many colours and empty upper part."""
    random = np.random.default_rng(seed)
    w, h = size
    palette = random.integers(20, 250, (colours, 3), dtype=np.uint8)
    y, x = np.mgrid[0:h, 0:w]
    wave = (np.sin(2 * np.pi * x / w * (seed % 3 + 1)) * h / 8).astype(int)
    index = ((x // 7 + (y + wave) // 5) * (seed + 3) + x // 16) % colours
    result = np.zeros((h, w, 4), dtype=np.uint8)
    result[..., :3] = palette[index]
    result[..., 3] = np.where(y + wave >= h * holes, 255, 0)
    Image.fromarray(result).save(folder / f"{name}.png")
    return f"{name}.png"


def figures(folder: Path, colours: int) -> Sheet:
    """Draw a strip of four walkers with no mirror image of their own."""
    random = np.random.default_rng(9)
    palette = random.integers(40, 255, (colours, 3), dtype=np.uint8)
    strip = np.zeros((20, 64, 4), dtype=np.uint8)
    for n in range(4):
        for row in range(2, 18):
            left, right = n * 16 + 3 + row % 3, n * 16 + 10 + (row + n) % 4
            strip[row, left:right, :3] = palette[(row // 3 + n) % colours]
            strip[row, left:right, 3] = 255
        strip[18:20, n * 16 + 4 + n : n * 16 + 7 + n] = (250, 250, 250, 255)
    Image.fromarray(strip).save(folder / "figures.png")
    frames = tuple(Frame(name=f"f{n}", box=(n * 16, 0, 16, 20), pivot=(7, 19)) for n in range(4))
    return Sheet(name="figures", file="figures.png", frames=frames)


def walker(sheet: Sheet) -> Sprite:
    """Return a sprite that walks and turns by a mirror image."""
    steps = tuple(Step(frame=frame.name, ticks=4 + n) for n, frame in enumerate(sheet.frames))
    walk = Animation(name="walk", sheet=sheet.name, play="loop", steps=steps)
    facings = (Facing(facing="right", flip=0), Facing(facing="left", flip=1))
    return Sprite(name="walker", animations=(walk,), facings=facings)


def made(
    folder: Path,
    planes: int,
    sprites: int,
    colours: int,
    pictures: list[Path],
    view: tuple[int, int] = (320, 200),
) -> Project:
    """Return a project with so many planes and sprites of so many colours."""
    ratios = [Fraction(n + 1, planes) for n in range(planes)]
    made_planes = []
    for n, ratio in enumerate(ratios):
        if pictures:
            (folder / pictures[n].name).write_bytes(pictures[n].read_bytes())
            file, offset = pictures[n].name, 0
        else:
            height = view[1] if n == 0 else view[1] * 11 // 20
            size = (view[0] + 37 * n, height)
            file, offset = (
                picture(folder, f"p{n}", size, colours, n + 1, 0 if n == 0 else 0.4),
                view[1] - height,
            )
        plane = Plane(
            name=f"p{n}", picture=file, ratio=(ratio, Fraction(1)), offset=(0, offset), tile=(32, 16)
        )
        made_planes.append(plane)
    sheet = figures(folder, colours)
    placed = tuple(_placed(n, planes) for n in range(sprites))
    camera = Camera(
        path=ScenePath(
            segments=(
                Segment(ticks=70, speed=(Fraction(3, 2), Fraction(0))),
                Segment(ticks=70, speed=(Fraction(-3, 2), Fraction(0))),
            ),
            repeat="from-start",
        )
    )
    scene = Scene(
        name="made",
        ticks=140,
        ticks_per_update=1,
        missed="slow",
        backdrop=(0, 0, 40),
        camera=camera,
        planes=tuple(made_planes),
        placed=placed,
        events=(),
    )
    return Project(folder=folder, name="made", sheets=(sheet,), sprites=(walker(sheet),), scenes=(scene,))


def _placed(number: int, planes: int) -> Placed:
    speed = Fraction(number % 7 - 3, 1 + number % 3)
    there = Segment(ticks=60, speed=(speed, Fraction(0)), facing="right" if speed >= 0 else "left")
    back = Segment(ticks=60, speed=(-speed, Fraction(0)), facing="left" if speed >= 0 else "right")
    plane = f"p{number % planes}"
    at = ((number * 53) % 400 - 30, 20 + (number * 29) % 90)
    path = ScenePath(segments=(there, back), repeat="from-start")
    return Placed(name=f"s{number}", sprite="walker", over=plane, moves_with=plane, at=at, path=path)


def scenes(folder: Path, parallax: Path | None) -> list[tuple[str, Project, str]]:
    """Return (title, project, scene) of every scene of the table."""
    demo = load(ROOT / "demo_assets")
    found = [("demo quay", demo, "quay"), ("demo pier", demo, "pier")]
    kinds = [("16 colours", 3, 6, 15), ("6 planes", 6, 4, 24), ("60 sprites", 3, 60, 24), (SMALL, 3, 3, 5)]
    for title, planes, sprites, colours in kinds:
        own = folder / title.replace(" ", "-")
        own.mkdir()
        size = (160, 96) if title == SMALL else (320, 200)
        found.append((title, made(own, planes, sprites, colours, [], size), "made"))
    effects = effects_project(folder / "effects")
    found += [(f"effects {scene.name}", effects, scene.name) for scene in effects.scenes]
    if parallax is not None:
        pictures = sorted(parallax.glob("*.png"))[:6]
        own = folder / "parallax"
        own.mkdir()
        found.append((parallax.name, made(own, len(pictures), 4, 24, pictures), "made"))
    return found


def effects_project(folder: Path) -> Project:
    """Return the tests' project of every effect of colour and motion; its small scenes hold some of them."""
    sys.path.insert(0, str(ROOT / "tests" / "support"))
    from effects_scene import write

    return load(write(folder))


def small(title: str) -> bool:
    """Say whether a scene is made for little memory."""
    return title == SMALL or (title.startswith("effects ") and title != "effects all")


def row(title: str, project: Project, scene: str, place: Place) -> str:
    """Prove one scene on one target and return its row."""
    view = (0, 20, 320, 180) if scene in ("quay", "pier") else None
    if place.name == "pcbasic" and view is None:
        view = (0, 0, 160, 96) if small(title) else (0, 0, 320, 200)
    if place.name != "pcbasic" and title != SMALL and small(title):
        return ""
    if place.name == "pcbasic" and not small(title) and title not in ("demo quay", "effects all"):
        return f"| {title} | {place.name} | larger than its memory: see `{SMALL}` | | | | |"
    target = Target(name="t", machine=place.machine, mode=place.mode, dialect=place.dialect, view=view)
    chosen = replace(project, targets=(target,))
    started = time.monotonic()
    try:
        build = run_stages(
            chosen, "t", scene, options=BuildOptions(play=True, counting=title == SMALL or not small(title))
        )
        if not can_run(build):
            return f"| {title} | {place.name} | not run: to install it: {build.dialect.package} | | | |"
        ticks = [build.scene.ticks * n // TICKS + n % 3 for n in range(TICKS)]
        proof = prove(build, ticks)
    except SceneKitError as error:
        return f"| {title} | {place.name} | refused: {error} | | | |"
    wrong = sum(tick.different for tick in proof.ticks)
    pixels = sum(tick.pixels for tick in proof.ticks)
    seconds = time.monotonic() - started
    result = "passed" if proof.passed else "FAILED"
    values = f"{proof.different} of {proof.values}"
    counts = f"{proof.counts_different} of {proof.counts}"
    return (
        f"| {title} | {place.name} | {result} | {wrong} of {pixels} | {values} | {counts} | {seconds:.1f} s |"
    )


def main() -> int:
    """Print the table; return 1 when a proof failed."""
    parallax = Path(sys.argv[1]) if len(sys.argv) > 1 else None
    print("| scene | target | result | pixels different | values different | counts different | time |")
    print("|---|---|---|---|---|---|---|")
    failed = 0
    with tempfile.TemporaryDirectory() as temporary:
        for title, project, scene in scenes(Path(temporary), parallax):
            if project.folder != ROOT / "demo_assets":
                save(project)
            for place in PLACES:
                line = row(title, project, scene, place)
                failed += "FAILED" in line
                if line:
                    print(line, flush=True)
    return 1 if failed else 0


if __name__ == "__main__":
    stop_on_request()
    sys.exit(main())

"""A small project made by hand in which everything that a scene can do shows within forty ticks."""

import random
from fractions import Fraction
from pathlib import Path

from PIL import Image
from random_scenes import write_machine

from scenekit.model.palette import Cycle
from scenekit.model.project import Project
from scenekit.model.scene import Camera, Event, Placed, Plane, Scene, Segment
from scenekit.model.scene import Path as Route
from scenekit.model.sprites import Animation, Facing, Frame, Sheet, Sprite, Step
from scenekit.model.store import load, save
from scenekit.model.target import Target

VIEW = (48, 32)
TICKS = (0, 3, 9, 14, 19, 22, 27, 30, 33, 39)
TURNING = [(20, 40, 90), (40, 70, 140), (80, 120, 200)]
BLINKING = [(200, 180, 40), (120, 100, 10)]
FADING = [(150, 60, 60), (90, 30, 40)]
PLAIN = [(20, 20, 20), (60, 90, 50), (180, 180, 170), (230, 230, 240), (110, 80, 50)]
CLEAR = (0, 0, 0, 0)


def blocks(
    width: int, height: int, colours: list[tuple[int, int, int]], clear: float, seed: int
) -> Image.Image:
    """Return a picture of random pixels of some colours, some clear; columns and rows all differ."""
    chosen = random.Random(seed)
    image = Image.new("RGBA", (width, height), CLEAR)
    for y in range(height):
        for x in range(width):
            if chosen.random() >= clear:
                image.putpixel((x, y), (*chosen.choice(colours), 255))
    return image


def draw_art(folder: Path) -> None:
    """Write the pictures."""
    wall = blocks(20, 14, [*TURNING, *BLINKING, *FADING, PLAIN[1]], 0.0, 1)
    wall.paste(wall.crop((0, 0, 8, 8)).transpose(Image.Transpose.FLIP_LEFT_RIGHT), (8, 0))
    wall.save(folder / "wall.png")
    blocks(37, 11, [*PLAIN, FADING[0]], 0.5, 2).save(folder / "fence.png")
    blocks(13, 9, [PLAIN[3], BLINKING[0]], 0.3, 3).save(folder / "sign.png")
    sheet = blocks(40, 9, PLAIN, 0.25, 4)
    sheet.paste(sheet.crop((0, 0, 8, 9)).transpose(Image.Transpose.FLIP_TOP_BOTTOM), (8, 0))
    sheet.save(folder / "cat.png")


def cat() -> Sprite:
    """Return a sprite with a flipped facing and art of its own for one animation."""
    walk = (Step(frame="f0", ticks=2), Step(frame="f1", ticks=3), Step(frame="f2", ticks=1, flip=2))
    sit = (Step(frame="f2", ticks=2), Step(frame="f3", ticks=3), Step(frame="f4", ticks=2))
    lick = (Step(frame="f4", ticks=3, flip=1), Step(frame="f0", ticks=2))
    return Sprite(
        name="cat",
        animations=(
            Animation(name="walk", sheet="cats", play="loop", steps=walk),
            Animation(name="sit", sheet="cats", play="there-and-back", steps=sit),
            Animation(name="lick", sheet="cats", play="once", steps=lick),
        ),
        facings=(
            Facing(facing="right", flip=0),
            Facing(facing="left", flip=1, own=(("sit", "lick"),)),
            Facing(facing="down", flip=2),
        ),
    )


def route(*segments: Segment, repeat: str) -> Route:
    """Return a path."""
    return Route(segments=segments, repeat=repeat)


def speed(x: str, y: str) -> tuple[Fraction, Fraction]:
    """Return a speed from texts."""
    return Fraction(x), Fraction(y)


def small_scene() -> Scene:
    """Return the scene."""
    camera = Camera(
        start=(5, -3),
        path=route(
            Segment(ticks=11, speed=speed("4/3", "1/2")),
            Segment(ticks=4, speed=speed("0", "0")),
            Segment(ticks=9, speed=speed("-7/5", "-2/3")),
            repeat="onward",
        ),
    )
    planes = (
        Plane(
            name="wall",
            picture="wall.png",
            ratio=speed("1/2", "1/3"),
            drift=speed("1/3", "-1/4"),
            wrap=(True, True),
            offset=(3, 2),
            tile=(8, 8),
        ),
        Plane(name="fence", picture="fence.png", ratio=speed("3/2", "1"), offset=(0, 17), tile=(8, 8)),
        Plane(name="sign", picture="sign.png", ratio=speed("1", "1"), wrap=(False, False), offset=(12, 5)),
    )
    cats = route(
        Segment(ticks=8, speed=speed("3/2", "0"), animation="walk", facing="right"),
        Segment(ticks=10, speed=speed("0", "1/3"), animation="sit"),
        Segment(ticks=7, speed=speed("-5/3", "-1/2"), animation="walk", facing="left"),
        Segment(ticks=6, speed=speed("0", "0"), animation="sit"),
        repeat="from-start",
    )
    birds = route(
        Segment(ticks=5, speed=speed("2/3", "1/2")), Segment(ticks=3, speed=speed("1", "-1")), repeat="no"
    )
    placed = (
        Placed(name="tom", sprite="cat", over="wall", moves_with="fence", at=(25, 3), path=cats),
        Placed(
            name="bird",
            sprite="cat",
            over="sign",
            moves_with="screen",
            at=(28, 22),
            animation="sit",
            path=birds,
        ),
        Placed(name="kit", sprite="cat", over="sign", moves_with="sign", at=(11, 7), facing="down"),
    )
    events = (
        Event(
            name="dusk",
            tick=7,
            steps=4,
            ticks_per_step=6,
            colours=tuple(FADING),
            start=tuple(FADING),
            to=((30, 10, 90), (250, 250, 20)),
        ),
    )
    return Scene(
        name="yard",
        ticks=120,
        ticks_per_update=1,
        missed="slow",
        backdrop=PLAIN[0],
        camera=camera,
        planes=planes,
        placed=placed,
        events=events,
    )


def small_project(folder: Path) -> Project:
    """Write the project into a folder and return it."""
    folder.mkdir(parents=True, exist_ok=True)
    draw_art(folder)
    write_machine(folder / "small.toml", views={"yard": VIEW})
    frames = tuple(Frame(name=f"f{n}", box=(8 * n, 0, 8, 9), pivot=(2 + n % 3, 7)) for n in range(5))
    targets = (("board", "yard-indexed", "plain"), ("colour", "yard-direct", "brandy"))
    targets = (*targets, ("sixteen", "yard-16", "brandy"), ("tables", "yard-indexed", "ecma55"))
    project = Project(
        folder=folder,
        name="small",
        sheets=(Sheet(name="cats", file="cat.png", frames=frames, author="nobody", licence="MIT"),),
        sprites=(cat(),),
        cycles=(
            Cycle(name="water", colours=tuple(TURNING), ticks=4, direction="forward"),
            Cycle(name="lamp", colours=tuple(BLINKING), ticks=3, direction="backward"),
        ),
        targets=tuple(
            Target(name=name, machine="small.toml", mode=mode, dialect=dialect)
            for name, mode, dialect in targets
        ),
        scenes=(small_scene(),),
    )
    save(project)
    return load(folder)

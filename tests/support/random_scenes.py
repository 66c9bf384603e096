"""Small random projects for tests: written to a folder, the same for the same seed."""

import random
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

from PIL import Image

from scenekit.model.palette import Cycle
from scenekit.model.planes import Band
from scenekit.model.project import Project
from scenekit.model.scene import Camera, Event, Placed, Plane, Scene, Segment, Wakes
from scenekit.model.scene import Path as Route
from scenekit.model.sprites import Animation, Facing, Frame, Sheet, Sprite, Step
from scenekit.model.store import load, save
from scenekit.model.target import Target

Colour = tuple[int, int, int]
VIEWS = {"s": (24, 16), "m": (40, 24), "wide": (33, 18), "high": (22, 29)}
"""Sizes of the small displays by the first part of their mode names; never odd both ways, since brandy
keeps one corner pixel of such a screen black."""

MACHINE = """summary = "a small display for tests"

[abilities]
words = ["fill", "run", "plot", "blit", "blit-keyed", {flipped}"palette", "page"]
flips = [{flips}]
recolours = {recolours}
pages = {pages}
clips = true
image_formats = ["bmp", "png"]
{modes}
[[memories]]
name = "work"
capacity_bytes = 1048576
holds = ["pages", "art", "tables", "program"]
"""
MODE = """
[[modes]]
name = "{name}"
picture = [{width}, {height}]
timing = "vga-640x400-70"
colour = "{colour}"
depth = "{depth}"
{entries}"""


def write_machine(
    path: Path,
    *,
    flips: tuple[str, ...] = ("h", "v", "hv"),
    pages: int = 2,
    views: dict[str, tuple[int, int]] | None = None,
) -> None:
    """Write a machine profile with small indexed modes, and direct ones of the same sizes."""
    modes = ""
    for name, (width, height) in (views or VIEWS).items():
        for colour, entries in (("indexed", "entries = 256\n"), ("direct", "")):
            modes += MODE.format(
                name=f"{name}-{colour}",
                width=width,
                height=height,
                colour=colour,
                depth="8-8-8",
                entries=entries,
            )
        modes += MODE.format(
            name=f"{name}-16",
            width=width,
            height=height,
            colour="indexed",
            depth="8-8-8",
            entries="entries = 16\n",
        )
    quoted = ", ".join(f'"{flip}"' for flip in flips)
    flipped = '"blit-flipped", ' if flips else ""
    path.write_text(MACHINE.format(flips=quoted, flipped=flipped, pages=pages, recolours="true", modes=modes))


class Maker:
    """Makes one random project."""

    def __init__(self, folder: Path, seed: int, views: dict[str, tuple[int, int]] | None = None) -> None:
        self.folder = folder
        self.random = random.Random(seed)
        self.views = views or VIEWS
        self.colours = self.different_colours(self.random.randint(4, 9))

    def different_colours(self, count: int) -> list[Colour]:
        """Return colours that all differ."""
        colours: list[Colour] = []
        while len(colours) < count:
            colour = (self.random.randrange(256), self.random.randrange(256), self.random.randrange(256))
            if colour not in colours:
                colours.append(colour)
        return colours

    def fraction(self, high: int = 2) -> Fraction:
        """Return a fraction of either sign, now and then a whole number or nothing."""
        parts = self.random.choice((1, 1, 2, 3, 4, 5, 7, 9))
        return Fraction(self.random.randint(-high * parts, high * parts), parts)

    def pair(self, high: int = 2) -> tuple[Fraction, Fraction]:
        """Return two fractions."""
        return self.fraction(high), self.fraction(high)

    def pixels(self, width: int, height: int, clear: float) -> Image.Image:
        """Return a picture of random colours in small blocks, some of it clear or half clear."""
        pixels: list[tuple[int, int, int, int]] = []
        for place in range(width * height):
            near = self.random.random()
            if near < 0.45 and place % width:
                pixels.append(pixels[-1])
            elif near < 0.6 and place >= width:
                pixels.append(pixels[-width])
            elif self.random.random() < clear:
                pixels.append((*self.random.choice(self.colours), self.random.choice((0, 0, 0, 1, 127))))
            else:
                pixels.append(
                    (*self.random.choice(self.colours), self.random.choice((255, 255, 255, 200, 128)))
                )
        return Image.frombytes("RGBA", (width, height), bytes(part for pixel in pixels for part in pixel))

    def sheet(self) -> Sheet:
        """Return a sheet of frames: some mirror each other, one may be empty."""
        width, height = self.random.randint(12, 30), self.random.randint(10, 20)
        image = self.pixels(width, height, 0.4)
        half = image.crop((0, 0, 5, height))
        image.paste(half.transpose(Image.Transpose.FLIP_LEFT_RIGHT), (5, 0))
        image.paste((0, 0, 0, 0), (0, height - 2, 3, height))
        image.save(self.folder / "sheet.png")
        frames = [self.frame("left", (0, 0, 5, height)), self.frame("mirror", (5, 0, 5, height))]
        frames.append(self.frame("none", (0, height - 2, 3, 2)))
        for number in range(self.random.randint(1, 3)):
            w, h = self.random.randint(1, width), self.random.randint(1, height)
            box = (self.random.randint(0, width - w), self.random.randint(0, height - h), w, h)
            frames.append(self.frame(f"f{number}", box))
        return Sheet(name="things", file="sheet.png", frames=tuple(frames))

    def frame(self, name: str, box: tuple[int, int, int, int]) -> Frame:
        """Return a frame whose pivot may lie outside of it."""
        pivot = (self.random.randint(-3, box[2] + 3), self.random.randint(-3, box[3] + 3))
        return Frame(name=name, box=box, pivot=pivot)

    def tiles(self) -> Sheet:
        """Return a sheet of equally large frames, for maps."""
        self.pixels(12, 5, 0.3).save(self.folder / "tiles.png")
        boxes = [(4 * n, 0, 4, 5) for n in range(3)]
        frames = tuple(Frame(name=f"t{n}", box=box, pivot=(0, 0)) for n, box in enumerate(boxes))
        return Sheet(name="tiles", file="tiles.png", frames=frames)

    def sprite(self, name: str, frames: tuple[Frame, ...]) -> Sprite:
        """Return a sprite with a few animations and facings, some with their own art."""
        animations = []
        for number in range(self.random.randint(1, 3)):
            steps = [
                Step(
                    frame=self.random.choice(frames).name,
                    ticks=self.random.choice((1, 1, 2, 3, 5, 8)),
                    flip=self.random.randrange(4),
                )
                for _ in range(self.random.randint(1, 4))
            ]
            play = self.random.choice(("loop", "once", "there-and-back"))
            animations.append(Animation(name=f"a{number}", sheet="things", play=play, steps=tuple(steps)))
        names = [animation.name for animation in animations]
        facings = []
        for facing in self.random.sample(("right", "left", "up", "down"), self.random.randint(1, 3)):
            own = {n: self.random.choice(names) for n in names if self.random.random() < 0.3}
            pairs = tuple(sorted(own.items()))
            facings.append(Facing(facing=facing, flip=self.random.randrange(4), own=pairs))
        return Sprite(name=name, animations=tuple(animations), facings=tuple(facings))

    def route(self, sprite: Sprite | None) -> Route:
        """Return a path, often none."""
        segments = []
        for _ in range(self.random.choice((0, 1, 2, 3, 4))):
            animation = facing = ""
            if sprite is not None and self.random.random() < 0.5:
                animation = self.random.choice(sprite.animations).name
            if sprite is not None and self.random.random() < 0.5:
                facing = self.random.choice(sprite.facings).facing
            ticks = self.random.choice((1, 2, 5, 7, 13, 20))
            segments.append(Segment(ticks=ticks, speed=self.pair(), animation=animation, facing=facing))
        if not segments:
            return Route()
        repeat = self.random.choice(("no", "from-start", "onward"))
        return Route(
            segments=tuple(segments), repeat=repeat, follow=sprite is not None and self.random.random() < 0.3
        )

    def plane(self, name: str) -> Plane:
        """Return a plane over a picture, or over a map of tiles."""
        offset = (self.random.randint(-20, 20), self.random.randint(-12, 12))
        common = {
            "name": name,
            "ratio": self.random.choice(
                (self.pair(), (Fraction(1), Fraction(1)), (Fraction(0), Fraction(0)))
            ),
            "drift": self.random.choice((self.pair(1), (Fraction(0), Fraction(0)))),
            "wrap": (self.random.random() < 0.6, self.random.random() < 0.4),
            "offset": offset,
            "tile": (self.random.randint(4, 12), self.random.randint(4, 12)),
        }
        if self.random.random() < 0.2:
            rows = []
            columns = self.random.randint(1, 9)
            for _ in range(self.random.randint(1, 5)):
                cells = [self.random.choice(("-1", "0", "1h", "2v", "0hv", "2")) for _ in range(columns)]
                rows.append(",".join(cells))
            (self.folder / f"{name}.csv").write_text("\n".join(rows) + "\n")
            return Plane(map=f"{name}.csv", sheet="tiles", **common)
        width, height = self.random.randint(1, 45), self.random.randint(1, 30)
        clear = 0.0 if name == "p0" and self.random.random() < 0.5 else 0.4
        self.pixels(width, height, clear).save(self.folder / f"{name}.png")
        if self.random.random() < 0.3 and height > 4:
            first = self.random.randint(0, height // 2)
            common["rows"] = (first, self.random.randint(first + 1, height))
        if self.random.random() < 0.3 and height > 4:
            common["bands"] = self.bands(*common.get("rows", (0, height)))
            common["wrap"] = (common["wrap"][0], False)
        return Plane(picture=f"{name}.png", **common)

    def bands(self, first: int, last: int) -> tuple[Band, ...]:
        """Return one or two bands within some rows, with gaps or without."""
        edges = sorted(self.random.sample(range(first, last + 1), min(4, last + 1 - first) // 2 * 2))
        pairs = zip(edges[::2], edges[1::2], strict=True)
        return tuple(Band(rows=pair, ratio=self.pair(), drift=self.pair(1)) for pair in pairs)

    def cycles(self) -> tuple[Cycle, ...]:
        """Return none, one or two cycles of different colours of the art."""
        colours = self.random.sample(self.colours, len(self.colours))
        cycles = []
        for number in range(self.random.choice((0, 1, 1, 2))):
            count = self.random.randint(2, 4)
            run, colours = colours[:count], colours[count:]
            if len(run) == count:
                way = self.random.choice(("forward", "backward"))
                cycles.append(
                    Cycle(
                        name=f"c{number}",
                        colours=tuple(run),
                        ticks=self.random.randint(1, 7),
                        direction=way,
                        there_and_back=self.random.random() < 0.3,
                    )
                )
        return tuple(cycles)

    def events(self) -> tuple[Event, ...]:
        """Return none to two events; they may share colours with each other and with cycles."""
        events = []
        for number in range(self.random.choice((0, 0, 1, 2))):
            colours = tuple(self.random.sample(self.colours, self.random.randint(1, 3)))
            to = tuple(self.different_colours(self.random.choice((1, len(colours)))))
            start = tuple(self.different_colours(len(colours))) if self.random.random() < 0.3 else colours
            if self.random.random() < 0.2:
                colours, start, to = (), (), to[:1]
            events.append(
                Event(
                    name=f"e{number}",
                    tick=self.random.randint(1, 40),
                    steps=self.random.randint(1, 4),
                    ticks_per_step=self.random.randint(1, 6),
                    colours=colours,
                    start=start,
                    to=to,
                    back=self.random.random() < 0.3,
                )
            )
        return tuple(events)

    def scene(self, sprites: tuple[Sprite, ...]) -> Scene:
        """Return a scene."""
        planes = tuple(self.plane(f"p{number}") for number in range(self.random.randint(1, 4)))
        placed = []
        for number in range(self.random.randint(0, 4)):
            sprite = self.random.choice(sprites)
            names = [plane.name for plane in planes]
            placed.append(
                Placed(
                    name=f"s{number}",
                    sprite=sprite.name,
                    over=self.random.choice(names),
                    moves_with=self.random.choice((*names, "screen")),
                    at=(self.random.randint(-10, 45), self.random.randint(-10, 30)),
                    animation=self.random.choice(("", sprite.animations[-1].name)),
                    facing=self.random.choice(("", sprite.facings[-1].facing)),
                    path=self.route(sprite),
                )
            )
        start = (self.random.randint(-40, 40), self.random.randint(-40, 40))
        return Scene(
            name="one",
            ticks=self.random.randint(50, 200),
            ticks_per_update=self.random.randint(1, 3),
            missed="slow",
            backdrop=self.random.choice(self.colours),
            camera=Camera(start=start, path=self.route(None)),
            planes=planes,
            placed=tuple(placed),
            events=self.events(),
        )

    def targets(self, view: str) -> tuple[Target, ...]:
        """Return targets of the small machine, and of one that has its own interpreter."""
        clear = self.random.choice((0, 0, 3, 255))
        low = self.random.choice((0, 5, 15))
        common = {"machine": "small.toml"}
        return (
            Target(name="small", mode=f"{view}-indexed", dialect="plain", transparent=clear, **common),
            Target(name="colour", mode=f"{view}-direct", dialect="brandy", transparent=0, **common),
            Target(name="sixteen", mode=f"{view}-16", dialect="brandy", transparent=low, **common),
            Target(name="board", machine="indexed-board", mode="320x200", dialect="plain", transparent=clear),
            Target(name="tables", machine="minimal-pc", mode="160x100", dialect="ecma55", transparent=0),
        )

    def project(self) -> Project:
        """Write the project's files and return it as read back."""
        flips = self.random.choice((("h", "v", "hv"), ("h", "v", "hv"), ("h",), ("h", "v"), ()))
        write_machine(
            self.folder / "small.toml", flips=flips, pages=self.random.randint(1, 3), views=self.views
        )
        things = self.sheet()
        sheets = (things, self.tiles())
        sprites = tuple(self.sprite(f"k{number}", things.frames) for number in range(2))
        project = Project(
            folder=self.folder,
            name="random",
            sheets=sheets,
            sprites=sprites,
            cycles=self.cycles(),
            targets=self.targets(self.random.choice(sorted(self.views))),
            scenes=(self.scene(sprites),),
        )
        save(project)
        again = load(self.folder)
        assert again == project, "a saved document must read back as it was"
        return again


def random_project(folder: Path, seed: int, views: dict[str, tuple[int, int]] | None = None) -> Project:
    """Write a random project into an empty folder and return it."""
    folder.mkdir(parents=True, exist_ok=True)
    return Maker(folder, seed, views).project()


def sleeping(project: Project, seed: int) -> Project:
    """Return a project in whose scene some sprites sleep until the view comes to them."""
    chosen = random.Random(seed)
    scene = project.scenes[0]
    placed = list(scene.placed)
    while len(placed) < 5:
        plane = chosen.choice(scene.planes).name
        name = f"n{len(placed)}"
        sprite = chosen.choice(project.sprites).name
        placed.append(Placed(name=name, sprite=sprite, over=plane, moves_with=plane, at=(0, 0)))
    start = chosen.randint(-20, 10)
    wakes = Wakes(axis=chosen.randint(0, 1), start=start, end=start + chosen.randint(1, 60))
    asleep = tuple(
        replace(
            p,
            asleep=p.moves_with != "screen" and chosen.random() < 0.8,
            at=(chosen.randint(-90, 90), chosen.randint(-60, 60)),
        )
        for p in placed
    )
    if not any(p.asleep for p in asleep):
        asleep = (replace(asleep[-1], asleep=True), *asleep[:-1])
    scene = replace(scene, placed=asleep, wakes=wakes)
    save(replace(project, scenes=(scene,)))
    return load(project.folder)


def view_of(
    project: Project, target: str, views: dict[str, tuple[int, int]] | None = None
) -> tuple[int, int]:
    """Return (width, height) of the view of a target with a small mode."""
    return (views or VIEWS)[project.target(target).mode.rsplit("-", 1)[0]]

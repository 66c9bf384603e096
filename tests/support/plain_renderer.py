"""A second renderer, slow and plain: one pixel and one tick at a time, from what the document says.

It shares no code with the package's renderer or motion: it reads the art itself, counts ticks one by
one, keeps positions as exact fractions, and finds the colour of each pixel by walking the layers from
the front to the back.
"""

import csv
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

from PIL import Image

from scenekit.model.planes import Band
from scenekit.model.project import Project
from scenekit.model.scene import Path as Route
from scenekit.model.scene import Placed, Plane, Scene, Segment
from scenekit.model.sprites import Animation, Sprite

Colour = tuple[int, int, int]
Picture = list[list[Colour | None]]
"""Rows of pixels; None is nothing drawn there."""
Look = Callable[[int, int], Colour | None]
"""Gives what one layer shows at a pixel of the view, None for nothing."""


def whole(value: Fraction) -> int:
    """Return the greatest whole number that is not above a fraction."""
    return value.numerator // value.denominator


def read_pixels(path: Path) -> Picture:
    """Return a file's pixels: those of alpha 128 and more are drawn."""
    with Image.open(path) as image:
        rgba = image.convert("RGBA")
    rows: Picture = []
    for y in range(rgba.height):
        row: list[Colour | None] = []
        for x in range(rgba.width):
            red, green, blue, alpha = rgba.getpixel((x, y))
            row.append((red, green, blue) if alpha >= 128 else None)
        rows.append(row)
    return rows


def cut(picture: Picture, box: tuple[int, int, int, int]) -> Picture:
    """Return a box (x, y, w, h) of a picture."""
    x, y, w, h = box
    return [row[x : x + w] for row in picture[y : y + h]]


class Walker:
    """Something on a path: the camera or a sprite."""

    def __init__(self, route: Route, start: tuple[int, int]) -> None:
        self.route = route
        self.start = start
        self.base = start
        self.gone = (Fraction(0), Fraction(0))
        self.number = 0
        self.spent = 0
        self.over = not route.segments

    @property
    def place(self) -> tuple[int, int]:
        """Return the whole pixel it stands on."""
        return self.base[0] + whole(self.gone[0]), self.base[1] + whole(self.gone[1])

    @property
    def segment(self) -> Segment | None:
        """Return the segment it is in, None when it stands."""
        return None if self.over else self.route.segments[self.number]

    def tick(self) -> bool:
        """Go on by one tick; say whether a new segment began."""
        segment = self.segment
        if segment is None:
            return False
        self.gone = (self.gone[0] + segment.speed[0], self.gone[1] + segment.speed[1])
        self.spent += 1
        if self.spent < segment.ticks:
            return False
        self.base, self.gone, self.spent = self.place, (Fraction(0), Fraction(0)), 0
        self.number += 1
        if self.number == len(self.route.segments):
            self.number = 0
            if self.route.repeat == "no":
                self.over = True
            if self.route.repeat == "from-start":
                self.base = self.start
        return not self.over


class Player:
    """A placed sprite: where it is, and which step of which animation it shows."""

    def __init__(self, placed: Placed, sprite: Sprite) -> None:
        self.placed = placed
        self.sprite = sprite
        self.walker = Walker(placed.path, placed.at)
        self.wish = placed.animation or sprite.animations[0].name
        self.facing = placed.facing or sprite.facings[0].facing
        self.shows = ""
        self.flip = 0
        self.age = 0
        self.enter()

    def enter(self) -> None:
        """Take what the segment asks for; another animation begins at its first step."""
        segment = self.walker.segment
        if segment is not None:
            self.wish = segment.animation or self.wish
            self.facing = segment.facing or self.direction(segment) or self.facing
        facings = [f for f in self.sprite.facings if f.facing == self.facing]
        facing = facings[0] if facings else self.sprite.facings[0]
        own = [theirs for mine, theirs in facing.own if mine == self.wish]
        shows, self.flip = (own[0], 0) if own else (self.wish, facing.flip)
        if shows != self.shows:
            self.shows, self.age = shows, 0

    def direction(self, segment: Segment) -> str:
        """Return the facing that a following sprite takes from its speed, or nothing."""
        if not self.placed.path.follow:
            return ""
        x, y = segment.speed
        found = ("right" if x > 0 else "left") if x else ("down" if y > 0 else "up") if y else ""
        return found if found in [facing.facing for facing in self.sprite.facings] else ""

    def tick(self) -> None:
        """Go on by one tick."""
        self.age += 1
        if self.walker.tick():
            self.enter()

    def step(self) -> tuple[Animation, str, int]:
        """Return (animation, frame, flip) on show."""
        animation = next(a for a in self.sprite.animations if a.name == self.shows)
        shown = [step for step in animation.steps for _ in range(step.ticks)]
        if animation.play == "there-and-back":
            shown += [step for step in animation.steps[-2:0:-1] for _ in range(step.ticks)]
        last = len(shown) - 1
        step = shown[min(self.age, last) if animation.play == "once" else self.age % (last + 1)]
        mirror_x = (step.flip in (1, 3)) != (self.flip in (1, 3))
        mirror_y = (step.flip in (2, 3)) != (self.flip in (2, 3))
        return animation, step.frame, mirror_x + 2 * mirror_y


class PlainScene:
    """A scene that is played tick by tick and drawn pixel by pixel."""

    def __init__(self, project: Project, scene: Scene, view: tuple[int, int]) -> None:
        self.project = project
        self.scene = scene
        self.view = view
        self.now = 0
        self.camera = Walker(scene.camera.path, scene.camera.start)
        self.players = [Player(placed, project.sprite(placed.sprite)) for placed in scene.placed]
        self.sheets = {sheet.name: read_pixels(project.folder / sheet.file) for sheet in project.sheets}
        self.pictures = {plane.name: self.plane_picture(plane) for plane in scene.planes}

    def plane_picture(self, plane: Plane) -> Picture:
        """Return a plane's whole picture."""
        if plane.picture:
            return read_pixels(self.project.folder / plane.picture)
        sheet = self.project.sheet(plane.sheet)
        _, _, w, h = sheet.frames[0].box
        rows: Picture = []
        with (self.project.folder / plane.map).open(newline="") as file:
            for line in csv.reader(file):
                rows += [[] for _ in range(h)]
                for cell in line:
                    number = int(cell.rstrip("hv"))
                    tile = cut(self.sheets[sheet.name], sheet.frames[max(0, number)].box)
                    for y in range(h):
                        for x in range(w):
                            u = w - 1 - x if "h" in cell else x
                            v = h - 1 - y if "v" in cell else y
                            rows[y - h].append(None if number < 0 else tile[v][u])
        return rows

    def go_to(self, tick: int) -> None:
        """Play on to a tick."""
        while self.now < tick:
            self.now += 1
            self.camera.tick()
            for player in self.players:
                player.tick()

    def scroll(self, plane: Plane, layer: Plane | Band) -> tuple[int, int]:
        """Return the picture's pixel at the view's top left corner, for a plane or one of its bands."""
        camera = self.camera.place
        across, down = (
            whole(layer.ratio[axis] * camera[axis]) + whole(layer.drift[axis] * self.now) - plane.offset[axis]
            for axis in (0, 1)
        )
        return across, down

    def layers(self, plane: Plane) -> list[tuple[int, int, Plane | Band]]:
        """Return (first row, one after the last, what scrolls them) from top to bottom."""
        first, last = plane.rows or (0, len(self.pictures[plane.name]))
        found: list[tuple[int, int, Plane | Band]] = []
        for band in plane.bands:
            found += [(first, band.rows[0], plane), (*band.rows, band)]
            first = band.rows[1]
        return [part for part in (*found, (first, last, plane)) if part[0] < part[1]]

    def plane_looks(self, plane: Plane) -> list[Look]:
        """Return what a plane shows at a pixel of the view, one look for each band, the front one first."""
        return [self.band_look(plane, *part) for part in reversed(self.layers(plane))]

    def band_look(self, plane: Plane, first: int, last: int, layer: Plane | Band) -> Look:
        """Return what some rows of a plane show at a pixel of the view."""
        picture = self.pictures[plane.name]
        across, down = self.scroll(plane, layer)
        top = plane.rows[0] if plane.rows else 0
        width = len(picture[0])
        wrap_x, wrap_y = plane.wrap

        def look(x: int, y: int) -> Colour | None:
            u, v = x + across, y + down + top
            if wrap_x:
                u %= width
            if wrap_y:
                v = first + (v - first) % (last - first)
            return picture[v][u] if 0 <= u < width and first <= v < last else None

        return look

    def sprite_look(self, player: Player) -> Look:
        """Return what a sprite shows at a pixel of the view: its pivot stands on its position."""
        animation, name, flip = player.step()
        frame = next(f for f in self.project.sheet(animation.sheet).frames if f.name == name)
        place_x, place_y = player.walker.place
        if player.placed.moves_with != "screen":
            plane = next(p for p in self.scene.planes if p.name == player.placed.moves_with)
            top = plane.rows[0] if plane.rows else 0
            row = player.placed.at[1] + top
            parts = self.layers(plane)
            below = plane if plane.rows is None else parts[-1][2]
            layer = next((layer for _, last, layer in parts if row < last), below)
            across, down = self.scroll(plane, layer)
            place_x, place_y = place_x - across, place_y - down
        sheet, (left, top, width, height) = self.sheets[animation.sheet], frame.box

        def look(x: int, y: int) -> Colour | None:
            right, below = x - place_x, y - place_y
            u = frame.pivot[0] + (-right if flip & 1 else right)
            v = frame.pivot[1] + (-below if flip & 2 else below)
            return sheet[top + v][left + u] if 0 <= u < width and 0 <= v < height else None

        return look

    def looks(self) -> list[Look]:
        """Return the looks of everything, from the front to the back."""
        found = []
        for plane in reversed(self.scene.planes):
            over = [player for player in self.players if player.placed.over == plane.name]
            found += [self.sprite_look(player) for player in reversed(over)]
            found += self.plane_looks(plane)
        return found

    def shown(self, painted: Colour) -> Colour:
        """Return what a painted colour looks like now: its cycle turns it, then events change it."""
        colour = painted
        for cycle in self.project.cycles:
            if painted in cycle.colours:
                turns = sum(1 for tick in range(1, self.now + 1) if tick % cycle.ticks == 0)
                if cycle.there_and_back:
                    shifts = list(range(len(cycle.colours)))
                    shifts += shifts[-2:0:-1]
                    turns = shifts[turns % len(shifts)]
                back = -turns if cycle.direction == "forward" else turns
                colour = cycle.colours[(cycle.colours.index(painted) + back) % len(cycle.colours)]
        for event in self.scene.events:
            if event.colours and painted not in event.colours:
                continue
            many = 2 * event.steps if event.back else event.steps
            done = sum(1 for step in range(many) if event.tick + step * event.ticks_per_step <= self.now)
            if done:
                number = event.colours.index(painted) if event.colours else 0
                start = event.start[number] if event.colours else painted
                end = event.to[number if len(event.to) > 1 else 0]
                colour = mixed(start, end, Fraction(min(done, 2 * event.steps - done), event.steps))
        return colour

    def picture(self) -> list[list[Colour]]:
        """Return the view's colours, row by row: the first thing from the front that is drawn there."""
        looks = self.looks()
        colours: dict[Colour, Colour] = {}
        rows = []
        for y in range(self.view[1]):
            row = []
            for x in range(self.view[0]):
                painted = self.scene.backdrop
                for look in looks:
                    found = look(x, y)
                    if found is not None:
                        painted = found
                        break
                if painted not in colours:
                    colours[painted] = self.shown(painted)
                row.append(colours[painted])
            rows.append(row)
        return rows


def mixed(start: Colour, end: Colour, share: Fraction) -> Colour:
    """Return a colour between two, halves rounded up."""
    channels = [whole(a + (b - a) * share + Fraction(1, 2)) for a, b in zip(start, end, strict=True)]
    return channels[0], channels[1], channels[2]

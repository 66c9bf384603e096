"""The rules of the demo's example game once more, without scenekit: what a script of keys leads to.

From it scenes are made whose paths do the same, so that the reference renderer can draw how the game ends.
"""

import itertools
from dataclasses import dataclass, field
from fractions import Fraction

from scenekit.model.scene import Path, Segment

LEFT, RIGHT, ACT = 1, 2, 16
SCREEN_PX, WORLD_PX = 320, 640
BOX_LEFT, BOX_WIDE, BOX_TOP, BOX_HIGH = -18, 36, -34, 34
"""The trolley's hit box from its pivot: left 14 - 32, top 20 - 54."""
QUAY = {
    "hero": (56, 65),
    "lit": (True, True, False, False, False),
    "thing": ("oil", 150, 66, (-7, 14, -12, 13)),
}
PIER = {
    "hero": (40, 65),
    "lit": (True, False, False, False, False),
    "thing": ("ring", 238, 67, (-6, 13, -9, 10)),
}
LAMP_XS = (40, 168, 296, 424, 552)
LAMP_OIL, KINDLE_TICKS = 5, 41
LEVELS = (("quay", QUAY), ("pier", PIER))


@dataclass
class Level:
    """A scene while it is played; lists have an entry for each tick, the first one for tick 0."""

    number: int
    x: int
    y: int
    lamps: dict = field(default_factory=dict)
    lit_at: dict = field(default_factory=dict)
    thing: tuple = ()
    taken_at: int | None = None
    xs: list = field(default_factory=list)
    looks: list = field(default_factory=list)
    values: list = field(default_factory=list)


class Game:
    """The whole game."""

    def __init__(self):
        self.values = {"lamps": 2, "oil": 36, "score": 0}
        self.over = 0
        self.begin(0)

    def begin(self, number):
        _name, facts = LEVELS[number]
        lamps = {
            f"lamp-{number}": [at, "burn" if lit else "dark"]
            for number, (at, lit) in enumerate(zip(LAMP_XS, facts["lit"], strict=True), 1)
        }
        self.level = Level(number, *facts["hero"], lamps, {}, facts["thing"])
        self.values["lamps"] = sum(look != "dark" for _, look in lamps.values())
        self.does, self.way, self.wait, self.turning = "brake", 1, 0, False
        self.lamp = None
        self.ridden = 0
        self.note()

    def note(self):
        level = self.level
        level.xs.append(level.x)
        level.looks.append((self.does, "right" if self.way == 1 else "left"))
        level.values.append(dict(self.values))

    def add(self, name, number):
        high = {"lamps": 5, "oil": 48, "score": 30000}[name]
        self.values[name] = min(high, max(0, self.values[name] + number))

    @property
    def dark(self):
        return sum(look == "dark" for _, look in self.level.lamps.values())

    def tick(self, keys):
        level = self.level
        if self.wait:
            self.wait -= 1
            self.work()
        else:
            self.obey(keys)
        if self.touches():
            level.taken_at = len(level.xs)
            self.add("score", 10)
            self.add("oil", 24 if level.number == 0 else 0)
        done = not self.dark and not self.wait
        if done and level.number == 1:
            self.over = 1
        elif done and level.x >= 600:
            self.add("score", 100)
            self.note()
            return self.begin(1)
        self.note()
        return None

    def work(self):
        if self.turning:
            if not self.wait:
                self.turning, self.way, self.does = False, -self.way, "brake"
            return
        if not self.wait:
            self.level.lamps[self.lamp][1] = "burn"
        if self.wait == KINDLE_TICKS:
            self.level.lamps[self.lamp][1] = "kindle"
            self.level.lit_at[self.lamp] = len(self.level.xs)
            for name, number in (("lamps", 1), ("oil", -LAMP_OIL), ("score", 50)):
                self.add(name, number)

    def obey(self, keys):
        level = self.level
        near = [
            lamp for lamp, (at, look) in level.lamps.items() if abs(at - level.x) <= 16 and look == "dark"
        ]
        if keys & ACT and near and self.values["oil"] >= LAMP_OIL:
            self.lamp, self.does, self.wait = near[-1], "light", 20 + KINDLE_TICKS
            return
        way = bool(keys & RIGHT) - bool(keys & LEFT)
        if not way:
            self.does = "brake"
        elif way != self.way:
            self.does, self.wait, self.turning = "turn", 20, True
        else:
            self.does = "ride"
            if 20 <= level.x + 2 * way <= 620:
                level.x += 2 * way
                self.ridden += 1
                if self.ridden % 48 == 0:
                    self.add("oil", -1)

    def touches(self):
        level = self.level
        _, x, y, (left, wide, top, high) = level.thing
        if level.taken_at is not None:
            return False
        begins = level.x + BOX_LEFT
        if self.way == -1 and self.does == "light":  # the only art that is mirrored
            begins = level.x - BOX_LEFT - BOX_WIDE + 1
        across = begins < x + left + wide and x + left < begins + BOX_WIDE
        return across and level.y + BOX_TOP < y + top + high and y + top < level.y + BOX_TOP + BOX_HIGH


def play(keys):
    """Return the game after a script of keys."""
    game = Game()
    for number in keys:
        game.tick(number)
        if game.over:
            break
    else:
        game.over = 2
    return game


def camera_at(x):
    """Return where the camera stands for a lamplighter at x."""
    return min(WORLD_PX - SCREEN_PX, max(0, x - SCREEN_PX // 2))


def route(xs, looks=None):
    """Return a path through places tick by tick, with an animation and a facing at its start."""
    steps = [b - a for a, b in itertools.pairwise(xs)]
    looks = looks or [("", "")] * len(xs)
    segments, at = [], 0
    for n in range(1, len(steps) + 1):
        if n == len(steps) or steps[n] != steps[at] or looks[n] != looks[n - 1]:
            animation, facing = looks[at]
            speed = (Fraction(steps[at]), Fraction(0))
            segments.append(Segment(ticks=n - at, speed=speed, animation=animation, facing=facing))
            at = n
    still = (Fraction(0), Fraction(0))
    animation, facing = looks[-1]
    segments.append(Segment(ticks=999, speed=still, animation=animation, facing=facing))
    return Path(segments=tuple(segments), repeat="no")

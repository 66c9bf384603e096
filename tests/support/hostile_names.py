"""Names and texts of somebody who wants generated programs to fail, or a shell to run them."""

import random
from collections.abc import Iterator
from pathlib import Path

from PIL import Image

from scenekit.errors import SceneKitError
from scenekit.model.fields import NAME_PATTERN, Fields
from scenekit.model.palette import Cycle
from scenekit.model.project import Project
from scenekit.model.scene import Camera, Placed, Plane, Scene
from scenekit.model.sprites import Animation, Facing, Frame, Sheet, Sprite, Step
from scenekit.model.store import load, save
from scenekit.model.target import Target

BATCH = 100
"""Names in one project."""
LONGEST = 40
MEANT = """SYSTEM system SHELL shell REM rem DATA data END end NEW new RUN KILL kill CHAIN CLEAR DEF FN PROC
STOP QUIT exit sub function GOTO GOSUB THEN ELSE IF fi wend touch rm sh sk sk_ CON NUL AUX PRN LPT1
0 00 1E9 9999 32768 -1 OSCLI SPOOL LOAD SAVE OPEN CLOSE PRINT INPUT PEEK POKE CALL USR x tick page
main load step draw i n x1 __ --"""
WORDS = tuple(MEANT.split())
SHELL = ("`touch {m}`", "$(touch {m})", ";touch {m};", "|touch {m}", "\ntouch {m}\n", "!touch {m}", "*sh {m}")
PIECES = (
    '"',
    '""',
    "'",
    ":",
    "\\",
    "{{",
    "}}",
    "{{variable_prefix}}",
    "%s",
    "\0",
    "\r",
    "\n",
    "\x1a",
    "\x7f",
)
MORE = ("ä", "\u202e", "\ud7ff", "\U0001f4a3", "<b>", "&amp;", "../..", "/etc/passwd", "#", "~", "//", "REM ")
TARGETS = (
    ("plain", "indexed-board", "320x200"),
    ("brandy", "brandy-pc", "320x200-16"),
    ("sdlbrt", "sdlbrt-pc", "320x200"),
    ("yabasic", "yabasic-pc", "320x200"),
    ("pcbasic", "pcbasic-pc", "640x350"),
    ("ecma55", "indexed-board", "320x200"),
)


def legal_name(chosen: random.Random) -> str:
    """Return a name that a document may have, of words that mean something to an interpreter."""
    name = ""
    length = chosen.randrange(1, LONGEST + 1)
    while len(name) < length:
        name += chosen.choice(WORDS) + chosen.choice("-_-_0")
    name = name[:length]
    return name if NAME_PATTERN.fullmatch(name) else "x" + name[1:]


def hostile_text(chosen: random.Random, marker: Path) -> str:
    """Return a text that is none: quotes, ends of lines, commands that would make the marker file."""
    parts = [chosen.choice((*SHELL, *PIECES, *MORE, *WORDS)) for _ in range(chosen.randrange(1, 12))]
    return "".join(part.format(m=marker) for part in parts)


def refused_in_one_line(text: str) -> bool:
    """Say whether a document refuses a text as a name, with an error of one line."""
    try:
        Fields({"name": text}, "record").name("name")
    except SceneKitError as error:
        return "\n" not in str(error) and str(error).isprintable()
    return False


def hostile_project(folder: Path, seed: int, marker: Path) -> tuple[Project, int]:
    """Write a project of one scene in which every name is hostile; return it and how many there are."""
    chosen = random.Random(seed)
    folder.mkdir(parents=True, exist_ok=True)
    names: Iterator[str] = iter(dict.fromkeys(legal_name(chosen) for _ in range(4 * BATCH)))
    art = legal_name(chosen) + ".png"
    Image.frombytes("P", (16, 8), bytes(n % 5 for n in range(128))).convert("RGBA").save(folder / art)
    texts = [t for _ in range(BATCH) if (t := hostile_text(chosen, marker)).isprintable()][:30] or ["x"]
    frames = tuple(Frame(name=next(names), box=(0, 0, 8, 8), pivot=(3, 7)) for _ in range(4))
    sheets = tuple(
        Sheet(name=next(names), file=art, frames=frames, author=text, licence=text, source=text)
        for text in texts
    )
    animations = tuple(
        Animation(name=next(names), sheet=sheets[n % len(sheets)].name, play="loop", steps=_steps(frames, n))
        for n in range(30)
    )
    sprite = Sprite(name=next(names), animations=animations, facings=(Facing(facing="right", flip=0),))
    planes = tuple(
        Plane(name=next(names), picture=art, tile=(8, 8), author=text, licence=text, source=text)
        for text in texts[:2]
    )
    placed = tuple(
        Placed(
            name=next(names), sprite=sprite.name, over=planes[-1].name, moves_with="screen", at=(9 * n, 20)
        )
        for n in range(3)
    )
    scene = Scene(
        name=next(names),
        ticks=10,
        ticks_per_update=1,
        missed="slow",
        backdrop=(20, 20, 20),
        camera=Camera(start=(0, 0)),
        planes=planes,
        placed=placed,
        events=(),
    )
    cycle = Cycle(name=next(names), colours=((0, 0, 0), (255, 255, 255)), ticks=4, direction="forward")
    targets = tuple(
        Target(name=next(names), machine=machine, mode=mode, dialect=dialect, view=(0, 0, 48, 32))
        for dialect, machine, mode in TARGETS
    )
    project = Project(
        folder=folder,
        name=next(names),
        sheets=sheets,
        sprites=(sprite,),
        cycles=(cycle,),
        targets=targets,
        scenes=(scene,),
    )
    save(project)
    used = 4 + len(sheets) + len(animations) + 1 + len(planes) + len(placed) + 3 + len(targets)
    return load(folder), used + 3 * len(texts)


def _steps(frames: tuple[Frame, ...], number: int) -> tuple[Step, ...]:
    return (Step(frame=frames[number % len(frames)].name, ticks=3),)

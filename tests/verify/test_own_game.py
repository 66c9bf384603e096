"""The demo's example game, played by scripts of keys in every dialect that can.

How it ends is compared with its rules written once more in Python (tests/support/lamplighter.py), and the
screen with the reference picture of scenes whose paths and changes do what these rules say.
"""

from dataclasses import replace

import lamplighter as rules
import numpy as np
import pytest

from scenekit.build import KEYS_FILE, BuildOptions
from scenekit.errors import SceneKitError
from scenekit.game import build_game
from scenekit.interpreters import readers
from scenekit.interpreters.outcome import Run
from scenekit.model.panel import ValueChange
from scenekit.model.paths import Path, Segment
from scenekit.model.target import Target
from scenekit.render.screen import render_screen

TARGETS = {
    "board": ("indexed-board", "320x200", "plain"),
    "brandy-colour": ("brandy-pc", "320x200-colour", "brandy"),
    "brandy-16": ("brandy-pc", "320x200-16", "brandy"),
    "sdlbrt": ("sdlbrt-pc", "320x200", "sdlbrt"),
    "yabasic": ("yabasic-pc", "320x200", "yabasic"),
}
LEFT, RIGHT, ACT = rules.LEFT, rules.RIGHT, rules.ACT


def held(*parts):
    """Return keys tick by tick from pairs of ticks and keys."""
    return [keys for ticks, keys in parts for _ in range(ticks)]


TO_THE_END = held(
    *((30, RIGHT), (5, 0), (60, LEFT), (70, RIGHT)),  # to and fro, over the can of oil
    *((80, RIGHT), (1, ACT), (65, 0), (64, RIGHT), (1, ACT), (61, RIGHT), (64, RIGHT), (1, ACT), (61, 0)),
    *((24, RIGHT), (60, RIGHT), (1, RIGHT | ACT), (61, RIGHT), (64, RIGHT), (1, ACT), (61, 0)),  # the pier
    *((64, RIGHT), (1, ACT), (61, 0), (64, RIGHT), (1, ACT), (90, 0)),
)
SCRIPTS = {
    "a turn and a brake": held((40, RIGHT), (7, 0), (33, LEFT), (4, ACT)),
    "lit while facing left": held((130, RIGHT), (21, LEFT), (3, LEFT), (1, ACT), (28, 0)),
    "on the pier": TO_THE_END[:720],
    "to the end": TO_THE_END,
}


@pytest.fixture(scope="module")
def games(demo):
    text = (demo.folder / "game.words").read_text(encoding="ascii")
    built = {}

    def game(name):
        if name not in built:
            machine, mode, dialect = TARGETS[name]
            target = Target(
                name=name, machine=machine, mode=mode, dialect=dialect, view=(0, 20, 320, 180), transparent=0
            )
            project = replace(demo, targets=(target,))
            built[name] = build_game(project, options=BuildOptions(program=("game", text)))
        return built[name]

    return game


def still(ticks, animation=""):
    return Segment(ticks=ticks, speed=(0, 0), animation=animation)


def as_played(project, game):
    """Return the project and the scene that a game ended in, with paths and changes that do what it did."""
    level = game.level
    scene = project.scenes[level.number]
    placed = []
    for record in scene.placed:
        if record.name == "lamplighter":
            record = replace(record, path=rules.route(level.xs, level.looks))
        elif record.name in level.lamps:
            lit = level.lit_at.get(record.name)
            fire = () if lit is None else (still(lit), still(41, "kindle"), still(999, "burn"))
            record = replace(record, path=Path(segments=fire))
        elif record.name == level.thing[0] and level.taken_at is not None:
            away = Segment(ticks=1, speed=(0, -300))
            record = replace(record, path=Path(segments=(still(level.taken_at - 1), away, still(999))))
        placed.append(record)
    changes = [
        ValueChange(tick=tick, value=name, add=now[name] - before[name])
        for tick, (before, now) in enumerate(zip(level.values, level.values[1:], strict=False), 1)
        for name in now
        if now[name] != before[name]
    ]
    cameras = [rules.camera_at(x) for x in level.xs]
    camera = replace(scene.camera, start=(cameras[0], 0), path=rules.route(cameras))
    values = tuple(replace(value, start=level.values[0][value.name]) for value in project.values)
    played = replace(
        scene,
        camera=camera,
        placed=tuple(placed),
        changes=tuple(changes),
        transitions=scene.transitions[:1],
    )
    scenes = tuple(played if s.name == scene.name else s for s in project.scenes)
    return replace(project, values=values, scenes=scenes), played


def told(game):
    """Return what the program reports at its end."""
    level, values = game.level, game.values
    animations = ("ride", "ride-left", "brake", "brake-left", "turn", "turn-back", "light")
    state = (game.over, level.number, len(level.xs) - 1, values["lamps"], values["oil"], values["score"])
    look = (animations.index(game.does), int(game.way < 0))
    return (*state, game.dark, rules.camera_at(level.x), level.x, *look)


def picture(built, game):
    """Return the reference picture of how a game ended."""
    project, scene = as_played(built.project, game)
    build = built.scenes[game.level.number]
    tick = len(game.level.xs) - 1
    return render_screen(project, scene, build.reduced, build.screen, build.view, tick)


def test_the_scripts_go_where_they_should():
    """What a script is for, by the rules alone."""
    assert rules.play(SCRIPTS["a turn and a brake"]).way == -1
    left = rules.play(SCRIPTS["lit while facing left"])
    assert (left.way, left.does, left.values["lamps"]) == (-1, "light", 3)
    assert rules.play(SCRIPTS["on the pier"]).level.number == 1
    whole = rules.play(SCRIPTS["to the end"])
    assert (whole.over, whole.dark, whole.level.taken_at is None) == (1, 0, False)
    assert whole.values["score"] == 7 * 50 + 2 * 10 + 100


def test_all_lamps_lit_light_every_icon(demo):
    """A lamp hangs at each post that tools/demo_art/lamps.py draws, and the panel has an icon for each."""
    for scene in demo.scenes:
        lamps = [placed.at[0] for placed in scene.placed if placed.sprite == "lamp"]
        icons = next(item for item in scene.panel.items if item.kind == "icons")
        assert tuple(lamps) == (40, 168, 296, 424, 552) == rules.LAMP_XS
        assert icons.count == len(lamps)
    assert rules.play(SCRIPTS["to the end"]).values["lamps"] == 5


@pytest.mark.parametrize("script", SCRIPTS)
@pytest.mark.parametrize("name", TARGETS)
def test_a_script_of_keys_ends_as_the_rules_say(games, interpreter, tmp_path, name, script):
    interpreter(TARGETS[name][2])
    built = games(name)
    keys = SCRIPTS[script]
    for file, data in {**built.files, **built.own_files}.items():
        (tmp_path / file).write_bytes(data)
    (tmp_path / KEYS_FILE).write_text("".join(f"{number}\n" for number in keys), encoding="ascii")
    dialect = built.first.dialect
    task = Run(
        folder=tmp_path,
        program=f"game{dialect.file_ending}",
        dialect=dialect,
        screens=1,
        time_limit_s=120,
        flips=built.first.abilities.flips,
    )
    outcome = readers()[dialect.reader].run(task)
    game = rules.play(keys)
    assert outcome.said == told(game)
    assert int(np.any(outcome.screens[0] != picture(built, game), axis=-1).sum()) == 0


def test_a_dialect_that_includes_no_files_is_refused(demo):
    target = replace(demo.targets[0], name="t", machine="minimal-pc", dialect="ecma55")
    with pytest.raises(SceneKitError, match="cannot take the routines of another file"):
        build_game(replace(demo, targets=(target,)), options=BuildOptions(program=("game", "quit\n")))


def test_pcbasic_refuses_the_demo_with_the_number(demo):
    target = Target(name="t", machine="pcbasic-pc", mode="640x350", dialect="pcbasic", view=(0, 20, 320, 180))
    with pytest.raises(SceneKitError, match=r"\d+ x \d+|\d+ rows"):
        build_game(replace(demo, targets=(target,)), options=BuildOptions(program=("game", "quit\n")))

"""Scenes beyond 32767: tick, camera, sprites and events in BASICs whose whole numbers end there."""

import os
from fractions import Fraction
from pathlib import Path

import pytest
from PIL import Image
from small_scene import blocks, route, speed

from scenekit.build import BuildOptions, run_stages
from scenekit.model.palette import Cycle
from scenekit.model.project import Project
from scenekit.model.scene import Camera, Event, Placed, Plane, Scene, Segment
from scenekit.model.sprites import Animation, Facing, Frame, Sheet, Sprite, Step
from scenekit.model.store import load, save
from scenekit.model.target import Target
from scenekit.verify.prove import can_run, prove

EDGE = 32_767
STOPS = (32_700, 32_730, 32_766, 32_767, 32_768, 32_769, 32_790, 32_830, 32_868, 32_900)
BRICK, LIGHT, BODY = (120, 60, 50), (210, 190, 60), (90, 140, 220)
LONG = pytest.mark.skipif(not os.environ.get("SCENEKIT_LONG"), reason="takes minutes; set SCENEKIT_LONG")
WAIT = tuple(Segment(ticks=16_350, speed=speed("0", "0")) for _ in range(2))
"""Until tick 32,700."""
TARGETS = (
    ("board", "indexed-board", "320x200", "plain"),
    ("colour", "brandy-pc", "320x200-colour", "brandy"),
    ("sixteen", "brandy-pc", "320x200-16", "brandy"),
    ("sdl", "sdlbrt-pc", "320x200", "sdlbrt"),
    ("yab", "yabasic-pc", "320x200", "yabasic"),
    ("small", "pcbasic-pc", "640x350", "pcbasic"),
)


def far_scene(name: str, wait: tuple[Segment, ...]) -> Scene:
    """Return a scene whose camera stands at 32,700 for a while, then passes 32,767 soon."""
    camera = Camera(
        start=(32_700, 0),
        path=route(
            *wait,
            Segment(ticks=400, speed=speed("3/2", "0")),
            repeat="no",
        ),
    )
    walk = route(
        *wait,
        Segment(ticks=20, speed=speed("0", "0")),
        Segment(ticks=300, speed=speed("4/3", "0")),
        repeat="no",
    )
    return Scene(
        name=name,
        ticks=33_000,
        ticks_per_update=1,
        missed="slow",
        backdrop=(20, 20, 20),
        camera=camera,
        planes=(
            Plane(name="hills", picture="hills.png", ratio=speed("1/2", "1"), tile=(8, 8)),
            Plane(name="wall", picture="wall.png", ratio=speed("1", "1"), offset=(0, 16), tile=(8, 8)),
        ),
        placed=(
            Placed(name="walker", sprite="man", over="wall", moves_with="wall", at=(32_720, 14), path=walk),
        ),
        events=(
            Event(
                name="dusk",
                tick=60 + sum(part.ticks for part in wait),
                steps=3,
                ticks_per_step=5,
                colours=(LIGHT,),
                start=(LIGHT,),
                to=((250, 80, 20),),
            ),
        ),
    )


@pytest.fixture(scope="module")
def project(tmp_path_factory) -> Project:
    folder: Path = tmp_path_factory.mktemp("far")
    blocks(24, 16, [BRICK, LIGHT], 0.3, 5).save(folder / "hills.png")
    wall = Image.new("RGBA", (24, 16), (0, 0, 0, 0))
    wall.paste(blocks(24, 8, [BRICK, BODY, LIGHT], 0.2, 6), (0, 8))
    wall.save(folder / "wall.png")
    blocks(16, 9, [BODY, LIGHT], 0.25, 7).save(folder / "man.png")
    frames = tuple(Frame(name=f"f{n}", box=(8 * n, 0, 8, 9), pivot=(4, 8)) for n in range(2))
    steps = (Step(frame="f0", ticks=4), Step(frame="f1", ticks=3))
    man = Sprite(
        name="man",
        animations=(Animation(name="walk", sheet="men", play="loop", steps=steps),),
        facings=(Facing(facing="right", flip=0),),
    )
    save(
        Project(
            folder=folder,
            name="far",
            sheets=(Sheet(name="men", file="man.png", frames=frames),),
            sprites=(man,),
            cycles=(Cycle(name="glow", colours=(BRICK, BODY), ticks=7, direction="forward"),),
            targets=tuple(
                Target(name=name, machine=machine, mode=mode, dialect=dialect, view=(0, 0, 48, 32))
                for name, machine, mode, dialect in TARGETS
            ),
            scenes=(far_scene("far", WAIT), far_scene("near", ())),
        )
    )
    return load(folder)


@pytest.mark.parametrize(
    "target", [pytest.param(row[0], marks=[LONG] if row[0] == "small" else []) for row in TARGETS]
)
def test_tick_and_camera_go_on_past_sixteen_bits(project, interpreter, target):
    build = run_stages(project, target, "far", options=BuildOptions(play=True))
    interpreter(build.dialect.name)
    if not can_run(build):
        pytest.skip("its display is missing")
    assert STOPS[0] < EDGE < STOPS[-1]
    assert 32_700 + Fraction(3, 2) * (STOPS[-1] - 32_700) > EDGE
    proof = prove(build, STOPS)
    assert proof.passed, proof.as_dict()
    assert [tick.tick for tick in proof.ticks] == list(STOPS)


def test_a_camera_goes_on_past_sixteen_bits_where_numbers_have_sixteen(project, interpreter):
    interpreter("pcbasic")
    build = run_stages(project, "small", "near", options=BuildOptions(play=True))
    assert prove(build, (0, 20, 44, 45, 46, 60, 75)).passed

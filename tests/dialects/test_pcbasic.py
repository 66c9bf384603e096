"""The dialect pcbasic: little memory, 16-bit numbers, copies from a hidden page."""

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from window_targets import project_for

from scenekit.build import BuildOptions, run_stages
from scenekit.dialects.dialect import load_dialect
from scenekit.errors import SceneKitError
from scenekit.interpreters import readers
from scenekit.model.scene import Camera, Segment
from scenekit.model.scene import Path as Route
from scenekit.model.target import Target
from scenekit.verify.prove import prove

NAME = "pcbasic"
SMALL, USUAL = (0, 0, 48, 32), (0, 0, 160, 96)
TIME_S = 280


@pytest.fixture
def dialect(tmp_path):
    found = load_dialect(NAME, tmp_path)
    if not readers()[found.reader].available(found):
        pytest.skip(f"the interpreter is missing; to install it: {found.package}")
    return found


def built(project, **options):
    return run_stages(project, options=BuildOptions(play=True, **options))


def test_a_small_view_is_drawn_to_the_pixel(tmp_path, dialect):
    proof = prove(built(project_for(tmp_path, NAME, SMALL)), (0, 9), time_limit_s=TIME_S)
    assert proof.passed
    assert [tick.pixels for tick in proof.ticks] == [640 * 350] * 2


@pytest.mark.slow
def test_three_planes_and_sprites_are_drawn_to_the_pixel(tmp_path, dialect):
    build = built(project_for(tmp_path, NAME, USUAL))
    assert len(build.scene.planes) == 3
    assert len(build.scene.placed) == 3
    assert prove(build, (0, 9, 19, 27, 39), time_limit_s=TIME_S).passed


def test_the_camera_goes_past_32767(tmp_path, dialect):
    project = project_for(tmp_path, NAME, SMALL)
    scene = project.scenes[0]
    route = Route(segments=(Segment(ticks=40, speed=(Fraction(20), Fraction(0))),), repeat="onward")
    far = replace(scene, camera=Camera(start=(32_700, 0), path=route))
    proof = prove(built(replace(project, scenes=(far,))), (0, 3, 5), time_limit_s=TIME_S)
    assert proof.passed


def test_the_demo_is_refused_with_the_number(demo):
    target = Target(name="t", machine="pcbasic-pc", mode="640x350", dialect=NAME, view=(0, 20, 320, 180))
    wanted = r"art: 640 x \d+ px packed; a hidden page of 640 x 350 px holds 640 x 175 px"
    with pytest.raises(SceneKitError, match=wanted):
        run_stages(replace(demo, targets=(target,)), "t", "quay")


def test_lines_names_and_numbers_keep_to_the_limits(tmp_path):
    build = built(project_for(tmp_path, NAME, USUAL))
    text = build.files[build.play_file].decode("ascii")
    assert max(len(line) for line in text.splitlines()) <= 250
    assert "_" not in text
    assert len(text) <= 60_300
    names = re.findall(r"\b[a-z][a-z0-9.]*(?=[%!$])", text)
    assert max(len(name) for name in names) <= 40
    numbers = [
        int(number)
        for line in text.splitlines()
        if " DATA " in line
        for number in line.split(" DATA ")[1].split(",")
    ]
    assert max(abs(number) for number in numbers) <= 32_767


def test_routines_active_together_share_no_variable(tmp_path):
    text = built(project_for(tmp_path, NAME, USUAL)).files["yard-play.bas"].decode("ascii")
    loops: list[str] = []
    for line in text.splitlines():
        found = re.match(r"\d+ FOR (\S+?)=", line)
        if found:
            assert found.group(1) not in loops
            loops.append(found.group(1))
        elif re.match(r"\d+ NEXT", line):
            loops.pop()
    assert not loops

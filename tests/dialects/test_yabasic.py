"""The dialect yabasic: what is special in its text, and scenes that its interpreter draws to the pixel."""

from dataclasses import replace

import pytest
from small_scene import TICKS
from window_targets import project_for

from scenekit.build import BuildOptions, run_stages
from scenekit.dialects.dialect import load_dialect
from scenekit.errors import SceneKitError
from scenekit.interpreters import readers
from scenekit.model.target import Target
from scenekit.verify.prove import prove

NAME = "yabasic"
VIEW = (8, 4, 160, 96)


@pytest.fixture
def dialect(tmp_path):
    found = load_dialect(NAME, tmp_path)
    if not readers()[found.reader].available(found):
        pytest.skip(f"the interpreter is missing; to install it: {found.package}")
    return found


@pytest.mark.parametrize("encode", ["never", "always"])
def test_the_small_scene_is_drawn_to_the_pixel(tmp_path, dialect, encode):
    options = BuildOptions(play=True, counting=True, encode=encode)
    build = run_stages(project_for(tmp_path, NAME, VIEW), options=options)
    proof = prove(build, TICKS, time_limit_s=60)
    assert proof.passed
    assert len(proof.ticks) == len(TICKS)
    assert proof.counts > 0


@pytest.mark.parametrize("scene", ["quay", "pier"])
def test_the_demo_is_drawn_to_the_pixel(demo, dialect, scene):
    target = Target(
        name="t", machine="yabasic-pc", mode="320x200", dialect=NAME, view=(0, 20, 320, 180), transparent=0
    )
    build = run_stages(replace(demo, targets=(target,)), "t", scene, options=BuildOptions(play=True))
    proof = prove(build, (0, 1, 77, 739), time_limit_s=120)
    assert proof.passed
    assert proof.ticks[0].pixels == 320 * 200


def library(tmp_path, encode="never") -> str:
    build = run_stages(project_for(tmp_path, NAME, VIEW), options=BuildOptions(encode=encode))
    return build.files[build.program_file].decode("ascii")


def test_tables_have_a_label_that_reading_starts_from(tmp_path):
    lines = [line.strip() for line in library(tmp_path).splitlines()]
    assert "restore sk_tables" in lines
    assert lines.index("label sk_tables") < next(n for n, t in enumerate(lines) if t.startswith("data "))


def test_lines_keep_to_their_length(tmp_path):
    assert max(len(line) for line in library(tmp_path, "always").splitlines()) <= 240


def test_a_dialect_without_its_interpreter_is_refused_by_its_reader(tmp_path):
    found = replace(load_dialect(NAME, tmp_path), command=("no-such-program", "{program}"))
    assert not readers()[found.reader].available(found)
    with pytest.raises(SceneKitError, match="not installed"):
        prove_with(tmp_path, found)


def prove_with(tmp_path, found):
    """Prove the small scene with a dialect whose program is missing."""
    build = run_stages(project_for(tmp_path, NAME, VIEW), options=BuildOptions(play=True))
    build.dialect = found
    return prove(build, (0,), time_limit_s=10)

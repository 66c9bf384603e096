"""The dialect sdlbrt: what is special in its text, and scenes that its interpreter draws to the pixel."""

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

NAME = "sdlbrt"
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
        name="t", machine="sdlbrt-pc", mode="320x200", dialect=NAME, view=(0, 20, 320, 180), transparent=0
    )
    build = run_stages(replace(demo, targets=(target,)), "t", scene, options=BuildOptions(play=True))
    proof = prove(build, (0, 1, 77, 739), time_limit_s=120)
    assert proof.passed
    assert proof.ticks[0].pixels == 320 * 200


def library(tmp_path, encode="never") -> str:
    build = run_stages(project_for(tmp_path, NAME, VIEW), options=BuildOptions(encode=encode))
    return build.files[build.program_file].decode("ascii")


def test_tables_stand_first_and_routines_before_what_calls_them(tmp_path):
    lines = library(tmp_path).splitlines()
    data = [n for n, line in enumerate(lines) if line.startswith("data(")]
    starts = {
        line.split("(")[0].split()[-1]: n for n, line in enumerate(lines) if line.startswith("function ")
    }
    assert data
    assert starts
    assert max(data) < min(starts.values())
    for number, line in enumerate(lines):
        if line.strip().startswith("sk_done="):
            called = line.strip().removeprefix("sk_done=").split("(")[0]
            assert starts[called] < number


def test_variables_are_handed_over_as_values(tmp_path):
    calls = [line.strip() for line in library(tmp_path).splitlines() if line.strip().startswith("sk_done=")]
    assert "sk_done=sk_draw_plane(n+0)" in calls
    assert not [call for call in calls if call.endswith(("(i)", "(m)", "(n)"))]


def test_more_data_than_it_holds_is_refused_with_the_number(tmp_path):
    project = project_for(tmp_path, NAME, VIEW)
    text = (load_toml_text()).replace("data_total = 13550", "data_total = 300")
    (tmp_path / "few.toml").write_text(text, encoding="utf-8")
    target = replace(project.targets[0], dialect="few.toml")
    few = replace(project, targets=(target,))
    with pytest.raises(SceneKitError, match=r"the tables have \d+ values; at most 300; use fewer or smaller"):
        run_stages(few, options=BuildOptions(encode="never"))


def load_toml_text() -> str:
    """Return the dialect's file."""
    from scenekit.dialects.dialect import TARGETS_FOLDER

    return (TARGETS_FOLDER / "sdlbrt.toml").read_text(encoding="utf-8")

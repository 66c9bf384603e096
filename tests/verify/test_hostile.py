"""Hostile names and texts reach no line of a program: nothing fails, and no shell runs them."""

import random
from pathlib import Path

import pytest
from hostile_names import TARGETS, hostile_project, hostile_text, refused_in_one_line

from scenekit.build import BuildOptions, run_stages
from scenekit.verify.prove import can_run, prove


@pytest.fixture(scope="module")
def marker(tmp_path_factory) -> Path:
    return tmp_path_factory.mktemp("marked") / "marker"


@pytest.fixture(scope="module", params=[1, 2, 3])
def hostile(request, tmp_path_factory, marker):
    return hostile_project(tmp_path_factory.mktemp("hostile") / "game", request.param, marker)


@pytest.mark.parametrize("number", range(len(TARGETS)), ids=[row[0] for row in TARGETS])
def test_every_program_runs_and_no_shell_does(hostile, marker, interpreter, number):
    project, used = hostile
    if TARGETS[number][0] == "pcbasic" and project.folder.parent.name != "hostile0":
        pytest.skip("one project is enough where a run takes ten seconds; tools/bench/hostile.py runs many")
    assert used > 100
    build = run_stages(project, project.targets[number].name, options=BuildOptions(play=True))
    interpreter(build.dialect.name)
    if not can_run(build):
        pytest.skip("its display is missing")
    for name, data in build.files.items():
        if name != "CREDITS.txt" and name.endswith(build.dialect.file_ending):
            assert str(marker).encode() not in data
    assert prove(build, (0, 3)).passed
    assert not marker.exists()


def test_texts_that_are_no_names_are_refused(marker):
    chosen = random.Random(7)
    texts = [hostile_text(chosen, marker) for _ in range(500)]
    refused = [refused_in_one_line(text) for text in texts]
    assert sum(refused) > 400

"""What a program is put together from: only what is needed, and every name it uses is said."""

import re

import pytest
from small_scene import small_project

from scenekit.build import BuildOptions, run_stages
from scenekit.programs.assemble import ENTRY_POINTS


@pytest.fixture(scope="module")
def project(tmp_path_factory):
    return small_project(tmp_path_factory.mktemp("programs") / "p")


def text(project, target, file, **options):
    build = run_stages(project, target, options=BuildOptions(**options))
    return build.files[getattr(build, file)].decode("ascii")


def test_the_library_names_every_routine_that_a_game_calls(project):
    library = text(project, "colour", "program_file")
    named = set(re.findall(r"^REM   PROCsk_(\w+)", library, re.MULTILINE))
    defined = set(re.findall(r"^DEF PROCsk_(\w+)", library, re.MULTILINE))
    assert named == set(ENTRY_POINTS) & defined
    assert {"load", "start", "step", "draw", "draw_plane", "draw_actor", "camera_to", "act", "face"} <= named


def test_the_library_lists_every_variable_it_uses(project):
    """A game must not use these names for itself, so none may be missing."""
    library = text(project, "colour", "program_file")
    head, code = library.split("DEF PROC", 1)
    listed = set(re.findall(r"sk_\w+%", head))
    used = set(re.findall(r"sk_\w+%", code))
    assert used <= listed


def test_a_library_without_counting_holds_no_counters(project):
    assert "calls_" not in text(project, "board", "program_file")
    assert "calls_" in text(project, "board", "program_file", counting=True)


@pytest.mark.parametrize("target", ["board", "colour", "tables"])
def test_every_routine_of_a_program_is_called_or_named(project, target):
    play = text(project, target, "play_file", play=True)
    if target == "tables":
        assert "PROC" not in play
        return
    call = r"do sk_(\w+)" if target == "board" else r"PROCsk_(\w+)"
    define = r"^routine sk_(\w+)" if target == "board" else r"^DEF PROCsk_(\w+)"
    defined = re.findall(define, play, re.MULTILINE)
    assert len(defined) == len(set(defined))
    body = re.sub(define, "", play, flags=re.MULTILINE)
    assert set(defined) <= set(re.findall(call, body)) | set(ENTRY_POINTS)
    assert set(re.findall(call, re.sub(r"^('|REM).*$", "", body, flags=re.MULTILINE))) <= set(defined)


def test_a_library_never_opens_stops_or_says_anything(project):
    library = text(project, "board", "program_file")
    code = [line.strip() for line in library.splitlines() if not line.startswith("'")]
    assert not any(line.startswith(("say", "stop", "save_screen", "quit")) for line in code)


def test_no_finished_screens_and_nothing_by_tick(project):
    """The program's text does not hang on how long the scene is proved."""
    play = text(project, "board", "play_file", play=True)
    data = sum(line.count(",") + 1 for line in play.splitlines() if line.startswith("data "))
    assert data < 2000

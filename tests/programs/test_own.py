"""A program of the user's own: what is refused, in one line with its place, and what it becomes."""

from dataclasses import replace

import pytest
from small_scene import small_project

from scenekit.build import BuildOptions, run_stages
from scenekit.errors import SceneKitError
from scenekit.programs.own import read_own
from scenekit.routines.language import Program
from scenekit.routines.parse import parse_routines

GOOD = """
' Rides about.
do load
hero = "placed {scene}/{placed}"
over = 0
while over = 0
  do ride(hero, 2)
  key over
end
quit

' Moves sprite I.
routine ride(i, n)
  local k
  k = mover_x(i + 1) + n
  mover_x(i + 1) = k
end
"""
REFUSED = {
    "no such word": ("do load\nbeep 3\n", "main part: beep: no such word"),
    "a file": ('file_open "art.raw"\n', "file_open: takes a file"),
    "an image": ('load_image 0, "a.bmp"\n', "load_image: takes a file"),
    "values": ("ink 1, 2\n", "ink: got 2 values; takes 1"),
    "no variable": ("key 3\n", "key: needs a variable"),
    "unknown variable": ("x = 1 + yy\n", "yy: is never given a value"),
    "unknown array": ("x = cave(1)\n", "cave: no such array"),
    "unknown routine": ("do fly\n", "do fly: no such routine"),
    "arguments": ("do act(1)\n", "do act: got 1 values; takes 2"),
    "taken name": ("quit\nroutine draw\nend\n", "routine draw: must be a name of its own"),
    "twice": ("quit\nroutine go\nend\nroutine go\nend\n", "routine go: must be a name of its own"),
    "own name": ("quit\nroutine go\nlocal print\nend\n", "own name print"),
    "circle": ("do a\nroutine a\ndo b\nend\nroutine b\ndo a\nend\n", "calls itself"),
    "counting": ("count blit, 1\n", "only scenekit's own routines count"),
    "compared value": ("x = 1 = 2\n", "only a condition compares"),
    "no comparison": ("x = 1\nif x\nend\n", "must compare"),
    "large": ("x = 40000\n", "got 40000; must be"),
    "kind": ('x = "cow one"\n', "unknown name 'cow'"),
    "name": ('x = "facing lift"\n', "did you mean 'left'"),
    "half": ('x = "placed one"\n', "two names with /"),
    "no end": ("while 1 = 1\n", "ends within"),
    "one end too many": ("x = 1\nend\nquit\n", "line 2: 'end' closes nothing"),
    "else alone": ("x = 1\nelse\nquit\n", "line 2: 'else' closes nothing"),
    "sign": ("' caf\u00e9\n", "plain ASCII"),
    "control": ("' a\x0bb\n", "plain ASCII"),
    "return": ("return\n", "only a routine can be left"),
    "array taken": ("array mover_x, 5\n", "array mover_x: must be a name of its own"),
    "array twice": ("array cave, 5\narray cave, 6\n", "array cave: must be a name of its own"),
    "array too large": ("array cave, 10001\n", "got 10001 places; must be 1 to 10000"),
    "array of nothing": ("array cave, 0\n", "got 0 places"),
    "array by a value": ("k = 3\narray cave, k\n", "stands in the main part, outside of blocks"),
    "array within a block": ("if 1 = 1\narray cave, 4\nend\n", "stands in the main part"),
    "array and variable": ("array cave, 4\ncave = 3\n", "is an array, and a variable too"),
    "too long": ("' " + "a" * 200_001, "200003 characters"),
}


@pytest.fixture(scope="module")
def project(tmp_path_factory):
    return small_project(tmp_path_factory.mktemp("own") / "p")


def library():
    text = "routine load\n  tick = 0\nend\nroutine draw\nend\nroutine act(i, n)\n  mover_x(i) = n\nend\n"
    return Program(
        name="l", remarks=(), arrays=(("mover_x", 9),), main=(), routines=parse_routines(text, "l")
    )


def good(project):
    scene = project.scenes[0]
    return GOOD.format(scene=scene.name, placed=scene.placed[-1].name)


def test_names_of_the_project_become_its_numbers(project):
    program = read_own(good(project), "mine", project, library())
    assert "'" not in repr(program.main[1].value)
    assert program.main[1].value.value == len(project.scenes[0].placed) - 1
    assert program.remarks == ("Rides about.",)
    assert [routine.remarks for routine in program.routines] == [("Moves sprite I.",)]


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_spelled_is_refused_in_one_line(project, case):
    text, words = REFUSED[case]
    with pytest.raises(SceneKitError) as caught:
        read_own(text, "mine", project, library())
    assert words in str(caught.value)
    assert "mine" in str(caught.value)
    assert len(str(caught.value)) < 400


@pytest.mark.parametrize("target", ["board", "colour"])
def test_one_scene_takes_a_program_too(project, target):
    build = run_stages(project, target, options=BuildOptions(program=("mine", good(project))))
    name = f"mine{build.dialect.file_ending}"
    assert set(build.own_files) == {name, "keys.txt"}
    assert name not in build.files
    text = build.own_files[name].decode("ascii")
    assert build.program_file in text
    assert "DIM" not in text
    assert "array" not in text


def test_a_name_of_the_export_itself_is_refused(project):
    options = BuildOptions(program=(project.scenes[0].name, "quit\n"))
    with pytest.raises(SceneKitError, match="is a file of the export itself"):
        run_stages(project, "board", options=options)


def test_a_file_that_cannot_be_imported_by_its_name_is_refused(project):
    from scenekit.dialects.dialect import load_dialect
    from scenekit.dialects.spell import Options, spell

    program = replace(read_own(good(project), "mine", project, library()), library_file="my-game.yab")
    with pytest.raises(SceneKitError, match="project name my-game"):
        spell(load_dialect("yabasic", project.folder), program, {}, Options())

"""Arrays of a program of the user's own, in every dialect that can take the routines of another file."""

from dataclasses import replace

import pytest
from small_scene import small_project

from scenekit.build import BuildOptions, run_stages
from scenekit.interpreters import readers
from scenekit.interpreters.outcome import Run
from scenekit.model.target import Target

PROGRAM = """
' Fills an array and adds its places up in a routine.
array visited, 12
array order_of, 3
do load
do start
for k = 0 to 11
  visited(k) = k * k
end
order_of(2) = 7
do add_up(11)
say_open
say total
say visited(order_of(2))
say order_of(0)
say mover_x(1)
say_close
quit

' Adds places 0 to N up.
routine add_up(n)
  local i
  total = 0
  for i = 0 to n
    total = total + visited(i)
  end
  visited(n) = total
end
"""
TARGETS = {
    "board": "plain",
    "colour": "brandy",
    "sixteen": "brandy",
    "sdl": "sdlbrt",
    "yab": "yabasic",
}


@pytest.mark.parametrize("name", TARGETS)
def test_arrays_hold_what_is_put_into_them(tmp_path, interpreter, name):
    """By hand: 0 + 1 + 4 + ... + 121 = 506; place 7 holds 49; what nobody filled is 0."""
    interpreter(TARGETS[name])
    project = small_project(tmp_path / "p")
    mode = "yard-16" if name == "sixteen" else "yard-indexed" if name == "board" else "yard-direct"
    target = Target(name=name, machine="small.toml", mode=mode, dialect=TARGETS[name])
    project = replace(project, targets=(target,))
    build = run_stages(project, name, options=BuildOptions(program=("mine", PROGRAM)))
    folder = tmp_path / "run"
    folder.mkdir()
    for file, data in {**build.files, **build.own_files}.items():
        (folder / file).write_bytes(data)
    program = f"mine{build.dialect.file_ending}"
    flips = build.abilities.flips
    task = Run(folder=folder, program=program, dialect=build.dialect, screens=0, time_limit_s=60, flips=flips)
    said = readers()[build.dialect.reader].run(task).said
    assert said == (506, 49, 0, project.scenes[0].placed[0].at[0])

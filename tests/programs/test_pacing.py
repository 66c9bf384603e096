"""Refreshes missed: counted by the clock of the playing program, and caught up where the scene says so."""

import itertools
import random
import re
from dataclasses import replace

import numpy as np
import pytest
from small_scene import small_project

from scenekit.build import BuildOptions, run_stages
from scenekit.dialects.dialect import TARGETS_FOLDER
from scenekit.errors import ExportError, SceneKitError
from scenekit.game import build_game
from scenekit.interpreters import readers
from scenekit.interpreters.executor import Machine
from scenekit.interpreters.outcome import Run
from scenekit.interpreters.translate import with_included
from scenekit.model.panel import Value
from scenekit.model.target import Target

KEY = re.compile(r'^key = (""".*?"""|".*?")$', re.MULTILINE | re.DOTALL)
MOST_TICKS = 12
COARSE_US = 60_000


@pytest.fixture(scope="module")
def project(tmp_path_factory):
    return small_project(tmp_path_factory.mktemp("pacing") / "p")


def with_scene(project, **changes):
    return replace(project, scenes=(replace(project.scenes[0], **changes), *project.scenes[1:]))


def played(build, folder, took_ms):
    """Return (refreshes missed, tick) after pictures that took so many milliseconds, by the executor."""
    for name, data in build.files.items():
        (folder / name).write_bytes(data)
    text = build.files[build.play_file].decode("ascii")
    text = text.replace("  do sk_say_missed\n", "  do sk_say_missed\n  say sk_tick\n")
    machine = Machine(folder, text, "played", 60, build.abilities.flips)
    now, pictures = [5_000], iter(took_ms)
    left = [len(took_ms)]

    def clock():
        now.append(now[-1])
        return now[-2]

    def draw(page):
        now[-1] += next(pictures)
        machine.board.begin_frame(page)

    def key():
        left[0] -= 1
        return int(left[0] == 0)

    words = {**machine.words(), "w_clock": clock, "w_begin_frame": draw, "w_key": key}
    machine.words = lambda: words
    machine.run()
    return tuple(machine.said)


def awaited(refresh_us, took_ms, every, catch_up):
    """Return the same by the rule as the manual says it."""
    late = missed = tick = 0
    for took in took_ms:
        more = 0
        if took >= 1000:
            late = 0
        else:
            late = max(-COARSE_US, late + took * 1000 - every * refresh_us)
            more = max(0, late) // refresh_us
            late -= more * refresh_us
        missed += more
        tick += min(MOST_TICKS, every + more) if catch_up and more else every
    return missed, tick


@pytest.mark.parametrize("every", [1, 2])
@pytest.mark.parametrize("missed", ["slow", "catch-up"])
def test_missed_refreshes_are_counted_and_caught_up_as_the_scene_says(project, tmp_path, missed, every):
    scene = with_scene(project, missed=missed, ticks_per_update=every)
    build = run_stages(scene, "board", options=BuildOptions(play=True, missed=True))
    refresh_us = round(1000 * build.mode.timing.period_ms)
    chosen = random.Random(every)
    took = [chosen.choice((3, 14, 17, 33, 50, 140, 400, 1000, 2500)) for _ in range(60)]
    said = played(build, tmp_path, took)
    assert said == awaited(refresh_us, took, every, missed == "catch-up")
    assert said[0] > 0
    assert (said[1] == 60 * every) == (missed == "slow")


@pytest.mark.parametrize("grain_ms", [1, 10, 55])
def test_pictures_in_time_miss_nothing_however_coarse_the_clock(project, tmp_path, grain_ms):
    build = run_stages(project, "board", options=BuildOptions(play=True, missed=True))
    every = build.scene.ticks_per_update
    ends = [every * n * build.mode.timing.period_ms for n in range(201)]
    seen = [int(end // grain_ms) * grain_ms for end in ends]
    took = [b - a for a, b in itertools.pairwise(seen)]
    missed, tick = played(build, tmp_path, took)
    assert missed <= (0 if grain_ms == 1 else 55 // 14)
    assert tick == 200 * every


def test_pictures_that_take_twice_their_time_miss_as_many_again(project, tmp_path):
    build = run_stages(
        with_scene(project, ticks_per_update=1), "board", options=BuildOptions(play=True, missed=True)
    )
    ends = [2 * n * build.mode.timing.period_ms for n in range(101)]
    took = [int(b) - int(a) for a, b in itertools.pairwise(ends)]
    assert abs(played(build, tmp_path, took)[0] - 100) <= 1


def test_a_value_of_the_panel_shows_them_while_it_plays(demo, tmp_path):
    """The screen is that of the reference with this value, and the log says the same number."""
    options = BuildOptions(play=True, missed=True, missed_value="score")
    build = run_stages(demo, "board", "quay", options=options)
    for name, data in build.files.items():
        (tmp_path / name).write_bytes(data)
    ending = "  do sk_say_missed\n"
    text = build.files[build.play_file].decode("ascii")
    assert text.count(ending) == 1
    text = text.replace(ending, f"  do sk_draw\n  save_screen 0\n{ending}  say sk_tick\n")
    machine = Machine(tmp_path, text, "shown", 60, build.abilities.flips)
    took, now = iter([3, 14, 50, 140, 400, 17, 14]), [5_000]

    def draw(page):
        now[0] += next(took)
        machine.board.begin_frame(page)

    keys = iter([0, 0, 0, 0, 0, 1])
    words = {"w_clock": lambda: now[0], "w_begin_frame": draw, "w_key": lambda: next(keys)}
    words = {**machine.words(), **words}
    machine.words = lambda: words
    machine.run()
    missed, tick = machine.said
    assert missed > 25
    values = tuple(replace(v, start=missed) if v.name == "score" else v for v in demo.values)
    wanted = replace(build, project=replace(demo, values=values)).picture(tick)
    assert np.array_equal(machine.board.screens[0], wanted)
    assert not np.array_equal(machine.board.screens[0], build.picture(tick))


def test_a_value_that_nobody_could_see_is_refused(demo, project):
    options = BuildOptions(play=True, missed=True, missed_value="skore")
    with pytest.raises(SceneKitError, match="did you mean 'score'"):
        run_stages(demo, "board", options=options)
    silent = replace(project, values=(Value(name="score"),))
    with pytest.raises(ExportError, match="must be shown by an item"):
        run_stages(silent, "board", options=replace(options, missed_value="score"))


OWN = """
do load
do start
do start_clock
k = 0
while k < {pictures}
  do draw
  do keep_time
  for i = 1 to ticks_due
    do step
  end
  k = k + 1
end
say_open
say missed
say tick
say_close
quit
"""


@pytest.mark.parametrize("missed", ["slow", "catch-up"])
@pytest.mark.parametrize("took_ms", [2, 11, 30, 70])
def test_a_loop_of_ones_own_keeps_time(project, tmp_path, missed, took_ms):
    """By a clock that goes on by a millisecond when it is read, and by some for each picture."""
    pictures = 50
    program = ("mine", OWN.format(pictures=pictures))
    scene = with_scene(project, missed=missed, ticks_per_update=1)
    build = run_stages(scene, "board", options=BuildOptions(program=program))
    for name, data in {**build.files, **build.own_files}.items():
        (tmp_path / name).write_bytes(data)
    text = with_included(tmp_path, build.own_files["mine.words"].decode("ascii"), 1_000_000)
    machine = Machine(tmp_path, text, "mine", 60, build.abilities.flips)
    now = [5_000]

    def clock():
        now[0] += 1
        return now[0]

    def draw(page):
        now[0] += took_ms
        machine.board.begin_frame(page)

    words = {**machine.words(), "w_clock": clock, "w_begin_frame": draw}
    machine.words = lambda: words
    machine.run()
    gone_ms = now[0] - 5_000
    refreshes = gone_ms / float(build.mode.timing.period_ms)
    found, tick = machine.said
    assert abs(found - max(0, refreshes - pictures)) <= 2
    assert (found == 0) == (took_ms < 12)
    assert abs(tick - (refreshes if missed == "catch-up" else pictures)) <= 2


def test_without_a_wish_the_clock_is_left_alone(project):
    build = run_stages(project, "board", options=BuildOptions(play=True))
    assert "clock" not in build.files[build.play_file].decode("ascii")
    caught = run_stages(with_scene(project, missed="catch-up"), "board", options=BuildOptions(play=True))
    text = caught.files[caught.play_file].decode("ascii")
    assert "clock sk_clock_now" in text
    assert "do sk_say_missed" not in text


def test_each_scene_of_a_game_keeps_time_as_it_says(project):
    first = replace(project.scenes[0], missed="slow")
    second = replace(project.scenes[0], name="other", missed="catch-up")
    game = build_game(replace(project, scenes=(first, second)), "board", options=BuildOptions(play=True))
    text = game.files[game.play_file].decode("ascii")
    assert "if sk_scene = 1\n    sk_catch_up = 1\n" in text
    assert "if sk_scene = 0" not in text.split("routine sk_take_pace")[1].split("routine ")[0]


def test_a_dialect_without_a_clock_is_told_of(project):
    late = with_scene(project, missed="catch-up")
    dialect = (TARGETS_FOLDER / "plain.toml").read_text(encoding="utf-8")
    (project.folder / "still.toml").write_text(re.sub(r"^clock = .*\n", "", dialect, flags=re.MULTILINE))
    target = replace(project.targets[0], name="still", dialect="still.toml")
    late = replace(late, targets=(target,))
    build = run_stages(late, "still", options=BuildOptions(play=True))
    assert [finding.code for finding in build.findings if finding.code == "no-clock"] == ["no-clock"]
    with pytest.raises(ExportError, match="no word clock"):
        run_stages(late, "still", options=BuildOptions(play=True, missed=True))


DIALECTS = {
    "brandy": ("small.toml", "yard-16"),
    "sdlbrt": ("small.toml", "yard-direct"),
    "yabasic": ("small.toml", "yard-direct"),
}


@pytest.mark.parametrize("name", DIALECTS)
def test_every_dialect_plays_by_its_clock(project, interpreter, tmp_path, name):
    """A key ends it after the first picture, so that at most the refreshes of a second can be missed.

    pcbasic does so too (seen once), in two minutes.
    """
    interpreter(name)
    dialect = (TARGETS_FOLDER / f"{name}.toml").read_text(encoding="utf-8")
    ended, found = KEY.subn('key = "{value}=1"', dialect)
    assert found == 1
    (project.folder / "ended.toml").write_text(ended, encoding="utf-8")
    machine, mode = DIALECTS[name]
    target = Target(name="t", machine=machine, mode=mode, dialect="ended.toml")
    late = replace(with_scene(project, missed="catch-up"), targets=(target,))
    build = run_stages(late, options=BuildOptions(play=True, missed=True))
    for file, data in build.files.items():
        (tmp_path / file).write_bytes(data)
    task = Run(folder=tmp_path, program=build.play_file, dialect=build.dialect, screens=0, time_limit_s=60)
    (missed,) = readers()[build.dialect.reader].run(task).said
    assert 0 <= missed < 1000 / float(build.mode.timing.period_ms)


@pytest.mark.parametrize("name", DIALECTS)
def test_a_loop_of_ones_own_runs_in_every_dialect(project, interpreter, tmp_path, name):
    """Late or not, a scene that is slow goes on by one tick for each picture."""
    interpreter(name)
    machine, mode = DIALECTS[name]
    target = Target(name="t", machine=machine, mode=mode, dialect=name)
    slow = replace(with_scene(project, missed="slow", ticks_per_update=1), targets=(target,))
    build = run_stages(slow, options=BuildOptions(program=("mine", OWN.format(pictures=9))))
    for file, data in {**build.files, **build.own_files}.items():
        (tmp_path / file).write_bytes(data)
    program = f"mine{build.dialect.file_ending}"
    task = Run(folder=tmp_path, program=program, dialect=build.dialect, screens=0, time_limit_s=60)
    missed, tick = readers()[build.dialect.reader].run(task).said
    assert tick == 9
    assert missed >= 0

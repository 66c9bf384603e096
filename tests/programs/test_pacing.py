"""Refreshes missed: counted by the clock of the playing program, and caught up where the scene says so."""

import itertools
import random
import re
from dataclasses import replace

import pytest
from small_scene import small_project

from scenekit.build import BuildOptions, run_stages
from scenekit.dialects.dialect import TARGETS_FOLDER
from scenekit.errors import ExportError
from scenekit.game import build_game
from scenekit.interpreters import readers
from scenekit.interpreters.executor import Machine
from scenekit.interpreters.outcome import Run
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

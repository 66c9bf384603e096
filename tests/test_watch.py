"""Watching a project: built when a file changes, silent else, never ended by a fault in the project."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from parts_game import parts_game
from small_scene import small_project

from scenekit.build import BuildOptions
from scenekit.cli.main import outcome
from scenekit.errors import ProjectError
from scenekit.model.store import save
from scenekit.watch import Watcher, snapshot, watch


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    small_project(tmp_path / "game")
    return tmp_path / "game"


def watcher_of(folder, to):
    return Watcher(folder, to, "board", None, BuildOptions(play=True))


def touched(path: Path, data: bytes) -> None:
    """Write a file with a time of its own, so that no clock matters."""
    before = path.stat().st_mtime_ns if path.exists() else 0
    path.write_bytes(data)
    os.utime(path, ns=(before + 10**9, before + 10**9))


def test_only_changes_are_built_and_only_files_that_differ_are_written(folder, tmp_path):
    watcher = watcher_of(folder, tmp_path / "card")
    first = watcher.look()
    assert "pictures a second" in first.line or "rate not known" in first.line
    assert f"{len(first.changed)} files changed" in first.line
    assert "% of" in first.line
    assert watcher.look().line == ""
    scene = folder / "scenes/yard.toml"
    text = scene.read_bytes()
    touched(scene, text)
    assert watcher.look().line.endswith("no file changed")
    touched(scene, text.replace(b"start = [5, -3]", b"start = [6, -3]"))
    moved = watcher.look()
    assert set(moved.changed) == {"yard.words", "yard-play.words"}
    assert "2 files changed: yard.words, yard-play.words" in moved.line


def test_all_scenes_are_built_as_one_game_as_an_export_does(tmp_path, capsys):
    project = parts_game(tmp_path / "game", large=False)
    save(project)
    watcher = Watcher(project.folder, tmp_path / "card", None, None, BuildOptions(play=True))
    line = watcher.look().line
    assert all(f"{scene.name} for " in line for scene in project.scenes)
    assert outcome(["export", str(project.folder), "--to", str(tmp_path / "other"), "--play"]) == 0
    for path in (tmp_path / "other").iterdir():
        assert (tmp_path / "card" / path.name).read_bytes() == path.read_bytes(), path.name
    alone = Watcher(project.folder, tmp_path / "one", None, project.scenes[0].name, BuildOptions())
    assert alone.look().line.count(" for ") == 1


def test_a_broken_project_is_told_and_watched_on(folder, tmp_path):
    watcher = watcher_of(folder, tmp_path / "card")
    project = folder / "project.toml"
    text = project.read_bytes()
    told, steps = [], iter([text + b"[[", text + b"[[", text])

    def wait():
        touched(project, next(steps))

    assert watch(watcher, told.append, wait, looks=4) == 2
    assert [line.startswith("error: ") for line in told] == [False, True, True, False]
    assert all("\n" not in line for line in told)


def test_a_picture_that_changes_or_goes_is_seen(folder, tmp_path):
    watcher = watcher_of(folder, tmp_path / "card")
    watcher.look()
    cat = folder / "cat.png"
    data = cat.read_bytes()
    cat.unlink()
    assert watcher.look().failed
    touched(cat, b"nonsense")
    assert watcher.look().failed
    touched(cat, data)
    assert not watcher.look().failed


def test_an_interrupt_ends_it_cleanly(folder, tmp_path):
    def wait():
        raise KeyboardInterrupt

    told = []
    assert watch(watcher_of(folder, tmp_path / "card"), told.append, wait) == 1
    assert len(told) == 1


def test_results_and_hidden_files_are_not_looked_at(folder):
    before = snapshot(folder, folder / "board")
    for name in ("board", "out", ".git"):
        (folder / name).mkdir()
        (folder / name / "x.bas").write_text("1", encoding="ascii")
    (folder / "project.toml.previous").write_text("x", encoding="ascii")
    assert snapshot(folder, folder / "board") == before
    with pytest.raises(ProjectError, match="no such project folder"):
        snapshot(folder / "none", folder)


def test_the_command_looks_as_often_as_asked(folder, tmp_path, capsys):
    arguments = [
        "watch",
        folder,
        "--target",
        "board",
        "--to",
        tmp_path / "card",
        "--looks",
        "2",
        "--every",
        "0.1",
    ]
    assert outcome([str(argument) for argument in arguments]) == 0
    printed = capsys.readouterr()
    assert printed.out.count("\n") == 1
    assert printed.out.startswith("yard for board: ")
    assert "stopped after 1 builds" in printed.err


@pytest.mark.skipif(os.name != "posix", reason="Ctrl-C comes as this signal on POSIX only")
def test_ctrl_c_ends_a_watch_that_runs(folder, tmp_path):
    card = tmp_path / "card"
    arguments = ["watch", str(folder), "--target", "board", "--to", str(card), "--every", "0.1"]
    running = subprocess.Popen(
        [sys.executable, "-m", "scenekit", *arguments],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
        cwd=Path(__file__).parents[1],
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.default_int_handler),
    )
    try:
        assert running.stdout is not None
        assert running.stdout.readline().startswith("yard for board: ")
        running.send_signal(signal.SIGINT)
        out, err = running.communicate(timeout=60)
    finally:
        running.kill()
    assert running.returncode == 0, err
    assert out == ""
    assert "stopped after 1 builds" in err
    assert "Traceback" not in err
    assert not [path for path in card.iterdir() if path.name.endswith(".part")]

"""Exports, proofs and shipments beside the window: what they write and show, and that they can be stopped."""

import sys
import threading
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from scenekit.build import run_stages
from scenekit.dialects.dialect import Dialect
from scenekit.editor.exporting import Run, Wishes, end_runs
from scenekit.errors import StoppedError, VerifyError
from scenekit.interpreters.process import run_program
from scenekit.model.project import Project
from scenekit.model.store import load
from scenekit.transfer import ship


@pytest.fixture
def demo(copied_demo: Path) -> Project:
    return load(copied_demo)


def made(project: Project, kind: str, folder: Path, target: str | None = None, **wishes: object) -> Run:
    wanted = Wishes(into=str(folder), board=str(folder), **wishes)
    name = project.target(target).name
    return Run(kind=kind, document=project, target=name, scene=project.scenes[0].name, wishes=wanted)


def finished(run: Run) -> Run:
    run.start()
    run._thread.join(120)
    assert run.done
    return run


def proved_target(project: Project) -> str:
    """Return a target whose screens the executor draws, so that no other program is needed."""
    return next(t.name for t in project.targets if run_stages(project, t.name, last="target").dialect.reader
                == "executor")  # fmt: skip


def test_writing_gives_the_files_of_the_command_line(demo: Project, tmp_path: Path):
    from scenekit.cli.main import outcome

    run = finished(made(demo, "write", tmp_path / "window"))
    assert run.error == ""
    words = ["export", str(demo.folder), "--play", "--prefix", "sk_", "--first-line", "1000"]
    assert outcome([*words, "--scene", demo.scenes[0].name, "--out", str(tmp_path / "words")]) == 0
    theirs = {path.name: path.read_bytes() for path in (tmp_path / "words").iterdir()}
    ours = {path.name: path.read_bytes() for path in (tmp_path / "window").iterdir()}
    assert ours == theirs
    assert {name for name, _, _ in run.files} <= set(ours)
    again = finished(made(demo, "write", tmp_path / "window"))
    assert [fresh for _, _, fresh in again.files] == [False] * len(run.files)


def test_sending_gives_the_files_that_a_board_wants(demo: Project, tmp_path: Path):
    run = finished(made(demo, "send", tmp_path / "card"))
    assert run.error == ""
    from scenekit.build import BuildOptions

    build = run_stages(
        demo, run.target, run.scene, options=BuildOptions(play=True, prefix="sk_", first_line=1000)
    )
    wanted = ship(build.files, build.dialect, True)
    for name, data in wanted.files.items():
        assert (tmp_path / "card" / name).read_bytes() == data
    assert run.seconds == wanted.seconds


def test_a_proof_hands_over_the_real_screens(demo: Project, tmp_path: Path):
    run = finished(made(demo, "prove", tmp_path, proved_target(demo)))
    assert run.error == ""
    assert run.proof is not None
    assert run.proof.passed
    assert [shot.tick for shot in run.shots] == [tick.tick for tick in run.proof.ticks]
    assert len(run.shots) == 10
    for shot in run.shots:
        assert np.array_equal(shot.wanted, shot.drawn)
        assert shot.marked.shape == shot.drawn.shape


def test_a_stopped_export_writes_nothing(demo: Project, tmp_path: Path):
    run = made(demo, "write", tmp_path / "out")
    seen: list[str] = []

    def wake() -> None:
        seen.append(run.stage)
        if len(seen) == 3:
            run.stop()

    run.wake = wake
    finished(run)
    assert "stopped" in run.error
    assert not (tmp_path / "out").exists()


def test_a_stopped_proof_ends_its_program(demo: Project, tmp_path: Path):
    run = made(demo, "prove", tmp_path, proved_target(demo))
    run.wake = lambda: run.stop() if run.stage == "running the program" else None
    finished(run)
    assert run.error == "stopped"
    assert run.shots == []
    assert list(tmp_path.glob("demo/*.part")) == []


def dialect_of(demo: Project, *command: str) -> Dialect:
    return replace(run_stages(demo, last="target").dialect, command=command)


def test_a_program_that_is_no_longer_wanted_is_ended(demo: Project, tmp_path: Path):
    (tmp_path / "long.py").write_text("import time\nopen('begun', 'w').close()\ntime.sleep(600)\n")
    dialect = dialect_of(demo, sys.executable, "{program}")
    with pytest.raises(StoppedError):
        run_program(dialect, tmp_path, "long.py", 300.0, stopped=(tmp_path / "begun").exists)


def test_a_program_over_its_time_is_still_ended(demo: Project, tmp_path: Path):
    (tmp_path / "long.py").write_text("import time\ntime.sleep(600)\n")
    dialect = dialect_of(demo, sys.executable, "{program}")
    with pytest.raises(VerifyError, match="still running after"):
        run_program(dialect, tmp_path, "long.py", 0.3)


def test_closing_ends_what_runs(demo: Project, tmp_path: Path):
    run = made(demo, "write", tmp_path / "out")
    gate = threading.Event()
    run.wake = lambda: gate.wait(60) and None
    run.start()
    threading.Timer(0.05, gate.set).start()
    end_runs({"run": run})
    gate.set()
    run._thread.join(60)
    assert run.done
    assert not (tmp_path / "out").exists()


def test_the_station_shows_screens_and_files(hand, tmp_path: Path):
    desk = hand.window.desk
    desk.session.station = "export"
    desk.session.target_name = proved_target(desk.session.document)
    hand.frame(2)
    desk.session.products.wait()
    hand.frame(3)
    hand.type("export:folder", str(tmp_path / "out"))
    hand.click("export:write")
    desk.local["run"]._thread.join(60)
    hand.frame(3)
    for name, _, _ in desk.local["run write"].files:
        assert (tmp_path / "out" / name).is_file()
    hand.click("export:verify")
    desk.local["run"]._thread.join(120)
    hand.frame(3)
    assert desk.local["run prove"].proof.passed
    assert sum(name.startswith("proof:") and name[6:].isdigit() for name in desk.ui.marks) == 10
    lamps = {panel.name: panel.lamp(desk).word for panel in hand.window.panels}
    assert lamps["export"] == "proved"

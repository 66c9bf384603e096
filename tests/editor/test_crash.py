"""A window that ends by a fault or is killed: no saved file is harmed, and at most half a minute is lost."""

import os
import signal
import sys
from dataclasses import replace
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

from scenekit.editor import lock, recovery
from scenekit.editor.history import Edit
from scenekit.editor.session import open_session
from scenekit.editor.settings import Settings
from scenekit.model.store import load

BENCH = Path(__file__).parents[2] / "tools" / "bench" / "crash.py"


@pytest.fixture
def bench():
    spec = spec_from_file_location("crash_bench", BENCH)
    assert spec is not None
    assert spec.loader is not None
    made = module_from_spec(spec)
    sys.modules["crash_bench"] = made
    spec.loader.exec_module(made)
    yield made
    del sys.modules["crash_bench"]


def test_killed_at_random_moments(bench):
    assert bench.main(3, 2026) == []


def test_the_bench_sees_losses(bench, copied_demo: Path):
    whole = (copied_demo / "project.toml").read_bytes()
    assert "5 was saved" in bench.judge(copied_demo, bench.Told(edit=5, begun=5, saved=5, times=[0.0] * 6))
    late = bench.Told(edit=20, times=[3.0 * n for n in range(21)])
    assert "60 s of work are lost" in bench.judge(copied_demo, late)
    (copied_demo / "project.toml").write_bytes(whole[: len(whole) // 2])
    (copied_demo / "project.toml").write_bytes(whole)
    assert "by itself" in bench.judge(copied_demo, bench.Told(ended=True))
    (copied_demo / "project.toml").write_bytes(whole[: len(whole) // 2])
    assert "cannot be opened" in bench.judge(copied_demo, bench.Told(times=[0.0]))


@pytest.fixture
def window(copied_demo: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("SDL_VIDEODRIVER", "dummy")
    from scenekit.editor.window import Window

    session = open_session(copied_demo)
    made = Window(session, (900, 560), Settings(toured=True), copied_demo / "window.json")
    session.apply(Edit(document=replace(session.document, name="precious"), label="naming"))
    return made


def panel_that(window, act):
    """Let the present station do something in its second frame."""
    frames = []

    def draw(_desk, _box):
        frames.append(1)
        if len(frames) == 2:
            act()

    station = window.desk.session.station
    window.panels = [replace(p, draw=draw) if p.name == station else p for p in window.panels]


def test_a_fault_in_a_station_keeps_the_work(window, copied_demo: Path):
    def fault():
        raise RuntimeError("a fault")

    panel_that(window, fault)
    with pytest.raises(RuntimeError, match="a fault") as caught:
        window.run()
    assert "kept" in caught.value.__notes__[0]
    assert load(copied_demo).name == "lamplighter"
    kept = recovery.kept(copied_demo)
    assert kept is not None
    assert kept.name == "precious"
    assert not (copied_demo / lock.NAME).exists()


@pytest.mark.skipif(sys.platform == "win32", reason="there a process is ended without being asked")
def test_the_systems_wish_to_end_keeps_the_work(window, copied_demo: Path):
    before = signal.getsignal(signal.SIGTERM)
    panel_that(window, lambda: os.kill(os.getpid(), signal.SIGTERM))
    with pytest.raises(SystemExit):
        window.run()
    assert signal.getsignal(signal.SIGTERM) is before
    kept = recovery.kept(copied_demo)
    assert kept is not None
    assert kept.name == "precious"


def test_work_left_by_a_fault_is_offered(window, copied_demo: Path):
    session = window.desk.session
    session.keep_recovery(now=True)
    window.backend.close()
    from scenekit.editor.window import Window

    later = Window(open_session(copied_demo), (900, 560), Settings(toured=True), copied_demo / "window.json")
    assert later.desk.ask[0] == "recover"
    assert later.desk.session.recovery_own != ""
    later.frame([], 1 / 60)
    later.frame([], 1 / 60)
    x, y, w, h = later.desk.ui.marks["answer:take"]
    import pygame

    place = (x + w / 2, y + h / 2)
    for event in (
        pygame.event.Event(pygame.MOUSEMOTION, pos=place, rel=(0, 0), buttons=(0, 0, 0)),
        pygame.event.Event(pygame.MOUSEBUTTONDOWN, pos=place, button=1),
        pygame.event.Event(pygame.MOUSEBUTTONUP, pos=place, button=1),
    ):
        later.frame([event], 1 / 60)
        later.frame([], 1 / 60)
    assert later.desk.session.document.name == "precious"
    assert later.desk.session.dirty
    copies = recovery.left_copies(copied_demo)
    assert [document.name for _, document in copies] == ["precious"]
    later.backend.close()


def test_a_second_window_is_asked_about(window, copied_demo: Path, monkeypatch: pytest.MonkeyPatch):
    window.backend.close()
    other = lock.Holder(host="elsewhere.invalid", process=7, begun="1")
    monkeypatch.setattr(lock, "other_window", lambda _folder: other)
    from scenekit.editor.window import Window

    second = Window(open_session(copied_demo), (900, 560), Settings(toured=True), copied_demo / "window.json")
    assert second.desk.ask == ("second", {"holder": other})
    assert second.desk.session.recovery_own == f"-{os.getpid()}"
    second.frame([], 1 / 60)
    second.frame([], 1 / 60)
    assert {"answer:leave", "answer:stay"} <= set(second.desk.ui.marks)
    second.backend.close()

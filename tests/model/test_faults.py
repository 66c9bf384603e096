"""Whatever fails under a save, wherever, the work that was saved before is there, or the new one, whole."""

import json
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from faults import KINDS, changed, lost_by, steps_of
from small_scene import small_project

from scenekit.errors import ProjectError
from scenekit.model.pending import PENDING_FILE, pack
from scenekit.model.store import load, save

FAULTS_IN_ALL = 200
ROOT = Path(__file__).parents[2]


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs child processes that can be killed")
def test_no_fault_at_any_step_loses_saved_work(tmp_path):
    steps = steps_of(small_project(tmp_path / "count"))
    tried = 0
    for kind in KINDS:
        for at in range(steps):
            project = small_project(tmp_path / f"{tried}")
            assert lost_by(project, kind, at) == 0, f"{kind} at step {at} of {steps}"
            tried += 1
    assert tried >= FAULTS_IN_ALL


def test_a_save_cut_off_half_way_opens_whole(tmp_path):
    """The scene is new, project.toml still old: without the waiting save they would not go together."""
    project = small_project(tmp_path / "p")
    new = changed(project)
    other = small_project(tmp_path / "q")
    save(replace(new, folder=other.folder))
    names = ("project.toml", "scenes/yard.toml")
    files = {name: (other.folder / name).read_bytes() for name in names}
    waiting = pack(project.folder, files)
    (project.folder / "scenes/yard.toml").write_bytes(files["scenes/yard.toml"])
    with pytest.raises(Exception, match="cat1"):
        load(project.folder)
    (project.folder / PENDING_FILE).write_bytes(waiting)
    assert load(project.folder) == new
    save(load(project.folder))
    assert not (project.folder / PENDING_FILE).exists()
    assert {name: (project.folder / name).read_bytes() for name in names} == files


@pytest.mark.parametrize(
    "damage",
    [
        lambda data: data[: len(data) // 2],
        lambda data: data.replace(b"cat1", b"cat7"),
        lambda data: b"[" * 100_000,
        lambda data: b"{}",
        lambda data: json.dumps({"mark": 1, "files": None}).encode(),
        lambda data: data.replace(b"yard.toml", b"../yard.toml"),
    ],
)
def test_a_waiting_save_that_is_torn_is_passed_over(tmp_path, damage):
    project = small_project(tmp_path / "p")
    files = {"project.toml": b'name = "cat1"\n', "scenes/yard.toml": b"format = 1\n"}
    (project.folder / PENDING_FILE).write_bytes(damage(pack(project.folder, files)))
    assert load(project.folder) == project


def test_a_file_changed_by_hand_since_counts_more_than_a_waiting_save(tmp_path):
    project = small_project(tmp_path / "p")
    path = project.folder / "project.toml"
    waiting = pack(project.folder, {"project.toml": b"format = 1\n"})
    path.write_text(path.read_text().replace('name = "small"', 'name = "mine"'))
    (project.folder / PENDING_FILE).write_bytes(waiting)
    assert load(project.folder).name == "mine"


def test_of_two_writers_the_later_one_is_told(tmp_path):
    """Another process saves between our opening and our saving: its work stays, and we say so."""
    project = small_project(tmp_path / "p")
    mine = load(project.folder)
    code = (
        "import sys; from dataclasses import replace; from pathlib import Path\n"
        "from scenekit.model.store import load, save\n"
        "save(replace(load(Path(sys.argv[1])), name='theirs'))\n"
    )
    subprocess.run([sys.executable, "-c", code, str(project.folder)], check=True, cwd=ROOT)
    with pytest.raises(ProjectError, match="another program saved it meanwhile"):
        save(replace(mine, name="mine"))
    assert load(project.folder).name == "theirs"
    save(replace(load(project.folder), name="mine"))
    assert load(project.folder).name == "mine"


@pytest.mark.skipif(sys.platform == "win32", reason="folders have no locks there")
def test_a_save_waits_for_another_and_then_says_so(tmp_path, monkeypatch):
    import fcntl

    project = small_project(tmp_path / "p")
    handle = os.open(project.folder, os.O_RDONLY)
    fcntl.flock(handle, fcntl.LOCK_EX)
    monkeypatch.setattr("scenekit.model.alone.LONGEST_WAIT_S", 0.1)
    with pytest.raises(ProjectError, match="another program is saving"):
        save(replace(project, name="mine"))
    os.close(handle)
    save(replace(project, name="mine"))
    assert load(project.folder).name == "mine"

"""Projects of earlier days open, say the same after saving, and save unchanged from then on."""

import shutil
from pathlib import Path

import pytest

from scenekit.model.project import FORMAT
from scenekit.model.store import load, save

KEPT = Path(__file__).parents[1] / "kept"
SAMPLES = sorted(path.name for path in KEPT.iterdir() if path.is_dir())


@pytest.mark.parametrize("name", SAMPLES)
def test_a_kept_project_opens_and_stays_what_it_is(name, tmp_path):
    folder = tmp_path / name
    shutil.copytree(KEPT / name, folder)
    project = load(folder)
    assert project.scenes
    assert project.sprites
    save(project)
    assert load(folder) == project
    texts = {path: path.read_bytes() for path in folder.rglob("*.toml")}
    assert all(f"format = {FORMAT}\n".encode() in text for text in texts.values())
    save(load(folder))
    assert {path: path.read_bytes() for path in folder.rglob("*.toml")} == texts


def test_there_is_a_sample_of_every_format():
    """A new format keeps a sample of the one before it here."""
    formats = {
        int(line.split("=")[1])
        for name in SAMPLES
        for line in (KEPT / name / "project.toml").read_text().splitlines()
        if line.startswith("format =")
    }
    assert formats == set(range(1, FORMAT + 1))

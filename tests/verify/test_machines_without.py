"""Machines that mirror in few ways or none, and displays whose pixels hold colours, are proved too."""

from dataclasses import replace
from pathlib import Path

import pytest

from scenekit.build import BuildOptions, run_stages
from scenekit.machines.profile import PROFILES_FOLDER
from scenekit.model.project import Project
from scenekit.model.store import load
from scenekit.model.target import Target
from scenekit.verify.prove import prove

DEMO = Path(__file__).parents[2] / "demo_assets"
STOPS = (0, 31, 150, 246, 300, 480, 500, 640)


def on(project: Project, machine: str, mode: str, view: tuple[int, int, int, int] | None) -> Project:
    target = Target(name="t", machine=machine, mode=mode, dialect="plain", view=view)
    return replace(project, targets=(target,))


@pytest.mark.parametrize("flips", ["[]", '["h"]', '["v"]', '["h", "v"]', '["hv"]'])
def test_machines_that_mirror_less(tmp_path: Path, flips: str) -> None:
    """Frames that the machine cannot mirror are stored mirrored; the executor refuses other flips."""
    import shutil

    folder = tmp_path / "demo"
    shutil.copytree(DEMO, folder)
    text = (PROFILES_FOLDER / "indexed-board.toml").read_text(encoding="utf-8")
    text = text.replace('flips = ["h", "v", "hv"]', f"flips = {flips}")
    if flips == "[]":
        text = text.replace('"blit-flipped", ', "").replace(', "blit-flipped"', "")
        start = text.index('[[costs]]\noperation = "blit-flipped"')
        text = text[:start] + text[text.index("[[costs]]", start + 5) :]
    (folder / "mine.toml").write_text(text, encoding="utf-8")
    project = on(load(folder), "mine.toml", "320x200", (0, 20, 320, 180))
    build = run_stages(project, options=BuildOptions(play=True, counting=True))
    proof = prove(build, STOPS)
    assert proof.passed, proof.as_dict()


@pytest.mark.parametrize(("mode", "view"), [("400x300", (40, 60, 320, 180)), ("800x600", (0, 20, 800, 580))])
@pytest.mark.parametrize("moving", [True, False])
def test_direct_colour_is_redrawn(mode: str, view: tuple[int, int, int, int], moving: bool) -> None:
    """Runs follow colours that move; where none do, image files are copied."""
    project = load(DEMO)
    if not moving:
        scenes = tuple(replace(scene, events=()) for scene in project.scenes)
        project = replace(project, cycles=(), scenes=scenes)
    scenes = tuple(replace(scene, transitions=()) for scene in project.scenes)
    build = run_stages(
        on(replace(project, scenes=scenes), "colour-board", mode, view),
        options=BuildOptions(play=True, counting=True),
    )
    assert build.scheme.name == ("runs" if moving else "blit")
    proof = prove(build, STOPS)
    assert proof.passed, proof.as_dict()
    assert {tick.pixels for tick in proof.ticks} == {build.screen[0] * build.screen[1]}

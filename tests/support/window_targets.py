"""The small project with targets for the interpreters of windows."""

from dataclasses import replace
from pathlib import Path

from small_scene import small_project

from scenekit.model.project import Project
from scenekit.model.target import Target

MACHINES = {
    "sdlbrt": ("sdlbrt-pc", "320x200"),
    "yabasic": ("yabasic-pc", "320x200"),
    "pcbasic": ("pcbasic-pc", "640x350"),
}


def project_for(folder: Path, dialect: str, view: tuple[int, int, int, int]) -> Project:
    """Return the small project, its only target being a dialect's."""
    machine, mode = MACHINES[dialect]
    target = Target(name=dialect, machine=machine, mode=mode, dialect=dialect, view=view)
    return replace(small_project(folder), targets=(target,))

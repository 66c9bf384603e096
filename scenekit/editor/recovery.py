"""A copy of unsaved work beside the project, for after a crash."""

import json
import tomllib
from pathlib import Path

from scenekit.errors import SceneKitError
from scenekit.model.project import Project, read_project
from scenekit.model.scene import read_scene
from scenekit.model.store import LARGEST_FILE_BYTES, write_atomically
from scenekit.model.text import project_text, scene_text

NAME = ".unsaved-work.json"
EVERY_S = 30.0


def recovery_file(folder: Path) -> Path:
    """Return where unsaved work of a project is kept."""
    return folder / NAME


def keep(project: Project) -> None:
    """Write the whole document into the recovery file, all or nothing.

    raises   ProjectError: the folder cannot be written
    """
    texts = {scene.name: scene_text(scene) for scene in project.scenes}
    order = [scene.name for scene in project.scenes]
    data = json.dumps({"project": project_text(project), "order": order, "scenes": texts})
    write_atomically(recovery_file(project.folder), data.encode("utf-8"))


def drop(folder: Path) -> None:
    """Remove the recovery file, if there is one."""
    recovery_file(folder).unlink(missing_ok=True)


def kept(folder: Path) -> Project | None:
    """Return the document of a recovery file; None when there is none or it cannot be read."""
    path = recovery_file(folder)
    try:
        if path.stat().st_size > LARGEST_FILE_BYTES:
            return None
        data = json.loads(path.read_text(encoding="utf-8"))
        scenes = tuple(read_scene(tomllib.loads(data["scenes"][name]), name) for name in data["order"])
        return read_project(tomllib.loads(data["project"]), folder, scenes)
    except (OSError, ValueError, KeyError, TypeError, RecursionError, SceneKitError):
        return None

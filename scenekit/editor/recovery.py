"""A copy of unsaved work beside the project, for after a crash."""

import json
import tomllib
from pathlib import Path

from scenekit.errors import SceneKitError
from scenekit.model.project import Project, read_project
from scenekit.model.project_text import project_text
from scenekit.model.scene import read_scene
from scenekit.model.scene_text import scene_text
from scenekit.model.store import write_atomically
from scenekit.model.tomlfile import LARGEST_FILE_BYTES

NAME = ".unsaved-work{}.json"
EVERY_S = 30.0


def recovery_file(folder: Path, own: str = "") -> Path:
    """Return where unsaved work of a project is kept; `own` tells a second window's from the first's."""
    return folder / NAME.format(own)


def keep(project: Project, own: str = "") -> None:
    """Write the whole document into the recovery file, all or nothing.

    raises   ProjectError: the folder cannot be written
    """
    texts = {scene.name: scene_text(scene) for scene in project.scenes}
    order = [scene.name for scene in project.scenes]
    data = json.dumps({"project": project_text(project), "order": order, "scenes": texts})
    write_atomically(recovery_file(project.folder, own), data.encode("utf-8"))


def drop(folder: Path, own: str = "") -> None:
    """Remove the recovery file, if there is one."""
    recovery_file(folder, own).unlink(missing_ok=True)


def left_copies(folder: Path) -> list[tuple[Path, Project]]:
    """Return the recovery files of a folder that can be read and their documents, the newest first."""
    found = []
    for path in folder.glob(NAME.format("*")):
        document = read_copy(path, folder)
        if document is not None:
            found.append((path.stat().st_mtime_ns, path.name, path, document))
    return [(path, document) for _, _, path, document in sorted(found, key=lambda f: f[:2], reverse=True)]


def kept(folder: Path, own: str = "") -> Project | None:
    """Return the document of a recovery file; None when there is none or it cannot be read."""
    return read_copy(recovery_file(folder, own), folder)


def read_copy(path: Path, folder: Path) -> Project | None:
    """Return the document of a recovery file; None when it cannot be read."""
    try:
        if path.stat().st_size > LARGEST_FILE_BYTES:
            return None
        data = json.loads(path.read_text(encoding="utf-8"))
        scenes = tuple(read_scene(tomllib.loads(data["scenes"][name]), name) for name in data["order"])
        return read_project(tomllib.loads(data["project"]), folder, scenes)
    except (OSError, ValueError, KeyError, TypeError, RecursionError, SceneKitError):
        return None

"""Opens a project folder and saves it: all or nothing, with the previous version kept."""

import os
import stat
import tempfile
import tomllib
from pathlib import Path

from scenekit.errors import ProjectError
from scenekit.model.fields import Fields
from scenekit.model.project import Project, check_format, read_project, scene_names
from scenekit.model.scene import read_scene
from scenekit.model.text import project_text, scene_text

PROJECT_FILE = "project.toml"
LARGEST_FILE_BYTES = 16_000_000


def load(folder: Path) -> Project:
    """Read a project folder, or the folder of a given project.toml.

    raises   ProjectError, UnknownNameError: with the file, record and key
    """
    folder = folder.parent if folder.name == PROJECT_FILE else folder
    if not folder.is_dir():
        raise ProjectError(f"{folder}: no such project folder")
    table = read_toml(folder / PROJECT_FILE, PROJECT_FILE)
    scenes = []
    for name in scene_names(table):
        label = f"scenes/{name}.toml"
        scene = read_toml(folder / "scenes" / f"{name}.toml", label)
        check_format(Fields(scene, label))
        scenes.append(read_scene(scene, name))
    return read_project(table, folder, tuple(scenes))


def read_toml(path: Path, label: str) -> dict[str, object]:
    """Return the parsed tables of a TOML file.

    raises   ProjectError: missing, too large, not UTF-8, not TOML
    """
    try:
        with path.open("rb") as file:  # what has no size, such as a device, is bounded too
            data = file.read(LARGEST_FILE_BYTES + 1)
        if len(data) > LARGEST_FILE_BYTES:
            raise ProjectError(f"{label}: too large; must be at most {LARGEST_FILE_BYTES} bytes")
        return tomllib.loads(data.decode("utf-8"))
    except FileNotFoundError:
        raise ProjectError(f"{path}: no such file") from None
    except OSError as error:
        raise ProjectError(f"{path}: cannot be read: {error.strerror}") from None
    except UnicodeDecodeError as error:
        raise ProjectError(f"{label}: byte {error.start}: not UTF-8") from None
    except tomllib.TOMLDecodeError as error:
        raise ProjectError(f"{label}: not valid TOML: {error}") from None
    except (RecursionError, ValueError):
        raise ProjectError(f"{label}: not valid TOML: nested too deep or a number too long") from None


def inside(folder: Path, relative: str) -> Path:
    """Return the path of a project's file.

    raises   ProjectError: a link in it leads outside the project folder
    """
    path = folder / relative
    if not path.resolve().is_relative_to(folder.resolve()):
        raise ProjectError(f"{relative}: leads outside the project folder")
    return path


def save(project: Project) -> None:
    """Write project.toml and every scene whose text changed, each atomically, scenes first.

    raises   ProjectError: the folder cannot be written, or the disk is full
    """
    try:
        (project.folder / "scenes").mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise ProjectError(f"{project.folder}: cannot be written: {error.strerror}") from None
    for scene in project.scenes:
        path = project.folder / "scenes" / f"{scene.name}.toml"
        _save_text(path, scene_text(scene, _old_text(path)))
    path = project.folder / PROJECT_FILE
    _save_text(path, project_text(project, _old_text(path)))


def _old_text(path: Path) -> str:
    try:
        return path.read_bytes().decode("utf-8")
    except (OSError, UnicodeDecodeError):
        return ""


def _save_text(path: Path, text: str) -> None:
    data = text.encode("utf-8")
    tomllib.loads(text)
    if path.is_file():
        try:
            old = path.read_bytes()
        except OSError as error:
            raise ProjectError(f"{path}: cannot be read: {error.strerror}") from None
        if old == data:
            return
        write_atomically(path.with_name(path.name + ".previous"), old)
    write_atomically(path, data)


def write_atomically(path: Path, data: bytes) -> None:
    """Replace a file's content so that a crash leaves either the old or the new bytes.

    raises   ProjectError: the folder cannot be written, or the disk is full
    """
    temporary = ""
    try:
        handle, temporary = tempfile.mkstemp(prefix=".", suffix=".part", dir=path.parent)
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        mode = stat.S_IMODE(path.stat().st_mode) if path.exists() else 0o644
        Path(temporary).chmod(mode)
        Path(temporary).replace(path)
    except OSError as error:
        if temporary:
            Path(temporary).unlink(missing_ok=True)
        raise ProjectError(f"{path}: cannot be written: {error.strerror}") from None

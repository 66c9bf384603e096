"""Opens a project folder and saves it: all or nothing, with the previous version kept."""

import contextlib
import os
import stat
import time
import tomllib
from pathlib import Path

from scenekit.errors import ProjectError
from scenekit.model.fields import Fields
from scenekit.model.pending import PENDING_FILE, Files, mark, pack, read_or_none, unfinished
from scenekit.model.project import Project, check_format, read_project, scene_names
from scenekit.model.scene import read_scene
from scenekit.model.tomlfile import file_bytes, parse_toml

PROJECT_FILE = "project.toml"
RENAME_TRIES, RENAME_PAUSE_S = 6, 0.05
TEMPORARY = ".saving-"

_seen: dict[Path, str] = {}
"""Marks of what this process last read from or wrote to each file of a project."""


def load(folder: Path) -> Project:
    """Read a project folder, or the folder of a given project.toml.

    raises   ProjectError, UnknownNameError: with the file, record and key
    """
    folder = folder.parent if folder.name == PROJECT_FILE else folder
    if not folder.is_dir():
        raise ProjectError(f"{folder}: no such project folder")
    waiting = unfinished(folder) if (folder / PENDING_FILE).exists() else {}
    table = _read(folder, PROJECT_FILE, waiting)
    scenes = []
    for name in scene_names(table):
        label = f"scenes/{name}.toml"
        scene = _read(folder, label, waiting)
        check_format(Fields(scene, label))
        scenes.append(read_scene(scene, name))
    return read_project(table, folder, tuple(scenes))


def _read(folder: Path, name: str, waiting: Files) -> dict[str, object]:
    """Return the tables of a file, from a save that was cut off where there is one."""
    path = folder / name
    data = file_bytes(path, name)
    _seen[path.resolve()] = mark(data)
    return parse_toml(waiting.get(name, data), name)


def inside(folder: Path, relative: str) -> Path:
    """Return the path of a project's file.

    raises   ProjectError: a link in it leads outside the project folder
    """
    path = folder / relative
    if not path.resolve().is_relative_to(folder.resolve()):
        raise ProjectError(f"{relative}: leads outside the project folder")
    return path


def save(project: Project) -> None:
    """Write project.toml and every scene whose text changed: all of them, or none.

    Several files are first written whole into one, from which a save that was cut off is opened and finished.
    raises   ProjectError: the folder cannot be written, the disk is full, another program saved meanwhile
    """
    from scenekit.model.alone import alone_in

    folder = project.folder
    try:
        (folder / "scenes").mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise ProjectError(f"{folder}: cannot be written: {error.strerror}") from None
    with alone_in(folder):
        pending = folder / PENDING_FILE
        waiting = unfinished(folder) if pending.exists() else {}
        changed = _changed(project, waiting)
        _clear_temporary(folder)
        if len(changed) > 1 or waiting:
            write_atomically(pending, pack(folder, {**waiting, **changed}), TEMPORARY)
        _write_all(folder, {**waiting, **changed}, bool(waiting))
        _drop(pending)


def _write_all(folder: Path, files: Files, begun: bool) -> None:
    """Write files with their previous versions; when none could be written, no save is left waiting."""
    for name, data in files.items():
        try:
            _save_bytes(folder / name, data)
        except ProjectError as error:
            pending = folder / PENDING_FILE
            if not begun:
                _drop(pending)
            if not pending.exists():
                raise
            raise ProjectError(f"{error}; the save is kept whole in {PENDING_FILE}, save again") from None
        begun = True


def _changed(project: Project, waiting: Files) -> Files:
    """Return the new bytes of every file that is not on disk as it should be, scenes first."""
    from scenekit.model.project_text import project_text
    from scenekit.model.scene_text import scene_text

    folder = project.folder
    texts = {f"scenes/{scene.name}.toml": scene for scene in project.scenes}
    changed: Files = {}
    for name in (*texts, PROJECT_FILE):
        path = folder / name
        old = _old_bytes(path)
        shown = waiting.get(name, old or b"").decode("utf-8", "replace")
        text = project_text(project, shown) if name == PROJECT_FILE else scene_text(texts[name], shown)
        data = text.encode("utf-8")
        if data == waiting.get(name, old):
            continue
        tomllib.loads(text)
        if old is not None and mark(old) != _seen.get(path.resolve(), mark(old)):
            raise ProjectError(f"{path}: another program saved it meanwhile; nothing was written; try again")
        changed[name] = data
    return changed


def _old_bytes(path: Path) -> bytes | None:
    """Return what is on disk, None when there is nothing.

    raises   ProjectError: there is something that cannot be read
    """
    data = read_or_none(path)
    if data is None and path.is_file():
        raise ProjectError(f"{path}: cannot be read, so that it is not written either")
    return data


def _clear_temporary(folder: Path) -> None:
    """Remove what saves that were cut off left behind; no other save is at work now."""
    for path in sorted((*folder.glob(f"{TEMPORARY}*.part"), *folder.glob(f"scenes/{TEMPORARY}*.part"))):
        _drop(path)


def _drop(path: Path) -> None:
    with contextlib.suppress(OSError):
        path.unlink(missing_ok=True)


def _save_bytes(path: Path, data: bytes) -> None:
    old = _old_bytes(path)
    if old != data:
        if old is not None:
            write_atomically(path.with_name(path.name + ".previous"), old, TEMPORARY)
        write_atomically(path, data, TEMPORARY)
    _seen[path.resolve()] = mark(data)


def write_atomically(path: Path, data: bytes, prefix: str = ".") -> None:
    """Replace a file's content so that a crash or a power cut leaves either the old or the new bytes.

    prefix   of the temporary file beside it
    raises   ProjectError: the folder cannot be written, or the disk is full
    """
    import tempfile

    temporary = ""
    try:
        handle, temporary = tempfile.mkstemp(prefix=prefix, suffix=".part", dir=path.parent)
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        mode = stat.S_IMODE(path.stat().st_mode) if path.exists() else 0o644
        Path(temporary).chmod(mode)
        _rename(Path(temporary), path)
    except OSError as error:
        if temporary:
            with contextlib.suppress(OSError):
                Path(temporary).unlink(missing_ok=True)
        raise ProjectError(f"{path}: cannot be written: {error.strerror}") from None
    _flush_folder(path.parent)


def _rename(temporary: Path, path: Path) -> None:
    """Put a file in its place; another program that holds it gets a moment to let go."""
    for left in reversed(range(RENAME_TRIES)):
        try:
            temporary.replace(path)
        except PermissionError:
            if not left:
                raise
            time.sleep(RENAME_PAUSE_S)
        else:
            return


def _flush_folder(folder: Path) -> None:
    """Let the new name of a file reach the disk too, where folders can be flushed."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)

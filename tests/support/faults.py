"""Faults under the store: every step of a save that touches the disk can fail, stall, or be the last."""

import errno
import os
import signal
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, replace
from pathlib import Path
from unittest import mock

from scenekit.errors import SceneKitError
from scenekit.model.project import Project
from scenekit.model.store import load, save

FAILING = {
    "full disk": errno.ENOSPC,
    "read-only folder": errno.EROFS,
    "no right to write": errno.EACCES,
    "broken drive": errno.EIO,
    "locked by another program": errno.EPERM,
}
KINDS = (*FAILING, "killed", "killed half way", "stalled", "clock jumps")


@dataclass
class Disk:
    """Counts the steps of a save, and does its fault at one of them; with none it only counts."""

    kind: str = ""
    at: int = -1
    steps: int = 0
    look: Callable[[], None] = lambda: None

    def step(self, half: Callable[[], object] | None = None) -> None:
        """Take one step."""
        number, self.steps = self.steps, self.steps + 1
        if number < self.at or self.at < 0:
            return
        if self.kind in FAILING:  # from here on, so that cleaning up meets the fault as well
            raise OSError(FAILING[self.kind], os.strerror(FAILING[self.kind]))
        if number > self.at:
            return
        if self.kind == "killed half way" and half is not None:
            half()
        if self.kind.startswith("killed"):
            os.kill(os.getpid(), signal.SIGKILL)
        self.look()


class _File:
    """An open file whose writing is a step."""

    def __init__(self, file, disk: Disk) -> None:
        self.file, self.disk = file, disk

    def __enter__(self) -> "_File":
        return self

    def __exit__(self, *_: object) -> None:
        self.file.close()

    def fileno(self) -> int:
        return self.file.fileno()

    def flush(self) -> None:
        self.file.flush()

    def write(self, data: bytes) -> None:
        def half() -> None:
            self.file.write(data[: len(data) // 2])
            self.file.flush()

        self.disk.step(half)
        self.file.write(data)


@contextmanager
def faulty(disk: Disk) -> Iterator[None]:
    """Put a disk under the store."""
    make, opened, flush = tempfile.mkstemp, os.fdopen, os.fsync
    change, rename, remove = Path.chmod, Path.replace, Path.unlink

    def stepped(real: Callable[..., object]) -> Callable[..., object]:
        def call(*arguments: object, **named: object) -> object:
            disk.step()
            return real(*arguments, **named)

        return call

    with (
        mock.patch.object(tempfile, "mkstemp", stepped(make)),
        mock.patch.object(os, "fdopen", lambda *a, **k: _File(opened(*a, **k), disk)),
        mock.patch.object(os, "fsync", stepped(flush)),
        mock.patch.object(Path, "chmod", stepped(change)),
        mock.patch.object(Path, "replace", stepped(rename)),
        mock.patch.object(Path, "unlink", stepped(remove)),
        mock.patch("scenekit.model.store.RENAME_PAUSE_S", 0.0),
    ):
        yield


def changed(project: Project, round_number: int = 1) -> Project:
    """Return the project with every file changed; a new sprite's name ties them together."""
    cat = replace(project.sprites[0], name=f"cat{round_number}")
    scenes = []
    for scene in project.scenes:
        placed = tuple(replace(p, sprite=cat.name) for p in scene.placed)
        scenes.append(replace(scene, placed=placed, backdrop=(round_number, 2, 3)))
    return replace(project, sprites=(cat, *project.sprites[1:]), scenes=tuple(scenes))


def steps_of(project: Project) -> int:
    """Return at how many places a save of the changed project can fail; the project is changed."""
    disk = Disk()
    with faulty(disk):
        save(changed(project, 99))
    return disk.steps


def contents(folder: Path) -> dict[Path, bytes]:
    """Return all files of a project, without what a save may leave for a moment."""
    return {
        path: path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.suffix not in (".previous", ".part") and path.name[0] != "."
    }


def lost_by(project: Project, kind: str, at: int) -> int:
    """Save with one fault and return how many bytes of work that was saved before are gone.

    Afterwards the folder must open as the old or the new document, whole, and take the next save.
    """
    new = changed(project)
    before = contents(project.folder)

    def look() -> None:  # another program opens the project in the middle of a stalled save
        assert load(project.folder) in (project, new)

    disk = Disk(kind, at, look=look if kind == "stalled" else lambda: None)
    if kind.startswith("killed"):
        _in_a_child(lambda: _save(new, disk))
    elif kind == "clock jumps":
        clock = mock.Mock(side_effect=[2.0**31, -1e9, 0.0, 4e9] * 5000)
        with mock.patch.object(time, "time", clock), mock.patch.object(time, "time_ns", clock):
            _save(new, disk)
    else:
        _save(new, disk)
    found = _opened(project.folder)
    if found not in (project, new):
        after = contents(project.folder)
        return sum(len(data) for path, data in before.items() if after.get(path) != data) or 1
    later = changed(found, 2)
    save(later)
    assert load(project.folder) == later
    left = [path for path in project.folder.rglob("*") if path.name[0] == "."]
    assert left == [], f"left over: {left}"
    pictures = [path for path in before if path.suffix != ".toml"]
    return sum(len(before[path]) for path in pictures if path.read_bytes() != before[path])


def _save(project: Project, disk: Disk) -> None:
    with faulty(disk), suppress(SceneKitError):
        save(project)


def _opened(folder: Path) -> Project | None:
    try:
        return load(folder)
    except SceneKitError:
        return None


def _in_a_child(work: Callable[[], None]) -> None:
    child = os.fork()
    if child == 0:
        try:
            work()
        finally:
            os._exit(0)
    os.waitpid(child, 0)

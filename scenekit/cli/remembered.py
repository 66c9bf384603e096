"""Remembers what a look over a project found, until one of its files or scenekit itself changes."""

import os
import sys
import zlib
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from scenekit import __version__

MOST_BYTES = 4_000_000
SWITCH = "SCENEKIT_CACHE"
"""Names the folder for what is remembered; empty means that nothing is."""


def recall(folder: Path) -> dict[str, Any] | None:
    """Return what was found when every file was as it is now, else None."""
    place = _place(folder)
    if place is None or not place.exists():
        return None
    import json

    try:
        with place.open("rb") as file:
            kept = json.loads(file.read(MOST_BYTES))
        if kept["program"] != _program() or kept["folder"] != str(folder.resolve()):
            return None
        if any(_mark(folder / name) != mark for name, mark in kept["files"].items()):
            return None
        result: dict[str, Any] = kept["result"]
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return None
    return result


def remember(folder: Path, files: Iterable[str], result: dict[str, Any]) -> None:
    """Keep what was found; where nothing can be written, nothing is kept."""
    place = _place(folder)
    if place is None:
        return
    import json

    from scenekit.errors import SceneKitError
    from scenekit.model.store import write_atomically

    marks = {name: _mark(folder / name) for name in files}
    kept = {"program": _program(), "folder": str(folder.resolve()), "files": marks, "result": result}
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        write_atomically(place, json.dumps(kept).encode("ascii"))
    except (OSError, SceneKitError):
        return


def _place(folder: Path) -> Path | None:
    """Return the file for a project, in the user's folder for what can be made again."""
    chosen = os.environ.get(SWITCH)
    if chosen == "":
        return None
    home = os.environ.get("LOCALAPPDATA") if os.name == "nt" else os.environ.get("XDG_CACHE_HOME")
    base = Path(chosen) if chosen else Path(home or os.path.expanduser("~/.cache")) / "scenekit"
    name = str(folder.resolve()).encode("utf-8", "surrogateescape")
    return base / f"check-{zlib.crc32(name):08x}-{len(name)}.json"


def _mark(path: Path) -> str:
    """Return size and two sums of a file's bytes, or a word for what is none."""
    try:
        data = path.read_bytes() if path.is_file() else None
        where = str(path.resolve()) if path.is_symlink() else ""
    except (OSError, ValueError):
        return "unreadable"
    if data is None:
        return "folder" if path.is_dir() else "missing"
    return f"{len(data)}:{zlib.crc32(data):08x}:{zlib.adler32(data):08x}{where}"


def _program() -> str:
    """Return a mark of scenekit's own files and of the Python that runs it."""
    package = Path(__file__).parents[1]
    marks, folders = [], [str(package)]
    while folders:
        with os.scandir(folders.pop()) as entries:
            for entry in entries:
                if entry.is_dir(follow_symlinks=False):
                    folders.append(entry.path)
                elif not entry.name.endswith(".pyc"):
                    facts = entry.stat()
                    marks.append(f"{entry.path}:{facts.st_size}:{facts.st_mtime_ns}")
    whole = "\n".join(sorted(marks)).encode("utf-8", "surrogateescape")
    return f"{__version__} {sys.version.split()[0]} {zlib.crc32(whole):08x}"

"""Maps that are painted and not saved yet: each state is a file of its own, so that it can come back."""

import hashlib
import shutil
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from scenekit.model.project import Project
from scenekit.model.store import inside, write_atomically

FOLDER = ".unsaved-maps"
Cells = Sequence[Sequence[tuple[int, int]]]
FLIPS = ("", "h", "v", "hv")


def map_text(cells: Cells) -> str:
    """Return a map file: one line a row, frame numbers with their flip, -1 for empty cells."""
    rows = (",".join(f"{n}{FLIPS[flip]}" if n >= 0 else "-1" for n, flip in row) for row in cells)
    return "".join(f"{row}\n" for row in rows)


def is_draft(path: str) -> bool:
    """Say whether a map path is that of a draft."""
    return path.startswith(f"{FOLDER}/")


def base_of(path: str) -> str:
    """Return the path that a map has once it is saved."""
    if not is_draft(path):
        return path
    parts = Path(path).name.removesuffix(".csv").split("~")[:-1]
    return "/".join(parts)


def draft_path(base: str, text: str) -> str:
    """Return the path of a draft of a map with some content."""
    mark = hashlib.sha256(text.encode("ascii")).hexdigest()[:12]
    return f"{FOLDER}/{base_of(base).replace('/', '~')}~{mark}.csv"


def keep(folder: Path, base: str, text: str) -> str:
    """Write a state of a map where nothing changes it again; return its path.

    raises   ProjectError: the folder cannot be written
    """
    path = draft_path(base, text)
    target = inside(folder, path)
    if not target.exists():
        target.parent.mkdir(exist_ok=True)
        write_atomically(target, text.encode("ascii"))
    return path


def with_map(project: Project, old: str, new: str) -> Project:
    """Return a project whose planes take another file for a map; the same one if none has it."""
    scenes = []
    for scene in project.scenes:
        planes = tuple(replace(p, map=new) if p.map == old else p for p in scene.planes)
        same = all(a is b for a, b in zip(planes, scene.planes, strict=True))
        scenes.append(scene if same else replace(scene, planes=planes))
    if all(a is b for a, b in zip(scenes, project.scenes, strict=True)):
        return project
    return replace(project, scenes=tuple(scenes))


def settle(project: Project) -> list[tuple[str, str]]:
    """Write every draft that a project shows to its own place, before the project is saved.

    returns  pairs (path, path) of maps that any document of the history has to take instead, in order
    raises   ProjectError: a file cannot be written
    """
    moves: list[tuple[str, str]] = []
    shown = dict.fromkeys(p.map for s in project.scenes for p in s.planes if is_draft(p.map))
    for path in shown:
        base = base_of(path)
        target = inside(project.folder, base)
        if target.exists():
            before = target.read_bytes().decode("utf-8", "replace")
            if before.isascii():
                moves.append((base, keep(project.folder, base, before)))
        target.parent.mkdir(parents=True, exist_ok=True)
        write_atomically(target, inside(project.folder, path).read_bytes())
        moves.append((path, base))
    return moves


def forget(folder: Path) -> None:
    """Take the drafts of a project away, unless another window or work that was left may need them."""
    from scenekit.editor import lock, recovery

    if lock.other_window(folder) is None and not recovery.left_copies(folder):
        shutil.rmtree(folder / FOLDER, ignore_errors=True)

"""Writes an export: only over files that it wrote itself and finds unchanged."""

import hashlib
import json
from collections.abc import Mapping
from pathlib import Path

from scenekit.errors import ExportError
from scenekit.model.store import PROJECT_FILE, write_atomically

LEDGER = "scenekit-export.json"
"""The list of files that an export wrote, with the SHA-256 of each."""


def write_export(folder: Path, files: Mapping[str, bytes]) -> tuple[str, ...]:
    """Write files into a folder, made if need be; return the names of those that changed.

    raises   ExportError: the folder holds a project, or a file of that name is not ours or was edited; then
             nothing is written
    """
    if (folder / PROJECT_FILE).exists():
        raise ExportError(f"{folder}: holds a project; give the export a folder of its own")
    for name in files:
        if Path(name).name != name or name == LEDGER:
            raise ValueError(f"{name!r} is no name of an exported file")
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise ExportError(f"{folder}: cannot be made: {error.strerror}") from None
    ledger = read_ledger(folder)
    changed = [name for name, data in files.items() if _must_write(folder, name, data, ledger)]
    if not changed and all(name in ledger for name in files):
        return ()
    both = {**ledger, **{n: sorted({*ledger.get(n, []), _digest(d)}) for n, d in files.items()}}
    _write_ledger(folder, both)
    for name in changed:
        write_atomically(folder / name, files[name])
    _write_ledger(folder, {**ledger, **{name: [_digest(data)] for name, data in files.items()}})
    return tuple(changed)


def write_own(folder: Path, files: Mapping[str, bytes]) -> tuple[str, ...]:
    """Write the user's own files where there are none of these names yet; return the names of those written.

    What is there already is the user's and stays as it is.
    """
    missing = [name for name in files if not (folder / name).exists()]
    for name in missing:
        write_atomically(folder / name, files[name])
    return tuple(missing)


def unedited(folder: Path, files: Mapping[str, bytes]) -> dict[str, bytes]:
    """Return those files that are missing in a folder or stand there as an export wrote them.

    raises   ExportError: its list of exported files cannot be read
    """
    ledger = read_ledger(folder)
    paths = {name: folder / name for name in files}
    return {
        name: data
        for name, data in files.items()
        if not paths[name].exists() or _digest(paths[name].read_bytes()) in ledger.get(name, ())
    }


def check_own(folder: Path, files: Mapping[str, bytes]) -> None:
    """Refuse links and folders where the user's own files are to be written, before anything is.

    raises   ExportError
    """
    for name in files:
        path = folder / name
        if path.is_symlink() or (path.exists() and not path.is_file()):
            raise ExportError(f"{path}: is a link or folder; move it away or choose another folder")


def _must_write(folder: Path, name: str, data: bytes, ledger: Mapping[str, list[str]]) -> bool:
    path = folder / name
    if path.is_symlink() or (path.exists() and not path.is_file()):
        raise ExportError(f"{path}: is a link or folder; move it away or choose another folder")
    if not path.exists():
        return True
    old = path.read_bytes()
    if old == data:
        return False
    if name not in ledger:
        raise ExportError(
            f"{path}: exists and is not an export's file; move it away or choose another folder"
        )
    if _digest(old) not in ledger[name]:
        raise ExportError(
            f"{path}: was edited since it was exported; move your edits to a file of your own first"
        )
    return True


def read_ledger(folder: Path) -> dict[str, list[str]]:
    """Return the digests of each file that exports wrote into a folder."""
    try:
        table = json.loads((folder / LEDGER).read_text(encoding="utf-8"))
    except FileNotFoundError:
        return {}
    except (OSError, ValueError, RecursionError):
        raise ExportError(f"{folder / LEDGER}: cannot be read; restore it or choose another folder") from None
    good = isinstance(table, dict) and all(
        isinstance(value, list) and all(isinstance(item, str) for item in value) for value in table.values()
    )
    if not good:
        raise ExportError(f"{folder / LEDGER}: is not a list of exported files; choose another folder")
    return dict(table)


def _write_ledger(folder: Path, ledger: Mapping[str, list[str]]) -> None:
    text = json.dumps(dict(sorted(ledger.items())), indent=1, sort_keys=True)
    write_atomically(folder / LEDGER, (text + "\n").encode("utf-8"))


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()

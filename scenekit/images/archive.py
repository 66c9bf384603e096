"""Reads entries of a zip archive that a stranger made, in bounded memory and without touching the disk."""

import struct
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from scenekit.errors import ImageReadError
from scenekit.images.decode import read_prefix

MAX_ENTRIES = 4096
MAX_DIRECTORY_BYTES = 4 << 20
MAX_ENTRY_BYTES = 256 << 20
MAX_TOTAL_BYTES = 1 << 30

_END = b"PK\x05\x06"
_END_64 = b"PK\x06\x07"
_END_BYTES = 22
_ENCRYPTED = 0x1


class Archive:
    """An open zip archive whose names, count, methods and sizes have been checked."""

    def __init__(self, where: str, file: zipfile.ZipFile) -> None:
        self._where = where
        self._file = file
        self._left = MAX_TOTAL_BYTES
        self._entries = {info.filename: info for info in _checked(where, file.infolist())}

    @property
    def names(self) -> tuple[str, ...]:
        """Names of all entries that are not folders, in the order of the archive."""
        return tuple(self._entries)

    def read(self, name: str) -> bytes:
        """Return the bytes of an entry.

        raises   ImageReadError: no such entry, damaged, or more bytes than it says or than all may have
        """
        if name not in self._entries:
            raise ImageReadError(f"{self._where}: no entry {name!r}")
        info = self._entries[name]
        limit = min(info.file_size, self._left)
        try:
            with self._file.open(info) as entry:
                data = entry.read(limit + 1)
        except (zipfile.BadZipFile, zlib.error, OSError, EOFError, ValueError, NotImplementedError) as why:
            raise ImageReadError(f"{self._where}: entry {name!r} is damaged") from why
        if len(data) > limit:
            raise ImageReadError(
                f"{self._where}: entry {name!r} holds more bytes than allowed; "
                f"at most {MAX_TOTAL_BYTES} in all entries together"
            )
        self._left -= len(data)
        return data


@contextmanager
def opened_archive(path: Path) -> Iterator[Archive]:
    """Open a zip archive after checking its directory.

    raises   ImageReadError: not a zip, damaged, encrypted, bad names, too many entries or bytes
    """
    where = str(path)
    if not is_archive(read_prefix(path)):
        raise ImageReadError(f"{where}: not a zip archive")
    try:
        _check_directory(where, path)
        with zipfile.ZipFile(path) as file:
            yield Archive(where, file)
    except (zipfile.BadZipFile, OSError, EOFError, ValueError, NotImplementedError, struct.error) as why:
        raise ImageReadError(f"{where}: damaged or truncated zip archive") from why


def is_archive(prefix: bytes) -> bool:
    """Say whether the first bytes of a file are those of a zip archive (also an empty one)."""
    return prefix.startswith((b"PK\x03\x04", _END))


def _check_directory(where: str, path: Path) -> None:
    """Refuse a directory too large to be listed; zipfile would hold all of it in memory."""
    with path.open("rb") as file:
        size = path.stat().st_size
        file.seek(max(0, size - _END_BYTES - 65535 - _END_BYTES))
        tail = file.read()
    start = len(tail) - _END_BYTES
    if start < 0 or tail[start : start + 4] != _END or tail[-2:] != b"\0\0":
        start = tail.rfind(_END)
    if start < 0 or len(tail) < start + _END_BYTES:
        raise ImageReadError(f"{where}: damaged or truncated zip archive")
    if tail[max(0, start - 20) : max(0, start - 20) + 4] == _END_64:
        raise ImageReadError(f"{where}: a zip archive of the 64-bit kind; make one under 4 gigabytes")
    directory_bytes: int = struct.unpack_from("<I", tail, start + 12)[0]
    if directory_bytes > MAX_DIRECTORY_BYTES:
        raise ImageReadError(f"{where}: too many entries; at most {MAX_ENTRIES} are read")


def _checked(where: str, infos: list[zipfile.ZipInfo]) -> list[zipfile.ZipInfo]:
    if len(infos) > MAX_ENTRIES:
        raise ImageReadError(f"{where}: {len(infos)} entries; at most {MAX_ENTRIES} are read")
    files = [info for info in infos if info.filename and not info.filename.endswith("/")]
    seen: set[str] = set()
    for info in files:
        _check_entry(where, info)
        if info.filename in seen:
            raise ImageReadError(f"{where}: entry {info.filename!r} comes twice")
        seen.add(info.filename)
    return files


def _check_entry(where: str, info: zipfile.ZipInfo) -> None:
    name = info.filename
    parts = name.replace("\\", "/").split("/")
    if ".." in parts or "" in parts or ":" in parts[0] or "\0" in info.orig_filename:
        raise ImageReadError(f"{where}: entry {name!r} points outside the archive")
    if info.flag_bits & _ENCRYPTED:
        raise ImageReadError(f"{where}: entry {name!r} is encrypted")
    if info.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
        raise ImageReadError(f"{where}: entry {name!r} is packed in a way that is not read; use deflate")
    if info.file_size > MAX_ENTRY_BYTES:
        raise ImageReadError(
            f"{where}: entry {name!r} has {info.file_size} bytes; at most {MAX_ENTRY_BYTES} are read"
        )

"""Reads a folder or zip archive of numbered pictures, in the order a person would put them."""

import re
from collections.abc import Callable, Iterable
from dataclasses import replace
from io import BytesIO
from pathlib import Path, PurePosixPath

from scenekit.errors import ImageReadError
from scenekit.images.archive import MAX_ENTRIES, Archive, is_archive, opened_archive
from scenekit.images.decode import SUFFIXES, checked_format, decode, read_prefix
from scenekit.images.picture import ImageKind, Picture, ReadOptions
from scenekit.images.samples import note

_NUMBERS = re.compile(r"(\d+)")


def natural_key(name: str) -> tuple[tuple[tuple[int, int, str], ...], str]:
    """Return a sort key that puts walk2 before walk10; names equal but for case or leading zeros by code.

    source   common practice
    """
    parts = _NUMBERS.split(name.casefold())
    keyed = tuple((0, int(part), "") if part.isdecimal() else (1, 0, part) for part in parts if part)
    return keyed, name


def read_folder(path: Path, options: ReadOptions) -> tuple[Picture, ...]:
    """Read every picture file of a folder, in natural order; other files and folders are passed over.

    raises   ImageReadError: not readable, no picture, too many, or one that is bad
    """
    try:
        names = [entry.name for entry in path.iterdir() if entry.is_file()]
    except OSError as why:
        raise ImageReadError(f"{path}: folder cannot be read: {(why.strerror or 'fault').lower()}") from why
    wanted, passed = _choose(str(path), names)

    def read_one(name: str, left: ReadOptions) -> Picture:
        file = path / name
        kind = checked_format(str(file), read_prefix(file), file.suffix)
        return decode(str(file), file.stem, file, kind, left)

    return _read_all(str(path), wanted, passed, read_one, options)


def read_archive(path: Path, options: ReadOptions) -> tuple[Picture, ...]:
    """Read every picture of a zip archive, in natural order; they lie at its top or in one folder.

    raises   ImageReadError: a bad archive, no picture, pictures in several folders, or one that is bad
    """
    with opened_archive(path) as archive:
        names = _one_folder(str(path), archive.names)
        wanted, passed = _choose(str(path), names)

        def read_one(name: str, left: ReadOptions) -> Picture:
            return _read_entry(path, archive, names[name], left)

        return _read_all(str(path), wanted, passed, read_one, options)


def _read_entry(path: Path, archive: Archive, entry: str, left: ReadOptions) -> Picture:
    data = archive.read(entry)
    where = f"{path}: entry {entry!r}"
    if not data:
        raise ImageReadError(f"{where}: empty file")
    kind = checked_format(where, data[:32], PurePosixPath(entry).suffix)
    return decode(where, PurePosixPath(entry).stem, BytesIO(data), kind, left)


def _one_folder(where: str, entries: tuple[str, ...]) -> dict[str, str]:
    """Return entries by their last part."""
    shown = [entry for entry in entries if not _is_hidden(entry)]
    folders = sorted({str(PurePosixPath(entry).parent) for entry in shown if _is_picture(entry)})
    if len(folders) > 1:
        raise ImageReadError(f"{where}: pictures in {len(folders)} folders, such as {folders[1]!r}; use one")
    for entry in shown:
        if entry.lower().endswith((".zip", ".ora")):
            raise ImageReadError(f"{where}: entry {entry!r} is an archive in an archive")
    return {PurePosixPath(entry).name: entry for entry in shown if _is_picture(entry)}


def _choose(where: str, names: Iterable[str]) -> tuple[list[str], int]:
    """Return the names of pictures in natural order, and how many others there are."""
    shown = [name for name in names if not _is_hidden(name)]
    wanted = sorted(filter(_is_picture, shown), key=natural_key)
    if not wanted:
        raise ImageReadError(f"{where}: no picture in it; allowed: {', '.join(SUFFIXES)}")
    if len(wanted) > MAX_ENTRIES:
        raise ImageReadError(f"{where}: {len(wanted)} pictures; at most {MAX_ENTRIES} are read")
    return wanted, len(shown) - len(wanted)


def _read_all(
    where: str,
    names: list[str],
    passed: int,
    read_one: Callable[[str, ReadOptions], Picture],
    options: ReadOptions,
) -> tuple[Picture, ...]:
    pictures: list[Picture] = []
    left = options.max_pixels
    for name in names:
        picture = read_one(name, replace(options, max_pixels=left))
        left -= picture.pixels.shape[0] * picture.pixels.shape[1]
        pictures.append(picture)
    if passed:
        finding = note("passed-over", where, f"{passed} files are no pictures and were passed over")
        pictures[0] = replace(pictures[0], findings=(*pictures[0].findings, finding))
    return tuple(pictures)


def _is_picture(name: str) -> bool:
    return PurePosixPath(name).suffix.lower() in SUFFIXES


def _is_hidden(name: str) -> bool:
    return any(part.startswith((".", "__")) for part in PurePosixPath(name).parts)


def _read(path: Path, options: ReadOptions) -> tuple[Picture, ...]:
    return read_folder(path, options) if path.is_dir() else read_archive(path, options)


def _accepts(path: Path) -> bool:
    if path.is_dir():
        return True
    try:
        return path.suffix.lower() == ".zip" or is_archive(read_prefix(path))
    except ImageReadError:
        return False


PLUGIN = ImageKind(
    name="numbered",
    accepts=_accepts,
    read=_read,
    summary="numbered pictures: a folder or zip of them, walk1, walk2 ... walk10",
)

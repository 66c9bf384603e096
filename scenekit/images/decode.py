"""Turns the bytes of one still picture into RGBA samples, whatever the file says about itself."""

import struct
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from scenekit.errors import ImageReadError
from scenekit.images.picture import Picture, ReadOptions
from scenekit.images.samples import clear, note, samples

if TYPE_CHECKING:
    from PIL import Image

SUFFIXES = {
    ".png": "PNG",
    ".apng": "PNG",
    ".gif": "GIF",
    ".bmp": "BMP",
    ".dib": "BMP",
    ".webp": "WEBP",
    ".tif": "TIFF",
    ".tiff": "TIFF",
}
MAX_FILE_BYTES = 1 << 30
PREFIX_BYTES = 32


def format_of(prefix: bytes) -> str | None:
    """Return the format that the first bytes of a file show, or None.

    source   the signatures of the PNG, GIF89a, BMP, WebP container and TIFF 6.0 specifications
    """
    if prefix.startswith(b"\x89PNG\r\n\x1a\n"):
        return "PNG"
    if prefix.startswith((b"GIF87a", b"GIF89a")):
        return "GIF"
    if prefix.startswith(b"BM"):
        return "BMP"
    if prefix.startswith(b"RIFF") and prefix[8:12] == b"WEBP":
        return "WEBP"
    if prefix.startswith((b"II*\0", b"MM\0*")):
        return "TIFF"
    return None


def read_all(path: Path) -> bytes:
    """Return all bytes of a file whose prefix has been read.

    raises   ImageReadError: not readable
    """
    try:
        with path.open("rb") as file:
            return file.read(MAX_FILE_BYTES)
    except OSError as why:
        raise ImageReadError(f"{path}: cannot be read: {_reason(why)}") from why


def read_prefix(path: Path) -> bytes:
    """Return the first bytes of a regular file.

    raises   ImageReadError: missing, not a regular file, not readable, empty, over a gibibyte
    """
    try:
        if path.is_dir():
            raise ImageReadError(f"{path}: is a folder; a picture file is needed")
        if not path.is_file():
            raise ImageReadError(f"{path}: no such picture file")
        if path.stat().st_size > MAX_FILE_BYTES:
            raise ImageReadError(f"{path}: {path.stat().st_size} bytes; at most {MAX_FILE_BYTES} are read")
        with path.open("rb") as file:
            prefix = file.read(PREFIX_BYTES)
    except (OSError, ValueError) as why:
        raise ImageReadError(f"{path}: cannot be read: {_reason(why)}") from why
    if not prefix:
        raise ImageReadError(f"{path}: empty file")
    return prefix


def checked_format(where: str, prefix: bytes, suffix: str) -> str:
    """Return the format of a picture by its content.

    raises   ImageReadError: unknown, or another than the suffix says
    """
    found = format_of(prefix)
    said = SUFFIXES.get(suffix.lower())
    if found is None:
        raise ImageReadError(f"{where}: not a picture that can be read; allowed: png, gif, bmp, webp, tiff")
    if said is not None and said != found:
        raise ImageReadError(
            f"{where}: named {suffix.lower()} but holds {found.lower()}; rename it to .{found.lower()}"
        )
    return found


@contextmanager
def opened(where: str, source: Path | BytesIO, kind: str, max_pixels: int) -> "Iterator[Image.Image]":
    """Open a picture of one given format, its size checked and its samples not yet decoded.

    raises   ImageReadError: damaged, or more pixels than allowed; also for faults inside the block
    """
    from PIL import Image

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            with Image.open(source, formats=[kind]) as image:
                check_size(where, image.size, max_pixels)
                yield image
    except ImageReadError:
        raise
    except Image.DecompressionBombError as why:
        raise ImageReadError(f"{where}: far too many pixels; at most {max_pixels} are allowed") from why
    except Exception as why:  # decoders raise whatever they meet
        raise ImageReadError(f"{where}: damaged or truncated {kind.lower()} file ({_reason(why)})") from why


def check_size(where: str, size: tuple[int, int], max_pixels: int) -> None:
    """Check the sides of a picture.

    raises   ImageReadError: a side of zero, or more pixels than allowed
    """
    width, height = size
    if width < 1 or height < 1:
        raise ImageReadError(f"{where}: {width} x {height} px; both sides must be at least 1")
    if width * height > max_pixels:
        raise ImageReadError(
            f"{where}: {width} x {height} px is {width * height} pixels; at most {max_pixels} are allowed, "
            "use fewer or smaller pictures"
        )


def decode(where: str, name: str, source: Path | BytesIO, kind: str, options: ReadOptions) -> Picture:
    """Read the first picture of a file.

    raises   ImageReadError: damaged, too many pixels, or samples that are neither grey, RGB nor indexed
    """
    if kind == "GIF":
        return _decode_gif(where, name, source, options)
    with opened(where, source, kind, options.max_pixels) as image:
        several = bool(getattr(image, "is_animated", False)) and kind != "TIFF"
        depth = _png_depth(source) if kind == "PNG" else 8
        image.load()
        pixels, palette, mode, notes = samples(where, image, depth)
    if several:
        notes.append(note("first-frame", where, "the file is animated; its first picture is read"))
    finished = clear(pixels, options.keys)
    return Picture(name=name, pixels=finished, mode=mode, file_palette=palette, findings=tuple(notes))


def _decode_gif(where: str, name: str, source: Path | BytesIO, options: ReadOptions) -> Picture:
    """Read the first picture of a GIF; what it does not cover of its screen is clear."""
    from scenekit.images.gif import compose, read_gif

    gif = read_gif(where, source.getvalue() if isinstance(source, BytesIO) else read_all(source), 2)
    check_size(where, gif.size, options.max_pixels)
    first = replace(gif, parts=gif.parts[:1])
    notes = [note("first-frame", where, "the file is animated; its first picture is read")]
    colours = first.parts[0].colours
    return Picture(
        name=name,
        pixels=clear(next(compose(where, first)), options.keys),
        mode=f"indexed, {len(colours)} entries",
        file_palette=colours,
        findings=tuple(notes) if len(gif.parts) > 1 else (),
    )


def _png_depth(source: Path | BytesIO) -> int:
    """Return the bits a sample that a PNG header gives."""
    if isinstance(source, BytesIO):
        head = source.getbuffer()[:PREFIX_BYTES].tobytes()
    else:
        with source.open("rb") as file:
            head = file.read(PREFIX_BYTES)
    return int(struct.unpack_from(">B", head, 24)[0])


def _reason(why: BaseException) -> str:
    """Return a short reason that names no place in the code."""
    if isinstance(why, OSError) and why.strerror:
        return why.strerror.lower()
    return str(why).split("\n")[0][:100] or type(why).__name__

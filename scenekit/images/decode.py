"""Turns the bytes of one still picture into RGBA samples, whatever the file says about itself."""

import struct
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from scenekit.errors import ImageReadError
from scenekit.findings import Finding
from scenekit.images.picture import Colour, Picture, ReadOptions
from scenekit.model.arrays import Pixels

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
            f"{where}: {width} x {height} px is {width * height} pixels; at most {max_pixels} are allowed"
        )


def decode(where: str, name: str, source: Path | BytesIO, kind: str, options: ReadOptions) -> Picture:
    """Read the first picture of a file.

    raises   ImageReadError: damaged, too many pixels, or samples that are neither grey, RGB nor indexed
    """
    with opened(where, source, kind, options.max_pixels) as image:
        several = bool(getattr(image, "is_animated", False)) and kind != "TIFF"
        depth = _png_depth(source) if kind == "PNG" else 8
        image.load()
        pixels, palette, mode, notes = samples(where, image, depth)
    if several:
        notes.append(note("first-frame", where, "the file is animated; its first picture is read"))
    finished = clear(pixels, options.keys)
    return Picture(name=name, pixels=finished, mode=mode, file_palette=palette, findings=tuple(notes))


def samples(
    where: str, image: "Image.Image", depth: int
) -> tuple[Pixels, tuple[Colour, ...] | None, str, list[Finding]]:
    """Return a decoded image as RGBA, its palette, a note of how it was held, and findings.

    raises   ImageReadError: a mode that is neither grey, RGB nor indexed
    """
    see_through = image.info.get("transparency")
    if image.mode == "P":
        return _indexed(where, image, see_through)
    if image.mode in ("1", "L", "I;16", "I;16B", "I;16L", "I"):
        return (*_grey(where, image, depth, see_through), [])
    if image.mode in ("RGBa", "La", "PA"):
        image = image.convert("RGBA")
    bits = ", 16 bits a sample" if depth == 16 else ""
    array = np.asarray(image)
    if image.mode == "LA":
        pixels = array[..., [0, 0, 0, 1]]
        return pixels, None, "grey and alpha" + bits, []
    if image.mode in ("RGBA", "RGBX"):
        pixels = array.copy()
        if image.mode == "RGBX":
            pixels[..., 3] = 255
        return pixels, None, ("rgba" if image.mode == "RGBA" else "rgb") + bits, []
    if image.mode == "RGB":
        return (*_rgb(where, array, depth, see_through),)
    raise ImageReadError(f"{where}: samples of kind {image.mode}; save it as rgb, rgba, grey or indexed")


def clear(pixels: Pixels, keys: tuple[Colour, ...]) -> Pixels:
    """Return pixels, read-only, with key colours and everything of alpha 0 turned to (0, 0, 0, 0).

    pixels   (H, W, 4) uint8; given away to this function
    """
    pixels = np.ascontiguousarray(pixels)
    if not pixels.flags.writeable:
        pixels = pixels.copy()
    packed = pixels.view(np.uint32)[..., 0]
    packed[pixels[..., 3] == 0] = 0
    for key in keys:
        packed[packed == np.array([*key, 255], np.uint8).view(np.uint32)[0]] = 0
    pixels.flags.writeable = False
    return pixels


def note(code: str, where: str, text: str) -> Finding:
    """Return a finding of the lowest level."""
    return Finding(level="note", code=code, where=where, text=text)


def _indexed(
    where: str, image: "Image.Image", see_through: object
) -> tuple[Pixels, tuple[Colour, ...], str, list[Finding]]:
    raw = image.getpalette("RGB") or []
    palette = tuple((raw[i], raw[i + 1], raw[i + 2]) for i in range(0, len(raw) - 2, 3))
    table = np.zeros((256, 4), np.uint8)
    table[:, 3] = 255
    table[: len(palette), :3] = palette
    if isinstance(see_through, int) and 0 <= see_through < 256:
        table[see_through, 3] = 0
    elif isinstance(see_through, bytes):
        table[: len(see_through), 3] = np.frombuffer(see_through[:256], np.uint8)
    indices = np.asarray(image)
    notes = []
    highest = int(indices.max())
    if highest >= len(palette):
        text = f"pixels use entry {highest} but the palette has {len(palette)} entries; they are black"
        notes.append(Finding(level="warning", code="entry-missing", where=where, text=text))
    return table[indices], palette, f"indexed, {len(palette)} entries", notes


def _grey(where: str, image: "Image.Image", depth: int, see_through: object) -> tuple[Pixels, None, str]:
    array: NDArray[Any] = np.asarray(image)
    if image.mode == "I" and (array.min() < 0 or array.max() > 65535):
        raise ImageReadError(f"{where}: 32-bit samples; save it as rgb, rgba, grey or indexed")
    wide = image.mode.startswith("I")
    clear_at = None
    if isinstance(see_through, int):
        scale = {2: 85, 4: 17}.get(depth, 1)
        clear_at = array == (see_through * scale if image.mode != "1" else see_through != 0)
    grey = (array >> 8).astype(np.uint8) if wide else array.astype(np.uint8)
    if image.mode == "1":
        grey = grey * np.uint8(255)
    pixels = np.full((*grey.shape, 4), 255, np.uint8)
    pixels[..., :3] = grey[..., None]
    if clear_at is not None:
        pixels[clear_at] = 0
    return pixels, None, "grey" + (", 16 bits a sample" if wide else "")


def _rgb(
    where: str, array: NDArray[Any], depth: int, see_through: object
) -> tuple[Pixels, None, str, list[Finding]]:
    pixels = np.full((*array.shape[:2], 4), 255, np.uint8)
    pixels[..., :3] = array
    notes = []
    if isinstance(see_through, tuple) and len(see_through) == 3:
        shift = 8 if depth == 16 else 0
        pixels[(array == np.array(see_through) >> shift).all(axis=-1)] = 0
        if shift:
            notes.append(note("wide-key", where, "the clear colour has 16 bits; its high bytes are compared"))
    return pixels, None, "rgb" + (", 16 bits a sample" if depth == 16 else ""), notes


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

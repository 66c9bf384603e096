"""Reads a file that holds one picture."""

from pathlib import Path

from scenekit.errors import ImageReadError
from scenekit.images.decode import SUFFIXES, checked_format, decode, read_prefix
from scenekit.images.picture import MAX_PIXELS, Colour, ImageKind, Picture, ReadOptions, as_keys


def read_picture(
    path: Path | str,
    *,
    key: Colour | tuple[Colour, ...] | None = None,
    max_pixels: int = MAX_PIXELS,
) -> Picture:
    """Read one PNG, GIF, BMP, WebP or TIFF; of several pictures in it the first.

    key      a colour, or several, that stand for nothing where they are opaque
    raises   ImageReadError: missing, empty, damaged, named wrongly, too many pixels, or not such a file
    """
    return _read_one(Path(path), ReadOptions(keys=as_keys(key), max_pixels=max_pixels))


def _read_one(path: Path, options: ReadOptions) -> Picture:
    kind = checked_format(str(path), read_prefix(path), path.suffix)
    return decode(str(path), path.stem, path, kind, options)


def _read(path: Path, options: ReadOptions) -> tuple[Picture, ...]:
    return (_read_one(path, options),)


def _accepts(path: Path) -> bool:
    if path.suffix.lower() in SUFFIXES:
        return not path.is_dir()
    try:
        checked_format(str(path), read_prefix(path), path.suffix)
    except ImageReadError:
        return False
    return True


PLUGIN = ImageKind(
    name="flat",
    accepts=_accepts,
    read=_read,
    summary="one picture: png, gif, bmp, webp or tiff",
)

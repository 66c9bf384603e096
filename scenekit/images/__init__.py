"""Pictures from files, folders and archives."""

from pathlib import Path

from scenekit.errors import ImageReadError
from scenekit.images.picture import MAX_PIXELS, Colour, ImageKind, Picture, ReadOptions, as_keys
from scenekit.registry import choose, load_plugins

__all__ = ["MODULES", "image_kinds", "read_pictures"]

MODULES = [
    "layered",
    "numbered",
    "animated",
    "flat",
]


def image_kinds() -> dict[str, ImageKind]:
    """Return every image kind by name, in the order in which they are asked."""
    return load_plugins("scenekit.images", ImageKind)


def read_pictures(
    path: Path | str,
    *,
    kind: str | None = None,
    key: Colour | tuple[Colour, ...] | None = None,
    max_pixels: int = MAX_PIXELS,
) -> tuple[Picture, ...]:
    """Read every picture of a file, folder or archive.

    kind     a name of image_kinds(), or None: the first kind that accepts the path
    key      a colour, or several, that stand for nothing where they are opaque
    raises   ImageReadError: nothing there that can be read; UnknownNameError: no such kind
    """
    source = Path(path)
    options = ReadOptions(keys=as_keys(key), max_pixels=max_pixels)
    kinds = image_kinds()
    if kind is not None:
        return choose("image kind", kind, kinds).read(source, options)
    for candidate in kinds.values():
        if candidate.accepts(source):
            return candidate.read(source, options)
    if not source.exists():
        raise ImageReadError(f"{source}: no such file or folder")
    raise ImageReadError(
        f"{source}: not a picture source; allowed: {'; '.join(k.summary for k in kinds.values())}"
    )

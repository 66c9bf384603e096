"""Palettes that somebody brings along: lists of colours and the palettes of indexed pictures."""

import warnings
from pathlib import Path

from scenekit.colour.selection import Colour
from scenekit.errors import PaletteError

MOST_COLOURS = 256

_LARGEST_BYTES = 1 << 16
"""A list of colours is shorter than this."""


def colours_of_text(text: str, where: str = "palette") -> tuple[Colour, ...]:
    """Read colours written as RRGGBB or RGB, apart by spaces, commas or line ends.

    A leading # before a colour may be there or not; from ; to the end of a line is a remark.
    raises   PaletteError: something else, none, or more than 256
    """
    colours: list[Colour] = []
    for number, line in enumerate(text.splitlines(), 1):
        for word in line.split(";")[0].replace(",", " ").split():
            digits = word.removeprefix("#")
            if len(digits) == 3:
                digits = "".join(digit * 2 for digit in digits)
            if len(digits) != 6 or not all(digit in "0123456789abcdefABCDEF" for digit in digits):
                raise PaletteError(
                    f"{where}: line {number}: got {word[:20]!r}; allowed colours such as 1A2B3C"
                )
            red, green, blue = bytes.fromhex(digits)
            colours.append((red, green, blue))
    if not 1 <= len(colours) <= MOST_COLOURS:
        raise PaletteError(f"{where}: {len(colours)} colours; allowed 1 to {MOST_COLOURS}")
    return tuple(colours)


def colours_of_file(path: Path) -> tuple[Colour, ...]:
    """Read the palette of an indexed picture, or a list of colours; pixels are not decoded.

    raises   PaletteError: no such file, a picture without a palette, or no list of colours
    """
    try:
        with path.open("rb") as file:
            start = file.read(_LARGEST_BYTES + 1)
    except OSError as error:
        raise PaletteError(f"palette {path.name}: cannot be read: {error.strerror}") from error
    if start.startswith((b"\x89PNG", b"GIF8", b"BM")):
        return _colours_of_picture(path)
    if len(start) > _LARGEST_BYTES:
        raise PaletteError(
            f"palette {path.name}: more than {_LARGEST_BYTES} bytes; allowed a list of colours"
        )
    try:
        return colours_of_text(start.decode("utf-8-sig"), f"palette {path.name}")
    except UnicodeDecodeError as error:
        raise PaletteError(f"palette {path.name}: neither a picture nor a list of colours") from error


def _colours_of_picture(path: Path) -> tuple[Colour, ...]:
    from PIL import Image

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # about its size, which does not matter here
            with Image.open(path) as picture:
                mode, flat = picture.mode, picture.getpalette("RGB") or []
    except Exception as error:  # Pillow raises many kinds for broken files
        raise PaletteError(f"palette {path.name}: broken picture") from error
    if mode != "P" or len(flat) < 3:
        raise PaletteError(f"palette {path.name}: a picture of kind {mode}; allowed one with a palette")
    return tuple((flat[at], flat[at + 1], flat[at + 2]) for at in range(0, len(flat) - 2, 3))

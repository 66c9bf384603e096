"""Reads every picture of a GIF, composed as the GIF89a specification says, with exact delays.

The blocks are read here; only the packed samples of each picture are left to the image library, so that no
picture is merged with its neighbour and no delay is rounded.
"""

import struct
from collections.abc import Iterator
from fractions import Fraction
from io import BytesIO

import numpy as np
from numpy.typing import NDArray

from scenekit.errors import ImageReadError
from scenekit.images.picture import Colour
from scenekit.model.arrays import Pixels
from scenekit.records import record

MAX_FRAMES = 4096

_CLEAR_AREA = 2
_RESTORE_PREVIOUS = 3


@record(frozen=True, slots=True, kw_only=True)
class Part:
    """One picture of a GIF as it stands in the file.

    corner    (x, y) on the screen
    size      (w, h)
    clear     entry that is not drawn, or None
    dispose   what happens to the area afterwards
    packed    image descriptor's flags, code size and sub-blocks
    """

    corner: tuple[int, int]
    size: tuple[int, int]
    palette: bytes
    clear: int | None
    dispose: int
    delay_ms: Fraction
    interlaced: bool
    packed: bytes

    @property
    def colours(self) -> tuple[Colour, ...]:
        """Return the palette as colours."""
        raw = self.palette
        return tuple((raw[i], raw[i + 1], raw[i + 2]) for i in range(0, len(raw) - 2, 3))


@record(frozen=True, slots=True, kw_only=True)
class Gif:
    """A GIF's screen and its pictures."""

    size: tuple[int, int]
    parts: tuple[Part, ...]


def read_gif(where: str, data: bytes, most: int = MAX_FRAMES) -> Gif:
    """Read the blocks of a GIF up to a number of pictures, without decoding samples.

    raises   ImageReadError: damaged, no picture, a picture without a palette, too many pictures
    source   GIF89a specification (CompuServe, 1990), clauses 17 to 27
    """
    try:
        return _read_blocks(where, data, most)
    except (IndexError, struct.error) as why:
        raise ImageReadError(f"{where}: damaged or truncated gif file") from why


def compose(where: str, gif: Gif) -> Iterator[Pixels]:
    """Yield the screen after each picture, (H, W, 4) uint8; what is not covered is clear.

    raises   ImageReadError: damaged samples
    """
    screen = np.zeros((gif.size[1], gif.size[0], 4), np.uint8)
    packed = screen.view(np.uint32)[..., 0]
    for part in gif.parts:
        (x, y), (w, h) = part.corner, part.size
        area = packed[y : y + h, x : x + w]
        before = area.copy() if part.dispose == _RESTORE_PREVIOUS else None
        indices = _decode(where, part)
        table = np.zeros((256, 4), np.uint8)
        table[:, 3] = 255
        table[: len(part.colours), :3] = part.colours
        shown = True if part.clear is None else indices != part.clear
        np.copyto(area, table.view(np.uint32)[:, 0][indices], where=shown)
        yield screen.copy()
        if part.dispose == _CLEAR_AREA:
            area[...] = 0
        elif before is not None:
            area[...] = before


def _read_blocks(where: str, data: bytes, most: int) -> Gif:
    width, height, flags = struct.unpack_from("<HHB", data, 6)
    at = 13
    shared = b""
    if flags & 0x80:
        shared = data[at : at + (6 << (flags & 7))]
        at += len(shared)
    parts: list[Part] = []
    control = (0, Fraction(0), None)
    while len(parts) < most and at < len(data):
        kind = data[at]
        if kind == 0x3B:
            break
        if kind == 0x21:
            if data[at + 1] == 0xF9 and data[at + 2] >= 4:
                bits, delay, clear = struct.unpack_from("<BHB", data, at + 3)
                control = (bits >> 2 & 7, Fraction(delay * 10), clear if bits & 1 else None)
            at = _skip(data, at + 2)
        elif kind == 0x2C:
            part, at = _read_part(where, data, at, shared, control)
            parts.append(part)
            control = (0, Fraction(0), None)
        else:
            raise ImageReadError(f"{where}: damaged or truncated gif file")
    if not parts:
        raise ImageReadError(f"{where}: damaged or truncated gif file (no picture)")
    right = max(part.corner[0] + part.size[0] for part in parts)
    bottom = max(part.corner[1] + part.size[1] for part in parts)
    return Gif(size=(max(width, right), max(height, bottom)), parts=tuple(parts))


def _read_part(
    where: str, data: bytes, at: int, shared: bytes, control: tuple[int, Fraction, int | None]
) -> tuple[Part, int]:
    x, y, w, h, flags = struct.unpack_from("<HHHHB", data, at + 1)
    at += 10
    palette = shared
    if flags & 0x80:
        palette = data[at : at + (6 << (flags & 7))]
        at += len(palette)
    if not palette:
        raise ImageReadError(f"{where}: a gif without a palette")
    if not w or not h:
        raise ImageReadError(f"{where}: a picture of {w} x {h} px; both sides must be at least 1")
    end = _skip(data, at + 1)
    dispose, delay, clear = control
    part = Part(
        corner=(x, y),
        size=(w, h),
        palette=palette,
        clear=clear,
        dispose=dispose,
        delay_ms=delay,
        interlaced=bool(flags & 0x40),
        packed=data[at:end],
    )
    return part, end


def _skip(data: bytes, at: int) -> int:
    """Return the place behind a chain of sub-blocks."""
    while data[at]:
        at += data[at] + 1
    return at + 1


def _decode(where: str, part: Part) -> NDArray[np.uint8]:
    """Return the entries of one picture, (H, W) uint8."""
    from scenekit.images.decode import opened

    w, h = part.size
    bits = max(1, (len(part.palette) // 3 - 1).bit_length())
    palette = part.palette.ljust(3 << bits, b"\0")
    lone = b"GIF89a" + struct.pack("<HHBBB", w, h, 0x80 | bits - 1, 0, 0) + palette
    lone += b"," + struct.pack("<HHHHB", 0, 0, w, h, 0x40 if part.interlaced else 0) + part.packed + b";"
    with opened(where, BytesIO(lone), "GIF", w * h) as image:
        image.load()
        return np.array(image, np.uint8)

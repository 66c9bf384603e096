"""Writes packed pictures as the image files that machines load."""

import io
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from scenekit.model.arrays import Indices
from scenekit.tables.pieces import Pieces


def indexed_file(picture: Indices, palette: NDArray[np.uint8], kind: str, transparent: int) -> bytes:
    """Return an indexed picture as the bytes of a "bmp" or "png" file, without text chunks.

    A PNG says which entry is transparent, and gives it a colour that no other entry has, since loaders may
    go by colour.
    palette   (N, 3) uint8, N at most 256
    """
    from PIL import Image

    image = Image.fromarray(picture, "L")
    buffer = io.BytesIO()
    if kind == "png" and transparent < len(palette):
        colours = np.array(palette)
        colours[transparent] = _unused(colours)
        image.putpalette(colours.tobytes())
        image.save(buffer, "PNG", transparency=transparent)
        return buffer.getvalue()
    image.putpalette(np.ascontiguousarray(palette).tobytes())
    image.save(buffer, kind.upper())
    return buffer.getvalue()


def _unused(colours: NDArray[np.uint8]) -> tuple[int, int, int]:
    """Return a colour that no entry has, as near to magenta as there is one."""
    seen = {tuple(int(part) for part in colour) for colour in colours}
    return next((255, green, 255) for green in range(256) if (255, green, 255) not in seen)


def page_file(picture: Indices) -> bytes:
    """Return a picture as runs of one entry, two bytes each: length 1 to 255, entry; rows end runs."""
    parts = bytearray()
    for row in picture:
        edges = np.flatnonzero(np.concatenate(([True], row[1:] != row[:-1], [True])))
        for left, right in pairwise(edges):
            for start in range(int(left), int(right), 255):
                parts += bytes((min(255, int(right) - start), int(row[left])))
    return bytes(parts)


def raw_file(pieces: Pieces) -> bytes:
    """Return the entries of every piece, one byte a pixel, row by row from the top, piece after piece."""
    return raw_pixels(pieces.pictures)


def raw_pixels(pictures: Sequence[Indices]) -> bytes:
    """Return the entries of pictures, one byte a pixel, row by row from the top, one after the other."""
    return b"".join(picture.tobytes() for picture in pictures)

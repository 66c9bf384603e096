"""Writes packed pictures as the image files that machines load."""

import io
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from scenekit.model.arrays import Indices
from scenekit.tables.pieces import Pieces


def indexed_file(picture: Indices, palette: NDArray[np.uint8], kind: str) -> bytes:
    """Return an indexed picture as the bytes of a "bmp" or "png" file, without text chunks.

    palette   (N, 3) uint8, N at most 256
    """
    from PIL import Image

    image = Image.fromarray(picture, "L")
    image.putpalette(np.ascontiguousarray(palette).tobytes())
    buffer = io.BytesIO()
    image.save(buffer, kind.upper())
    return buffer.getvalue()


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

"""Writes moving pictures as GIF, APNG and WebP; every step stays, also one that equals the step before."""

import io
import struct
import zlib
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from scenekit.errors import ImageReadError
from scenekit.images.gif import read_gif
from scenekit.model.arrays import Pixels

Box = tuple[int, int, int, int]
LEAST_GIF_MS = 20
"""Viewers slow down what is shown for less, or do not show it at all (common practice)."""


def step_times(ticks: Sequence[int], period_ms: float, unit_ms: int = 1) -> tuple[int, ...]:
    """Return the time of each step in ms, whole units; ends are rounded, not lengths: nothing drifts."""
    ends = np.cumsum(ticks) * period_ms / unit_ms
    edges = [0, *(int(end + 0.5) for end in ends)]
    return tuple((late - early) * unit_ms for early, late in pairwise(edges))


def moving_picture(kind: str, steps: Sequence[Pixels], times_ms: Sequence[int]) -> bytes:
    """Return a file that shows steps one after another, without end.

    kind      "gif", "apng" or "webp"
    steps     (H, W, 3 or 4) uint8, all of one size; alpha below 128 is clear
    raises    ImageReadError: no steps, different sizes, a time that the kind cannot give
    """
    if not times_ms or len(steps) != len(times_ms):
        raise ImageReadError("moving picture: needs steps and a time for each")
    if kind not in WRITERS:
        raise ImageReadError(f"moving picture: got {kind!r}; must be one of {', '.join(WRITERS)}")
    high = {"gif": 655_350, "apng": 65_535, "webp": 16_777_215}[kind]
    low = LEAST_GIF_MS if kind == "gif" else 1
    for number, time in enumerate(times_ms):
        if not low <= time <= high or (kind == "gif" and time % 10):
            unit = " in tens" if kind == "gif" else ""
            raise ImageReadError(
                f"moving picture: step {number} lasts {time} ms; a {kind} needs {low} to {high} ms{unit}"
            )
    return WRITERS[kind](steps, times_ms)


def _cleaned(steps: Sequence[Pixels]) -> Iterator[Pixels]:
    """Yield steps as RGBA, one at a time, so that long pictures need not be in memory whole."""
    shape = None
    for number in range(len(steps)):
        step = _clean(steps[number])
        if shape is not None and step.shape != shape:
            raise ImageReadError(f"moving picture: step {number} is of another size than the first")
        shape = step.shape
        yield np.ascontiguousarray(step)


def _clean(step: Pixels) -> Pixels:
    """Return a step as RGBA that is clear or opaque, without colours where it is clear."""
    if step.shape[2] == 3:
        return np.dstack([step, np.full(step.shape[:2], 255, np.uint8)])
    drawn = step[..., 3:] >= 128
    whole = np.dstack([step[..., :3], np.full(step.shape[:2], 255, np.uint8)])
    return np.where(drawn, whole, 0).astype(np.uint8)


def _changed(before: Pixels | None, now: Pixels, even: bool = False) -> Box:
    """Return the box of what changed, at least one pixel; on even corners where that is needed."""
    height, width = now.shape[:2]
    if before is None:
        return 0, 0, width, height
    different = (before != now).any(axis=2)
    rows, columns = np.flatnonzero(different.any(axis=1)), np.flatnonzero(different.any(axis=0))
    if not rows.size:
        return 0, 0, 1, 1
    x, y = int(columns[0]), int(rows[0])
    if even:
        x, y = x - x % 2, y - y % 2
    return x, y, int(columns[-1]) + 1 - x, int(rows[-1]) + 1 - y


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def _apng(steps: Sequence[Pixels], times_ms: Sequence[int]) -> bytes:
    """Write an animated PNG.

    source   PNG specification, third edition (W3C), sections 11.3.6.1 to 11.3.6.3
    """
    height, width = steps[0].shape[:2]
    parts = [b"\x89PNG\r\n\x1a\n", _chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 6, 0, 0, 0))]
    parts.append(_chunk(b"acTL", struct.pack(">II", len(steps), 0)))
    number, before = 0, None
    for step, time in zip(_cleaned(steps), times_ms, strict=True):
        x, y, w, h = _changed(before, step)
        control = struct.pack(">IIIIIHHBB", number, w, h, x, y, time, 1000, 0, 0)
        parts.append(_chunk(b"fcTL", control))
        rows = step[y : y + h, x : x + w].reshape(h, w * 4)
        data = zlib.compress(np.hstack([np.zeros((h, 1), np.uint8), rows]).tobytes(), 9)
        number += 1
        if before is None:
            parts.append(_chunk(b"IDAT", data))
        else:
            parts.append(_chunk(b"fdAT", struct.pack(">I", number) + data))
            number += 1
        before = step
    return b"".join([*parts, _chunk(b"IEND", b"")])


def _gif(steps: Sequence[Pixels], times_ms: Sequence[int]) -> bytes:
    """Write a GIF; each step has its own palette.

    source   GIF89a specification (CompuServe, 1990); looping by the application extension NETSCAPE2.0
    """
    height, width = steps[0].shape[:2]
    parts = [b"GIF89a", struct.pack("<HHBBB", width, height, 0x70, 0, 0)]
    parts.append(b"\x21\xff\x0bNETSCAPE2.0\x03\x01\0\0\0")
    clear = steps[0].shape[2] == 4 and any(not step[..., 3].all() for step in _cleaned(steps))
    before = None
    for step, time in zip(_cleaned(steps), times_ms, strict=True):
        box = _changed(None if clear else before, step)
        parts.append(_gif_step(step, box, time, clear))
        before = step
    return b"".join([*parts, b";"])


def _gif_step(step: Pixels, box: Box, time: int, clear: bool) -> bytes:
    from PIL import Image

    x, y, w, h = box
    part = step[y : y + h, x : x + w]
    drawn = part[..., 3] > 0
    table, indices = _table(np.ascontiguousarray(part[..., :3]), drawn)
    image = Image.fromarray(indices)
    image.putpalette(table.tobytes())
    buffer = io.BytesIO()
    image.save(buffer, "GIF", optimize=False, interlace=0)
    lone = read_gif("gif", buffer.getvalue()).parts[0]
    bits = max(1, (len(lone.palette) // 3 - 1).bit_length())
    entry = len(table) - 1 if clear else 0
    flags = (2 if clear else 1) << 2 | clear
    control = b"\x21\xf9\x04" + struct.pack("<BHB", flags, time // 10, entry) + b"\0"
    head = b"," + struct.pack("<HHHHB", x, y, w, h, 0x80 | bits - 1)
    return control + head + lone.palette.ljust(3 << bits, b"\0") + lone.packed


def _table(colours: Pixels, drawn: NDArray[np.bool_]) -> tuple[Pixels, Pixels]:
    """Return up to 255 colours and a clear last entry, and each pixel's entry."""
    from PIL import Image

    packed = colours.astype(np.uint32) @ np.array([65536, 256, 1], np.uint32)
    found, inverse = np.unique(packed[drawn], return_inverse=True)
    if len(found) > 255:
        image = Image.fromarray(colours).quantize(255, dither=Image.Dither.NONE)
        palette = np.array((image.getpalette() or [])[: 3 * 255], np.uint8).reshape(-1, 3)
        indices = np.array(image, np.uint8)
    else:
        palette = np.stack([found >> 16, found >> 8 & 255, found & 255], axis=1).astype(np.uint8)
        indices = np.zeros(drawn.shape, np.uint8)
        indices[drawn] = inverse
    indices[~drawn] = len(palette)
    return np.vstack([palette, np.zeros((1, 3), np.uint8)]), indices


def _webp(steps: Sequence[Pixels], times_ms: Sequence[int]) -> bytes:
    """Write a lossless animated WebP.

    source   WebP container specification (RFC 9649), sections 2.7.1.1 and 2.7.1.2
    """
    height, width = steps[0].shape[:2]
    body = b"WEBP" + _riff(b"VP8X", struct.pack("<I", 0x12) + _three(width - 1) + _three(height - 1))
    body += _riff(b"ANIM", struct.pack("<IH", 0, 0))
    before = None
    for step, time in zip(_cleaned(steps), times_ms, strict=True):
        x, y, w, h = _changed(before, step, even=True)
        head = b"".join(_three(value) for value in (x // 2, y // 2, w - 1, h - 1, time))
        body += _riff(b"ANMF", head + b"\x02" + _webp_data(step[y : y + h, x : x + w]))
        before = step
    return b"RIFF" + struct.pack("<I", len(body)) + body


def _webp_data(part: Pixels) -> bytes:
    """Return the chunk of samples of a still lossless picture."""
    from PIL import Image

    buffer = io.BytesIO()
    Image.fromarray(np.ascontiguousarray(part)).save(buffer, "WEBP", lossless=True, exact=True)
    data = buffer.getvalue()
    at = 12
    while at < len(data):
        (size,) = struct.unpack_from("<I", data, at + 4)
        if data[at : at + 4] == b"VP8L":
            return _riff(b"VP8L", data[at + 8 : at + 8 + size])
        at += 8 + size + size % 2
    raise ImageReadError("moving picture: this Pillow writes no lossless WebP")


def _riff(kind: bytes, data: bytes) -> bytes:
    return kind + struct.pack("<I", len(data)) + data + b"\0" * (len(data) % 2)


def _three(value: int) -> bytes:
    return value.to_bytes(3, "little")


WRITERS: dict[str, Callable[[Sequence[Pixels], Sequence[int]], bytes]] = {
    "gif": _gif,
    "apng": _apng,
    "webp": _webp,
}

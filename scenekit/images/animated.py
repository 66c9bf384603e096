"""Reads animated GIF, APNG and WebP as one picture a step, with exact delays."""

import struct
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from io import BytesIO
from pathlib import Path

import numpy as np

from scenekit.errors import ImageReadError
from scenekit.images.decode import (
    checked_format,
    format_of,
    opened,
    read_all,
    read_prefix,
)
from scenekit.images.gif import MAX_FRAMES, compose, read_gif
from scenekit.images.picture import Colour, ImageKind, Picture, ReadOptions
from scenekit.images.samples import clear, note
from scenekit.model.arrays import Pixels


@dataclass(frozen=True, slots=True, kw_only=True)
class _Plan:
    """What a file holds before anything is decoded.

    skip    pictures in front that do not belong to the animation
    """

    size: tuple[int, int]
    delays_ms: tuple[Fraction, ...]
    skip: int = 0
    palette: tuple[Colour, ...] | None = None


def read_animation(path: Path, options: ReadOptions) -> tuple[Picture, ...]:
    """Read every step of an animated file; steps that look alike are kept.

    returns  pictures with delay_ms, all of the size of the canvas, named after the file with -00, -01 ...
    raises   ImageReadError: damaged, one picture only, too many pixels in all steps together
    """
    where = str(path)
    kind = checked_format(where, read_prefix(path), path.suffix)
    data = read_all(path)
    plan = _plan(where, kind, data)
    if plan is None or len(plan.delays_ms) < 2:
        raise ImageReadError(f"{where}: holds one picture; an animation has at least two")
    if len(plan.delays_ms) > MAX_FRAMES:
        raise ImageReadError(f"{where}: {len(plan.delays_ms)} pictures; at most {MAX_FRAMES} are read")
    pixels = plan.size[0] * plan.size[1] * len(plan.delays_ms)
    if not 0 < pixels <= options.max_pixels:
        size = f"{len(plan.delays_ms)} pictures of {plan.size[0]} x {plan.size[1]} px"
        raise ImageReadError(f"{where}: {size} are {pixels} pixels; allowed: 1 to {options.max_pixels}")
    steps = _gif_steps(where, data) if kind == "GIF" else _other_steps(where, kind, data, plan)
    odd = note("no-delay", where, "some steps have no delay; each stands for one tick at least")
    findings = (odd,) if 0 in plan.delays_ms else ()
    digits = max(2, len(str(len(plan.delays_ms) - 1)))
    return tuple(
        Picture(
            name=f"{path.stem}-{number:0{digits}d}",
            pixels=clear(step, options.keys),
            mode=f"animated {kind.lower()}",
            file_palette=plan.palette,
            delay_ms=delay,
            findings=findings if number == 0 else (),
        )
        for number, (step, delay) in enumerate(zip(steps, plan.delays_ms, strict=True))
    )


def _plan(where: str, kind: str, data: bytes) -> _Plan | None:
    """Return what an animated file holds; None for a still."""
    try:
        if kind == "GIF":
            gif = read_gif(where, data, MAX_FRAMES + 1)
            palettes = {part.palette for part in gif.parts}
            shared = gif.parts[0].colours if len(palettes) == 1 else None
            delays = tuple(part.delay_ms for part in gif.parts)
            return _Plan(size=gif.size, delays_ms=delays, palette=shared)
        if kind == "PNG":
            return _png_plan(data)
        return _webp_plan(data) if kind == "WEBP" else None
    except (struct.error, IndexError) as why:
        raise ImageReadError(f"{where}: damaged or truncated {kind.lower()} file") from why


def _png_plan(data: bytes) -> _Plan | None:
    """Return the plan of an animated PNG.

    source   W3C PNG specification, third edition, 11.3.6 acTL and fcTL: a denominator of 0 means 100
    """
    size = struct.unpack_from(">II", data, 16)
    delays: list[Fraction] = []
    animated, default_first = False, False
    for name, at, length in _chunks(data, 8, ">I4s", 4):
        if name == b"acTL":
            animated = True
        elif name == b"fcTL" and length >= 26:
            top, bottom = struct.unpack_from(">HH", data, at + 20)
            delays.append(Fraction(1000 * top, bottom or 100))
        elif name == b"IDAT" and not delays:
            default_first = True
    return _Plan(size=size, delays_ms=tuple(delays), skip=int(default_first)) if animated else None


def _webp_plan(data: bytes) -> _Plan | None:
    """Return the plan of an animated WebP.

    source   WebP container specification: VP8X holds the canvas less one in 24 bits, ANMF the duration in ms
    """
    if data[12:16] != b"VP8X" or not data[20] & 2:
        return None
    size = (_int24(data, 24) + 1, _int24(data, 27) + 1)
    delays = [
        Fraction(_int24(data, at + 12))
        for name, at, length in _chunks(data, 12, "<4sI", 0)
        if name == b"ANMF" and length >= 16
    ]
    return _Plan(size=size, delays_ms=tuple(delays))


def _chunks(data: bytes, at: int, head: str, trailer: int) -> Iterator[tuple[bytes, int, int]]:
    """Yield (name, start of content, length) of each chunk that is whole."""
    while at + 8 <= len(data):
        first, second = struct.unpack_from(head, data, at)
        name, length = (second, first) if head.endswith("s") else (first, second)
        at += 8
        if at + length > len(data):
            return
        yield name, at, length
        at += length + trailer + (length & 1 if not trailer else 0)


def _int24(data: bytes, at: int) -> int:
    return int.from_bytes(data[at : at + 3], "little")


def _gif_steps(where: str, data: bytes) -> Iterator[Pixels]:
    return compose(where, read_gif(where, data))


def _other_steps(where: str, kind: str, data: bytes, plan: _Plan) -> Iterator[Pixels]:
    """Yield the canvas of each step as the image library composes it."""
    with opened(where, BytesIO(data), kind, plan.size[0] * plan.size[1]) as image:
        for number in range(plan.skip, plan.skip + len(plan.delays_ms)):
            image.seek(number)
            yield np.array(image.convert("RGBA"), np.uint8)


def _accepts(path: Path) -> bool:
    if path.suffix.lower() not in (".gif", ".png", ".apng", ".webp") or path.is_dir():
        return False
    try:
        prefix = read_prefix(path)
        kind = format_of(prefix)
        if kind == "GIF":
            return len(read_gif(str(path), read_all(path), 2).parts) > 1
        if kind == "WEBP":
            return prefix[12:16] == b"VP8X" and bool(prefix[20] & 2)
        return kind == "PNG" and b"acTL" in _head(path)
    except (ImageReadError, IndexError):
        return False


def _head(path: Path) -> bytes:
    """Return what stands in a PNG before its first samples, as far as 64 KiB."""
    with path.open("rb") as file:
        return file.read(1 << 16).split(b"IDAT")[0]


PLUGIN = ImageKind(
    name="animated",
    accepts=_accepts,
    read=read_animation,
    summary="an animation: gif, png or webp with several pictures and their delays",
)

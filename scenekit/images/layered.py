"""Reads OpenRaster files: each entry of the layer stack becomes a picture as large as the canvas."""

from dataclasses import dataclass, replace
from io import BytesIO
from pathlib import Path

import numpy as np

from scenekit.errors import ImageReadError
from scenekit.findings import Finding
from scenekit.images.archive import Archive, is_archive, opened_archive
from scenekit.images.decode import check_size, checked_format, decode, read_prefix
from scenekit.images.picture import ImageKind, Picture, ReadOptions
from scenekit.images.samples import clear, note
from scenekit.images.stack import PLAIN, Entry, read_stack
from scenekit.model.arrays import Pixels

MIME_TYPE = b"image/openraster"
MAX_STACK_BYTES = 1 << 20
NESTED_CANVASES = 4
EFFORT = 16
"""Pixels that may be read and drawn, in units of the pixel limit."""

_STRIP = 64


@dataclass(slots=True, kw_only=True)
class _Work:
    """What is needed while layers are read; findings grow, pixels and effort left shrink."""

    where: str
    archive: Archive
    size: tuple[int, int]
    options: ReadOptions
    left: int
    effort: int
    findings: list[Finding]


def read_layers(path: Path, options: ReadOptions) -> tuple[Picture, ...]:
    """Read the visible entries of an OpenRaster file's stack, from back to front; a group is one picture.

    returns  pictures as large as the canvas, named after their layers
    raises   ImageReadError: a bad archive or stack, a missing or bad layer, too many pixels, nothing visible
    source   OpenRaster specification (freedesktop.org): file layout, layer stack
    """
    where = str(path)
    with opened_archive(path) as archive:
        if "mimetype" not in archive.names or archive.read("mimetype").strip() != MIME_TYPE:
            raise ImageReadError(f"{where}: a zip archive, but not an OpenRaster file")
        text = archive.read("stack.xml")
        if len(text) > MAX_STACK_BYTES:
            raise ImageReadError(
                f"{where}: stack.xml has {len(text)} bytes; at most {MAX_STACK_BYTES} are read"
            )
        stack = read_stack(where, text)
        check_size(where, stack.size, options.max_pixels)
        work = _Work(
            where=where,
            archive=archive,
            size=stack.size,
            options=options,
            left=options.max_pixels,
            effort=EFFORT * options.max_pixels,
            findings=[],
        )
        shown = [entry for entry in stack.entries if entry.visible]
        if len(shown) < len(stack.entries):
            text_hidden = f"{len(stack.entries) - len(shown)} hidden layers are left out"
            work.findings.append(note("hidden-layers", where, text_hidden))
        if not shown:
            raise ImageReadError(f"{where}: no layer is visible")
        pictures = [_picture(entry, work) for entry in reversed(shown)]
    first = replace(pictures[0], findings=tuple(work.findings))
    return (first, *pictures[1:])


def _picture(entry: Entry, work: _Work) -> Picture:
    """Return one entry of the stack on a canvas of its own."""
    width, height = work.size
    work.left -= width * height
    if work.left < 0:
        raise ImageReadError(
            f"{work.where}: all layers together have more than {work.options.max_pixels} pixels"
        )
    if not entry.source:
        _check_operation(entry, work)
    pixels = clear(_draw(entry, (0, 0), work), work.options.keys)
    return Picture(name=entry.name, pixels=pixels, mode="layer" if entry.source else "group of layers")


def _draw(entry: Entry, corner: tuple[int, int], work: _Work, depth: int = 1) -> Pixels:
    """Return a canvas with one entry drawn, its opacity applied."""
    if depth * work.size[0] * work.size[1] > NESTED_CANVASES * work.options.max_pixels:
        raise ImageReadError(f"{work.where}: groups {depth} deep on so large a canvas; merge some layers")
    canvas = np.zeros((work.size[1], work.size[0], 4), np.uint8)
    if entry.source:
        _blend(canvas, _layer(entry, work), _moved(corner, entry), entry, work)
    for child in reversed(entry.entries):
        if not child.visible:
            continue
        if child.source:
            _blend(canvas, _layer(child, work), _moved(_moved(corner, entry), child), child, work)
        else:
            group = _draw(child, _moved(corner, entry), work, depth + 1)
            _blend(canvas, group, (0, 0), child, work)
    return canvas if depth > 1 or entry.source else _faded(canvas, entry)


def _moved(corner: tuple[int, int], entry: Entry) -> tuple[int, int]:
    return corner[0] + entry.position[0], corner[1] + entry.position[1]


def _layer(entry: Entry, work: _Work) -> Pixels:
    """Return a layer's own pixels."""
    where = f"{work.where}: entry {entry.source!r}"
    data = work.archive.read(entry.source)
    if not data:
        raise ImageReadError(f"{where}: empty file")
    if checked_format(where, data[:32], ".png") != "PNG":
        raise ImageReadError(f"{where}: a layer must be a png")
    pixels = decode(where, entry.name, BytesIO(data), "PNG", replace(work.options, keys=())).pixels
    _spend(pixels.shape[0] * pixels.shape[1], work)
    return pixels


def _blend(canvas: Pixels, layer: Pixels, corner: tuple[int, int], entry: Entry, work: _Work) -> None:
    """Draw a layer or group on the canvas, faded; what lies outside is cut off and reported."""
    _check_operation(entry, work)
    (height, width), (h, w) = canvas.shape[:2], layer.shape[:2]
    x, y = corner
    left, top, right, bottom = max(0, x), max(0, y), min(width, x + w), min(height, y + h)
    inside = 0
    if left < right and top < bottom:
        _spend((right - left) * (bottom - top), work)
        part = layer[top - y : bottom - y, left - x : right - x]
        inside = int((part[..., 3] > 0).sum())
        under = canvas[top:bottom, left:right]
        for row in range(0, bottom - top, _STRIP):
            strip = slice(row, row + _STRIP)
            under[strip] = _over(_faded(part[strip], entry), under[strip])
    outside = int((layer[..., 3] > 0).sum()) - inside
    if outside:
        text = f"layer {entry.name}: {outside} drawn pixels lie outside the canvas and are cut off"
        work.findings.append(Finding(level="warning", code="layer-cut-off", where=work.where, text=text))


def _spend(pixels: int, work: _Work) -> None:
    work.effort -= pixels
    if work.effort < 0:
        raise ImageReadError(f"{work.where}: too many layers on so large a canvas; merge some")


def _check_operation(entry: Entry, work: _Work) -> None:
    if entry.operation != PLAIN:
        text = f"layer {entry.name}: {entry.operation} is not known here; it is drawn plainly"
        work.findings.append(Finding(level="warning", code="layer-blending", where=work.where, text=text))


def _faded(pixels: Pixels, entry: Entry) -> Pixels:
    """Return pixels with the opacity of their entry applied."""
    if entry.opacity_255 == 255:
        return pixels
    faded = pixels.copy()
    faded[..., 3] = (pixels[..., 3].astype(np.uint16) * entry.opacity_255 + 127) // 255
    return faded


def _over(front: Pixels, back: Pixels) -> Pixels:
    """Return front drawn over back, straight alpha, rounded to the nearest."""
    front_alpha = front[..., 3:].astype(np.int32)
    back_alpha = back[..., 3:].astype(np.int32) * (255 - front_alpha)
    whole = 255 * front_alpha + back_alpha
    safe = np.maximum(whole, 1)
    mixed = 255 * front_alpha * front[..., :3] + back_alpha * back[..., :3]
    result = np.empty_like(front)
    result[..., :3] = (2 * mixed + safe) // (2 * safe)
    result[..., 3:] = (2 * whole + 255) // 510
    return result


def _read(path: Path, options: ReadOptions) -> tuple[Picture, ...]:
    return read_layers(path, options)


def _accepts(path: Path) -> bool:
    if path.is_dir():
        return False
    try:
        prefix = read_prefix(path)
        return is_archive(prefix) and (path.suffix.lower() == ".ora" or _has_mime_type(path))
    except ImageReadError:
        return False


def _has_mime_type(path: Path) -> bool:
    """Say whether an archive begins with the entry that OpenRaster asks for."""
    with path.open("rb") as file:
        return MIME_TYPE in file.read(128)


PLUGIN = ImageKind(
    name="layered",
    accepts=_accepts,
    read=_read,
    summary="layers of an OpenRaster file (.ora), each a picture, from back to front",
)

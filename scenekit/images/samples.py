"""Turns decoded samples of any kind into RGBA, and clears what stands for nothing."""

from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from scenekit.errors import ImageReadError
from scenekit.findings import Finding
from scenekit.images.picture import Colour
from scenekit.model.arrays import Pixels

if TYPE_CHECKING:
    from PIL import Image


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
    if image.mode == "LA":
        return np.array(image.convert("RGBA")), None, "grey and alpha" + bits, []
    if image.mode in ("RGBA", "RGBX"):
        pixels = np.array(image)
        if image.mode == "RGBX":
            pixels[..., 3] = 255
        return pixels, None, ("rgba" if image.mode == "RGBA" else "rgb") + bits, []
    if image.mode == "RGB":
        return _rgb(where, image, depth, see_through)
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
    pixels = table.view(np.uint32)[:, 0][indices].view(np.uint8).reshape(*indices.shape, 4)
    return pixels, palette, f"indexed, {len(palette)} entries", notes


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
    where: str, image: "Image.Image", depth: int, see_through: object
) -> tuple[Pixels, None, str, list[Finding]]:
    pixels = np.array(image.convert("RGBX"))
    pixels[..., 3] = 255
    notes = []
    if isinstance(see_through, tuple) and len(see_through) == 3:
        shift = 8 if depth == 16 else 0
        key = [part >> shift for part in see_through]
        if max(key) < 256:
            packed = pixels.view(np.uint32)[..., 0]
            packed[packed == np.array([*key, 255], np.uint8).view(np.uint32)[0]] = 0
        if shift:
            notes.append(note("wide-key", where, "the clear colour has 16 bits; its high bytes are compared"))
    return pixels, None, "rgb" + (", 16 bits a sample" if depth == 16 else ""), notes

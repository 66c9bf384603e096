"""Which pixels of a sheet are art, and what stands for nothing."""

import numpy as np
from numpy.typing import NDArray

from scenekit.findings import Finding
from scenekit.model.arrays import Pixels
from scenekit.slicing.cut import Background, Box, Colour, Mask, SliceOptions, finding


def background(pixels: Pixels, keys: tuple[Colour, ...] = ()) -> Background:
    """Say what stands for nothing: a key colour that is there, else alpha, else the key that was given.

    pixels   (H, W, 4) uint8
    """
    present = tuple(key for key in keys if _has_colour(pixels, key))
    if present:
        return Background(kind="key", colours=present)
    if bool((pixels[..., 3] == 0).any()):
        return Background(kind="alpha")
    return Background(kind="key", colours=keys) if keys else Background(kind="none")


def art_mask(pixels: Pixels, keys: tuple[Colour, ...] = ()) -> Mask:
    """Return (H, W) bool: True where a pixel is art, so alpha is above 0 and it is no opaque key colour."""
    mask: Mask = pixels[..., 3] > 0
    for key in keys:
        mask &= _packed(pixels) != _packed_key(key)
    return mask


def content_box(mask: Mask, box: Box) -> Box | None:
    """Return the tight box of True inside a box, on the sheet; None where nothing is True."""
    x, y, w, h = box
    part = mask[y : y + h, x : x + w]
    rows = np.flatnonzero(part.any(axis=1))
    if rows.size == 0:
        return None
    top, bottom = int(rows[0]), int(rows[-1]) + 1
    columns = np.flatnonzero(part[top:bottom].any(axis=0))
    left, right = int(columns[0]), int(columns[-1]) + 1
    return x + left, y + top, right - left, bottom - top


def background_findings(found: Background, pixels: Pixels, options: SliceOptions) -> list[Finding]:
    """Return what is odd about the background."""
    findings = []
    for key in options.keys:
        if not _has_colour(pixels, key):
            text = f"key colour {key[0]:02x}{key[1]:02x}{key[2]:02x} is nowhere on the sheet"
            findings.append(finding("warning", "key-missing", options, text))
    if found.kind == "none":
        text = (
            "no clear pixel and no key colour: everything counts as art; give the key colour if there is one"
        )
        findings.append(finding("warning", "no-background", options, text))
    return findings


def _packed(pixels: Pixels) -> NDArray[np.uint32]:
    """Return each pixel as one number."""
    return np.ascontiguousarray(pixels).view(np.uint32)[..., 0]


def _packed_key(key: Colour) -> np.uint32:
    return np.uint32(np.array([*key, 255], np.uint8).view(np.uint32)[0])


def _has_colour(pixels: Pixels, key: Colour) -> bool:
    return bool((_packed(pixels) == _packed_key(key)).any())

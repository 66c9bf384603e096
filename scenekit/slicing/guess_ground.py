"""Say which pixels of a sheet are art, as a short list of readings of its background."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Mask = npt.NDArray[np.bool_]
Pixels = npt.NDArray[np.uint8]

LOOK_PX = 1 << 20
"""Most pixels that are counted when looking for the commonest colours."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ground:
    """One reading of the background.

    kind   "alpha", "key" or "none"
    keys   the key colours as (red, green, blue), outermost first
    mask   (H, W) bool, True where a pixel is art
    bits   how unlikely the reading is before looking at any grid
    """

    kind: str
    keys: tuple[tuple[int, int, int], ...]
    mask: Mask
    bits: float

    def words(self) -> str:
        """Name the background in words."""
        if self.kind == "alpha":
            return "transparent background"
        if self.kind == "none":
            return "no background"
        names = " and ".join("#%02x%02x%02x" % key for key in self.keys)
        return f"key colour{'s' if len(self.keys) > 1 else ''} {names}"


def packed_colours(pixels: Pixels) -> npt.NDArray[np.uint32]:
    """Give each pixel one number made of its four channels; all fully transparent pixels are equal.

    returns  (H, W) uint32
    """
    packed = np.ascontiguousarray(pixels).view(np.uint32)[..., 0]
    return np.where(pixels[..., 3] > 0, packed, np.uint32(0))


def key_mask(pixels: Pixels, keys: tuple[tuple[int, int, int], ...]) -> Mask:
    """Mark the pixels that are neither transparent nor of a key colour."""
    mask: Mask = pixels[..., 3] > 0
    packed = np.ascontiguousarray(pixels).view(np.uint32)[..., 0] & np.uint32(int_of((255, 255, 255), 0))
    for key in keys:
        mask = mask & (packed != np.uint32(int_of(key, 0)))
    return mask


def int_of(colour: tuple[int, int, int], alpha: int) -> int:
    """Pack a colour as this machine packs four bytes."""
    return int(np.array([*colour, alpha], np.uint8).view(np.uint32)[0])


def colour_of(packed: int) -> tuple[int, int, int]:
    """Unpack a colour."""
    red, green, blue, _ = np.array([packed], np.uint32).view(np.uint8).tolist()
    return red, green, blue


def commonest(packed: npt.NDArray[np.uint32]) -> tuple[int, float]:
    """Return the commonest value and its share."""
    values, counts = np.unique(packed, return_counts=True)
    best = int(np.argmax(counts))
    return int(values[best]), float(counts[best]) / packed.size


def grounds(pixels: Pixels, keys: tuple[tuple[int, int, int], ...] = ()) -> tuple[Ground, ...]:
    """List the readings of the background, likeliest first; at least one, at most three.

    pixels   (H, W, 4) uint8
    keys     key colours that the user names; then that reading is the only one
    """
    if keys:
        return (Ground(kind="key", keys=keys, mask=key_mask(pixels, keys), bits=0.0),)
    opaque: Mask = pixels[..., 3] > 0
    clear_share = 1.0 - float(np.count_nonzero(opaque)) / opaque.size
    if clear_share > 0.0:
        found = [Ground(kind="alpha", keys=(), mask=opaque, bits=0.0)]
        if clear_share > 0.02:
            return tuple(found)
    else:
        found = []
    step = max(1, int(np.sqrt(opaque.size / LOOK_PX)))
    packed = packed_colours(pixels[::step, ::step])
    rim = np.concatenate([packed[0], packed[-1], packed[:, 0], packed[:, -1]])
    for value, share in dict([commonest(rim), commonest(packed)]).items():
        whole = float(np.count_nonzero(packed == value)) / packed.size
        if value == 0 or whole < 0.02:
            continue
        key = colour_of(value)
        found.append(Ground(kind="key", keys=(key,), mask=key_mask(pixels, (key,)), bits=2.0 - 2.0 * share))
    found.append(Ground(kind="none", keys=(), mask=np.ones(opaque.shape, np.bool_), bits=3.0))
    return tuple(found)

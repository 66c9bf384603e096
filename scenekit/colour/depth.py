"""Colour depths: which colours a display mode can hold, and how its levels look as 8 bits."""

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from scenekit.errors import PaletteError

OPAQUE_ALPHA = 128
"""A pixel is drawn by the machine when its alpha is at least this."""

Bytes = NDArray[np.uint8]

LAYOUTS = ("8-8-8", "6-6-6", "5-6-5", "5-5-5", "4-4-4", "3-3-2")
"""Depths met in display modes; `dac-N` stands for N bits in each of the three channels."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Depth:
    """Bits of each colour channel of a display mode or of its palette.

    raises  PaletteError: a channel without bits or with more than 8
    """

    red_bits: int
    green_bits: int
    blue_bits: int

    def __post_init__(self) -> None:
        for name, bits in zip(("red", "green", "blue"), self.bits, strict=True):
            if not isinstance(bits, int) or not 1 <= bits <= 8:
                raise PaletteError(f"colour depth: {name} has {bits!r} bits; allowed 1 to 8")

    @property
    def bits(self) -> tuple[int, int, int]:
        """Return the bits of red, green and blue."""
        return self.red_bits, self.green_bits, self.blue_bits

    @property
    def name(self) -> str:
        """Return the depth as `parse` reads it, such as 5-6-5."""
        return "-".join(str(bits) for bits in self.bits)

    @property
    def colours(self) -> int:
        """Return how many different colours the depth holds."""
        return 1 << sum(self.bits)

    def levels(self, rgb: Bytes) -> Bytes:
        """Return the nearest level of each channel; ties take the lower.

        rgb      (..., 3) uint8 sRGB
        returns  (..., 3) uint8, each below 2 ** bits of its channel
        """
        return self._each(rgb, [nearest_levels(bits) for bits in self.bits])

    def expand(self, levels: Bytes) -> Bytes:
        """Return levels as 8-bit colour.

        levels   (..., 3) uint8
        returns  (..., 3) uint8 sRGB
        raises   PaletteError: a level the channel does not have
        """
        levels = np.asarray(levels, dtype=np.uint8)
        limits = np.array([(1 << bits) - 1 for bits in self.bits])
        if levels.size and np.any(levels > limits):
            raise PaletteError(f"colour depth {self.name}: a level is above its channel's highest")
        return self._each(levels, [expanded_levels(bits) for bits in self.bits])

    def round_trip(self, rgb: Bytes) -> Bytes:
        """Return the colours as the depth shows them.

        rgb      (..., 3) uint8 sRGB
        returns  (..., 3) uint8 sRGB, a new array
        """
        if self.bits == (8, 8, 8):
            return np.array(rgb, dtype=np.uint8)
        return self._each(rgb, [expanded_levels(bits)[nearest_levels(bits)] for bits in self.bits])

    def words(self, rgb: Bytes) -> NDArray[np.uint32]:
        """Return each colour as one number, red in the highest bits.

        rgb      (..., 3) uint8 sRGB
        returns  (...) uint32
        source   Linux drm_fourcc.h for 5-6-5, 5-5-5, 4-4-4 and 3-3-2
        """
        levels = self.levels(rgb).astype(np.uint32)
        red, green, blue = levels[..., 0], levels[..., 1], levels[..., 2]
        packed = (red << (self.green_bits + self.blue_bits)) | (green << self.blue_bits) | blue
        return np.asarray(packed, dtype=np.uint32)

    def _each(self, values: Bytes, tables: list[Bytes]) -> Bytes:
        values = np.asarray(values, dtype=np.uint8)
        out = np.empty_like(values)
        for channel, table in enumerate(tables):
            out[..., channel] = table[values[..., channel]]
        return out


def parse(text: str) -> Depth:
    """Read a depth written as bits of red, green and blue, or as dac-N.

    text    such as 5-6-5 or dac-6
    raises  PaletteError: anything else
    """
    parts = text.strip().lower().split("-")
    if parts[0] == "dac" and len(parts) == 2:
        parts = [parts[1]] * 3
    if len(parts) != 3 or not all(part.isascii() and part.isdigit() and len(part) == 1 for part in parts):
        raise PaletteError(f"colour depth: got {text!r}; allowed {', '.join(LAYOUTS)} or dac-1 to dac-8")
    red, green, blue = (int(part) for part in parts)
    return Depth(red_bits=red, green_bits=green, blue_bits=blue)


def expanded_levels(bits: int) -> Bytes:
    """Return the 8-bit value of every level: floor(level * 255 / (2 ** bits - 1) + 0.5).

    source  PNG specification, sample depth scaling; values in tests/reference/bit_expand.csv
    """
    return _tables(bits)[0]


def nearest_levels(bits: int) -> Bytes:
    """Return the nearest level of every 8-bit value; ties take the lower level."""
    return _tables(bits)[1]


def replicated_levels(bits: int) -> Bytes:
    """Return the 8-bit value of every level as hardware makes it that repeats the top bits.

    source  PNG specification, sample depth scaling; values in tests/reference/bit_expand.csv
    """
    levels = np.arange(1 << bits, dtype=np.uint32)
    value = np.zeros_like(levels)
    for shift in range(8 - bits, -bits, -bits):
        value |= (levels << shift) if shift >= 0 else (levels >> -shift)
    return (value & 255).astype(np.uint8)


@cache
def _tables(bits: int) -> tuple[Bytes, Bytes]:
    highest = (1 << bits) - 1
    levels = np.arange(highest + 1, dtype=np.int64)
    expanded = (levels * 510 + highest) // (2 * highest)
    apart = np.abs(np.arange(256)[:, None] - expanded[None, :])
    tables = expanded.astype(np.uint8), apart.argmin(axis=1).astype(np.uint8)
    for table in tables:
        table.flags.writeable = False
    return tables

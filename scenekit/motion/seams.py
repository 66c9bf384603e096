"""Whether a wrapping picture shows where it wraps, and by how much narrower it would not."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scenekit.model.arrays import Pixels, freeze

LOUD = 2.0
"""A seam whose step is so many times the picture's usual step can be seen (from memory; a rule of thumb)."""

MARK: tuple[int, int, int, int] = (213, 94, 0, 255)


@dataclass(frozen=True, slots=True, kw_only=True)
class Seam:
    """How a picture meets itself where it wraps.

    step     mean difference between the two edge lines, 0 to 255
    usual    the picture's own usual difference between neighbouring lines: 9 of 10 are smaller
    figure   step / usual, at least 0; above LOUD the seam can be seen
    """

    step: float
    usual: float

    @property
    def figure(self) -> float:
        """How loud the seam is, in the picture's own terms."""
        return self.step / max(self.usual, 1.0)

    @property
    def visible(self) -> bool:
        """Whether an eye would find the seam."""
        return self.figure > LOUD


@dataclass(frozen=True, slots=True, kw_only=True)
class Trim:
    """A narrower picture whose seam is quieter: so many lines less at its far edge."""

    lines: int
    seam: Seam


def check_seam(pixels: Pixels, axis: int = 0) -> Seam:
    """Return the seam of a picture that wraps sideways (axis 0) or up and down (axis 1).

    pixels   (H, W, 4) uint8 sRGB; colours under no alpha do not count
    """
    lines = _lines(pixels, axis)
    return _seam(lines, _usual(lines))


def quieter_trims(pixels: Pixels, axis: int = 0, most_lines: int = 64, most: int = 3) -> tuple[Trim, ...]:
    """Return how many lines less would make the seam quieter, fewest first, each quieter than the last."""
    lines = _lines(pixels, axis)
    usual = _usual(lines)
    best = _seam(lines, usual)
    found: list[Trim] = []
    for less in range(1, min(most_lines, len(lines) - 2) + 1):
        seam = _seam(lines[: len(lines) - less], usual)
        if seam.step < best.step:
            best = seam
            found.append(Trim(lines=less, seam=seam))
    return tuple(found[-most:])


def seam_picture(pixels: Pixels, axis: int = 0) -> Pixels:
    """Return the picture rolled by half, its seam in the middle between two short marks at the edges."""
    along = 1 - axis
    half = pixels.shape[along] // 2
    rolled = np.roll(pixels, half, axis=along).copy()
    across = rolled if axis == 0 else rolled.swapaxes(0, 1)
    tick = min(6, across.shape[0])
    for edge in (slice(0, tick), slice(across.shape[0] - tick, across.shape[0])):
        across[edge, half : half + 1] = MARK
    return freeze(rolled)


def _lines(pixels: Pixels, axis: int) -> NDArray[np.int32]:
    """(lines, pixels of a line, 4) with colours weighted by alpha, lines along the wrapping axis."""
    values = pixels.astype(np.int32)
    values[..., :3] = (values[..., :3] * values[..., 3:] + 127) // 255
    return values.swapaxes(0, 1) if axis == 0 else values


def _usual(lines: NDArray[np.int32]) -> float:
    if len(lines) < 2:
        return 0.0
    steps = np.abs(np.diff(lines, axis=0)).mean(axis=(1, 2))
    return float(np.sort(steps)[(len(steps) - 1) * 9 // 10])


def _seam(lines: NDArray[np.int32], usual: float) -> Seam:
    return Seam(step=float(np.abs(lines[0] - lines[-1]).mean()), usual=usual)

"""What ten degrees of a viewer's eye cover on the screen."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scenekit.errors import MachineError

TEN_DEGREES_WIDE = 0.1745
"""Width of the 10 degree field for each unit of distance; WCAG 2.2, understanding 2.3.1."""

TEN_DEGREES_HIGH = 0.1309
"""Height of the 10 degree field for each unit of distance; WCAG 2.2, understanding 2.3.1."""

Box = tuple[int, int, int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Viewing:
    """How large the whole picture is on the screen and how far away the eyes are.

    raises  MachineError: a length that is not above zero
    """

    width_mm: float
    height_mm: float
    distance_mm: float

    def __post_init__(self) -> None:
        for name in ("width_mm", "height_mm", "distance_mm"):
            value = getattr(self, name)
            if not 0 < value < 1e6:
                raise MachineError(f"viewing: {name} is {value!r}; allowed above 0 and below 1000000")


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """The 10 degree field in pixels of the picture; flashes may cover a quarter of it at most."""

    width_px: float
    height_px: float

    @property
    def limit_px(self) -> float:
        """Return the largest area that may flash, in pixels."""
        return self.width_px * self.height_px / 4


def field_of(width_px: int, height_px: int, viewing: Viewing | None = None) -> Field:
    """Return the 10 degree field of a picture.

    viewing  None: size unknown; a picture that fills a 1024 x 768 screen, where it is 341 x 256
    source   WCAG 2.2, general flash and red flash thresholds
    """
    if viewing is None:
        return Field(width_px=width_px * 341 / 1024, height_px=height_px * 256 / 768)
    return Field(
        width_px=viewing.distance_mm * TEN_DEGREES_WIDE * width_px / viewing.width_mm,
        height_px=viewing.distance_mm * TEN_DEGREES_HIGH * height_px / viewing.height_mm,
    )


def largest_share(flashing: NDArray[np.bool_], field: Field) -> tuple[int, Box]:
    """Return the most flashing pixels that any field on the picture holds, and their bounding box.

    flashing  (H, W) bool
    """
    height, width = flashing.shape
    wide, high = min(width, round(field.width_px)), min(height, round(field.height_px))
    wide, high = max(wide, 1), max(high, 1)
    sums = np.zeros((height + 1, width + 1), dtype=np.int32)
    np.cumsum(flashing, axis=0, out=sums[1:, 1:])
    np.cumsum(sums[1:, 1:], axis=1, out=sums[1:, 1:])
    held = sums[high:, wide:] - sums[:-high, wide:] - sums[high:, :-wide] + sums[:-high, :-wide]
    place = int(held.argmax())
    top, left = divmod(place, held.shape[1])
    area = int(held[top, left])
    if not area:
        return 0, (0, 0, 0, 0)
    rows, columns = np.nonzero(flashing[top : top + high, left : left + wide])
    x, y = int(columns.min()), int(rows.min())
    return area, (left + x, top + y, int(columns.max()) - x + 1, int(rows.max()) - y + 1)

"""Smooth shapes that lamps and buttons are drawn with."""

import numpy as np
from numpy.typing import NDArray

LAMPS = ("good", "note", "alarm", "empty", "busy")


def shape_mask(name: str, size: int) -> NDArray[np.uint8]:
    """Return a smooth mask of a shape, (size, size) uint8."""
    fine = 8
    steps = (np.arange(size * fine) + 0.5) / (size * fine) * 2 - 1
    x, y = np.meshgrid(steps, steps)
    radius = np.hypot(x, y)
    inside = {
        "good": lambda: radius < 0.86,
        "note": lambda: (y < 0.72) & (abs(x) < (y + 0.95) * 0.56),
        "alarm": lambda: (abs(x) < 0.8) & (abs(y) < 0.8) & ~((abs(x) < 0.16) & (y < 0.28) & (y > -0.6))
        & ~((abs(x) < 0.16) & (y > 0.4) & (y < 0.64)),
        "empty": lambda: (radius < 0.86) & (radius > 0.62),
        "busy": lambda: (abs(y) < 0.22) & (abs((x * 1.5) % 1 - 0.5) < 0.3) & (abs(x) < 1),
        "down": lambda: (abs(y) < 0.75) & (abs(abs(x) - (0.45 - y * 0.75)) < 0.24) & (y < 0.6) & (y > -0.6),
        "play": lambda: (abs(y) < (0.85 - (x + 0.85) * 0.5)) & (x > -0.75),
        "pause": lambda: (abs(y) < 0.8) & (abs(abs(x) - 0.45) < 0.24),
        "right": lambda: (abs(y) < (0.7 - x) * 0.62) & (x > -0.55) & (x < 0.7),
    }[name]()  # fmt: skip
    mask = np.asarray(inside, dtype=float).reshape(size, fine, size, fine).mean(axis=(1, 3)) * 255
    made: NDArray[np.uint8] = np.rint(mask).astype(np.uint8)
    return made

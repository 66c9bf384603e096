"""Times the flash analysis of a ten-second scene of 640 x 400 px beside a plain pass over the same frames.

    python tools/bench/flash.py

The reference takes every frame, finds the pixels that changed and turns the frame into relative luminance:
the least that any analysis does.
"""

import time

import numpy as np

from scenekit.safety.flash import analyse
from scenekit.safety.transitions import changed_pixels, luminance_of, planes_of

TICKS = 600


class Scene:
    """Two planes that scroll at different speeds, and a lantern that passes in front."""

    def __init__(self) -> None:
        random = np.random.default_rng(8)
        far = random.integers(20, 90, (50, 160, 3), dtype=np.uint8)
        quay = random.integers(20, 200, (10, 160, 3), dtype=np.uint8)
        self.far = far.repeat(8, axis=0).repeat(8, axis=1)
        self.quay = quay.repeat(16, axis=0).repeat(8, axis=1)

    def __len__(self) -> int:
        """Return the number of ticks."""
        return TICKS

    def __getitem__(self, tick: int) -> np.ndarray:
        """Return the picture of a tick."""
        frame = self.far[:, tick // 2 % 640 :][:, :640].copy()
        frame[240:] = self.quay[:, tick % 640 :][:, :640]
        frame[100:132, tick : tick + 24] = (250, 180, 90)
        return frame


def reference(scene: Scene) -> int:
    """Return how many pixels changed, with every frame turned into luminance on the way."""
    before, changed = planes_of(scene[0]), 0
    for tick in range(1, TICKS):
        planes = planes_of(scene[tick])
        changed += int(np.count_nonzero(changed_pixels(planes, before)))
        luminance_of(planes)
        before = planes
    return changed


def main() -> None:
    """Print seconds and ratios."""
    scene = Scene()
    start = time.process_time()
    reference(scene)
    plain_s = time.process_time() - start
    print(f"plain pass over {TICKS} frames: {plain_s:.2f} s")
    for looping in (False, True):
        start = time.process_time()
        analyse(scene, refresh_hz=60, looping=looping)
        seconds = time.process_time() - start
        title = "the same as a loop" if looping else "flash analysis"
        print(f"{title}: {seconds:.2f} s, {seconds / plain_s:.1f} times the plain pass")


if __name__ == "__main__":
    main()

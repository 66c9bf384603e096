"""Moving stripes: what is noted and what is not."""

import numpy as np
import pytest

from scenekit.safety.stripes import moving_stripes, stripe_findings


def bars(period_px: int, pairs: int, speed_px: int, ticks: int, low: int = 20, high: int = 220) -> list:
    """Return upright bars over the left part of a dark picture, moving inside of it."""
    frames = []
    for tick in range(ticks):
        frame = np.full((100, 160, 3), low, dtype=np.uint8)
        x = np.arange(min(160, period_px * pairs))
        frame[:, x[(x + speed_px * tick) % period_px < period_px // 2]] = high
        frames.append(frame)
    return frames


def test_moving_bars_are_noted():
    (stripes,) = moving_stripes(bars(10, 12, 1, 90), 60)
    assert stripes.upright
    assert stripes.pairs >= 10
    assert stripes.share == pytest.approx(0.7, abs=0.1)
    assert stripes.first_tick == 0
    (finding,) = stripe_findings((stripes,), "scene pier")
    assert (finding.level, finding.code) == ("note", "moving-stripes")
    assert "upright" in finding.text


def test_lying_bars_are_noted():
    frames = [np.ascontiguousarray(frame.transpose(1, 0, 2)) for frame in bars(10, 12, 1, 90)]
    (stripes,) = moving_stripes(frames, 60)
    assert not stripes.upright


@pytest.mark.parametrize(
    "frames",
    [
        bars(10, 12, 0, 90),  # they stand still
        bars(10, 12, 1, 20),  # a third of a second
        bars(30, 5, 1, 90),  # five pairs
        bars(4, 9, 1, 90),  # a fifth of the picture
        bars(10, 12, 1, 90, 100, 120),  # little contrast
        bars(10, 12, 1, 90, 0, 110),  # dark
    ],
)
def test_others_are_not(frames):
    assert moving_stripes(frames, 60) == ()


def test_uneven_detail_is_not():
    rng = np.random.default_rng(1)
    wall = np.repeat(rng.integers(0, 256, (1, 200, 1), dtype=np.uint8), 100, axis=0).repeat(3, axis=2)
    frames = [np.roll(wall, tick, axis=1)[:, :160] for tick in range(90)]
    assert moving_stripes(frames, 60) == ()

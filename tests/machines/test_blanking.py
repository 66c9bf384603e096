"""What fits into blanking, worked by hand."""

from dataclasses import replace
from fractions import Fraction

import pytest

from scenekit.machines.blanking import (
    ENDLESS,
    bytes_in_blanking,
    calls_in_blanking,
    exact,
    pixels_in_blanking,
    quiet_us,
)
from scenekit.machines.cost import Cost
from scenekit.machines.modes import load_timing

PRICE = Cost(operation="palette", per_call_us=9, provenance="estimated: by hand")
TIMING = load_timing("vga-640x400-70")


def test_palette_entries_by_hand() -> None:
    """49 lines of 800 px at 25.175 MHz are 1557.100 us (VGA row of the reference table): 173 of 9 us."""
    assert float(quiet_us(TIMING)) == pytest.approx(1557.100298, abs=1e-6)
    assert calls_in_blanking(TIMING, PRICE) == 173


def test_border_lines_add_time() -> None:
    small = load_timing("dmt-04").showing(200, 2)
    assert calls_in_blanking(small, PRICE, borders=False) == 158
    assert calls_in_blanking(small, PRICE) == 441  # 125 lines of 31.7776 us are 3972.2 us


def test_pixels_and_bytes_by_hand() -> None:
    copy = Cost(
        operation="blit", per_call_us=57.1, per_row_us=1, per_pixel_us=0.5, provenance="estimated: by hand"
    )
    # 1500.0003 us for pixels that cost 0.5 + 1 / 16 us each
    assert pixels_in_blanking(TIMING, copy, 16) == 2666
    assert bytes_in_blanking(TIMING, 1_000_000) == 1557
    with pytest.raises(ValueError, match="above 0"):
        bytes_in_blanking(TIMING, 0)


def test_unknown_stays_unknown_and_nothing_is_endless() -> None:
    assert calls_in_blanking(TIMING, None) is None
    assert pixels_in_blanking(TIMING, None, 8) is None
    free = replace(PRICE, per_call_us=0.0, per_pixel_us=0.1)
    assert calls_in_blanking(TIMING, free) == ENDLESS
    assert pixels_in_blanking(TIMING, replace(PRICE, per_call_us=2000.0), 8) == 0


def test_digits_mean_what_they_say() -> None:
    assert exact(0.1) == Fraction(1, 10)
    assert exact(1e-07) == Fraction(1, 10**7)


def test_call_that_just_fits_or_just_does_not() -> None:
    whole = float(quiet_us(load_timing("cea-4")))  # 30 lines of 22.2222 us: 666.6667 us
    assert whole == pytest.approx(666.6666667)
    timing = load_timing("dmt-06")  # 20 lines of 800/30 us: 533.3333 us
    assert calls_in_blanking(timing, replace(PRICE, per_call_us=533.3333333)) == 1
    assert calls_in_blanking(timing, replace(PRICE, per_call_us=533.3333334)) == 0
    short = replace(PRICE, per_call_us=533.0, per_pixel_us=0.1)
    assert pixels_in_blanking(timing, short, 8) == 3
    assert bytes_in_blanking(timing, 3_000_000) == 1600

"""Computes display timings of any size by the published VESA formulas, in exact fractions."""

from fractions import Fraction
from math import floor

from scenekit.machines.timing import Timing

CELL_PX = 8
CVT_CLOCK_STEP_HZ = 250_000
CVT_FRONT_LINES = 3
CVT_LEAST_BACK_LINES = 6
LEAST_BLANK_US = 550
"""Least time of vertical sync and back porch, in both formulas."""

CVT_REDUCED_BLANK_US = 460
CVT_REDUCED_H_PX = (48, 32, 80)
GTF_FRONT_LINES = 1
GTF_SYNC_LINES = 3
BLANK_OFFSET = 30
BLANK_GRADIENT = 300
"""Horizontal blanking in percent is BLANK_OFFSET - BLANK_GRADIENT x line time in milliseconds."""

CVT_SYNC_LINES = ((4, 3, 4), (16, 9, 5), (16, 10, 6), (5, 4, 7), (15, 9, 7))
"""Vertical sync lines by aspect; 10 for any other."""


def cvt(width_px: int, height_px: int, rate_hz: Fraction | int, *, reduced: bool = False) -> Timing:
    """Return the Coordinated Video Timings signal of a size and rate (progressive, no margins).

    reduced  reduced blanking, version 1
    raises   ValueError: the rate leaves no time for blanking, or the size is not positive
    source   VESA CVT 1.1; checked against 261 + 58 rows of tests/reference/cvt_gtf_modelines.csv
    """
    rate = _checked(width_px, height_px, rate_hz)
    width = width_px // CELL_PX * CELL_PX
    sync_lines = _cvt_sync_lines(width_px, height_px)
    if reduced:
        return _cvt_reduced(width, height_px, rate, sync_lines)
    line_us = _positive((Fraction(1_000_000) / rate - LEAST_BLANK_US) / (height_px + CVT_FRONT_LINES), rate)
    sync_and_back = max(floor(LEAST_BLANK_US / line_us) + 1, sync_lines + CVT_LEAST_BACK_LINES)
    duty = max(BLANK_OFFSET - BLANK_GRADIENT * line_us / 1000, Fraction(20))
    blank = floor(width * duty / (100 - duty) / (2 * CELL_PX)) * 2 * CELL_PX
    total = width + blank
    clock_hz = floor(total * 1_000_000 / line_us / CVT_CLOCK_STEP_HZ) * CVT_CLOCK_STEP_HZ
    sync = floor(Fraction(8, 100) * total / CELL_PX) * CELL_PX
    return Timing(
        clock_hz=_positive(Fraction(clock_hz), rate),
        h_active_px=width,
        h_front_px=blank // 2 - sync,
        h_sync_px=sync,
        h_back_px=blank - blank // 2,
        v_active_lines=height_px,
        v_front_lines=CVT_FRONT_LINES,
        v_sync_lines=sync_lines,
        v_back_lines=sync_and_back - sync_lines,
        v_positive=True,
    )


def _cvt_reduced(width: int, height_px: int, rate: Fraction, sync_lines: int) -> Timing:
    line_us = _positive((Fraction(1_000_000) / rate - CVT_REDUCED_BLANK_US) / height_px, rate)
    least = CVT_FRONT_LINES + sync_lines + CVT_LEAST_BACK_LINES
    blank_lines = max(floor(CVT_REDUCED_BLANK_US / line_us) + 1, least)
    front, sync, back = CVT_REDUCED_H_PX
    wanted_hz = rate * (height_px + blank_lines) * (width + front + sync + back)
    return Timing(
        clock_hz=_positive(Fraction(floor(wanted_hz / CVT_CLOCK_STEP_HZ) * CVT_CLOCK_STEP_HZ), rate),
        h_active_px=width,
        h_front_px=front,
        h_sync_px=sync,
        h_back_px=back,
        v_active_lines=height_px,
        v_front_lines=CVT_FRONT_LINES,
        v_sync_lines=sync_lines,
        v_back_lines=blank_lines - CVT_FRONT_LINES - sync_lines,
        h_positive=True,
    )


def gtf(width_px: int, height_px: int, rate_hz: Fraction | int) -> Timing:
    """Return the Generalized Timing Formula signal of a size and rate (progressive, no margins).

    At small sizes the formula puts sync before the end of the line: see Timing.fault.
    raises   ValueError: the rate leaves no time for blanking, or the size is not positive
    source   VESA GTF 1.1; checked against 261 rows of tests/reference/cvt_gtf_modelines.csv
    """
    rate = _checked(width_px, height_px, rate_hz)
    width = round_half_up(Fraction(width_px, CELL_PX)) * CELL_PX
    guess_us = _positive((Fraction(1_000_000) / rate - LEAST_BLANK_US) / (height_px + GTF_FRONT_LINES), rate)
    sync_and_back = round_half_up(LEAST_BLANK_US / guess_us)
    lines = height_px + sync_and_back + GTF_FRONT_LINES
    line_us = Fraction(1_000_000) / (rate * lines)
    duty = BLANK_OFFSET - BLANK_GRADIENT * line_us / 1000
    blank = round_half_up(width * duty / (100 - duty) / (2 * CELL_PX)) * 2 * CELL_PX
    total = _positive(Fraction(width + blank), rate)
    sync = round_half_up(Fraction(8, 100) * total / CELL_PX) * CELL_PX
    return Timing(
        clock_hz=total * 1_000_000 / line_us,
        h_active_px=width,
        h_front_px=blank // 2 - sync,
        h_sync_px=sync,
        h_back_px=blank - blank // 2,
        v_active_lines=height_px,
        v_front_lines=GTF_FRONT_LINES,
        v_sync_lines=GTF_SYNC_LINES,
        v_back_lines=sync_and_back - GTF_SYNC_LINES,
        v_positive=True,
    )


def round_half_up(value: Fraction) -> int:
    """Return the nearest whole number; a half goes up."""
    return floor(value + Fraction(1, 2))


def _cvt_sync_lines(width_px: int, height_px: int) -> int:
    for across, down, lines in CVT_SYNC_LINES:
        if width_px * down == height_px * across:
            return lines
    return 10


def _checked(width_px: int, height_px: int, rate_hz: Fraction | int) -> Fraction:
    if width_px < CELL_PX or height_px < 1 or rate_hz <= 0:
        raise ValueError(f"no signal of {width_px} x {height_px} px at {rate_hz} hz")
    return Fraction(rate_hz)


def _positive(value: Fraction, rate: Fraction) -> Fraction:
    if value <= 0:
        raise ValueError(f"{float(rate):g} hz leaves no time for blanking at this size")
    return value

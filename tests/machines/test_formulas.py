"""The published formulas against 580 computed rows and the DMT rows that follow them."""

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from scenekit.machines.formulas import cvt, gtf
from scenekit.machines.modes import timings
from scenekit.machines.timing import Timing

REFERENCE = Path(__file__).parents[1] / "reference"
LINES = (REFERENCE / "cvt_gtf_modelines.csv").read_text(encoding="utf-8").splitlines()
ROWS = list(csv.DictReader(line for line in LINES if not line.startswith("#")))


def computed(row: dict[str, str]) -> Timing:
    width, height, rate = int(row["w"]), int(row["h"]), Fraction(row["req_hz"])
    if row["formula"] == "GTF":
        return gtf(width, height, rate)
    return cvt(width, height, rate, reduced=row["formula"] == "CVT-RB")


def test_number_of_rows() -> None:
    counts = {name: sum(row["formula"] == name for row in ROWS) for name in ("CVT", "CVT-RB", "GTF")}
    assert counts == {"CVT": 261, "CVT-RB": 58, "GTF": 261}


@pytest.mark.parametrize("formula", ["CVT", "CVT-RB", "GTF"])
def test_every_row_of_a_formula(formula: str) -> None:
    for row in ROWS:
        if row["formula"] != formula:
            continue
        timing = computed(row)
        where = f"{formula} {row['w']}x{row['h']}@{row['req_hz']}"
        h_start = timing.h_active_px + timing.h_front_px
        v_start = timing.v_active_lines + timing.v_front_lines
        h = (timing.h_active_px, h_start, h_start + timing.h_sync_px, timing.h_total_px)
        v = (timing.v_active_lines, v_start, v_start + timing.v_sync_lines, timing.v_total_lines)
        assert h == tuple(int(row[key]) for key in ("h_active", "h_sync_start", "h_sync_end", "h_total")), (
            where
        )
        assert v == tuple(int(row[key]) for key in ("v_active", "v_sync_start", "v_sync_end", "v_total")), (
            where
        )
        sync = f"{'+' if timing.h_positive else '-'}hsync {'+' if timing.v_positive else '-'}vsync"
        assert sync == row["polarity"], where
        assert f"{float(timing.clock_hz / 1_000_000):.6f}" == row["clock_mhz"], where
        assert f"{float(timing.line_hz / 1000):.6f}" == row["hfreq_khz"], where
        assert f"{float(timing.refresh_hz):.6f}" == row["vrefresh_hz"], where


def test_the_43_dmt_rows_that_follow_the_formula() -> None:
    """source: 43 DMT rows are CVT or reduced CVT; found again here by trying every row."""
    following = 0
    for timing in timings().values():
        if not timing.name.startswith("dmt-") or timing.interlaced:
            continue
        rates = (50, 60, 65, 70, 75, 85, 120)
        shapes = [
            cvt(timing.h_active_px, timing.v_active_lines, rate, reduced=reduced)
            for rate in rates
            for reduced in (False, True)
        ]
        following += any(_same(timing, shape) for shape in shapes)
    assert following == 43


def _same(one: Timing, other: Timing) -> bool:
    parts = [
        "clock_hz",
        "h_active_px",
        "h_front_px",
        "h_sync_px",
        "h_back_px",
        "v_active_lines",
        "v_front_lines",
        "v_sync_lines",
        "v_back_lines",
        "h_positive",
        "v_positive",
    ]
    return all(getattr(one, part) == getattr(other, part) for part in parts)


def test_worked_example_of_cvt() -> None:
    """source: 640x480 at 60 Hz by VESA CVT 1.1 gives 23.75 MHz, 800 x 500 (edid-decode --cvt)."""
    timing = cvt(640, 480, 60)
    assert (timing.clock_hz, timing.h_total_px, timing.v_total_lines) == (23_750_000, 800, 500)
    assert timing.refresh_hz == Fraction(475, 8)


def test_small_size_is_reported_as_faulty() -> None:
    fault = gtf(320, 200, 60).fault()
    assert fault is not None
    assert "horizontal front porch" in fault
    assert gtf(640, 400, 70).fault() is None


@pytest.mark.parametrize("make", [cvt, gtf])
@pytest.mark.parametrize(
    ("width", "height", "rate"), [(0, 480, 60), (640, 0, 60), (640, 480, 0), (640, 480, 2000)]
)
def test_impossible_request(make, width: int, height: int, rate: int) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(ValueError):
        make(width, height, rate)


def test_gtf_clock_is_exact() -> None:
    """source: the exact value of the worked 640x480 at 60 Hz example is 23.856 MHz, and 60 Hz is kept."""
    timing = gtf(640, 480, 60)
    assert (timing.clock_hz, timing.refresh_hz) == (23_856_000, 60)

"""Timings against the published rows, and what a picture inside a signal changes."""

import csv
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from scenekit.machines.modes import load_timing, timings
from scenekit.machines.timing import Timing

REFERENCE = Path(__file__).parents[1] / "reference"


def rows(name: str) -> list[dict[str, str]]:
    lines = (REFERENCE / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


DMT = rows("dmt_timings.csv")
VGA_CEA = rows("vga_cea_timings.csv")
NAMES = [
    "vga-640x350-70",
    "vga-640x400-70",
    "vga-720x400-70",
    "edid-720x400-70",
    "edid-720x400-88",
    "vga-640x480-59.94",
    "vga-640x480-60",
    "vga-640x480-59.94-exact",
    "cea-1",
    "cea-2",
    "cea-3",
    "cea-4",
    "cea-4-slow",
    "cea-16",
    "cea-16-slow",
    "cea-17",
    "cea-19",
    "cea-31",
    "cea-32",
    "cea-32-slow",
    "cea-33",
    "cea-34",
    "cea-34-slow",
    "cea-60",
    "cea-60-slow",
    "cea-61",
    "cea-62",
    "cea-62-slow",
]


def assert_row(timing: Timing, row: dict[str, str], clock_hz: Fraction) -> None:
    """Every column of a row; the times of the table are those of a frame, ours those of a refresh."""
    assert timing.clock_hz == clock_hz
    horizontal = (
        timing.h_active_px,
        timing.h_front_px,
        timing.h_sync_px,
        timing.h_back_px,
        timing.h_total_px,
    )
    assert horizontal == tuple(int(row[f"h_{part}"]) for part in ("active", "front", "sync", "back", "total"))
    vertical = (
        timing.v_active_lines,
        timing.v_front_lines,
        timing.v_sync_lines,
        timing.v_back_lines,
        timing.v_total_lines,
    )
    assert vertical == tuple(int(row[f"v_{part}"]) for part in ("active", "front", "sync", "back", "total"))
    assert (timing.h_positive, timing.v_positive) == (row["hpol"] == "+", row["vpol"] == "+")
    assert timing.refresh_hz == Fraction(row["refresh_exact"])
    frame = timing.fields
    assert f"{float(timing.refresh_hz):.9f}" == row["refresh_hz"]
    assert f"{float(timing.line_hz / 1000):.6f}" == row["hfreq_khz"]
    assert f"{float(timing.line_us):.9f}" == row["line_us"]
    assert f"{float(timing.period_ms * frame):.9f}" == row["frame_ms"]
    assert f"{float(timing.visible_ms * frame):.9f}" == row["v_visible_ms"]
    assert f"{float(timing.blank_ms * frame):.9f}" == row["v_blank_ms"]
    assert f"{float(timing.blank_ms / timing.period_ms):.9f}" == row["v_blank_fraction"]


def test_there_are_88_dmt_rows() -> None:
    assert len(DMT) == 88
    assert sum(name.startswith("dmt-") for name in timings()) == 88


@pytest.mark.parametrize("row", DMT, ids=lambda row: row["dmt_id"])
def test_dmt_row(row: dict[str, str]) -> None:
    timing = load_timing("dmt-" + row["dmt_id"].removeprefix("0x"))
    assert timing.interlaced == (row["interlaced"] == "1")
    assert_row(timing, row, Fraction(int(row["clock_khz"]) * 1000))


@pytest.mark.parametrize(("name", "row"), list(zip(NAMES, VGA_CEA, strict=True)), ids=NAMES)
def test_vga_and_cea_row(name: str, row: dict[str, str]) -> None:
    assert_row(load_timing(name), row, Fraction(row["clock_hz"]))


def test_every_shipped_timing_is_checked_and_sound() -> None:
    assert len(timings()) == 88 + len(NAMES)
    for name, timing in timings().items():
        assert timing.fault() is None
        assert load_timing(name) == timing


def test_double_scanned_picture_keeps_the_signal() -> None:
    signal = load_timing("vga-640x400-70")
    picture = signal.showing(200, 2)
    assert picture.double_scan
    assert not signal.double_scan
    assert picture.picture_rows == 200
    assert (picture.v_active_lines, picture.picture_lines, picture.border_lines) == (400, 400, 0)
    assert (picture.refresh_hz, picture.visible_ms) == (signal.refresh_hz, signal.visible_ms)
    assert picture.undrawn_ms == signal.blank_ms


def test_border_lines_count_as_undrawn_time() -> None:
    signal = load_timing("dmt-04")
    picture = signal.showing(201, 2)
    assert (picture.border_top_lines, picture.border_bottom_lines, picture.picture_lines) == (39, 39, 402)
    assert picture.picture_ms + picture.undrawn_ms == picture.period_ms
    assert picture.undrawn_ms - picture.blank_ms == 78 * signal.line_us / 1000
    odd = signal.showing(399, 1)
    assert (odd.border_top_lines, odd.border_bottom_lines) == (40, 41)


def test_interlaced_refresh_is_a_field() -> None:
    timing = load_timing("dmt-0f")
    assert timing.interlaced
    assert float(timing.refresh_hz) == pytest.approx(86.957532188)
    assert timing.visible_ms + timing.blank_ms == timing.period_ms


@pytest.mark.parametrize(("height", "lines"), [(401, 1), (201, 2), (0, 1), (100, 0)])
def test_picture_that_does_not_fit(height: int, lines: int) -> None:
    with pytest.raises(ValueError, match="do not fit"):
        load_timing("vga-640x400-70").showing(height, lines)


@pytest.mark.parametrize(
    "change",
    [
        {"clock_hz": Fraction(0)},
        {"clock_hz": Fraction(10**12)},
        {"h_active_px": 0},
        {"v_back_lines": 70000},
        {"v_active_lines": -1},
        {"border_top_lines": 400},
        {"border_bottom_lines": -1},
        {"lines_per_row": 0},
    ],
)
def test_impossible_timing(change: dict[str, int]) -> None:
    sound = {
        "clock_hz": Fraction(25175000),
        "h_active_px": 640,
        "h_front_px": 16,
        "h_sync_px": 96,
        "h_back_px": 48,
        "v_active_lines": 400,
        "v_front_lines": 12,
        "v_sync_lines": 2,
        "v_back_lines": 35,
    }
    Timing(**sound)  # type: ignore[arg-type]
    with pytest.raises(ValueError):
        Timing(**(sound | change))  # type: ignore[arg-type]


def test_parts_of_a_line_by_hand() -> None:
    """160 of 800 px at 25.175 MHz are 6.355511 us; 640 px take the rest of the line."""
    timing = load_timing("vga-640x400-70")
    assert timing.line_blank_us == Fraction(160_000_000, 25_175_000)
    assert timing.line_us - timing.line_blank_us == Fraction(640_000_000, 25_175_000)


def test_signal_without_room_is_faulty_part_by_part() -> None:
    sound = load_timing("vga-640x400-70")
    for part in ("h_front_px", "h_back_px", "v_front_lines", "v_back_lines"):
        assert replace(sound, **{part: 0}).fault() is None
        assert "must be 0 or more" in str(replace(sound, **{part: -1}).fault())
    for part in ("h_sync_px", "v_sync_lines"):
        assert "must be 1 or more" in str(replace(sound, **{part: 0}).fault())

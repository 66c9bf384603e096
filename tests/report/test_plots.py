"""Budget pictures: the right words, the right amounts, and no crash on odd data."""

from itertools import pairwise
from typing import Any

import numpy as np
import pytest

from scenekit.machines.modes import load_timing
from scenekit.report.paper import (
    ALARM,
    OPERATION_COLOURS,
    PANEL,
    SLATE,
    Colour,
    nice_step,
    plain_bytes,
    plain_ms,
)
from scenekit.report.plots import budget_plot, raster_ruler, verdict
from scenekit.report.ruler import COLUMN_PX, TOP_PX
from scenekit.report.stretches import label_texts, spread, stretches_of

TIMING = load_timing("vga-640x400-70")
PERIOD_MS = float(TIMING.period_ms)


def cost(name: str, operation: str, ms: float | None) -> dict[str, Any]:
    return {"name": name, "operation": operation, "calls": 1, "pixels": 1, "ms": ms}


def budget(*costs: dict[str, Any], used: int = 40_000, target_hz: float = 70.0863) -> dict[str, Any]:
    known = [item["ms"] for item in costs]
    return {
        "target": "board",
        "scene": "quay",
        "machine": "indexed-board",
        "mode": "640x400",
        "refresh_hz": 70.0863,
        "period_ms": PERIOD_MS,
        "ticks": 4,
        "worst": {"tick": 2, "work_ms": None if None in known else sum(known), "costs": list(costs)},
        "rate_hz": 70.0863,
        "target_hz": target_hz,
        "holds_target": True,
        "memory": [
            {
                "memory": "video",
                "used_bytes": used,
                "free_bytes": 80_000 - used,
                "capacity_bytes": 100_000,
                "items": [],
            }
        ],
        "findings": [],
    }


def area(picture: np.ndarray, colour: Colour) -> int:
    return int((picture == np.array(colour, dtype=np.uint8)).all(axis=2).sum())


def test_verdict_says_fits_slow_or_unknown() -> None:
    fits = verdict(budget(cost("sky", "blit", 5.0)))
    assert fits[:2] == (True, "It fits: even tick 2 takes only 5.00 ms of its 14.27 ms")
    slow = verdict(budget(cost("sky", "blit", 20.0)))
    assert slow[:2] == (False, "Too slow: tick 2 takes 20.00 ms but has only 14.27 ms")
    assert "35.0 times" in slow[2]
    halved = verdict(budget(cost("sky", "blit", 20.0), target_hz=35.04))
    assert halved[0] is True
    assert "35.0 times" in halved[2]
    unknown = verdict(budget(cost("sky", "blit", 5.0), cost("dusk", "palette", None)))
    assert unknown[0] is None
    assert "dusk" in unknown[2]


def test_time_line_shows_work_in_proportion() -> None:
    """A scene of equal ticks paints a box whose area grows with the work; too much is in the alarm colour."""
    memory = area(budget_plot(budget(cost("sky", "blit", 4.0)), []), SLATE)
    low = area(budget_plot(budget(cost("sky", "blit", 4.0)), [4.0] * 100), SLATE) - memory
    high = area(budget_plot(budget(cost("sky", "blit", 8.0)), [8.0] * 100), SLATE) - memory
    assert high == pytest.approx(2 * low, rel=0.03)
    calm = budget_plot(budget(cost("sky", "blit", 8.0)), [8.0] * 100)
    late = budget_plot(budget(cost("sky", "blit", 30.0)), [30.0] + [8.0] * 99)
    assert area(calm, ALARM) == 0
    assert area(late, ALARM) > 200


@pytest.mark.parametrize("count", [0, 1, 3, 100, 10_000])
def test_any_number_of_ticks(count: int) -> None:
    picture = budget_plot(budget(cost("sky", "blit", 4.0)), [4.0] * count)
    assert picture.shape == (600, 960, 3)
    assert picture.dtype == np.uint8


def test_one_dear_tick_among_many_is_never_lost() -> None:
    work: list[float | None] = [4.0] * 10_000
    work[7777] = 30.0
    assert area(budget_plot(budget(cost("sky", "blit", 30.0)), work), ALARM) > 50


def test_memory_that_is_too_small_is_in_the_alarm_colour() -> None:
    roomy = budget_plot(budget(cost("sky", "blit", 4.0), used=40_000), [4.0])
    full = budget_plot(budget(cost("sky", "blit", 4.0), used=90_000), [4.0])
    over = budget_plot(budget(cost("sky", "blit", 4.0), used=150_000), [4.0])
    assert area(roomy, ALARM) == 0
    assert 0 < area(full, ALARM) < area(over, ALARM)


def test_pictures_are_the_same_each_time() -> None:
    data = budget(cost("sky", "blit", 4.0), cost("hills", "blit-keyed", 3.0))
    assert np.array_equal(budget_plot(data, [7.0, 6.0]), budget_plot(data, [7.0, 6.0]))


def test_odd_data_is_drawn() -> None:
    names = ["x" * 500, "", "\u4eee\u540d", "a\nb", "‮evil"]
    costs = [cost(name, operation, 0.0) for name in names for operation in (*OPERATION_COLOURS, "unheard")]
    data = budget(*costs)
    data["memory"] = data["memory"] * 9
    data["memory"][0] = data["memory"][0] | {"capacity_bytes": 0, "used_bytes": 0, "free_bytes": 0}
    data["scene"] = "y" * 900
    assert budget_plot(data, [0.0, None, 1e9]).shape == (600, 960, 3)
    assert raster_ruler(TIMING, costs, title="z" * 900).shape == (600, 960, 3)


@pytest.mark.parametrize("name", ["dmt-0f", "cea-32", "dmt-58", "vga-640x350-70"])
def test_ruler_of_any_signal(name: str) -> None:
    timing = load_timing(name)
    picture = raster_ruler(timing, [cost("sky", "blit", 4.0)])
    assert picture.shape == (600, 960, 3)
    assert area(raster_ruler(timing, []), OPERATION_COLOURS["blit"]) < area(
        picture, OPERATION_COLOURS["blit"]
    )


def test_ruler_stretches_are_as_tall_as_their_time() -> None:
    colour = np.array(OPERATION_COLOURS["blit-keyed"], dtype=np.uint8)
    picture = raster_ruler(TIMING, [cost("sky", "blit", 2.0), cost("hills", "blit-keyed", 5.0)])
    column = (picture[:, 200] == colour).all(axis=1)
    rows = np.flatnonzero(column)
    assert rows[0] == pytest.approx(TOP_PX + 2.0 / PERIOD_MS * COLUMN_PX, abs=1.5)
    assert len(rows) == pytest.approx(5.0 / PERIOD_MS * COLUMN_PX, abs=2.5)
    free = (picture[rows[-1] + 3 : TOP_PX + COLUMN_PX - 3, 200] == np.array(PANEL)).all()
    assert free


def test_work_past_the_end_continues_in_a_further_column() -> None:
    blue = np.array(OPERATION_COLOURS["blit"], dtype=np.uint8)
    short = raster_ruler(TIMING, [cost("sky", "blit", 0.9 * PERIOD_MS)])
    long = raster_ruler(TIMING, [cost("sky", "blit", 1.5 * PERIOD_MS)])
    level = TOP_PX + 10
    assert (short[level, 300:700] == blue).all(axis=1).sum() < 100
    columns = np.flatnonzero((long[level] == blue).all(axis=1))
    assert (np.diff(columns) > 1).sum() == 1, "two columns at the same height"
    assert area(short, ALARM) == 0
    assert area(long, ALARM) > 0


def test_two_refreshes_may_be_allowed() -> None:
    work = [cost("sky", "blit", 1.5 * PERIOD_MS)]
    assert area(raster_ruler(TIMING, work, refreshes=1), ALARM) > area(
        raster_ruler(TIMING, work, refreshes=2), ALARM
    )


def test_endless_work_is_drawn_in_bounded_columns() -> None:
    assert raster_ruler(TIMING, [cost("sky", "blit", 1e6)]).shape == (600, 960, 3)


def test_labels_share_a_line_when_there_are_too_many() -> None:
    costs = [cost("sky", "blit", 5.0), *(cost(f"spark {number}", "plot", 0.01) for number in range(40))]
    texts = label_texts(stretches_of(costs), 0, PERIOD_MS, 14)
    assert [text[:2] for text in texts] == [("sky", "5.00 ms"), ("40 from spark 0", "0.40 ms")]
    unknown = label_texts(stretches_of([cost("dusk", "palette", None)]), 0, PERIOD_MS, 14)
    assert unknown[0][:2] == ("dusk", "unknown")
    rest = label_texts(stretches_of([cost("sky", "blit", 20.0)]), 1, PERIOD_MS, 14)
    assert rest[0][:2] == ("sky, rest", plain_ms(20.0 - PERIOD_MS))


def test_labels_never_overlap_nor_leave_their_lane() -> None:
    for wanted in ([0.0] * 10, [100.0] * 10, [5, 6, 7, 50, 51, 99], [50.0]):
        places = spread(wanted, 8, (0, 100))
        assert len(places) == len(wanted)
        assert all(4 <= place <= 96 for place in places)
        assert all(after - before >= 8 - 1e-9 for before, after in pairwise(places))


def test_plain_words() -> None:
    assert [plain_bytes(size) for size in (0, 900, 20_480, 3 * 1024 * 1024 * 10)] == [
        "0 bytes",
        "900 bytes",
        "20 KB",
        "30.0 MB",
    ]
    assert (plain_ms(1.234), plain_ms(1234.5)) == ("1.23 ms", "1234 ms")
    assert [nice_step(span, 5) for span in (16.0, 100.0, 0.7)] == [5.0, 20.0, 0.2]


def test_nothing_hides_ticks_that_are_late() -> None:
    """Every tick takes 20 of 14.27 ms: above the limit the plot is a band of one colour from edge to edge."""
    picture = budget_plot(budget(cost("sky", "blit", 20.0)), [20.0] * 300)
    late = (picture == np.array(ALARM, dtype=np.uint8)).all(axis=2)
    rows = np.flatnonzero(late[:, 100:900].mean(axis=1) > 0.7)
    assert len(rows) > 30
    columns = np.flatnonzero(late[rows[len(rows) // 2]])
    assert columns[-1] - columns[0] > 840
    for row in rows[2:-3]:
        assert late[row, columns[0] : columns[-1] + 1].mean() > 0.7
        assert late[row, 700 : columns[-1] + 1].mean() == pytest.approx(late[row, 300:500].mean(), abs=0.03)

"""Loop lengths against the published table and by walking the planes tick by tick."""

import csv
import random
from fractions import Fraction
from math import floor
from pathlib import Path

import pytest

from scenekit.motion.loops import Wrapping, fraction_lcm, loop_ticks, simpler_ratios

REFERENCE = Path(__file__).parents[1] / "reference"
LINES = (REFERENCE / "loop_lcm.csv").read_text(encoding="utf-8").splitlines()
ROWS = list(csv.DictReader(line for line in LINES if not line.startswith("#")))


def planes_of(text: str) -> list[Wrapping]:
    parts = [part.strip().split("px@") for part in text.split(";")]
    return [Wrapping(name=step, size_px=int(size), step_px=Fraction(step)) for size, step in parts]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["loop_frames_integer"] + row["periods_frames"][:4])
def test_published_row(row: dict[str, str]) -> None:
    planes = planes_of(row["layers width@px_per_frame"])
    periods = [Fraction(text.strip()) for text in row["periods_frames"].split(";")]
    assert [plane.period_ticks for plane in planes] == periods
    assert loop_ticks(planes) == int(row["loop_frames_integer"])
    assert fraction_lcm(periods) == Fraction(row["loop_frames_fraction_lcm"])
    assert f"{loop_ticks(planes) / 60:.4f}" == row["loop_seconds_at_60"]


def test_there_are_six_rows() -> None:
    assert len(ROWS) == 6


def test_loop_is_the_first_tick_where_everything_is_back() -> None:
    """Against walking, on random small scenes: the loop returns, and no earlier tick does."""
    source = random.Random(5)
    for _ in range(60):
        planes = [
            Wrapping(
                name=str(number),
                size_px=source.randint(1, 12),
                step_px=Fraction(source.randint(-6, 6), source.randint(1, 5)),
            )
            for number in range(3)
        ]
        animation = source.randint(1, 6)
        ticks = loop_ticks(planes, [animation])
        for tick in range(1, ticks + 1):
            back = all((plane.step_px * tick) % plane.size_px == 0 for plane in planes)
            assert (back and tick % animation == 0) == (tick == ticks)


def test_whole_pixels_repeat_too() -> None:
    plane = Wrapping(name="hills", size_px=320, step_px=Fraction(7, 4))
    shown = [floor(plane.step_px * tick) % 320 for tick in range(2 * plane.loop_ticks)]
    assert shown[: plane.loop_ticks] == shown[plane.loop_ticks :]


def test_still_plane_never_matters() -> None:
    still = Wrapping(name="sky", size_px=640, step_px=Fraction(0))
    assert still.period_ticks is None
    assert loop_ticks([still]) == 1
    assert loop_ticks([still], [12, 18]) == 36
    assert loop_ticks([]) == 1


def test_simpler_ratios_shorten_the_loop_and_stay_near() -> None:
    planes = [
        Wrapping(name="quay", size_px=640, step_px=Fraction(2)),
        Wrapping(name="hills", size_px=640, step_px=Fraction(10, 13)),
    ]
    before = loop_ticks(planes)
    found = simpler_ratios(planes, 1, Fraction(2))
    assert found
    wanted = Fraction(5, 13)
    assert [abs(item.ratio - wanted) for item in found] == sorted(abs(item.ratio - wanted) for item in found)
    lengths = [before, *(item.loop_ticks for item in found)]
    assert lengths == sorted(set(lengths), reverse=True)
    for item in found:
        changed = [planes[0], Wrapping(name="hills", size_px=640, step_px=item.step_px)]
        assert loop_ticks(changed) == item.loop_ticks
        assert item.step_px == item.ratio * 2
        assert item.change_percent == (item.ratio - wanted) / wanted * 100
        assert abs(item.change_percent) <= 25


def test_no_suggestion_where_there_is_nothing_to_gain() -> None:
    planes = [Wrapping(name="quay", size_px=320, step_px=Fraction(1))]
    assert simpler_ratios(planes, 0, Fraction(1), [320]) == ()
    assert simpler_ratios([Wrapping(name="sky", size_px=320, step_px=Fraction(0))], 0, Fraction(1)) == ()
    with pytest.raises(ValueError, match="camera"):
        simpler_ratios(planes, 0, Fraction(0))
    with pytest.raises(ValueError, match="above 0"):
        fraction_lcm([])


def test_suggestions_equal_a_plain_search() -> None:
    """Against trying every fraction of the allowed denominators and keeping the records."""
    planes = [
        Wrapping(name="quay", size_px=480, step_px=Fraction(3)),
        Wrapping(name="sky", size_px=640, step_px=Fraction(33, 37)),
    ]
    wanted = Fraction(11, 37)
    near = {
        Fraction(top, bottom)
        for bottom in range(1, 17)
        for top in range(1, 17)
        if abs(Fraction(top, bottom) - wanted) <= wanted / 4
    }
    records, best = [], loop_ticks(planes)
    for ratio in sorted(near, key=lambda ratio: (abs(ratio - wanted), ratio)):
        changed = Wrapping(name="sky", size_px=640, step_px=ratio * 3)
        if loop_ticks([planes[0], changed]) < best:
            best = loop_ticks([planes[0], changed])
            records.append(ratio)
    assert len(records) > 2
    found = simpler_ratios(planes, 1, Fraction(3), most=len(records))
    assert [item.ratio for item in found] == records
    few = simpler_ratios(planes, 1, Fraction(3), most=len(records) - 1)
    assert [item.ratio for item in few] == [*records[: len(records) - 2], records[-1]]

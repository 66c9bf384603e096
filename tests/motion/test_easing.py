"""Easings against the standard's curves and the staircase rows."""

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from scenekit.errors import ProjectError, UnknownNameError
from scenekit.motion.easing import EASINGS, CubicBezier, Steps, ease_between, parse_easing

REFERENCE = Path(__file__).parents[1] / "reference"


def rows(name: str) -> list[dict[str, str]]:
    lines = (REFERENCE / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


VALUES = rows("easing_values.csv")


def test_there_are_eight_curves_at_seventeen_places() -> None:
    assert len(VALUES) == 8
    assert all(len(row) == 18 for row in VALUES)


@pytest.mark.parametrize("row", VALUES, ids=lambda row: row["curve"].split("(")[0])
def test_curve(row: dict[str, str]) -> None:
    name = row["curve"]
    easing = parse_easing("test", name if name in EASINGS else name[len("wpt A ") :])
    for x, y in row.items():
        if x != "curve":
            assert float(easing.at(Fraction(x))) == pytest.approx(float(y), abs=1e-12), x


def test_every_staircase_row() -> None:
    table = rows("easing_steps.csv")
    assert len(table) == 171
    for row in table:
        steps = Steps(count=int(row["n"]), position=row["position"])
        x = Fraction(row["x"])
        assert steps.at(x) == Fraction(row["y"]), row
        assert steps.at(x, before=True) == Fraction(row["y_before_flag"]), row


def test_places_where_web_platform_curves_pass_1_and_0() -> None:
    """source: web-platform-tests css/css-easing/cubic-bezier-timing-functions-output.html."""
    above = parse_easing("test", "cubic-bezier(0, 1.5, 1, 1.5)")
    below = parse_easing("test", "cubic-bezier(0, -0.5, 1, -0.5)")
    assert float(above.at(Fraction("0.233687939614"))) == pytest.approx(1, abs=1e-10)
    assert float(below.at(Fraction("0.766312060386"))) == pytest.approx(0, abs=1e-10)


def test_symmetric_curves_are_exactly_symmetric() -> None:
    half = Fraction(1, 2)
    assert EASINGS["ease-in-out"].at(half) == half
    for tick in range(101):
        x = Fraction(tick, 100)
        mirrored = EASINGS["ease-in"].at(x) + EASINGS["ease-out"].at(1 - x)
        assert abs(mirrored - 1) < Fraction(1, 1 << 70)


@pytest.mark.parametrize(("x1", "x2"), [(0, 0), (1, 0), (0, 1), (1, 1), (Fraction(1, 2), Fraction(1, 2))])
def test_steepest_curves_rise_from_0_to_1(x1: Fraction, x2: Fraction) -> None:
    """A curve that is upright somewhere (x1 = 1, x2 = 0) must still be solved."""
    curve = CubicBezier(x1=Fraction(x1), y1=Fraction(0), x2=Fraction(x2), y2=Fraction(1))
    values = [curve.at(Fraction(tick, 64)) for tick in range(65)]
    assert (values[0], values[-1]) == (0, 1)
    assert values == sorted(values)


def test_whole_positions_hit_both_ends() -> None:
    path = ease_between(EASINGS["ease-in-out"], 40, -17, 30)
    assert (path[0], path[-1], len(path)) == (40, -17, 31)
    assert list(path) == sorted(path, reverse=True)
    assert ease_between(EASINGS["linear"], 0, 10, 10) == tuple(range(11))
    assert ease_between(Steps(count=2), 0, 10, 4) == (0, 0, 5, 5, 10)


def test_long_ease_does_not_drift() -> None:
    assert ease_between(EASINGS["linear"], 0, 7, 5000)[2500] == 4  # a half goes up
    with pytest.raises(ValueError, match="1 or more"):
        ease_between(EASINGS["linear"], 0, 7, 0)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("steps(3)", Steps(count=3)),
        ("steps(3, start)", Steps(count=3, position="jump-start")),
        ("steps( 3 , jump-none )", Steps(count=3, position="jump-none")),
        ("step-end", Steps(count=1)),
        ("cubic-bezier(0,0,1,1)", EASINGS["linear"]),
        ("cubic-bezier( .42 , 0, 1, 1 )", EASINGS["ease-in"]),
    ],
)
def test_notations(text: str, expected: object) -> None:
    assert parse_easing("test", text) == expected


@pytest.mark.parametrize(
    "text",
    ["steps(0)", "steps(1, jump-none)", "steps(3, middle)", "steps(999999)", "cubic-bezier(2,0,1,1)"],
)
def test_notation_out_of_range(text: str) -> None:
    with pytest.raises(ProjectError, match=r"walk: .*steps|walk: .*x1"):
        parse_easing("walk", text)


@pytest.mark.parametrize(
    "text", ["", "eas", "cubic-bezier(1,1,1)", "cubic-bezier(nan,0,1,1)", "steps(-1)", "١"]
)
def test_unknown_notation(text: str) -> None:
    with pytest.raises(UnknownNameError):
        parse_easing("walk", text)

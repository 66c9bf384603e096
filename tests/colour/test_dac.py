"""Resistor ladders against computed tables."""

import numpy as np
import pytest

from scenekit.colour.dac import (
    Ladder,
    ideal_resistors,
    linearity,
    preferred_resistor,
    rising_tolerance_percent,
    shown_levels,
    shown_picture,
    shown_spread,
    spread,
    volts,
)
from scenekit.errors import MachineError


def ladder_of(row: dict[str, str], **options) -> Ladder:
    bits, supply = int(row["bits"]), float(row["vcc"])
    ohms = ideal_resistors(bits, supply)
    if row["resistors"] != "ideal":
        ohms = tuple(preferred_resistor(ohm, row["resistors"]) for ohm in ohms)
    return Ladder(resistors_ohm=ohms, supply_v=supply, **options)


def test_levels(reference):
    rows = reference("dac_levels")
    assert len(rows) == 372
    for row in rows:
        code = int(row["code"])
        assert volts(ladder_of(row))[code] == pytest.approx(float(row["v_pushpull"]), abs=2e-6)
        open_bits = volts(ladder_of(row, off_bits_open=True))[code]
        assert open_bits == pytest.approx(float(row["v_off_bits_open"]), abs=2e-6)
        straight = 0.7 * code / (2 ** int(row["bits"]) - 1)
        assert straight == pytest.approx(float(row["v_linear_target"]), abs=2e-6)


def test_design(reference):
    rows = reference("dac_design")
    assert len(rows) == 16
    for row in rows:
        bits, supply = int(row["bits"]), float(row["vcc"])
        ideal = ideal_resistors(bits, supply)
        assert ideal == pytest.approx([float(text) for text in row["ideal_ohms_msb_first"].split()], abs=6e-5)
        assert 1 / sum(1 / ohm for ohm in ideal) == pytest.approx(float(row["parallel_source_ohm"]), abs=6e-4)
        bound = float(row["guaranteed_monotonic_tolerance_pct_below"])
        assert rising_tolerance_percent(bits) == pytest.approx(bound, abs=6e-5)
        for series in ("E24", "E96"):
            key = series.lower()
            ohms = tuple(preferred_resistor(ohm, series) for ohm in ideal)
            assert ohms == tuple(float(text) for text in row[f"{key}_ohms"].split())
            got = linearity(Ladder(resistors_ohm=ohms, supply_v=supply))
            assert got.full_scale_v == pytest.approx(float(row[f"{key}_full_scale_v"]), abs=6e-7)
            assert got.worst_offset == pytest.approx(float(row[f"{key}_inl_lsb"]), abs=1.5e-4)
            assert got.worst_step == pytest.approx(float(row[f"{key}_dnl_lsb"]), abs=1.5e-4)
            assert got.rising == (row[f"{key}_monotonic"] == "True")


@pytest.mark.parametrize("bits", range(2, 9))
def test_the_rising_bound_is_sharp(bits):
    bound = rising_tolerance_percent(bits)
    for percent, rising in ((bound * 0.999, True), (bound * 1.001, False)):
        ladder = Ladder(resistors_ohm=ideal_resistors(bits, 3.3), tolerance_percent=percent)
        assert linearity(ladder).rising_always == rising


@pytest.mark.parametrize(
    ("percent", "lowest", "highest"),
    [(1, 0.69453, 0.70556), (2, 0.68914, 0.71121), (5, 0.67347, 0.72871), (10, 0.64888, 0.75987)],
)
def test_full_scale_spread(percent, lowest, highest):
    # computed with the ideal ladder at 3.3 V; independent of the number of bits
    for bits in (1, 3, 5):
        low, high = spread(Ladder(resistors_ohm=ideal_resistors(bits, 3.3), tolerance_percent=percent))
        assert low[-1] == pytest.approx(lowest, abs=6e-6)
        assert high[-1] == pytest.approx(highest, abs=6e-6)


@pytest.mark.parametrize("off_bits_open", [False, True])
def test_random_parts_stay_within_the_spread(off_bits_open):
    rng = np.random.default_rng(1)
    ohms = (536.0, 1070.0, 2150.0, 4320.0)
    ladder = Ladder(resistors_ohm=ohms, tolerance_percent=5, off_bits_open=off_bits_open)
    low, high = spread(ladder)
    for _ in range(200):
        drawn = tuple(float(ohm) for ohm in np.array(ohms) * rng.uniform(0.95, 1.05, 4))
        levels = volts(Ladder(resistors_ohm=drawn, off_bits_open=off_bits_open))
        assert (levels >= low - 1e-12).all()
        assert (levels <= high + 1e-12).all()
    corner = volts(Ladder(resistors_ohm=tuple(ohm * 0.95 for ohm in ohms), off_bits_open=off_bits_open))
    assert corner[-1] == pytest.approx(high[-1])


def test_exact_ladder_shows_the_expanded_levels():
    exact = Ladder(resistors_ohm=ideal_resistors(3, 5.0), supply_v=5.0)
    assert shown_levels(exact).tolist() == [0, 36, 73, 109, 146, 182, 219, 255]
    low, high = shown_spread(exact)
    assert (low == high).all()


def test_picture_takes_each_channel_through_its_ladder():
    three = Ladder(resistors_ohm=ideal_resistors(3, 3.3))
    weak = Ladder(resistors_ohm=tuple(ohm * 1.2 for ohm in ideal_resistors(2, 3.3)))
    rgb = np.random.default_rng(2).integers(0, 256, (5, 7, 3), dtype=np.uint8)
    shown = shown_picture(rgb, (three, three, weak))
    assert shown.shape == rgb.shape
    assert set(np.unique(shown[..., :2])) <= set(shown_levels(three).tolist())
    assert shown[..., 2].max() < 255
    white = np.full((1, 3), 255, dtype=np.uint8)
    assert shown_picture(white, (three, three, three)).tolist() == [[255, 255, 255]]


@pytest.mark.parametrize(
    "options",
    [
        {"resistors_ohm": ()},
        {"resistors_ohm": (1.0,) * 9},
        {"resistors_ohm": (0.0,)},
        {"resistors_ohm": (float("nan"),)},
        {"resistors_ohm": (100.0,), "supply_v": 0.0},
        {"resistors_ohm": (100.0,), "load_ohm": -75.0},
        {"resistors_ohm": (100.0,), "tolerance_percent": 100.0},
    ],
)
def test_impossible_circuits_are_refused(options):
    with pytest.raises(MachineError, match="resistor ladder"):
        Ladder(**options)


def test_other_impossible_values_are_refused():
    with pytest.raises(MachineError, match="white"):
        ideal_resistors(3, 0.7)
    with pytest.raises(MachineError, match="bits"):
        ideal_resistors(0, 3.3)
    with pytest.raises(MachineError, match="E13"):
        preferred_resistor(100, "E13")
    with pytest.raises(MachineError, match="-1"):
        preferred_resistor(-1)

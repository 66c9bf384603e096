"""Fits against certified and published results, planted costs, outliers and bad input."""

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from scenekit.calibration.fit import fit
from scenekit.errors import MachineError

REFERENCE = Path(__file__).parents[1] / "reference"
CERTIFIED = json.loads((REFERENCE / "nist_strd.json").read_text(encoding="utf-8"))["sets"]
"""NIST Statistical Reference Datasets, linear regression: data and certified values (public domain)."""
EXAMPLES = json.loads((REFERENCE / "regression_examples.json").read_text(encoding="utf-8"))
"""Worked examples with exact fractions; stack loss as fitted by statsmodels 0.15.0."""

DIGITS = dict.fromkeys(CERTIFIED, 9.0) | {"Filip": 7.0}


def names(count: int) -> list[str]:
    return [f"b{number}" for number in range(count)]


def design(name: str, data: np.ndarray, count: int) -> np.ndarray:
    x = data[:, 1]
    if name.startswith("NoInt"):
        return x[:, None]
    if name == "Longley":
        return np.column_stack([np.ones(len(data)), data[:, 1:]])
    return np.column_stack([x**power for power in range(count)])


def digits(got: np.ndarray, wanted: np.ndarray) -> float:
    """Return the number of equal digits of the worst value."""
    scale = np.where(wanted == 0, 1.0, np.abs(wanted))
    return float(-np.log10(np.maximum(np.abs(got - wanted) / scale, 1e-16)).min())


@pytest.mark.parametrize("name", sorted(CERTIFIED))
def test_certified_regressions(name: str) -> None:
    case: dict[str, Any] = CERTIFIED[name]
    data = np.array(case["data"], dtype=float)
    found = fit(names(case["p"]), design(name, data, case["p"]), data[:, 0], bounded=False)
    assert digits(found.values, np.array(case["certified_coef"])) >= DIGITS[name]
    assert digits(found.standard_errors, np.array(case["certified_sd"])) >= DIGITS[name]


def test_all_eleven_sets_are_tried() -> None:
    assert len(CERTIFIED) == 11


def test_cost_example_in_fractions() -> None:
    rows = np.array(EXAMPLES["cost_example"]["rows"])
    matrix = np.column_stack([np.ones(len(rows)), rows[:, :2]])
    found = fit(names(3), matrix, rows[:, 2], bounded=False)
    wanted = np.array([float(Fraction(text)) for text in EXAMPLES["cost_example"]["ols"]])
    assert found.values == pytest.approx(wanted, rel=1e-13)
    rss = float(np.sum(found.residuals**2))
    assert rss == pytest.approx(float(Fraction(EXAMPLES["cost_example"]["rss"])), rel=1e-10)


def test_bounds_keep_a_coefficient_at_zero() -> None:
    case = EXAMPLES["nnls_example"]
    free = fit(names(3), case["A"], case["b"], bounded=False)
    assert free.values == pytest.approx([float(Fraction(text)) for text in case["ols"]], rel=1e-12)
    bounded = fit(names(3), case["A"], case["b"])
    assert bounded.values == pytest.approx([float(Fraction(text)) for text in case["nnls"]], rel=1e-12)
    rss = float(np.sum(bounded.residuals**2))
    assert rss == pytest.approx(float(Fraction(case["nnls_rss"])), rel=1e-12)


def test_stack_loss_with_its_errors() -> None:
    case = EXAMPLES["stackloss"]
    rows = np.array(case["rows"])
    matrix = np.column_stack([np.ones(len(rows)), rows[:, :3]])
    found = fit(names(4), matrix, rows[:, 3], bounded=False)
    assert found.values == pytest.approx(case["ols"], rel=1e-10)
    assert found.standard_errors == pytest.approx(case["ols_se"], rel=1e-10)


def planted(seed: int) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """Return true costs, a design of calls, rows and pixels, times with noise, and their deviations."""
    rng = np.random.default_rng(seed)
    costs = np.exp(rng.uniform(np.log(0.05), np.log(50), 4)) * np.array([1, 1, 0.05, 0.002])
    rows = int(rng.integers(25, 80))
    calls = rng.integers(1, 60, rows)
    high = rng.integers(4, 64, rows)
    wide = rng.integers(4, 64, rows)
    matrix = np.column_stack([np.ones(rows), calls, calls * high, calls * high * wide]).astype(float)
    true = matrix @ costs
    deviation = 0.03 * true
    return costs, matrix, true + rng.normal(0, 1, rows) * deviation, deviation


def test_two_hundred_planted_cost_models() -> None:
    inside = total = 0
    for seed in range(200):
        costs, matrix, times, deviation = planted(seed)
        found = fit(names(4), matrix, times, 1 / deviation)
        inside += int(np.sum(np.abs(found.values - costs) <= 3 * found.standard_errors))
        total += 4
    # 99.73 % of normal errors lie within three standard errors; Student's t with 21 or more degrees: 99.3 %
    assert total == 800
    assert inside / total >= 0.99


def test_an_outlier_is_found_and_left_out() -> None:
    costs, matrix, times, deviation = planted(3)
    times[7] *= 3
    found = fit(names(4), matrix, times, 1 / deviation, drop_outliers=True)
    assert found.outliers == (7,)
    assert np.all(np.abs(found.values - costs) <= 4 * found.standard_errors)
    kept = fit(names(4), matrix, times, 1 / deviation)
    assert kept.outliers == ()
    assert kept.scatter > 2 * found.scatter


def test_a_column_like_another_has_no_known_cost() -> None:
    _, matrix, times, deviation = planted(5)
    found = fit(names(5), np.column_stack([matrix, matrix[:, 1]]), times, 1 / deviation)
    assert np.isinf(found.standard_errors).sum() == 1


@pytest.mark.parametrize(
    ("matrix", "target", "words"),
    [
        ([[1.0, 2.0]], [1.0], "at least as many are needed"),
        ([[1.0, 2.0], [2.0, float("nan")], [1.0, 1.0]], [1.0, 2.0, 3.0], "not finite"),
        ([[1.0, 2.0, 3.0]] * 4, [1.0] * 4, "the numbers must agree"),
    ],
)
def test_bad_input_is_said_in_words(matrix: Any, target: Any, words: str) -> None:
    with pytest.raises(MachineError, match=words):
        fit(names(2), matrix, target)


def test_the_row_that_tells_most_of_a_cost_is_not_left_out() -> None:
    """A thing takes twice as long with another one as alone; the one row of it alone still counts."""
    together = [[10.0, number] for number in range(1, 13)]
    times = [*(50.0 + 6.0 * number for number in range(1, 13)), 3.0]
    rows = [*together, [0.0, 1.0]]
    found = fit(names(2), rows, times, 1 / (0.03 * np.array(times)), drop_outliers=True)
    assert found.outliers == ()
    assert found.values[1] < 4.0

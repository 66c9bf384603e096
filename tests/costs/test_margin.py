"""The interval around a time, by hand."""

import pytest

from scenekit.costs.margin import margin_ms
from scenekit.machines.cost import Cost
from scenekit.plan.work import Work


def work(operation: str, calls: int, rows: int = 0, pixels: int = 0) -> Work:
    return Work(name="x", operation=operation, calls=calls, rows=rows, pixels=pixels)


def cost(operation: str, call: float, errors: tuple[float, ...]) -> Cost:
    return Cost(
        operation=operation,
        per_call_us=call,
        standard_errors_us=errors,
        provenance="measured: by hand, a test",
    )


def test_errors_of_one_operation_add_up_and_of_two_as_squares() -> None:
    prices = {"run": cost("run", 1, (3.0, 0.0, 0.0)), "cell": cost("cell", 1, (4.0, 0.0, 0.0))}
    # 100 calls of run are off by 300 us, 50 + 50 of cell by 400 us; together 500 us
    items = [work("run", 100), work("cell", 50), work("cell", 50)]
    assert margin_ms(items, prices, 0) == pytest.approx(1.96 * 0.5)


def test_the_residual_is_a_share_of_the_whole() -> None:
    prices = {"run": cost("run", 20, ())}
    assert margin_ms([work("run", 500)], prices, 5) == pytest.approx(1.96 * 0.05 * 10)


def test_rows_and_pixels_have_errors_of_their_own() -> None:
    prices = {"blit": cost("blit", 1, (0.0, 2.0, 0.5))}
    expected = ((10 * 2.0) ** 2 + (100 * 0.5) ** 2) ** 0.5
    assert margin_ms([work("blit", 1, 10, 100)], prices, 0) == pytest.approx(1.96 * expected / 1000)

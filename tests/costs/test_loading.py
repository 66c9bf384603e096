"""Time until a game can start: files that are read, tables that are filled."""

from dataclasses import replace

import pytest

from scenekit.build import Build, run_stages
from scenekit.costs.loading import load_ms, slow_tables, statement_us, table_times
from scenekit.machines.cost import Cost
from scenekit.model.project import Project
from scenekit.tables.forms import DECIMAL, RADIX
from scenekit.tables.packed import Choice


@pytest.fixture(scope="module")
def board(demo: Project) -> Build:
    return run_stages(demo, "board")


def priced(us: float) -> dict[str, Cost]:
    """Return prices of a machine on which every statement takes so long."""
    return {
        name: Cost(operation=name, per_call_us=us * count, provenance="estimated: test")
        for name, count in (("cell", 7), ("tick-path", 13), ("tick-plane", 6))
    }


def test_loading_is_reading_every_file(board: Build) -> None:
    assert board.machine.storage is not None
    files = {"a": bytes(900_000), "b": bytes(450_000)}
    # two files at 12 ms, 1,350,000 bytes at 900,000 a second
    assert load_ms(board.machine, files) == pytest.approx(24 + 1500)
    assert load_ms(replace(board.machine, storage=None), files) is None


def test_a_statement_is_what_the_routines_take() -> None:
    assert statement_us(priced(3.0)) == pytest.approx(3.0)
    assert statement_us({}) is None
    assert table_times({}, (), None) is None


def test_tables_take_their_statements() -> None:
    """100 raw values of two bytes: 100 x 7 + 200 x 19 statements of 2 us as radix text, 9 ms."""
    choice = Choice(table="map", encoding="raw", values=100, decimal_bytes=400, data=bytes(200))
    (radix,) = table_times(priced(2.0), (choice,), RADIX) or ()
    assert (radix.table, radix.values) == ("map", 100)
    assert radix.time_ms == pytest.approx(9.0)
    (decimal,) = table_times(priced(2.0), (choice,), DECIMAL) or ()
    assert decimal.time_ms == pytest.approx((700 + 1200) * 2 / 1000)
    (plain,) = table_times(priced(2.0), (choice,), None) or ()
    assert plain.time_ms == pytest.approx(0.4)


def test_ten_seconds_are_a_finding() -> None:
    choice = Choice(table="map", encoding="raw", values=10_000, decimal_bytes=40_000, data=bytes(20_000))
    times = table_times(priced(25.0), (choice,), RADIX)
    (finding,) = slow_tables(times, "quay")
    assert finding.code == "slow-tables"
    assert "at least 11 s" in finding.text
    assert "map with its 10000 values" in finding.text
    assert slow_tables(table_times(priced(20.0), (choice,), RADIX), "quay") == ()
    assert slow_tables(None, "quay") == ()


def test_the_demo_says_each_table(board: Build) -> None:
    times = table_times(board.machine.costs_in(board.mode.name), board.choices, None)
    assert times is not None
    assert [time.table for time in times] == [choice.table for choice in board.choices]

"""Reading of reference values for the tests of this folder."""

import csv
from collections.abc import Callable
from pathlib import Path

import pytest

REFERENCE = Path(__file__).parents[1] / "reference"

Rows = list[dict[str, str]]


@pytest.fixture(scope="session")
def reference() -> Callable[[str], Rows]:
    """Return a reader of tests/reference/NAME.csv; its # lines give source and tolerance."""

    def read(name: str) -> Rows:
        lines = (REFERENCE / f"{name}.csv").read_text(encoding="utf-8").splitlines()
        rows = list(csv.DictReader(line for line in lines if not line.startswith("# ")))
        assert rows
        return rows

    return read

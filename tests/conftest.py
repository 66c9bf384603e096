"""What all tests share: helpers beside them, interpreters that must be there, golden files."""

import os
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from scenekit.dialects.dialect import Dialect, load_dialect
from scenekit.interpreters.process import installed
from scenekit.model.project import Project
from scenekit.model.store import load

TESTS = Path(__file__).parent
DEMO = TESTS.parent / "demo_assets"
sys.path.insert(0, str(TESTS / "support"))
os.environ["SCENEKIT_CACHE"] = ""  # what tests look over is looked over each time


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--update-golden", action="store_true", help="rewrite the files of tests/golden")


@pytest.fixture(scope="session")
def demo() -> Project:
    """Return the demo project."""
    return load(DEMO)


@pytest.fixture(scope="session")
def interpreter() -> Callable[[str], Dialect]:
    """Return a function that gives a dialect whose interpreter is here.

    A missing one skips the test, or fails it where CI=true.
    """

    def find(name: str) -> Dialect:
        dialect = load_dialect(name, TESTS)
        if dialect.command and not installed(dialect):
            text = f"interpreter {dialect.command[0]} is missing; to install it: {dialect.package}"
            if os.environ.get("CI") == "true":
                pytest.fail(text)
            pytest.skip(text)
        return dialect

    return find


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[[str, bytes], None]:
    """Return a function that compares bytes with a file below tests/golden, or writes it when asked to."""

    def check(name: str, data: bytes) -> None:
        path = TESTS / "golden" / name
        if request.config.getoption("--update-golden"):
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)
        assert path.exists(), f"{path} is missing; write it with pytest --update-golden and read it"
        assert path.read_bytes() == data, f"{path} differs; see pytest --update-golden"

    return check

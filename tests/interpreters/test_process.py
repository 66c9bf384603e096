"""What a program that scenekit starts may take."""

import os
import sys

import pytest

from scenekit.dialects.dialect import load_dialect
from scenekit.interpreters.process import run_program

ASK = "import resource; print(resource.getrlimit(resource.RLIMIT_CPU)[1])"


@pytest.mark.skipif(os.name != "posix", reason="limits are set where the system knows them")
def test_a_program_that_outlives_scenekit_still_ends(tmp_path) -> None:
    dialect = load_dialect("brandy", tmp_path)
    code, printed = run_program(dialect, tmp_path, "none", 7.2, command=[sys.executable, "-c", ASK])
    assert (code, printed.strip()) == (0, "76")


def test_a_program_sees_no_secrets(tmp_path, monkeypatch) -> None:
    monkeypatch.setenv("PASSWORD_OF_MINE", "secret")
    ask = "import os; print('PASSWORD_OF_MINE' in os.environ)"
    dialect = load_dialect("brandy", tmp_path)
    assert (
        run_program(dialect, tmp_path, "none", 30, command=[sys.executable, "-c", ask])[1].strip() == "False"
    )

"""A run's folder goes, unless its program did not end."""

import shutil
from pathlib import Path

import pytest

from scenekit.errors import TimeLimitError, VerifyError
from scenekit.verify.folders import run_folder


def test_a_folder_goes_after_the_run() -> None:
    with run_folder() as folder:
        folder.mkdir()
    assert not folder.parent.exists()


def test_a_folder_goes_after_another_fault() -> None:
    with pytest.raises(VerifyError):
        fail(VerifyError("no values"), seen := [])
    assert not seen[0].parent.exists()


def test_a_folder_stays_and_is_named_where_the_program_did_not_end() -> None:
    with pytest.raises(TimeLimitError) as error:
        fail(TimeLimitError("still running after 9 s"), seen := [])
    assert str(seen[0]) in str(error.value)
    assert seen[0].is_dir()
    shutil.rmtree(seen[0].parent)


def fail(error: Exception, seen: list[Path]) -> None:
    """Fail in a folder for a run, and tell which that was."""
    with run_folder() as folder:
        seen.append(folder)
        folder.mkdir()
        raise error

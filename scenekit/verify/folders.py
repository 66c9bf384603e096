"""The folder that a program runs in."""

import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from scenekit.errors import TimeLimitError

LONGEST_REST_S = 30.0
"""A program that neither computes nor writes for so long is stopped, unless somebody gave a time limit."""


@contextmanager
def run_folder() -> Iterator[Path]:
    """Give a folder that is not there yet for a run, and remove it after that.

    raises   TimeLimitError: as it came, with the folder, which is then kept for a look
    """
    above = Path(tempfile.mkdtemp(prefix="scenekit-"))
    kept = False
    try:
        yield above / "run"
    except TimeLimitError as error:
        kept = True
        raise TimeLimitError(
            f"{error}; its files are kept in {above / 'run'}: run them by hand and look; perhaps the program "
            "did not start, since it uses a name that the BASIC keeps for itself; --seconds N waits longer"
        ) from None
    finally:
        if not kept:
            shutil.rmtree(above, ignore_errors=True)

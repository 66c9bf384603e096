"""Lets one program at a time save into a folder, where the system can tell."""

import os
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from scenekit.errors import ProjectError

LONGEST_WAIT_S = 5.0


@contextmanager
def alone_in(folder: Path) -> Iterator[None]:
    """Keep other saves out of a folder meanwhile; on systems without such locks, do nothing.

    The lock belongs to the process, so that none is left behind by a crash.
    raises   ProjectError: another program is still saving after five seconds
    """
    handle = _open(folder)
    try:
        if handle is not None:
            _wait(handle, folder)
        yield
    finally:
        if handle is not None:
            os.close(handle)


def _open(folder: Path) -> int | None:
    try:
        import fcntl  # noqa: F401
    except ImportError:
        return None
    try:
        return os.open(folder, os.O_RDONLY)
    except OSError:
        return None


def _wait(handle: int, folder: Path) -> None:
    import fcntl

    end = time.monotonic() + LONGEST_WAIT_S
    while True:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            if time.monotonic() > end:
                raise ProjectError(f"{folder}: another program is saving into it; try again") from None
            time.sleep(0.02)
        except OSError:  # a file system without locks
            return
        else:
            return

"""Runs interpreters that save their screen as a BMP file and their values as a text file."""

from pathlib import Path

import numpy as np

from scenekit.errors import VerifyError
from scenekit.images.flat import read_picture
from scenekit.interpreters.outcome import Outcome, Reader, Run
from scenekit.interpreters.process import complaint_of, installed, run_program, version_of
from scenekit.model.arrays import Pixels, freeze

SAID_FILE = "said.txt"
END_OF_TEXT = b"\x1a"
"""Some BASICs end a text file with this byte."""


def run(task: Run) -> Outcome:
    """Run a program and read its screens and values.

    raises   VerifyError: it failed, or wrote less than awaited
    """
    clear(task.folder, task.screens)
    code, _ = run_program(
        task.dialect, task.folder, task.program, task.time_limit_s, stopped=task.stopped, rest_s=task.rest_s
    )
    if code != 0:
        name = f"interpreter {task.dialect.command[0]}: {task.program}"
        raise VerifyError(f"{name}: ended with code {code}{complaint_of(task.folder)}")
    screens = tuple(_screen(task.folder / f"shot{number}.bmp") for number in range(task.screens))
    return Outcome(
        screens=screens, said=read_values(task.folder / SAID_FILE), version=version_of(task.dialect)
    )


def clear(folder: Path, screens: int) -> None:
    """Remove earlier results, so that only fresh ones can be read."""
    for number in range(screens):
        (folder / f"shot{number}.bmp").unlink(missing_ok=True)
    (folder / SAID_FILE).unlink(missing_ok=True)


def _screen(path: Path) -> Pixels:
    if not path.exists():
        raise VerifyError(f"{path.name}: the program did not save this screen")
    return freeze(np.ascontiguousarray(read_picture(path).pixels[..., :3]))


def read_values(path: Path) -> tuple[int, ...]:
    """Return the whole numbers of a text file, one a line.

    raises   VerifyError: missing, or a line that is no number
    """
    if not path.exists():
        raise VerifyError(f"{path.name}: the program did not write its values")
    values = []
    for number, line in enumerate(path.read_bytes().rstrip(END_OF_TEXT).decode("latin-1").split(), 1):
        try:
            values.append(int(float(line)))
        except (ValueError, OverflowError):
            raise VerifyError(f"{path.name}: line {number}: got {line[:20]!r}; must be a number") from None
    return tuple(values)


PLUGIN = Reader(name="screenfile", available=installed, run=run)

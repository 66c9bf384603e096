"""Runs interpreters that need a window and save their screen as text: `rgb W,H:` and six digits a pixel."""

import contextlib
import os
import re
import shutil
import signal
import subprocess
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import numpy as np

from scenekit.dialects.dialect import Dialect
from scenekit.errors import VerifyError
from scenekit.interpreters.outcome import Outcome, Reader, Run
from scenekit.interpreters.process import complaint_of, installed, run_program, version_of
from scenekit.interpreters.screenfile import SAID_FILE, read_values
from scenekit.model.arrays import Pixels, freeze

SERVER = "Xvfb"
SERVER_START_S = 10.0
HEADER = re.compile(rb"rgb (\d{1,4}),(\d{1,4}):")
LARGEST_TEXT_BYTES = 64_000_000


def available(dialect: Dialect) -> bool:
    """Say whether the interpreter and a display to run it on are here."""
    return installed(dialect) and shutil.which(SERVER) is not None


@contextlib.contextmanager
def display() -> Iterator[str]:
    """Start a display that nobody sees and give its name.

    raises   VerifyError: it is not installed or did not start
    """
    server = shutil.which(SERVER)
    if server is None:
        raise VerifyError(f"display {SERVER}: not installed; to install it: apt-get install xvfb")
    readable, writable = os.pipe()
    with tempfile.TemporaryDirectory(prefix="scenekit-display-") as folder:
        process = subprocess.Popen(
            [
                server,
                "-displayfd",
                str(writable),
                "-noreset",
                "-nolisten",
                "tcp",
                "-screen",
                "0",
                "1280x1024x24",
            ],
            cwd=folder,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            pass_fds=(writable,),
            start_new_session=True,
        )
        os.close(writable)
        try:
            yield ":" + _display_number(readable)
        finally:
            os.close(readable)
            process.terminate()
            try:
                process.wait(timeout=5)
            except subprocess.TimeoutExpired:
                os.killpg(process.pid, signal.SIGKILL)
                process.wait()


def _display_number(readable: int) -> str:
    """Return what the server writes when it is ready, read up to its line end."""
    import select

    text, deadline = b"", time.monotonic() + SERVER_START_S
    while not text.endswith(b"\n"):
        left = deadline - time.monotonic()
        if left <= 0 or not select.select([readable], [], [], left)[0]:
            break
        part = os.read(readable, 16)
        if not part:
            break
        text += part
    if not text.strip().isdigit():
        raise VerifyError(f"display {SERVER}: did not start within {SERVER_START_S:.0f} s")
    return text.decode("ascii").strip()


def run(task: Run) -> Outcome:
    """Run a program on a display of its own and read its screens and values.

    raises   VerifyError: it failed, or wrote less than awaited
    """
    names = [f"shot{number}.txt" for number in range(task.screens)]
    for name in (*names, SAID_FILE):
        (task.folder / name).unlink(missing_ok=True)
    with display() as where:
        code, _ = run_program(
            task.dialect,
            task.folder,
            task.program,
            task.time_limit_s,
            environment={"DISPLAY": where},
            stopped=task.stopped,
            rest_s=task.rest_s,
        )
    if code != 0:
        name = f"interpreter {task.dialect.command[0]}: {task.program}"
        raise VerifyError(f"{name}: ended with code {code}{complaint_of(task.folder)}")
    screens = tuple(read_screen(task.folder / name) for name in names)
    return Outcome(
        screens=screens, said=read_values(task.folder / SAID_FILE), version=version_of(task.dialect)
    )


def read_screen(path: Path) -> Pixels:
    """Return the picture of a screen saved as text, (H, W, 3) uint8.

    raises   VerifyError: missing, or not as many digits as its size needs
    """
    if not path.exists():
        raise VerifyError(f"{path.name}: the program did not save this screen")
    if path.stat().st_size > LARGEST_TEXT_BYTES:
        raise VerifyError(f"{path.name}: must be at most {LARGEST_TEXT_BYTES} bytes")
    data = path.read_bytes().strip()
    match = HEADER.match(data)
    if match is None:
        raise VerifyError(f"{path.name}: got {data[:20]!r}; must begin with rgb, width, height")
    width, height = int(match.group(1)), int(match.group(2))
    digits = data[match.end() :]
    if len(digits) != 6 * width * height or not re.fullmatch(rb"[0-9a-fA-F]*", digits):
        raise VerifyError(f"{path.name}: {len(digits)} digits; must be 6 x {width} x {height}")
    flat = np.frombuffer(bytes.fromhex(digits.decode("ascii")), dtype=np.uint8)
    return freeze(flat.reshape(height, width, 3))


PLUGIN = Reader(name="windowtext", available=available, run=run)

"""Runs programs in a pcbasic session that is looked at whenever the program asks for it."""

import importlib.metadata
import importlib.util
import json
import re
import sys
from pathlib import Path

from scenekit.dialects.dialect import Dialect
from scenekit.errors import VerifyError, one_line
from scenekit.interpreters.outcome import Outcome, Reader, Run
from scenekit.interpreters.process import complaint_of, run_program
from scenekit.interpreters.screenfile import SAID_FILE, read_values
from scenekit.interpreters.windowtext import read_screen

WORKER = Path(__file__).with_name("session_worker.py")
PACKAGE = "pcbasic"
PROGRAM_NAME = "PROGRAM.BAS"
REPORT_FILE = "session.json"
PLACE = re.compile(r"[A-Z][^\n]{3,60} in \d+")


def available(dialect: Dialect) -> bool:
    """Say whether the interpreter's package is here."""
    return dialect.command[:1] == (PACKAGE,) and importlib.util.find_spec(PACKAGE) is not None


def run(task: Run) -> Outcome:
    """Run a program and read its screens and values.

    raises   VerifyError: not installed, it failed, or wrote less than awaited
    """
    if not available(task.dialect):
        name = task.dialect.command[0] if task.dialect.command else task.dialect.name
        raise VerifyError(f"interpreter {name}: not installed; to install it: {task.dialect.package}")
    names = [f"shot{number}.txt" for number in range(task.screens)]
    for name in (*names, SAID_FILE, REPORT_FILE):
        (task.folder / name).unlink(missing_ok=True)
    text = (task.folder / task.program).read_bytes()
    (task.folder / PROGRAM_NAME).write_bytes(text.replace(b"\r\n", b"\n").replace(b"\n", b"\r\n"))
    command = [sys.executable, "-I", str(WORKER), PROGRAM_NAME, str(task.screens)]
    code, _ = run_program(
        task.dialect,
        task.folder,
        task.program,
        task.time_limit_s,
        command=command,
        stopped=task.stopped,
        rest_s=task.rest_s,
    )
    if code != 0:
        raise VerifyError(
            f"interpreter {PACKAGE}: {task.program}: {_failure(task.folder) or f'ended with code {code}'}"
        )
    screens = tuple(read_screen(task.folder / name) for name in names)
    version = importlib.metadata.version(PACKAGE)
    return Outcome(screens=screens, said=read_values(task.folder / SAID_FILE), version=version)


def _failure(folder: Path) -> str:
    """Return what the program failed of, in one line, or ""."""
    try:
        said = str(json.loads((folder / REPORT_FILE).read_text(encoding="ascii"))["said"])
    except (OSError, ValueError, KeyError, TypeError):
        return complaint_of(folder).strip()
    found = PLACE.search(said)
    return one_line(found.group(0) if found else said.strip()[:80])


PLUGIN = Reader(name="session", available=available, run=run)

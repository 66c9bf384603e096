"""Runs interpreters that only print: every value stands on a line after an equals sign."""

import re

from scenekit.errors import VerifyError
from scenekit.interpreters.outcome import Outcome, Reader, Run
from scenekit.interpreters.process import installed, run_program, version_of

VALUE = re.compile(r"^= ?(-?\d+)\s*$", re.MULTILINE)


def run(task: Run) -> Outcome:
    """Run a program and read the values it printed.

    raises   VerifyError: it printed none
    """
    code, text = run_program(
        task.dialect, task.folder, task.program, task.time_limit_s, stopped=task.stopped, rest_s=task.rest_s
    )
    values = tuple(int(match) for match in VALUE.findall(text))
    if code != 0 or not values:
        name = task.dialect.command[0]
        raise VerifyError(f"interpreter {name}: {task.program}: printed no values (exit code {code})")
    return Outcome(screens=(), said=values, version=version_of(task.dialect))


PLUGIN = Reader(name="printed", available=installed, run=run)

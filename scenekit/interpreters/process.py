"""Starts an interpreter with limits and without inherited secrets."""

import contextlib
import os
import re
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Mapping, Sequence
from functools import partial
from math import ceil
from pathlib import Path
from typing import BinaryIO

from scenekit.dialects.dialect import Dialect
from scenekit.errors import StoppedError, TimeLimitError, VerifyError
from scenekit.interpreters.idling import RestWatch

PASSED_ON = ("PATH", "HOME", "LANG", "SYSTEMROOT", "TEMP", "TMP", "DISPLAY")
LARGEST_OUTPUT_BYTES = 64_000_000
LARGEST_MEMORY_BYTES = 4 << 30
LONGEST_COMPLAINT_BYTES = 4096
LOOK_EVERY_S = 0.1
REFUSAL = re.compile(r"syntax error|\bline \d+", re.IGNORECASE)
COMPLAINT = re.compile(r"error|fail|could not|cannot|syntax|unknown|undefined", re.IGNORECASE)


def installed(dialect: Dialect) -> bool:
    """Say whether the interpreter of a dialect is on this machine."""
    return bool(dialect.command) and _executable(dialect.command[0]) is not None


def _executable(name: str) -> str | None:
    """Find a program on the path, or beside the Python that runs this, where packages put theirs."""
    return shutil.which(name) or shutil.which(name, path=str(Path(sys.executable).parent))


def version_of(dialect: Dialect) -> str:
    """Return the package version of a dialect's interpreter where the system knows it, else ""."""
    query = shutil.which("dpkg-query")
    if query is None or not dialect.command:
        return ""
    command = [query, "-W", "-f", "${Version}", dialect.command[0]]
    result = subprocess.run(command, capture_output=True, text=True, timeout=10, check=False)
    return result.stdout.strip() if result.returncode == 0 else ""


def run_program(
    dialect: Dialect,
    folder: Path,
    program: str,
    time_limit_s: float,
    *,
    command: Sequence[str] = (),
    environment: Mapping[str, str] | None = None,
    stopped: Callable[[], bool] = bool,
    rest_s: float = 0.0,
) -> tuple[int, str]:
    """Run a program in its folder and return its exit code and printed text.

    command      argument list; default: the dialect's
    environment  variables set beside the dialect's
    stopped      says whether the run is no longer wanted
    rest_s       how long it may neither compute nor write; 0 is without a bound
    raises       VerifyError: not installed; TimeLimitError: over a limit; StoppedError: no longer wanted
    """
    if not command and not installed(dialect):
        name = dialect.command[0] if dialect.command else dialect.name
        raise VerifyError(f"interpreter {name}: not installed; to install it: {dialect.package}")
    command = list(command) or [part.replace("{program}", program) for part in dialect.command]
    command[0] = _executable(command[0]) or command[0]
    printed, complaints = folder / "printed.out", folder / "complaints.out"
    with printed.open("wb") as output, complaints.open("wb") as errors:
        variables = _environment({**dict(dialect.environment), **(environment or {})})
        process = _started(command, folder, output, errors, variables, time_limit_s)
        watch = _watch(process.pid, folder, rest_s) if rest_s else None
        try:
            code = _awaited(process, time.monotonic() + time_limit_s, stopped, watch)
        except subprocess.TimeoutExpired:
            rested = watch is not None and watch.at_rest()
            why = (
                f"nothing came of it for {rest_s:g} s"
                if rested
                else f"still running after {time_limit_s:g} s"
            )
            said = complaint_of(folder, only_errors=True)
            raise TimeLimitError(f"interpreter {command[0]}: {program}: {why}; stopped{said}") from None
        finally:
            stop_group(process)
    return code, printed.read_bytes()[:LARGEST_OUTPUT_BYTES].decode("latin-1")


def _started(
    command: Sequence[str],
    folder: Path,
    output: BinaryIO,
    errors: BinaryIO,
    variables: dict[str, str],
    time_limit_s: float,
) -> "subprocess.Popen[bytes]":
    """Start a program as the leader of a group of its own, with limits where the system has them."""
    return subprocess.Popen(
        command,
        cwd=folder,
        stdin=subprocess.DEVNULL,
        stdout=output,
        stderr=errors,
        env=variables,
        start_new_session=os.name == "posix",
        preexec_fn=partial(_limit, ceil(time_limit_s)) if os.name == "posix" else None,
    )


def _watch(group: int, folder: Path, rest_s: float) -> RestWatch:
    return RestWatch(
        group, folder, longest_s=rest_s, complained=lambda: bool(REFUSAL.search(complaint_of(folder)))
    )


def _awaited(
    process: "subprocess.Popen[bytes]", end: float, stopped: Callable[[], bool], watch: RestWatch | None
) -> int:
    """Wait until a process ends, a time is reached or it rests; look now and then whether it is wanted."""
    while True:
        rest = end - time.monotonic()
        try:
            return process.wait(timeout=max(0.0, min(rest, LOOK_EVERY_S)))
        except subprocess.TimeoutExpired:
            if rest <= 0 or (watch is not None and watch.at_rest()):
                raise
            if stopped():
                raise StoppedError("the run was stopped") from None


def complaint_of(folder: Path, only_errors: bool = False) -> str:
    """Return what an interpreter complained of, short and ready to stand behind a message, or "".

    That is the first line that speaks of an error, or the last one where none does.
    only_errors  nothing where none does, for many programs chat while all is well
    """
    path = folder / "complaints.out"
    if not path.exists():
        return ""
    with path.open("rb") as file:
        lines = file.read(LONGEST_COMPLAINT_BYTES).decode("latin-1").splitlines()
    said = [line.strip() for line in lines if line.strip()]
    usual = said[-1] if said and not only_errors else ""
    found = next((line for line in said if COMPLAINT.search(line)), usual)
    return f" ({found[:120]})" if found else ""


def stop_group(process: "subprocess.Popen[bytes]") -> None:
    """End a process and everything it started."""
    if os.name == "posix":
        with contextlib.suppress(ProcessLookupError, PermissionError):
            os.killpg(process.pid, signal.SIGKILL)
    elif process.poll() is None:
        process.kill()
    process.wait()


def _environment(extra: Mapping[str, str]) -> dict[str, str]:
    kept = {name: os.environ[name] for name in PASSED_ON if name in os.environ}
    return {**kept, **extra}


def _limit(time_limit_s: int) -> None:
    """Limit what a program may take, also when scenekit itself is killed and stops it no more."""
    import resource

    seconds = 2 * time_limit_s + 60
    resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))
    resource.setrlimit(resource.RLIMIT_AS, (LARGEST_MEMORY_BYTES, LARGEST_MEMORY_BYTES))
    resource.setrlimit(resource.RLIMIT_FSIZE, (LARGEST_OUTPUT_BYTES, LARGEST_OUTPUT_BYTES))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))

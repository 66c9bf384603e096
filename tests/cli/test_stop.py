"""A request to end a command or a bench stops the interpreters that it started, too."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
LINUX = pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="needs /proc")
RUNNING = """
import sys
from pathlib import Path
from scenekit.cli.main import stop_on_request
from scenekit.dialects.dialect import load_dialect
from scenekit.interpreters.process import run_program

stop_on_request()
folder = Path(sys.argv[1])
note = "import os, time; open('pid', 'w').write(str(os.getpid())); time.sleep(600)"
run_program(load_dialect("plain", folder), folder, "none", 600, command=[sys.executable, "-c", note])
"""


def gone(pid: int) -> bool:
    """Say whether a process has ended (a zombie that nobody waits for has, too)."""
    try:
        return Path(f"/proc/{pid}/stat").read_text().rsplit(")", 1)[1].split()[0] in "ZX"
    except OSError:
        return True


def wait_for(true) -> None:
    deadline = time.monotonic() + 60
    while not true():
        assert time.monotonic() < deadline
        time.sleep(0.02)


@LINUX
def test_what_was_started_ends_with_it(tmp_path) -> None:
    note = tmp_path / "pid"
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    running = subprocess.Popen(
        [sys.executable, "-c", RUNNING, str(tmp_path)], env=environment, stderr=subprocess.DEVNULL
    )
    try:
        wait_for(lambda: note.exists() and note.read_text().isdigit())
        pid = int(note.read_text())
        assert not gone(pid)
        running.send_signal(signal.SIGTERM)
        running.wait(timeout=60)
        wait_for(lambda: gone(pid))
    finally:
        running.kill()
        running.wait()
        if note.exists() and not gone(int(note.read_text())):
            os.kill(int(note.read_text()), signal.SIGKILL)


def test_every_bench_that_runs_interpreters_can_be_stopped() -> None:
    running = []
    for path in sorted((ROOT / "tools" / "bench").glob("*.py")):
        text = path.read_text(encoding="utf-8")
        if "import readers" in text or "prove import" in text:
            running.append(path.name)
            assert "    stop_on_request()\n" in text, path.name
    assert {"prediction.py", "proof.py"} <= set(running)

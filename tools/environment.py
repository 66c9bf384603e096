"""Makes a virtual environment beside the clone and installs the project into it."""

import hashlib
import os
import subprocess
import sys
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
FOLDER = ROOT / ".venv"
OLDEST = (3, 11)


def python_of(folder: Path) -> Path:
    """Return the Python of an environment."""
    return folder / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def prepare(extras: str = "") -> Path:
    """Make or bring up to date the environment, and return its Python.

    extras   such as "[test]"
    """
    if sys.version_info < OLDEST:
        raise SystemExit(
            f"Python {'.'.join(map(str, OLDEST))} or later is needed; this is {sys.version.split()[0]}"
        )
    python = python_of(FOLDER)
    if not python.exists():
        say(f"making an environment in {FOLDER}")
        make_environment()
    mark = FOLDER / f"installed{extras.replace('[', '-').replace(']', '').replace(',', '-')}.txt"
    wanted = hashlib.sha256((ROOT / "pyproject.toml").read_bytes()).hexdigest()
    if not mark.exists() or mark.read_text(encoding="ascii") != wanted:
        say("installing scenekit and what it needs")
        run(
            [
                str(python),
                "-m",
                "pip",
                "install",
                "--quiet",
                "--disable-pip-version-check",
                "-e",
                f".{extras}",
            ]
        )
        mark.write_text(wanted, encoding="ascii")
    return python


def make_environment() -> None:
    """Make the environment; some systems ship Python without the parts for it and say so."""
    try:
        venv.create(FOLDER, with_pip=True, symlinks=os.name != "nt")
    except (subprocess.CalledProcessError, OSError) as error:
        raise SystemExit(
            f"the environment cannot be made: {error}\n"
            "on Debian and its kin this installs what is missing: apt-get install python3-venv"
        ) from None


def run(command: list[str], environment: dict[str, str] | None = None) -> None:
    """Run a command in the project's folder and stop with its exit code when it fails."""
    result = subprocess.run(command, cwd=ROOT, env={**os.environ, **(environment or {})}, check=False)
    if result.returncode != 0:
        raise SystemExit(result.returncode)


def say(text: str) -> None:
    """Print a line at once."""
    print(text, flush=True)

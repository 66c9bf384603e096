"""Sets up everything the tests need beside this clone, then runs all checks.

Run it with any Python from 3.11 on: python3 tools/check.py
With CI=true a missing interpreter or sheet is a failure; elsewhere its tests are skipped and named.
Arguments after -- go to pytest.
"""

import os
import shutil
import subprocess
import sys

import fetch_open_data
from environment import ROOT, prepare, run, say

INTERPRETERS = {
    "brandy": "brandy",
    "bwbasic": "bwbasic",
    "sdlBrt": "sdlbrt",
    "yabasic": "yabasic",
    "Xvfb": "xvfb",
    "xdotool": "xdotool",
    "chromium": "chromium",
}
SIDE_BY_SIDE = ("-n", str(min(2, os.cpu_count() or 1)), "--dist", "loadfile")
"""Two files of tests at a time, where there are two processors; more would starve those with interpreters."""


def install_interpreters() -> list[str]:
    """Install interpreters, and a browser for reports, where this user may; return what is still missing."""
    wanted = sorted({package for program, package in INTERPRETERS.items() if shutil.which(program) is None})
    may = shutil.which("apt-get") is not None and hasattr(os, "geteuid") and os.geteuid() == 0
    if wanted and may:
        say(f"installing {', '.join(wanted)}")
        quiet = {"env": {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}, "check": False}
        with open(os.devnull, "w", encoding="ascii") as nowhere:
            subprocess.run(["apt-get", "update"], stdout=nowhere, stderr=nowhere, **quiet)
            command = ["apt-get", "install", "-y", "--no-install-recommends", *wanted]
            subprocess.run(command, stdout=nowhere, **quiet)
    return sorted({package for program, package in INTERPRETERS.items() if shutil.which(program) is None})


def main() -> None:
    """Set up, then check form, types and behaviour."""
    python = str(prepare("[test,interpreters]"))
    still_missing = install_interpreters()
    if still_missing:
        say(f"without {', '.join(still_missing)}: install with apt-get install {' '.join(still_missing)}")
    for line in fetch_open_data.fetch():
        say(f"not fetched: {line}")
    arguments = sys.argv[sys.argv.index("--") + 1 :] if "--" in sys.argv else []
    say("form")
    run([python, "-m", "ruff", "format", "--check", "--quiet", "."])
    run([python, "-m", "ruff", "check", "--quiet", "."])
    say("types")
    run([python, "-m", "mypy"])
    say("behaviour")
    run(
        [python, "-m", "pytest", *SIDE_BY_SIDE, *arguments],
        {"SDL_VIDEODRIVER": "dummy", "SDL_AUDIODRIVER": "dummy"},
    )
    say(f"all checks passed in {ROOT}")


if __name__ == "__main__":
    main()

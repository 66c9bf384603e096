"""Runs one program in a pcbasic session and writes a picture of the screen whenever the program asks.

Started as a process of its own: python -I session_worker.py PROGRAM SCREENS. Imports nothing of scenekit.
"""

import json
import os
import sys
import time
from pathlib import Path
from typing import Any

from pcbasic import Session  # type: ignore[import-not-found,import-untyped,unused-ignore]

SAID_FILE = "said.txt"
MARK_FILE = "SHOT.TXT"
"""The program writes this file where its screen is to be looked at."""
LONGEST_TEXT = 4000


def _sleep_only_for_some_time(sleep: Any) -> None:
    """Let sleeps of no length pass: the session makes some at each statement for a window that is not here.

    Each took 78 us on one PC, more or less as the machine is loaded, which was half the time of a run.
    """

    def longer(seconds: float) -> None:
        if seconds > 0:
            sleep(seconds)

    time.sleep = longer


def main(program: str, screens: int) -> int:
    """Run a program; return 0 when it ended by itself."""
    _sleep_only_for_some_time(time.sleep)
    session = Session(
        video="vga",
        input_streams=None,
        output_streams=None,
        devices={b"Z": str(Path.cwd())},
        current_device=b"Z",
    )
    session.start()
    saved = 0

    def look(_: object) -> None:
        nonlocal saved
        if saved < screens and _has_text(MARK_FILE):
            _save(session, saved)
            saved += 1
            os.remove(MARK_FILE)

    session.set_hook(look)
    said, ended = b"", False
    try:
        said = session.execute(f'LOAD "{program}"'.encode("ascii"))
        said += session.execute(b"RUN")
    except Exception as error:
        ended = type(error).__name__ == "Exit"
        if not ended:
            said = repr(error).encode("ascii", "replace")
    session.close()
    for path in sorted(Path().iterdir()):
        if path.name.lower() == SAID_FILE:
            path.rename(SAID_FILE)
    report = {"ended": ended, "said": said.decode("latin-1")[:LONGEST_TEXT], "screens": saved}
    Path("session.json").write_text(json.dumps(report), encoding="ascii")
    return 0 if ended else 1


def _has_text(name: str) -> bool:
    try:
        return os.stat(name).st_size > 0
    except OSError:
        return False


def _save(session: Any, number: int) -> None:
    """Write a screen as `rgb W,H:` and six digits a pixel."""
    colours, _ = session._impl.display.colourmap._get_rgb_table()
    palette = [bytes(shown).hex() for shown, *_ in colours]
    rows = session.get_pixels()
    digits = "".join("".join(palette[entry] for entry in row) for row in rows)
    Path(f"shot{number}.txt").write_text(f"rgb {len(rows[0])},{len(rows)}:{digits}\n", encoding="ascii")


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], int(sys.argv[2])))

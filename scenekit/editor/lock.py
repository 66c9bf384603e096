"""A note in a project's folder that says which window works on it."""

import json
import os
import socket
import sys
from dataclasses import dataclass
from pathlib import Path

NAME = ".open-window.json"
FORMAT = 1
LARGEST_NOTE_BYTES = 4096


@dataclass(frozen=True, slots=True, kw_only=True)
class Holder:
    """The process that works on a project; `begun` tells it from a later one of the same number."""

    host: str
    process: int
    begun: str

    @property
    def alive(self) -> bool:
        """Whether it still runs, as far as can be told: nothing is known of another computer's."""
        if self.host != socket.gethostname():
            return True
        return process_begun(self.process) == self.begun


def this_process() -> Holder:
    """Return what is written of this process."""
    return Holder(host=socket.gethostname(), process=os.getpid(), begun=process_begun(os.getpid()) or "")


def process_begun(number: int) -> str | None:
    """Return a mark of when a process of this computer began, "" where that is not told; None: no such."""
    if sys.platform == "win32":
        return _windows_process_begun(number)
    try:
        text = Path(f"/proc/{number}/stat").read_text(encoding="utf-8", errors="replace")
        return text.rpartition(")")[2].split()[19]  # proc(5): the 22nd field, starttime
    except (OSError, IndexError):
        pass
    try:
        os.kill(number, 0)
    except PermissionError:
        return ""
    except (OSError, OverflowError):
        return None
    return ""


def _windows_process_begun(number: int) -> str | None:
    """Return the time at which a process of Windows began, from kernel32's GetProcessTimes."""
    if sys.platform != "win32":
        return None
    import ctypes

    kernel = ctypes.windll.kernel32
    handle = kernel.OpenProcess(0x1000, False, number)  # PROCESS_QUERY_LIMITED_INFORMATION
    if not handle:
        return None
    times = [ctypes.c_ulonglong() for _ in range(4)]
    told = kernel.GetProcessTimes(handle, *(ctypes.byref(time) for time in times))
    kernel.CloseHandle(handle)
    ended = told and times[1].value
    return None if ended else str(times[0].value) if told else ""


def read_note(folder: Path) -> Holder | None:
    """Return who works on a project; None when nobody does or the note cannot be understood."""
    try:
        with (folder / NAME).open("rb") as file:
            table = json.loads(file.read(LARGEST_NOTE_BYTES))
        host, process, begun = table["host"], table["process"], table["begun"]
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        return None
    good = isinstance(host, str) and type(process) is int and process > 0 and isinstance(begun, str)
    return Holder(host=host, process=process, begun=begun) if good else None


def other_window(folder: Path) -> Holder | None:
    """Return who else works on a project now; a note that a crash left behind counts for nothing."""
    holder = read_note(folder)
    return holder if holder is not None and holder != this_process() and holder.alive else None


def take(folder: Path, *, over: bool = False) -> Holder | None:
    """Write that this process works on a project; return who does already, who keeps it then.

    over   write it although somebody else works on it
    """
    holder = None if over else other_window(folder)
    if holder is not None:
        return holder
    me = this_process()
    note = {"format": FORMAT, "host": me.host, "process": me.process, "begun": me.begun}
    part = folder / f"{NAME}.{me.process}"
    try:
        part.write_bytes(json.dumps(note).encode("utf-8"))
        part.replace(folder / NAME)
    except OSError:
        part.unlink(missing_ok=True)
        return None  # a folder that cannot be written to cannot be worked on by two
    return other_window(folder)  # of two that open at once, the one whose note was replaced is told


def release(folder: Path) -> None:
    """Take the note away, where it is this process's own."""
    if read_note(folder) == this_process():
        (folder / NAME).unlink(missing_ok=True)

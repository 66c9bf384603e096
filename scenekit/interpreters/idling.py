"""Sees that a program came to rest without an end: it writes nothing, and computes nothing or complained."""

import os
import time
from collections.abc import Callable
from pathlib import Path

BUSY_SHARE = 0.01
"""A program that takes less of one processor than this, and writes nothing, is at rest."""


class RestWatch:
    """Looks now and then at a group of processes and the folder it writes into.

    Where the system does not tell what a group computed, nothing ever counts as at rest.

    longest_s  how long it may be at rest, s
    computed   takes the number of a group and returns its processor time, s
    complained  says whether the program told of an error; some then wait for a key, looking all the time
    """

    def __init__(
        self,
        group: int,
        folder: Path,
        *,
        longest_s: float,
        clock: Callable[[], float] = time.monotonic,
        computed: "Callable[[int], float | None] | None" = None,
        complained: Callable[[], bool] = bool,
    ) -> None:
        self.group, self.folder, self.longest_s, self.clock = group, folder, longest_s, clock
        self.computed, self.complained = computed or seconds_of_group, complained
        self._begin()

    def _begin(self) -> None:
        self.since, self.spent, self.written = self.clock(), self.computed(self.group), _written(self.folder)

    def at_rest(self) -> bool:
        """Say whether the group has been at rest for the longest time that is allowed."""
        if self.spent is None:
            return False
        passed = self.clock() - self.since
        if passed < self.longest_s:
            return False
        spent = self.computed(self.group)
        busy = spent is None or abs(spent - self.spent) >= BUSY_SHARE * passed
        if (busy and not self.complained()) or _written(self.folder) != self.written:
            self._begin()
            return False
        return True


def seconds_of_group(group: int) -> float | None:
    """Return the processor time that the living processes of a group took, or None where nobody tells."""
    if not Path("/proc/self/stat").exists():
        return None
    ticks, found = 0, False
    for entry in Path("/proc").iterdir():
        if entry.name.isdecimal():
            fields = _fields(entry / "stat")
            if len(fields) > 12 and fields[2] == str(group):
                ticks += int(fields[11]) + int(fields[12])
                found = True
    return ticks / os.sysconf("SC_CLK_TCK") if found else None


def _fields(path: Path) -> list[str]:
    """Return what stands behind the name of a process: state, parent, group, ... (Linux, proc(5))."""
    try:
        return path.read_text(encoding="latin-1").rpartition(")")[2].split()
    except OSError:
        return []


def _written(folder: Path) -> tuple[tuple[str, int], ...]:
    """Return the files of a folder with their lengths."""
    found = []
    for path in folder.iterdir():
        try:
            found.append((path.name, path.stat().st_size))
        except OSError:
            continue
    return tuple(sorted(found))

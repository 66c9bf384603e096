"""Judges what somebody's board sent back: logs of records, and saved screens."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from scenekit.build import Build
from scenekit.errors import VerifyError
from scenekit.images.flat import read_picture
from scenekit.interpreters.windowtext import read_screen
from scenekit.model.arrays import Pixels, freeze
from scenekit.model.project import Project
from scenekit.programs.proof import BAND_ROWS
from scenekit.programs.records import find_records, numbers_in, read_log_file, sums_of
from scenekit.render.screen import render_screen, screen_indices
from scenekit.verify.compare import TickResult, compare_screen, state_values

SHOT = re.compile(r"shot(\d{1,6})\.\w{1,5}", re.IGNORECASE)
AT_TICK = re.compile(r"(\d{1,8})=(.+)")
PICTURES = (".bmp", ".png", ".gif", ".tif", ".tiff", ".webp")
Awaited = tuple[tuple[str, tuple[int, ...]], ...]
"""Name and values of every part of a report, in the order in which a program says them."""
PASSED, INCOMPLETE, FAILED = "passed", "incomplete", "FAILED"


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """What a log says of one table, or of the state at one tick.

    values     records awaited
    missing    their numbers that no log holds
    different  their numbers that hold something else, or two different things
    """

    name: str
    values: int
    missing: tuple[int, ...]
    different: tuple[int, ...]

    def as_dict(self) -> dict[str, object]:
        """Return the part as plain JSON data."""
        return {
            "name": self.name,
            "values": self.values,
            "missing": list(self.missing),
            "different": list(self.different),
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardProof:
    """What the logs and screens of a board prove.

    unsent   ticks whose screen nobody sent, or of a game the numbers of these screens
    """

    parts: tuple[Part, ...]
    screens: tuple[TickResult, ...]
    unsent: tuple[int, ...]

    @property
    def verdict(self) -> str:
        """Return "passed" only when all that the program reports and shows is here and equal."""
        if any(part.different for part in self.parts) or any(screen.different for screen in self.screens):
            return FAILED
        if self.unsent or not self.parts or any(part.missing for part in self.parts):
            return INCOMPLETE
        return PASSED

    def as_dict(self) -> dict[str, object]:
        """Return the proof as plain JSON data."""
        return {
            "verdict": self.verdict,
            "parts": [part.as_dict() for part in self.parts],
            "screens": [screen.as_dict() for screen in self.screens],
            "unsent": list(self.unsent),
        }


def row_sums(build: Build, tick: int, project: Project | None = None) -> tuple[int, ...]:
    """Return two sums of every 16 rows of the screen at a tick, as `see` reads them.

    project   with its values as they stand at tick 0, if not as the build's do
    """
    shown = (project or build.project, build.scene, build.reduced, build.screen, build.view, tick)
    if build.mode.indexed:
        numbers = screen_indices(*shown).astype(np.int64)
    else:
        numbers = render_screen(*shown).astype(np.int64) @ np.array([1, 256, 65536])
    bands = range(0, numbers.shape[0], BAND_ROWS)
    return tuple(n for top in bands for n in sums_of(numbers[top : top + BAND_ROWS].reshape(-1).tolist()))


def awaited(build: Build, ticks: Sequence[int], sums: bool = False) -> Awaited:
    """Return (name, values) of every table and tick, in the order in which a reporting program says them.

    sums   the program reports sums of the screen's rows
    """
    parts: list[tuple[str, tuple[int, ...]]] = [
        (f"table {table.name}", sums_of(table.values)) for table in build.bundle.tables if table.values
    ]
    frames = build.planner.numbers
    for tick in ticks:
        if sums and build.scheme.draws:
            parts.append((f"rows at tick {tick}", row_sums(build, tick)))
        values = state_values(
            build.project, build.scene, build.reduced, build.bundle, frames, build.flags, tick
        )
        parts.append((f"tick {tick}", tuple(values)))
    return tuple(parts)


def judge(
    build: Build,
    ticks: Sequence[int],
    logs: Sequence[Sequence[int]],
    screens: Mapping[int, Pixels],
    sums: bool = False,
) -> BoardProof:
    """Compare what a board reported and showed with the reference.

    logs     numbers of each log
    screens  tick -> (H, W, 3) uint8
    sums     the program reports sums of the screen's rows, and need not save it
    raises   VerifyError: a screen is of a tick that is no stop
    """
    for tick in screens:
        if tick not in ticks:
            raise VerifyError(f"screen of tick {tick}: not among the stops {', '.join(map(str, ticks))}")
    parts = found_parts(awaited(build, ticks, sums), logs)
    compared = tuple(compare_screen(tick, build.picture(tick), screens[tick]) for tick in sorted(screens))
    shown = build.scheme.draws and not sums
    unsent = tuple(tick for tick in ticks if tick not in screens) if shown else ()
    return BoardProof(parts=parts, screens=compared, unsent=unsent)


def found_parts(parts: Awaited, logs: Sequence[Sequence[int]]) -> tuple[Part, ...]:
    """Return what logs say of each awaited part, whose records are numbered from 1 on."""
    records = find_records(logs, range(1, sum(len(values) for _, values in parts) + 1))
    found, number = [], 0
    for name, values in parts:
        numbers = range(number + 1, number + 1 + len(values))
        number += len(values)
        wrong = [
            n
            for n, wanted in zip(numbers, values, strict=True)
            if n in records.torn or records.values.get(n, wanted) != wanted
        ]
        missing = tuple(n for n in numbers if n not in records.values)
        found.append(Part(name=name, values=len(values), missing=missing, different=tuple(wrong)))
    return tuple(found)


def read_sent(sent: Sequence[str], ticks: Sequence[int]) -> tuple[list[tuple[int, ...]], dict[int, Pixels]]:
    """Read logs, and screens named shotN (N the number of the stop) or given as TICK=FILE.

    raises   VerifyError, ImageReadError
    """
    logs, screens = [], {}
    for text in sent:
        named = AT_TICK.fullmatch(text)
        path = Path(named.group(2) if named and not Path(text).exists() else text)
        shot = SHOT.fullmatch(path.name)
        if named and not Path(text).exists():
            screens[int(named.group(1))] = read_sent_screen(path)
        elif shot:
            number = int(shot.group(1))
            if number >= len(ticks):
                raise VerifyError(f"{path}: screen {number}; the stops are 0 to {len(ticks) - 1}")
            screens[ticks[number]] = read_sent_screen(path)
        elif path.suffix.lower() in PICTURES:
            raise VerifyError(f"{path}: of which tick? name it shotN, or give it as TICK={path.name}")
        else:
            logs.append(numbers_in(read_log_file(path)))
    return logs, screens


def read_sent_screen(path: Path) -> Pixels:
    """Return a saved screen, (H, W, 3) uint8: a picture file, or text of the kind `rgb W,H:`.

    raises   VerifyError, ImageReadError
    """
    if path.suffix.lower() == ".txt":
        return read_screen(path)
    return freeze(np.ascontiguousarray(read_picture(path).pixels[..., :3]))

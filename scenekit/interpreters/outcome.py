"""What a run of a program gives, and the record of a way to run one."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from scenekit.dialects.dialect import Dialect
from scenekit.model.arrays import Pixels
from scenekit.symmetry.flips import ALL_FLIPS


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Outcome:
    """What a program drew and said.

    screens  (H, W, 3) uint8, one for each stop
    said     every reported value, in order
    version  of the interpreter, or ""
    """

    screens: tuple[Pixels, ...]
    said: tuple[int, ...]
    version: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A run to be made: the folder with the program and its files, and limits.

    screens  how many screens are awaited
    flips    flip codes that the machine's keyed copies can do
    stopped  says whether the run is no longer wanted
    rest_s   how long the program may neither compute nor write; 0 is without a bound
    """

    folder: Path
    program: str
    dialect: Dialect
    screens: int
    time_limit_s: float
    flips: frozenset[int] = ALL_FLIPS
    stopped: Callable[[], bool] = bool
    rest_s: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Reader:
    """A way to run a program and read what it drew and said.

    available  says whether it can run a dialect here
    """

    name: str
    available: Callable[[Dialect], bool]
    run: Callable[[Run], Outcome]

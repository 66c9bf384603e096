"""Records that programs report: what they look like in a log, however much else stands there."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from scenekit.errors import VerifyError

VALUE = re.compile(r"[^\w-]*=?\s*(-?\d{1,12})\s*")
LARGEST_LOG_BYTES = 4_000_000
LENGTH = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Records:
    """What logs hold of the records 1 to `last`.

    values   number -> value
    torn     numbers that stand with different values, each under right sums
    """

    last: int
    values: Mapping[int, int]
    torn: frozenset[int]

    def missing(self) -> tuple[int, ...]:
        """Return the numbers that no log holds."""
        return tuple(n for n in range(1, self.last + 1) if n not in self.values)


def record_sums(number: int, value: int) -> tuple[int, int]:
    """Return the sums that end a record, as routine `report` reckons them; both stay below 32768."""
    size, negative = abs(value), value < 0
    one = number % 997 * 7 + size % 991 * 11 + size // 991 % 983 * 5 + (1729 if negative else 0)
    two = number % 983 * 3 + size % 977 * 13 + size // 977 % 971 * 7 + (811 if negative else 0)
    return one % 9973 + 10_000, two % 9949 + 20_000


def sums_of(values: Iterable[int]) -> tuple[int, int]:
    """Return the two sums over a table or file, as routine `add_to_sum` reckons them."""
    one = two = 1
    for value in values:
        number = value if value >= 0 else 30_011 - value
        one = (one * 31 + number % 997) % 997
        two = (two * 29 + number % 991) % 991
    return one, two


def read_log_file(path: Path) -> str:
    """Return the text of a log.

    raises   VerifyError: missing, too long
    """
    try:
        with path.open("rb") as file:  # what has no size, such as a device, is bounded too
            data = file.read(LARGEST_LOG_BYTES + 1)
    except OSError as error:
        raise VerifyError(f"log {path}: cannot be read: {error.strerror}") from None
    if len(data) > LARGEST_LOG_BYTES:
        raise VerifyError(f"log {path}: too large; must be at most {LARGEST_LOG_BYTES} bytes")
    return data.decode("latin-1")


def numbers_in(text: str) -> tuple[int, ...]:
    """Return the whole numbers that stand alone on lines; prompts, echo and all else are passed over."""
    found = (VALUE.fullmatch(line) for line in text.splitlines())
    return tuple(int(match.group(1)) for match in found if match)


def find_records(logs: Iterable[Sequence[int]], allowed: Iterable[int]) -> Records:
    """Find records among the numbers of several logs; a line lost or mangled costs the record it is of.

    allowed   numbers that a record may have
    """
    known = frozenset(allowed)
    values: dict[int, int] = {}
    torn: set[int] = set()
    for numbers in logs:
        at = 0
        while at + LENGTH <= len(numbers):
            number, value, *sums = numbers[at : at + LENGTH]
            if number not in known or tuple(sums) != record_sums(number, value):
                at += 1
                continue
            at += LENGTH
            if values.setdefault(number, value) != value:
                torn.add(number)
    return Records(last=max(known, default=0), values=values, torn=frozenset(torn))

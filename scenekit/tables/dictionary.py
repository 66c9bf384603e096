"""Repeats of what stands earlier in the table, found with a look at all ways to part it."""

from bisect import bisect_left
from collections.abc import Sequence

from scenekit.errors import EncodingError
from scenekit.tables.encoding import Bytes, Encoding, number_bytes

SHORTEST = 2
LONGEST = 129
MOST_DIFFERENT = 128
FARTHEST = {1: 255, 2: 65_535}
MOST_TRIED = 64
"""Earlier places looked at for each number, nearest first."""

Copies = list[tuple[int, int]]
"""What each place begins: (length, distance)."""


def encode(numbers: Sequence[int], wide: int, row: int) -> bytes:
    """Return one byte for how many bytes a distance takes, then literals and copies, the fewest bytes."""
    near, far = _copies(list(numbers))
    texts = [_parse(list(numbers), wide, 1, near)]
    if len(numbers) > FARTHEST[1]:
        texts.append(_parse(list(numbers), wide, 2, far))
    return min(texts, key=len)


def _parse(numbers: list[int], wide: int, size: int, copies: Copies) -> bytes:
    """Return the shortest text whose distances take `size` bytes, by working from the end."""
    count = len(numbers)
    cost = [0] * (count + 1)
    choice: list[tuple[int, int]] = [(0, 0)] * count
    for place in range(count - 1, -1, -1):
        after = choice[place + 1] if place + 1 < count else (MOST_DIFFERENT, 0)
        joins = not after[1] and after[0] < MOST_DIFFERENT
        best = cost[place + 1] + wide + (0 if joins else 1)
        chosen = (after[0] + 1 if joins else 1, 0)
        longest, distance = copies[place]
        if distance:
            ends = cost[place + SHORTEST : place + longest + 1]
            least = min(ends)
            if 1 + size + least < best:
                best, chosen = 1 + size + least, (SHORTEST + ends.index(least), distance)
        cost[place], choice[place] = best, chosen
    return _written(numbers, wide, size, choice)


def _written(numbers: list[int], wide: int, size: int, choice: Copies) -> bytes:
    """Return the text of what was chosen at each place: (length, distance), distance 0 for literals."""
    result, place = bytearray([size]), 0
    while place < len(numbers):
        length, distance = choice[place]
        if distance:
            result.append(126 + length)
            result += number_bytes(distance, size)
        else:
            result.append(length - 1)
            for number in numbers[place : place + length]:
                result += number_bytes(number, wide)
        place += length
    return bytes(result)


def _copies(numbers: list[int]) -> tuple[Copies, Copies]:
    """Return, for every place, the longest copy of what stands earlier, near and at any distance.

    A copy is (length, distance), (0, 0) where there is none; of equal ones the nearest.
    """
    places: dict[tuple[int, ...], list[int]] = {}
    near, far = [], []
    for place in range(len(numbers)):
        before = places.setdefault(tuple(numbers[place : place + SHORTEST]), [])
        best = farther = (0, 0)
        if before and place + SHORTEST <= len(numbers):
            tried = before[-MOST_TRIED:]
            first_near, first_far = (bisect_left(tried, place - FARTHEST[size]) for size in (1, 2))
            best = _longest(numbers, place, tried[first_near:], best)
            farther = _longest(numbers, place, tried[first_far:first_near], best)
        near.append(best)
        far.append(farther)
        before.append(place)
    return near, far


def _longest(numbers: list[int], place: int, candidates: list[int], best: tuple[int, int]) -> tuple[int, int]:
    """Return the longest copy of places with the same first numbers, of equals the nearest, or `best`."""
    length, most = best[0], min(LONGEST, len(numbers) - place)
    for start in reversed(candidates):
        if length == most:
            break
        if numbers[start + length] == numbers[place + length]:
            same = 0
            while same < most and numbers[start + same] == numbers[place + same]:
                same += 1
            if same > length:
                length, best = same, (same, place - start)
    return best


def decode(data: Bytes, count: int, wide: int) -> list[int]:
    """Return the numbers."""
    size, numbers = data.byte(), list[int]()
    while len(numbers) < count:
        head = data.byte()
        if head < 128:
            numbers += [data.number(wide) for _ in range(head + 1)]
            continue
        distance = data.number(size)
        if not 1 <= distance <= len(numbers):
            raise EncodingError(f"dictionary: {distance} back; {len(numbers)} numbers stand before")
        for _ in range(head - 126):
            numbers.append(numbers[-distance])
    if len(numbers) != count:
        raise EncodingError(f"dictionary: {len(numbers)} numbers; {count} awaited")
    return numbers


PLUGIN = Encoding(
    name="dictionary",
    code=5,
    meaning="repeats of what stands earlier",
    encode=encode,
    decode=decode,
    routine="unpack_dictionary",
    example=((1, 2, 1, 2, 1, 2), 1, 0, bytes([1, 1, 1, 2, 130, 2])),
)

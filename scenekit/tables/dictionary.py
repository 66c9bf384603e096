"""Repeats of what stands earlier in the table, found with a look at all ways to part it."""

from collections.abc import Sequence

from scenekit.errors import EncodingError
from scenekit.tables.encoding import Bytes, Encoding, number_bytes

SHORTEST = 2
LONGEST = 129
MOST_DIFFERENT = 128
FARTHEST = {1: 255, 2: 65_535}
MOST_TRIED = 64
"""Earlier places looked at for each number, nearest first."""


def encode(numbers: Sequence[int], wide: int, row: int) -> bytes:
    """Return one byte for how many bytes a distance takes, then literals and copies, the fewest bytes."""
    sizes = (1,) if len(numbers) <= FARTHEST[1] else (1, 2)
    texts = [_parse(list(numbers), wide, size) for size in sizes]
    return min(texts, key=len)


def _parse(numbers: list[int], wide: int, size: int) -> bytes:
    """Return the shortest text whose distances take `size` bytes, by working from the end."""
    count = len(numbers)
    copies = _copies(numbers, FARTHEST[size])
    cost = [0] * (count + 1)
    choice: list[tuple[int, int]] = [(0, 0)] * count
    for place in range(count - 1, -1, -1):
        after = choice[place + 1] if place + 1 < count else (MOST_DIFFERENT, 0)
        joins = not after[1] and after[0] < MOST_DIFFERENT
        best = cost[place + 1] + wide + (0 if joins else 1)
        chosen = (after[0] + 1 if joins else 1, 0)
        longest, distance = copies[place]
        for length in range(SHORTEST, longest + 1):
            if 1 + size + cost[place + length] < best:
                best, chosen = 1 + size + cost[place + length], (length, distance)
        cost[place], choice[place] = best, chosen
    result, place = bytearray([size]), 0
    while place < count:
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


def _copies(numbers: list[int], farthest: int) -> list[tuple[int, int]]:
    """Return, for every place, the longest copy of what stands earlier: (length, distance)."""
    places: dict[tuple[int, ...], list[int]] = {}
    found = []
    for place in range(len(numbers)):
        key = tuple(numbers[place : place + SHORTEST])
        best = (0, 0)
        most = min(LONGEST, len(numbers) - place)
        for start in reversed(places.get(key, [])[-MOST_TRIED:]):
            if place - start > farthest:
                break
            if numbers[start + best[0]] != numbers[place + best[0]]:
                continue
            length = 0
            while length < most and numbers[start + length] == numbers[place + length]:
                length += 1
            if length > best[0]:
                best = (length, place - start)
                if length == most:
                    break
        found.append(best if best[0] >= SHORTEST else (0, 0))
        places.setdefault(key, []).append(place)
    return found


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

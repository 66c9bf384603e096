"""Every encoding gives back what it took, refuses what it cannot have written, and has a short routine."""

import random

import pytest

from scenekit.errors import EncodingError
from scenekit.routines.library import routines_of
from scenekit.routines.written import statement_lines
from scenekit.tables import encodings
from scenekit.tables.encoding import Bytes

ENCODINGS = encodings()
MOST_LINES = 25


def random_numbers(chosen: random.Random, wide: int) -> list[int]:
    """Return numbers as tables have them: runs, steps, repeats, noise."""
    top = chosen.choice([1, 2, 15, 60, 256**wide - 1])
    numbers: list[int] = []
    for _ in range(chosen.randint(1, 12)):
        kind = chosen.randint(0, 3)
        length = chosen.choice([1, 2, 3, 9, 140])
        if kind == 0:
            numbers += [chosen.randint(0, top)] * length
        elif kind == 1:
            numbers += [(5 + 3 * n) % (top + 1) for n in range(length)]
        elif kind == 2 and numbers:
            start = chosen.randrange(len(numbers))
            numbers += numbers[start : start + length]
        else:
            numbers += [chosen.randint(0, top) for _ in range(length)]
    return numbers


@pytest.mark.parametrize("name", ENCODINGS)
def test_the_hand_example_is_what_is_written(name):
    numbers, wide, row, data = ENCODINGS[name].example
    assert ENCODINGS[name].encode(numbers, wide, row) == data
    assert tuple(ENCODINGS[name].decode(Bytes(data), len(numbers), wide)) == numbers


@pytest.mark.parametrize("wide", [1, 2, 3])
@pytest.mark.parametrize("name", ENCODINGS)
def test_random_tables_come_back(name, wide):
    encoding, taken = ENCODINGS[name], 0
    for seed in range(80):
        chosen = random.Random(1000 * wide + seed)
        numbers = random_numbers(chosen, wide)
        data = encoding.encode(numbers, wide, chosen.choice([0, 2, 3, 7, 40]))
        if data is None:
            continue
        taken += 1
        stream = Bytes(data + b"\x07")
        assert encoding.decode(stream, len(numbers), wide) == numbers, seed
        assert stream.at == len(data)
    assert taken >= 20


@pytest.mark.parametrize("name", ENCODINGS)
def test_cut_bytes_are_refused(name):
    numbers, wide, _, data = ENCODINGS[name].example
    for length in range(len(data)):
        with pytest.raises(EncodingError, match="ends after"):
            ENCODINGS[name].decode(Bytes(data[:length]), len(numbers), wide)


@pytest.mark.parametrize("name", ENCODINGS)
def test_any_bytes_give_the_numbers_asked_for_or_one_clear_error(name):
    chosen = random.Random(7)
    for _ in range(300):
        data = Bytes(bytes(chosen.choice([0, 1, 2, 3, 128, 130, 255]) for _ in range(40)))
        try:
            assert len(ENCODINGS[name].decode(data, 30, 1)) == 30
        except EncodingError:
            continue


def test_codes_differ_and_fit_half_a_byte():
    codes = [encoding.code for encoding in ENCODINGS.values()]
    assert len(set(codes)) == len(codes)
    assert all(0 <= code < 15 for code in codes)


@pytest.mark.parametrize("name", ENCODINGS)
def test_the_routine_is_short(name):
    routine = next(r for r in routines_of(ENCODINGS[name].routine) if r.name == ENCODINGS[name].routine)
    lines = [line for line in statement_lines(routine.body) if not line.strip().startswith("'")]
    assert len(lines) <= MOST_LINES + 1, "a decoder has at most 25 lines besides its last end"

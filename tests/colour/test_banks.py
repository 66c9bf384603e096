"""Banks keep to their entries."""

import numpy as np
import pytest

from scenekit.colour.banks import Bank, bank_sizes, reduce_banks
from scenekit.colour.depth import parse
from scenekit.errors import PaletteError

TRUE = parse("8-8-8")


def art(seed: int, colours: int) -> np.ndarray:
    rng = np.random.default_rng(seed)
    rgb = rng.integers(0, 256, (colours, 3), dtype=np.uint8)[rng.integers(0, colours, (20, 20))]
    return np.dstack([rgb, rng.integers(0, 256, (20, 20), dtype=np.uint8)])


def test_each_bank_keeps_to_its_entries():
    sky, gulls = art(1, 50), art(2, 60)
    gulls[0, 0] = (9, 8, 7, 255)
    banks = [
        Bank(name="sky", pictures=(sky,), entries=tuple(range(1, 8))),
        Bank(name="gulls", pictures=(gulls, gulls[:5]), entries=tuple(range(8, 15))),
    ]
    got = reduce_banks(banks, entries=16, depth=TRUE, locked={15: (9, 8, 7)})
    for name, picture, index in (("sky", sky, 0), ("gulls", gulls, 0), ("gulls", gulls[:5], 1)):
        part = got.reductions[name].indices[index]
        opaque = picture[..., 3] >= 128
        assert (part[~opaque] == 0).all()
        assert set(np.unique(part[opaque])) <= {*got.entries[name], 15}
        own = got.reductions[name].palette
        assert (got.palette[part] == own[part]).all()
    assert got.reductions["gulls"].indices[0][0, 0] == 15
    assert got.palette[15].tolist() == [9, 8, 7]


def test_sizes_follow_what_is_needed():
    assert bank_sizes([3, 100, 100], 15) == (3, 6, 6)
    assert bank_sizes([100, 2, 4], 9) == (4, 2, 3)
    assert bank_sizes([5, 0, 5], 20) == (5, 0, 5)
    assert bank_sizes([], 20) == ()
    rng = np.random.default_rng(1)
    for _ in range(100):
        needs = rng.integers(1, 60, 6).tolist()
        sizes = bank_sizes(needs, 40)
        assert sum(sizes) == min(40, sum(needs))
        assert all(1 <= size <= need for size, need in zip(sizes, needs, strict=True))


def test_loose_banks_share_what_is_left():
    banks = [
        Bank(name="sky", pictures=(art(3, 3),)),
        Bank(name="quay", pictures=(art(4, 40),), entries=(1, 2, 3)),
        Bank(name="gulls", pictures=(art(5, 90),), weights=(3,)),
    ]
    got = reduce_banks(banks, entries=16, depth=TRUE, transparent=0)
    assert got.entries == {"sky": (4, 5, 6), "quay": (1, 2, 3), "gulls": tuple(range(7, 16))}
    assert got.reductions["sky"].exact


@pytest.mark.parametrize(
    ("entries", "text"),
    [(((1, 2), (2, 3)), "taken by bank a"), (((0, 1), ()), "reserved"), (((1, 16), ()), "entry 16")],
)
def test_impossible_banks_are_refused(entries, text):
    banks = [
        Bank(name=name, pictures=(art(6, 5),), entries=own) for name, own in zip("ab", entries, strict=True)
    ]
    with pytest.raises(PaletteError, match=text):
        reduce_banks(banks, entries=16, depth=TRUE)


def test_no_room_and_equal_names_are_refused():
    loose = [Bank(name=name, pictures=(art(7, 5),)) for name in "abc"]
    with pytest.raises(PaletteError, match="3 groups for 2"):
        reduce_banks(loose, entries=3, depth=TRUE)
    with pytest.raises(PaletteError, match="names a, a"):
        reduce_banks([loose[0], loose[0]], entries=16, depth=TRUE)

"""Flips against numpy's own mirrors and turns, and equal pictures against a slow search of all pairs."""

from itertools import product

import numpy as np
import pytest

from scenekit.symmetry import flips
from scenekit.symmetry.flips import ALL_FLIPS, ALL_TURNS, HV, NONE, H, V

GROUPS = [frozenset({NONE}), frozenset({NONE, H}), frozenset({NONE, V}), frozenset({NONE, HV}), ALL_FLIPS]


def pictures(seed, count, side=3, colours=2):
    draw = np.random.default_rng(seed)
    return [draw.integers(0, colours, (side, side, 4), dtype=np.uint8) for _ in range(count)]


@pytest.mark.parametrize(
    ("code", "mirror"),  # source: numpy reference manual, fliplr, flipud, rot90
    [(NONE, lambda a: a), (H, np.fliplr), (V, np.flipud), (HV, lambda a: np.rot90(a, 2))],
)
def test_flips_are_numpys_mirrors(code, mirror):
    picture = np.arange(2 * 3 * 4).reshape(2, 3, 4)
    assert np.array_equal(flips.flip_picture(picture, code), mirror(picture))
    assert flips.flip_picture(np.zeros((5, 7), np.uint8), code).shape == (5, 7)


@pytest.mark.parametrize(
    ("name", "mirror"),
    [
        ("quarter-right", lambda a: np.rot90(a, -1)),
        ("quarter-left", np.rot90),
        ("diagonal", np.transpose),
        ("anti-diagonal", lambda a: np.rot90(np.transpose(a), 2)),
    ],
)
def test_turns_are_numpys_turns(name, mirror):
    picture = np.arange(6).reshape(2, 3)
    turned = flips.turn_picture(picture, flips.TURN_NAMES.index(name))
    assert np.array_equal(turned, mirror(picture))


@pytest.mark.parametrize(("first", "second"), list(product(range(8), repeat=2)))
def test_combine_is_one_after_the_other(first, second):
    picture = np.arange(6).reshape(2, 3)
    both = flips.turn_picture(flips.turn_picture(picture, first), second)
    assert np.array_equal(both, flips.turn_picture(picture, flips.combine(first, second)))
    assert flips.combine(first, flips.invert(first)) == NONE


def test_codes_and_names():
    assert [flips.flip_code(name) for name in ("none", "h", "v", "hv")] == [0, 1, 2, 3]
    with pytest.raises(ValueError, match="none, h, v, hv"):
        flips.flip_code("left")
    with pytest.raises(ValueError, match=r"0\.\.3"):
        flips.flip_picture(np.zeros((2, 2)), 4)
    with pytest.raises(ValueError, match=r"0\.\.7"):
        flips.turn_picture(np.zeros((2, 2)), 8)


@pytest.mark.parametrize("allowed", [*GROUPS, ALL_TURNS])
def test_canonical_keys_are_equal_exactly_when_a_code_turns_one_into_the_other(allowed):
    some = [picture[..., :1] for picture in pictures(5, 60, side=2)]
    keys = [flips.canonical(picture, allowed)[0] for picture in some]
    for (a, key_a), (b, key_b) in product(zip(some, keys, strict=True), repeat=2):
        turned = any(np.array_equal(flips.turn_picture(a, code), b) for code in allowed)
        assert (key_a == key_b) == turned


@pytest.mark.parametrize("allowed", [*GROUPS, ALL_TURNS])
def test_canonical_code_leads_from_the_canonical_picture(allowed):
    for picture in pictures(7, 20):
        codes = {}
        for code in allowed:
            twin = flips.turn_picture(picture, code)
            _, back = flips.canonical(twin, allowed)
            codes[code] = flips.turn_picture(twin, flips.invert(back))
        first = codes[NONE]
        assert all(np.array_equal(first, other) for other in codes.values())


def test_canonical_refuses_sets_that_are_not_closed():
    with pytest.raises(ValueError, match="closed"):
        flips.canonical(np.zeros((2, 2)), frozenset({H, V}))


def test_shape_and_type_belong_to_the_key():
    flat = np.zeros((2, 8), np.uint8)
    assert flips.canonical(flat)[0] != flips.canonical(flat.reshape(4, 4))[0]
    assert flips.canonical(flat)[0] != flips.canonical(flat.view(np.uint16).reshape(2, 4))[0]
    assert flips.find_equal([flat, flat.reshape(4, 4)]) == [(0, 0), (1, 0)]


def slow_find_equal(arrays, allowed):
    """Compare every pair."""
    found, kept = [], []
    for index, array in enumerate(arrays):
        options = [
            (earlier, code)
            for earlier in kept
            for code in sorted(allowed | {NONE})
            if np.array_equal(flips.turn_picture(arrays[earlier], code), array)
        ]
        if not options:
            kept.append(index)
        found.append(min(options, default=(index, NONE)))
    return found


@pytest.mark.parametrize("allowed", [*GROUPS, ALL_TURNS, frozenset({H, V}), frozenset({NONE, H, V})])
def test_find_equal_agrees_with_all_pairs(allowed):
    some = [picture[..., :1] for picture in pictures(11, 150, side=2)]
    assert flips.find_equal(some, allowed) == slow_find_equal(some, allowed)


def test_find_equal_takes_the_lowest_flip_of_a_symmetric_picture():
    ring = np.ones((3, 3), np.uint8)
    lopsided = np.array([[1, 0], [0, 0]], np.uint8)
    assert flips.find_equal([ring, ring, lopsided, lopsided[::-1], lopsided[::-1, ::-1]]) == [
        (0, NONE),
        (0, NONE),
        (2, NONE),
        (2, V),
        (2, HV),
    ]

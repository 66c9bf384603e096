"""What pictures share, on sets drawn by code whose answer is known, and against a search of all pairs."""

import time
from itertools import combinations

import numpy as np
import pytest

from scenekit.sprites.nearness import Near, find_near
from scenekit.sprites.sharing import Equal, Recolour, cut_out, find_sharing
from scenekit.symmetry.flips import ALL_FLIPS, ALL_TURNS, HV, NONE, H, turn_picture

RED, BLUE, GOLD = (200, 0, 0, 255), (0, 0, 200, 255), (220, 180, 0, 255)


def drawn(lines, **colours):
    """Draw a picture from letters; a dot is clear."""
    colours = {"r": RED, "b": BLUE, "g": GOLD, ".": (0, 0, 0, 0), **colours}
    return np.array([[colours[letter] for letter in line] for line in lines.split()], np.uint8)


LAMP = "rr.. rb.. .r.. .rrr"


def counts(pictures):
    return [level.distinct for level in find_sharing(pictures).levels]


def test_levels_count_what_each_kind_of_flip_saves():
    lamp = drawn(LAMP)
    every = [turn_picture(lamp, code) for code in range(8)]
    assert counts(every) == [8, 4, 2, 1]
    assert counts([lamp] * 5) == [1, 1, 1, 1]
    levels = find_sharing(every).levels
    assert [level.pixels for level in levels] == [128, 64, 32, 16]
    assert [level.name for level in levels] == ["equal", "h", "h, v, hv", "quarter turns"]


def test_empty_pictures_are_passed_over_and_clear_pixels_are_equal():
    lamp, stained = drawn(LAMP), drawn(LAMP)
    stained[0, 3] = (9, 9, 9, 0)
    sharing = find_sharing([np.zeros((4, 4, 4), np.uint8), lamp, stained])
    assert sharing.given == 2
    assert sharing.equal == (Equal(index=2, first=1, code=NONE),)
    assert stained[0, 3, 0] == 9


def test_equal_pictures_say_how_to_draw_them():
    lamp = drawn(LAMP)
    pictures = [lamp, lamp[:, ::-1], drawn("rr rb"), lamp[::-1, ::-1]]
    sharing = find_sharing(pictures)
    assert sharing.equal == (Equal(index=1, first=0, code=H), Equal(index=3, first=0, code=HV))
    for equal in find_sharing([turn_picture(lamp, code) for code in range(8)], ALL_TURNS).equal:
        assert np.array_equal(turn_picture(lamp, equal.code), turn_picture(lamp, equal.index))


def test_a_palette_swap_is_found_with_its_colours():
    lamp = drawn(LAMP)
    swapped = drawn(LAMP, r=BLUE, b=GOLD)
    sharing = find_sharing([lamp, swapped[:, ::-1]])
    assert sharing.equal == ()
    assert sharing.recolours == (Recolour(index=1, first=0, code=H, colours=((BLUE, GOLD), (RED, BLUE))),)


def test_a_swap_must_be_one_to_one_and_keep_alpha():
    lamp = drawn(LAMP)
    merged = drawn(LAMP, r=BLUE, b=BLUE)
    soft = drawn(LAMP, r=(200, 0, 0, 128))
    filled = drawn(LAMP, **{".": GOLD})
    assert find_sharing([lamp, merged, soft, filled]).recolours == ()


def test_plain_fills_are_no_recolours():
    fills = [np.full((4, 4, 4), shade, np.uint8) for shade in (255, 254)]
    assert find_sharing(fills).recolours == ()


def slow_recolours(pictures):
    """Try every pair for a one-to-one map of colours."""
    found = []
    for first, index in combinations(range(len(pictures)), 2):
        for code in sorted(ALL_FLIPS):
            old, new = turn_picture(pictures[first], code), pictures[index]
            pairs = {
                (tuple(a), tuple(b)) for a, b in zip(old.reshape(-1, 4), new.reshape(-1, 4), strict=True)
            }
            one_to_one = len({a for a, _ in pairs}) == len({b for _, b in pairs}) == len(pairs)
            if one_to_one and len(pairs) > 1 and np.array_equal(old[..., 3], new[..., 3]):
                found.append((first, index))
                break
    return found


def test_recolours_agree_with_all_pairs():
    draw = np.random.default_rng(21)
    colours = np.array([(0, 0, 0, 0), RED, BLUE, GOLD], np.uint8)
    pictures = [colours[draw.integers(0, 4, (2, 3))] for _ in range(60)]
    firsts = {}
    for first, index in slow_recolours(pictures):
        firsts.setdefault(index, first)
    sharing = find_sharing(pictures)
    answered = {equal.index: equal.first for equal in sharing.equal}
    answered |= {recolour.index: recolour.first for recolour in sharing.recolours}
    for index, picture in enumerate(pictures):
        plain = (picture == picture[0, 0]).all()
        if index in answered and not plain and picture[..., 3].any():
            assert index in firsts
        if index in firsts and picture[..., 3].any():
            assert index in answered
    for recolour in sharing.recolours:
        old = turn_picture(pictures[recolour.first], recolour.code).copy()
        swap = dict(recolour.colours)
        for spot in np.ndindex(old.shape[:2]):
            old[spot] = swap.get(tuple(int(v) for v in old[spot]), tuple(old[spot]))
        assert np.array_equal(old, pictures[recolour.index])


def test_near_pictures_are_listed_with_their_difference():
    lamp = drawn(LAMP)
    other = lamp[::-1].copy()
    other[0, 1] = (200, 0, 12, 255)
    far = drawn("g..b ...g gg.. b..b")
    sharing = find_sharing([lamp, far, other])
    rms = int((144 / 64) ** 0.5 * 1000)
    assert sharing.near == (
        Near(index=2, first=0, code=2, pixels_different=1, of_pixels=16, largest=12, rms_milli=rms),
    )
    assert find_sharing([lamp, far, other], near_rms=0).near == ()


@pytest.mark.parametrize("size", [(4, 4), (5, 7), (9, 3)])
def test_near_pairs_agree_with_all_pairs(size):
    draw = np.random.default_rng(size[0])
    base = draw.integers(0, 256, (4, *size, 4))
    pictures = [
        np.clip(
            base[draw.integers(4)] + draw.integers(-30, 31, (*size, 4)) * draw.integers(0, 2), 0, 255
        ).astype(np.uint8)[:: draw.choice([-1, 1]), :: draw.choice([-1, 1])]
        for _ in range(40)
    ]
    expected = set()
    for first, index in combinations(range(40), 2):
        for code in ALL_FLIPS:
            apart = turn_picture(pictures[first], code).astype(int) - pictures[index]
            if (apart**2).sum() <= 18**2 * apart.size:
                expected.add((first, index))
    found = find_near(pictures, list(range(40)), ALL_FLIPS, 18)
    assert {(near.first, near.index) for near in found} == expected
    assert [near.rms_milli for near in found] == sorted(near.rms_milli for near in found)
    assert 0 < len(expected) < 780


def test_boxes_are_cut_out_once_and_what_is_off_the_sheet_is_left():
    sheet = np.arange(5 * 6 * 4, dtype=np.uint8).reshape(5, 6, 4)
    parts = cut_out(sheet, [(0, 0, 2, 2), (4, 3, 9, 9), (0, 0, 2, 2), (-1, -1, 2, 2), (6, 0, 2, 2)])
    assert [part.shape[:2] for part in parts] == [(2, 2), (2, 2), (1, 1)]


def test_four_thousand_tiles_are_compared_in_seconds():
    draw = np.random.default_rng(1)
    tiles = [draw.integers(0, 256, (16, 16, 4), dtype=np.uint8) for _ in range(2000)]
    tiles += [tile[:, ::-1] for tile in tiles]
    start = time.perf_counter()
    sharing = find_sharing(tiles)
    assert time.perf_counter() - start < 15
    assert [level.distinct for level in sharing.levels] == [4000, 2000, 2000, 2000]

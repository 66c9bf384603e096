"""Reduction: exactness, reserved entries, transparency, and quality against a plain search."""

import hashlib

import numpy as np
import pytest

from scenekit.colour.clusters import CHROMA_WEIGHT, nearest
from scenekit.colour.depth import parse
from scenekit.colour.difference import byte_difference
from scenekit.colour.dither import Dither, dither_reduction
from scenekit.colour.fixed_oklab import bytes_to_fixed
from scenekit.colour.quantise import reduce_pictures
from scenekit.errors import PaletteError

TRUE = parse("8-8-8")


def picture(seed: int, height: int = 24, width: int = 32, colours: int | None = None) -> np.ndarray:
    rng = np.random.default_rng(seed)
    if colours is None:
        rgb = rng.integers(0, 256, (height, width, 3), dtype=np.uint8)
    else:
        rgb = rng.integers(0, 256, (colours, 3), dtype=np.uint8)[rng.integers(0, colours, (height, width))]
    return np.dstack([rgb, rng.integers(0, 256, (height, width), dtype=np.uint8)])


def test_few_colours_stay_exact():
    art = picture(1, colours=15)
    got = reduce_pictures([art], entries=16, depth=TRUE)
    opaque = art[..., 3] >= 128
    assert got.exact
    assert got.mean_error == (0.0,)
    assert (got.palette[got.indices[0]][opaque] == art[..., :3][opaque]).all()
    counts = got.counts[1:16]
    assert list(counts) == sorted(counts, reverse=True)
    assert sum(got.counts) == art.shape[0] * art.shape[1]


@pytest.mark.parametrize("transparent", [0, 7, 15])
def test_transparency_has_its_own_entry(transparent):
    art = picture(2)
    got = reduce_pictures([art], entries=16, depth=TRUE, transparent=transparent)
    assert ((got.indices[0] == transparent) == (art[..., 3] < 128)).all()
    assert got.counts[transparent] == (art[..., 3] < 128).sum()
    assert got.used == 16


def test_black_art_is_not_the_black_of_the_transparent_entry():
    art = np.zeros((2, 2, 4), dtype=np.uint8)
    art[..., 3] = 255
    got = reduce_pictures([art], entries=4, depth=TRUE)
    assert got.indices[0].tolist() == [[1, 1], [1, 1]]


def test_locked_entries_take_only_their_own_colour():
    art = picture(3, colours=40)
    lock, near = (10, 20, 30), (10, 20, 31)
    art[0, 0] = (*lock, 255)
    art[0, 1] = (*near, 255)
    got = reduce_pictures([art], entries=8, depth=TRUE, locked={5: lock, 6: lock})
    assert got.palette[5].tolist() == list(lock)
    assert got.indices[0][0, 0] == 5
    assert got.indices[0][0, 1] not in (5, 6)
    assert got.counts[5] == 1
    assert got.counts[6] == 0
    shared = reduce_pictures([art], entries=8, depth=TRUE, locked={5: lock, 6: lock}, share_locked=True)
    assert shared.indices[0][0, 1] == 5
    assert shared.counts[5] > 1


def test_locked_colours_are_compared_before_rounding():
    art = np.array([[[8, 8, 8, 255], [9, 9, 9, 255]]], dtype=np.uint8)
    got = reduce_pictures([art], entries=4, depth=parse("4-4-4"), locked={3: (8, 8, 8)})
    assert got.indices[0].tolist() == [[3, 1]]
    assert got.palette[[3, 1]].tolist() == [[0] * 3, [17] * 3]
    assert (got.palette == parse("4-4-4").round_trip(got.palette)).all()


def test_one_locked_transparent_entry_is_never_drawn():
    art = np.full((1, 1, 4), 255, dtype=np.uint8)
    got = reduce_pictures([art], entries=2, depth=TRUE, locked={0: (255, 255, 255)})
    assert got.indices[0].tolist() == [[1]]
    assert got.palette.tolist() == [[255] * 3, [255] * 3]


@pytest.mark.parametrize("text", ["8-8-8", "5-6-5", "5-5-5", "4-4-4", "3-3-2", "dac-6", "dac-1"])
def test_every_entry_is_of_the_depth(text):
    depth = parse(text)
    for entries in (2, 16, 256):
        got = reduce_pictures([picture(4), picture(5)], entries=entries, depth=depth)
        assert (depth.round_trip(got.palette) == got.palette).all()
        held = got.palette[1 : got.used]
        assert len({tuple(colour) for colour in held.tolist()}) == len(held)
        assert got.exact == (depth.colours <= entries)


def test_given_palette_is_kept():
    given = [(0, 0, 0), (255, 0, 0), (0, 255, 0), (0, 0, 255)]
    art = picture(6)
    got = reduce_pictures([art], entries=16, depth=TRUE, given=given)
    assert got.palette[:4].tolist() == [list(colour) for colour in given]
    assert (got.palette[4:] == 0).all()
    opaque = art[..., 3] >= 128
    scale = np.array([1, CHROMA_WEIGHT, CHROMA_WEIGHT])
    apart = (bytes_to_fixed(art[opaque][:, None, :3]) - bytes_to_fixed(got.palette[None, 1:4])) * scale
    best = (apart**2).sum(axis=2)
    chosen = np.take_along_axis(best, (got.indices[0][opaque].astype(int) - 1)[:, None], axis=1)[:, 0]
    assert (np.sqrt(chosen) - np.sqrt(best.min(axis=1))).max() < 128  # two coarse steps


def test_weights_move_the_choice():
    reds = np.zeros((10, 10, 4), dtype=np.uint8)
    reds[..., 0] = np.arange(100).reshape(10, 10) + 150
    reds[..., 3] = 255
    blues = reds[..., [2, 1, 0, 3]].copy()
    even = reduce_pictures([reds, blues], entries=8, depth=TRUE)
    uneven = reduce_pictures([reds, blues], entries=8, depth=TRUE, weights=[1000, 1])
    assert uneven.mean_error[0] < even.mean_error[0]
    assert uneven.mean_error[1] > even.mean_error[1]


@pytest.mark.parametrize("dithered", [False, True])
def test_what_is_not_seen_takes_no_entry(dithered):
    art, other = picture(4, colours=15), picture(5)
    joined = np.vstack([art, other])
    seen = np.zeros(joined.shape[:2], dtype=bool)
    seen[: len(art)] = True
    got = reduce_pictures([joined], entries=16, depth=TRUE, seen=[seen])
    alone = reduce_pictures([art], entries=16, depth=TRUE)
    if dithered:
        got = dither_reduction([joined], got, Dither(kind="ordered"), [seen])
        alone = dither_reduction([art], alone, Dither(kind="ordered"))
    assert (got.palette == alone.palette).all()
    assert (got.indices[0][: len(art)] == alone.indices[0]).all()
    assert (got.counts, got.entry_error, got.mean_error) == (
        alone.counts, alone.entry_error, alone.mean_error,
    )  # fmt: skip
    assert got.exact == alone.exact
    if not dithered:
        opaque = other[..., 3] >= 128
        shown = got.palette[got.indices[0][len(art) :]][opaque].astype(int)
        wanted = other[opaque][:, :3]
        best = nearest(bytes_to_fixed(wanted), bytes_to_fixed(got.palette[1:]))
        assert (shown == got.palette[1:][best]).all(), "it takes what is nearest"


def test_where_nothing_is_seen_all_counts():
    art = picture(6, colours=9)
    got = reduce_pictures([art], entries=16, depth=TRUE, seen=[np.zeros(art.shape[:2], dtype=bool)])
    assert (got.palette == reduce_pictures([art], entries=16, depth=TRUE).palette).all()


def test_nearest_agrees_with_a_plain_search():
    rng = np.random.default_rng(7)
    points = bytes_to_fixed(rng.integers(0, 256, (3000, 3), dtype=np.uint8))
    centres = bytes_to_fixed(rng.integers(0, 256, (200, 3), dtype=np.uint8))
    scale = np.array([2048, 4096, 4096])
    at, around = (points * scale + 2**15) // 2**16, (centres * scale + 2**15) // 2**16
    plain = ((at[:, None] - around[None]) ** 2).sum(axis=2).argmin(axis=1)
    assert (nearest(points, centres) == plain).all()


def test_error_is_the_mean_difference():
    art = picture(8)
    got = reduce_pictures([art], entries=16, depth=parse("5-6-5"))
    opaque = art[..., 3] >= 128
    wanted = byte_difference(art[opaque][:, :3], got.palette[got.indices[0][opaque]]).mean()
    assert got.mean_error[0] == pytest.approx(wanted, abs=1e-6)
    drawn = np.array(got.counts) * (np.arange(16) != 0)
    assert np.array(got.entry_error) @ drawn / drawn.sum() == pytest.approx(wanted, abs=1e-5)
    on = opaque & (got.indices[0] == 3)
    plain = byte_difference(art[on][:, :3], got.palette[3]).mean()
    assert got.entry_error[3] == pytest.approx(plain, abs=1e-6)


def test_better_than_a_cube_of_even_colours():
    # common practice: 6 x 6 x 6 evenly spread colours as the palette nobody chose
    even = [(r * 51, g * 51, b * 51) for r in range(6) for g in range(6) for b in range(6)]
    ramp = np.zeros((64, 64, 4), dtype=np.uint8)
    ramp[..., 0], ramp[..., 1] = np.arange(64)[:, None] * 4, np.arange(64)[None] * 4
    ramp[..., 2], ramp[..., 3] = 90, 255
    chosen = reduce_pictures([ramp], entries=217, depth=TRUE)
    fixed = reduce_pictures([ramp], entries=217, depth=TRUE, given=[(0, 0, 0), *even])
    assert chosen.mean_error[0] < fixed.mean_error[0] / 2


def test_same_bytes_everywhere():
    # made once with numpy 2.4 and again with 1.26; a change means that everybody's builds change
    steps = np.arange(64 * 64 * 4, dtype=np.int64).reshape(64, 64, 4)
    art = (steps * steps * 2654435761 >> 20).astype(np.uint8)
    assert len(np.unique(art[..., :3].reshape(-1, 3), axis=0)) > 4000
    got = reduce_pictures([art], entries=32, depth=parse("5-6-5"))
    digest = hashlib.sha256(got.palette.tobytes() + got.indices[0].tobytes()).hexdigest()
    assert digest == "1dc5146c4da7c4dff03d05d85563bf8e6c128fd7f6bc515debe2eab64661468e"


def test_results_are_read_only_and_arguments_untouched():
    art = picture(10)
    before = art.copy()
    got = reduce_pictures([art], entries=16, depth=TRUE)
    assert (art == before).all()
    assert not got.palette.flags.writeable
    assert not got.indices[0].flags.writeable


def test_nothing_to_draw():
    art = np.zeros((3, 3, 4), dtype=np.uint8)
    got = reduce_pictures([art], entries=4, depth=TRUE)
    assert got.used == 1
    assert got.exact
    assert got.mean_error == (0.0,)
    assert reduce_pictures([], entries=4, depth=TRUE).indices == ()


@pytest.mark.parametrize(
    ("options", "text"),
    [
        ({"entries": 1}, "1 entries"),
        ({"entries": 257}, "257 entries"),
        ({"entries": 4, "transparent": 4}, "transparent entry 4"),
        ({"entries": 4, "locked": {4: (0, 0, 0)}}, "locked entry 4"),
        ({"entries": 4, "locked": {1: (0, 0, 256)}}, "locked entry 1"),
        ({"entries": 2, "locked": {1: (1, 1, 1)}}, "transparent or locked"),
        ({"entries": 2, "locked": dict.fromkeys(range(3), (1, 1, 1))}, "3 locked entries"),
        ({"entries": 2, "given": [(0, 0, 0)] * 3}, "3 given colours"),
        ({"entries": 4, "given": [(0, 0, 0)]}, "leave no entry"),
        ({"entries": 4, "weights": [1, 2]}, "2 weights for 1"),
        ({"entries": 4, "weights": [0]}, "weight of 0"),
    ],
)
def test_what_does_not_fit_is_refused(options, text):
    with pytest.raises(PaletteError, match=text):
        reduce_pictures([picture(11)], depth=TRUE, **options)


def test_wrong_arrays_are_refused():
    with pytest.raises(PaletteError, match="picture 0"):
        reduce_pictures([np.zeros((2, 2, 3), dtype=np.uint8)], entries=4, depth=TRUE)

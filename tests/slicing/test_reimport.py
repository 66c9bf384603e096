"""Frames followed to changed sheets whose changes are known because they are made here."""

import time

import numpy as np
import pytest

from scenekit.slicing import cut_sheet
from scenekit.slicing.cut import SliceOptions
from scenekit.slicing.reimport import KnownFrame, Match, match_frames

CELL = 24


def figure(seed, width=12, height=18):
    """Draw a figure of a dozen colours with an uneven outline."""
    draw = np.random.default_rng(seed)
    colours = np.concatenate([draw.integers(0, 256, (12, 3)), np.full((12, 1), 255)], axis=1).astype(np.uint8)
    pixels = colours[draw.integers(0, 12, (height // 3 + 1, width // 3 + 1))]
    pixels = np.repeat(np.repeat(pixels, 3, axis=0), 3, axis=1)[:height, :width].copy()
    for row in range(height):
        pixels[row, : draw.integers(0, 3)] = 0
        pixels[row, width - draw.integers(0, 3) :] = 0
    pixels[0, 5] = pixels[-1, 5] = pixels[9, 0] = pixels[9, -1] = (1, 2, 3, 255)
    return pixels


def sheet(figures, columns=6, rows=3):
    """Put figures into cells by cell number, with their feet near the lower side."""
    pixels = np.zeros((rows * CELL, columns * CELL, 4), np.uint8)
    for number, art in figures.items():
        y, x = (number // columns) * CELL, (number % columns) * CELL
        h, w = art.shape[:2]
        pixels[y + 22 - h : y + 22, x + 6 : x + 6 + w] = art
    return pixels


def cells(pixels):
    return cut_sheet(pixels, SliceOptions(cell=(CELL, CELL)), method="cells")


def followed(before, after, **shape):
    old, new = sheet(before), sheet(after, **shape)
    known = [KnownFrame(name=frame.name, box=frame.box) for frame in cells(old).frames]
    return match_frames(old, known, new, cells(new))


BEFORE = {number: figure(number) for number in range(8)}


def kinds(reimport):
    return {match.name: match.kind for match in reimport.matches}


def test_an_unchanged_sheet():
    reimport = followed(BEFORE, BEFORE)
    assert set(kinds(reimport).values()) == {"same"}
    assert reimport.findings == ()


def test_a_row_inserted_above_moves_everything():
    after = {number + 6: art for number, art in BEFORE.items()} | {0: figure(50)}
    reimport = followed(BEFORE, after)
    assert reimport.count("moved") == 8
    assert all(match.move == (0, CELL) for match in reimport.matches if match.kind == "moved")
    fresh = reimport.matches[-1]
    assert (fresh.kind, fresh.name, fresh.new) == ("new", "r00c00-2", (0, 0, CELL, CELL))


def test_frames_that_change_places():
    after = {number: BEFORE[7 - number] for number in range(8)}
    reimport = followed(BEFORE, after)
    assert [match.kind for match in reimport.matches] == ["moved"] * 8
    assert reimport.matches[1].new == (0, CELL, CELL, CELL)


def test_a_frame_that_is_gone():
    after = {number: art for number, art in BEFORE.items() if number != 3}
    reimport = followed(BEFORE, after)
    assert kinds(reimport)["r00c03"] == "gone"
    assert reimport.count("same") == 7
    assert [finding.code for finding in reimport.findings] == ["frames-gone"]


@pytest.mark.parametrize("moved", [False, True])
def test_other_colours(moved):
    swapped = BEFORE[2].copy()
    swapped[..., :3] = swapped[..., [2, 0, 1]] ^ (swapped[..., 3:] & 85)
    after = dict(BEFORE)
    del after[2]
    after[14 if moved else 2] = swapped
    reimport = followed(BEFORE, after)
    match = reimport.matches[2]
    assert (match.name, match.kind) == ("r00c02", "recoloured")
    assert match.new == ((48, 48, CELL, CELL) if moved else (48, 0, CELL, CELL))
    assert reimport.count("same") == 7


def test_new_shading_in_the_same_outline_is_recoloured():
    shaded = BEFORE[2].copy()
    art = shaded[..., 3] > 0
    shaded[..., 0][art] = np.arange(art.sum()) % 200
    reimport = followed(BEFORE, {**BEFORE, 2: shaded})
    assert kinds(reimport)["r00c02"] == "recoloured"


def test_a_hat_grows_a_frame_and_the_feet_keep_the_pivot():
    taller = np.zeros((21, 12, 4), np.uint8)
    taller[3:] = BEFORE[4]
    taller[:3, 4:7] = (9, 9, 9, 255)
    after = {number + 6: art for number, art in {**BEFORE, 4: taller}.items()}
    match = followed(BEFORE, after).matches[4]
    assert (match.kind, match.move) == ("grown", (0, CELL))
    assert match.pivot((11, 21)) == (11, 21)
    assert match.score > 900


def test_growth_to_both_sides_by_uneven_parts_is_placed_exactly():
    wider = np.zeros((18, 18, 4), np.uint8)
    wider[:, 5:17] = BEFORE[4]
    wider[8, :5] = wider[3, 17:] = (9, 9, 9, 255)
    old, new = sheet(BEFORE), sheet({**BEFORE, 4: wider})
    known = [KnownFrame(name=frame.name, box=frame.content) for frame in cells(old).frames]
    cut = cut_sheet(new, SliceOptions(), method="islands")
    match = match_frames(old, known, new, cut).matches[4]
    assert match.kind == "grown"
    assert match.pivot((5, 17)) == (10, 17)


def test_a_frame_drawn_anew_in_its_place():
    edited = BEFORE[5].copy()
    edited[6:12][edited[6:12, :, 3] > 0] = (250, 250, 10, 255)
    edited[4, :3] = 0
    reimport = followed(BEFORE, {**BEFORE, 5: edited})
    assert kinds(reimport)["r00c05"] == "redrawn"
    other = followed(BEFORE, {**BEFORE, 5: figure(77, 9, 20)})
    assert kinds(other)["r00c05"] == "redrawn"
    assert [finding.code for finding in other.findings] == ["match-unsure"]


def test_equal_frames_keep_their_order():
    before = {0: BEFORE[0], 1: BEFORE[1], 2: BEFORE[0], 3: BEFORE[1]}
    after = {6: BEFORE[0], 7: BEFORE[1], 8: BEFORE[0], 9: BEFORE[1]}
    reimport = followed(before, after)
    assert [match.new[:2] for match in reimport.matches] == [(0, 24), (24, 24), (48, 24), (72, 24)]


def test_everything_at_once_on_a_wider_sheet():
    grown = np.zeros((20, 12, 4), np.uint8)
    grown[2:] = BEFORE[1]
    grown[:2, 5:7] = (7, 7, 7, 255)
    swapped = BEFORE[3].copy()
    swapped[..., :3] = swapped[..., [1, 2, 0]]
    after = {
        9: BEFORE[0],
        10: grown,
        11: BEFORE[2],
        12: swapped,
        13: BEFORE[4],
        20: BEFORE[7],
        21: figure(99),
    }
    reimport = followed(BEFORE, after, columns=8)
    expected = {
        "r00c00": "moved",
        "r00c01": "grown",
        "r00c02": "moved",
        "r00c03": "recoloured",
        "r00c04": "moved",
        "r00c05": "gone",
        "r01c00": "gone",
        "r01c01": "moved",
        "r02c05": "new",
    }
    assert kinds(reimport) == expected


def test_a_palette_reduction_keeps_every_frame():
    before = {number: figure(number) for number in range(18)}
    after = {number: art & np.array([0xE0, 0xE0, 0xC0, 255], np.uint8) for number, art in before.items()}
    reimport = followed(before, after)
    assert all(match.kind in ("recoloured", "redrawn", "grown") for match in reimport.matches)
    assert all(match.old == match.new for match in reimport.matches)


def test_pivots_and_hit_boxes_follow():
    match = Match(name="a", kind="grown", old=(24, 0, 24, 24), new=(50, 30, 16, 20), move=(25, 28))
    assert match.pivot((11, 21)) == (10, 19)
    assert match.hit_box((4, 6, 8, 8)) == (3, 4, 8, 8)
    assert match.hit_box((0, 0, 30, 30)) == (0, 0, 16, 20)
    assert match.hit_box((40, 40, 3, 3)) is None
    gone = Match(name="a", kind="gone", old=(24, 0, 24, 24), new=None)
    assert gone.hit_box((0, 0, 3, 3)) is None


def test_frames_without_art_stay_where_the_sheet_has_room():
    old, new = sheet(BEFORE), sheet(BEFORE, rows=2)
    known = [KnownFrame(name="blank", box=(120, 24, 24, 24)), KnownFrame(name="off", box=(0, 48, 24, 24))]
    reimport = match_frames(old, known, new, cells(new))
    assert [(match.name, match.kind) for match in reimport.matches[:2]] == [
        ("blank", "same"),
        ("off", "gone"),
    ]


def test_key_colours_of_both_sheets_count():
    old = sheet(BEFORE)
    keyed = old.copy()
    keyed[keyed[..., 3] == 0] = (255, 0, 255, 255)
    cut = cut_sheet(keyed, SliceOptions(cell=(CELL, CELL), keys=((255, 0, 255),)), method="cells")
    known = [KnownFrame(name=frame.name, box=frame.box) for frame in cut.frames]
    there = match_frames(old, known, keyed, cut)
    assert set(kinds(there).values()) == {"same"}
    back = match_frames(keyed, known, old, cells(old), old_keys=((255, 0, 255),))
    assert set(kinds(back).values()) == {"same"}


def test_five_hundred_changed_frames_take_seconds():
    before = {number: figure(number) for number in range(500)}
    after = {499 - number: art[:, 1:] for number, art in before.items()}
    old, new = sheet(before, 25, 20), sheet(after, 25, 20)
    known = [KnownFrame(name=frame.name, box=frame.box) for frame in cells(old).frames]
    start = time.process_time()
    reimport = match_frames(old, known, new, cells(new))
    assert time.process_time() - start < 20
    right = sum(
        match.new is not None and match.new[0] == (24 - column) * CELL and match.new[1] == (19 - row) * CELL
        for match in reimport.matches[:500]
        for row, column in [divmod(int(match.name[1:3]) * 25 + int(match.name[4:6]), 25)]
    )
    assert right >= 495

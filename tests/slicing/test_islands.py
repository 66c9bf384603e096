"""Islands against other implementations: scipy's labels, pygame's masks and a plain flood."""

import time

import numpy as np
import pytest
from scipy import ndimage

from scenekit.errors import SliceError
from scenekit.slicing.cut import SliceOptions
from scenekit.slicing.islands import cut_islands, find_islands


def sheet(mask):
    return np.where(np.asarray(mask, bool)[..., None], np.uint8(255), np.uint8(0)).repeat(4, axis=2)


def flood(mask, gap):
    """Join pixels with at most `gap` empty pixels between them, one pixel at a time."""
    left = {(int(x), int(y)) for y, x in np.argwhere(mask)}
    boxes = []
    while left:
        todo = [left.pop()]
        island = []
        while todo:
            x, y = todo.pop()
            island.append((x, y))
            near = {(i, j) for i, j in left if abs(i - x) <= gap + 1 and abs(j - y) <= gap + 1}
            left -= near
            todo += near
        xs, ys = [x for x, _ in island], [y for _, y in island]
        boxes.append((min(xs), min(ys), max(xs) - min(xs) + 1, max(ys) - min(ys) + 1))
    return sorted(boxes)


@pytest.mark.parametrize("density", [0.02, 0.1, 0.3, 0.6])
def test_as_many_islands_as_scipy_labels_with_all_eight_neighbours(density):
    # source: scipy.ndimage.label with a 3 x 3 structure of ones, an outside implementation
    draw = np.random.default_rng(int(density * 100))
    for _ in range(20):
        mask = draw.random((40, 50)) < density
        _, count = ndimage.label(mask, np.ones((3, 3)))
        assert len(cut_islands(sheet(mask), SliceOptions()).frames) == count


@pytest.mark.parametrize("merge_px", [0, 1, 2, 3, 5, 8])
def test_merge_distance_agrees_with_a_plain_flood(merge_px):
    draw = np.random.default_rng(merge_px)
    for _ in range(12):
        mask = draw.random((24, 30)) < draw.choice([0.01, 0.03, 0.08])
        boxes, _ = find_islands(mask, SliceOptions(merge_px=merge_px))
        assert sorted(boxes) == flood(mask, merge_px)


def test_the_same_boxes_as_pygame_masks():
    # source: pygame.mask.Mask.get_bounding_rects, "bounding rects of connected components", eight neighbours
    import pygame

    draw = np.random.default_rng(77)
    pixels = sheet(draw.random((120, 160)) < 0.2)
    surface = pygame.image.frombuffer(pixels.tobytes(), (160, 120), "RGBA")
    rects = pygame.mask.from_surface(surface, 0).get_bounding_rects()
    boxes, _ = find_islands(pixels[..., 3] > 0, SliceOptions())
    assert sorted(boxes) == sorted(tuple(rect) for rect in rects)


def test_corners_touch_and_names_follow_rows():
    art = [
        "#..##....",
        ".#.##...#",
        "#......##",
        ".........",
        "...#.....",
    ]
    cut = cut_islands(sheet([[c == "#" for c in line] for line in art]), SliceOptions())
    assert [(f.name, f.box) for f in cut.frames] == [
        ("r00c00", (0, 0, 2, 3)),
        ("r00c01", (3, 0, 2, 2)),
        ("r00c02", (7, 1, 2, 2)),
        ("r01c00", (3, 4, 1, 1)),
    ]
    assert all(frame.box == frame.content for frame in cut.frames)
    assert cut.grid is None


def test_small_islands_are_left_out_and_counted():
    mask = np.zeros((5, 9), bool)
    mask[1, 1] = mask[3, 3:6] = True
    cut = cut_islands(sheet(mask), SliceOptions(least_px=2))
    assert [frame.box for frame in cut.frames] == [(3, 3, 3, 1)]
    assert [finding.code for finding in cut.findings] == ["small-islands"]


def test_nothing_and_everything():
    empty = cut_islands(sheet(np.zeros((3, 3))), SliceOptions())
    assert (empty.frames, [finding.code for finding in empty.findings]) == ((), ["nothing-drawn"])
    full = cut_islands(sheet(np.ones((3, 3))), SliceOptions())
    assert [frame.box for frame in full.frames] == [(0, 0, 3, 3)]
    assert [finding.code for finding in full.findings] == ["no-background"]


@pytest.mark.parametrize("merge_px", [-1, 1025])
def test_bad_merge_distances(merge_px):
    with pytest.raises(SliceError, match="merge distance"):
        cut_islands(sheet(np.ones((3, 3))), SliceOptions(merge_px=merge_px))


def test_noise_is_refused_rather_than_cut():
    mask = np.zeros((1000, 1000), bool)
    mask[::2, ::2] = True
    with pytest.raises(SliceError, match="250000 islands; at most 65536"):
        cut_islands(sheet(mask), SliceOptions())


def test_a_large_sheet_is_not_cut_pixel_by_pixel():
    mask = np.zeros((3584, 4096), bool)
    for row in range(14):
        for column in range(16):
            mask[row * 256 + 20 : row * 256 + 230, column * 256 + 30 : column * 256 + 220] = True
    pixels = sheet(mask)
    cut_islands(pixels[:64, :64], SliceOptions())
    seconds = []
    for _ in range(3):
        start = time.process_time()
        cut = cut_islands(pixels, SliceOptions())
        seconds.append(time.process_time() - start)
    assert min(seconds) < 10
    assert len(cut.frames) == 224

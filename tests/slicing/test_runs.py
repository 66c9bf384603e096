"""Islands from runs agree with scipy's labels, an implementation of others."""

import numpy as np
import pytest
from scipy import ndimage

from scenekit.slicing import runs
from scenekit.slicing.runs import island_boxes, join_pairs


def labelled(mask, wide):
    """Return boxes and sizes as scipy.ndimage.label finds them with all eight neighbours."""
    labels, count = ndimage.label(wide, np.ones((3, 3)))
    labels[~mask] = 0
    boxes = [
        (across.start, down.start, across.stop, down.stop)
        for down, across in ndimage.find_objects(labels, count)
    ]
    return boxes, [int(np.count_nonzero(labels == number + 1)) for number in range(count)]


@pytest.mark.parametrize("density", [0.02, 0.3, 0.5, 0.8, 1.0])
@pytest.mark.parametrize("size", [(1, 1), (1, 40), (40, 1), (33, 47)])
def test_boxes_sizes_and_order_are_those_of_scipy(size, density):
    random = np.random.default_rng(int(density * 100) + size[0])
    for _ in range(5):
        mask = random.random(size) < density
        boxes, sizes = island_boxes(mask)
        assert ([tuple(box) for box in boxes.tolist()], sizes.tolist()) == labelled(mask, mask)


def test_a_wider_mask_says_what_hangs_together():
    random = np.random.default_rng(8)
    mask = random.random((40, 50)) < 0.06
    wide = ndimage.binary_dilation(mask, np.ones((3, 3)))
    boxes, sizes = island_boxes(mask, wide)
    assert ([tuple(box) for box in boxes.tolist()], sizes.tolist()) == labelled(mask, wide)


def test_many_runs_go_through_labels_and_give_the_same(monkeypatch):
    mask = np.random.default_rng(3).random((60, 60)) < 0.4
    expected = island_boxes(mask)
    monkeypatch.setattr(runs, "MOST_RUNS", 10)
    for one, two in zip(island_boxes(mask), expected, strict=True):
        assert np.array_equal(one, two)


def test_a_spiral_is_one_island():
    mask = np.zeros((99, 99), bool)
    for ring in range(0, 48, 4):
        mask[ring, ring : 99 - ring] = mask[98 - ring, ring : 99 - ring] = True
        mask[ring : 99 - ring, 98 - ring] = mask[ring + 4 : 99 - ring, ring] = True
        mask[ring + 4, ring : ring + 4] = True
    assert len(island_boxes(mask)[0]) == len(labelled(mask, mask)[0]) == 1


def test_pairs_in_any_order_join_to_the_lowest():
    count = 500
    order = np.random.default_rng(5).permutation(count - 1)
    assert (join_pairs(count, order + 1, order) == 0).all()
    assert join_pairs(3, np.array([2]), np.array([1])).tolist() == [0, 1, 1]

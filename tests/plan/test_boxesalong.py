"""Boxes of many pictures at once against `changes`, picture by picture."""

import numpy as np
import pytest

from scenekit.plan.boxesalong import Moved, changes_along
from scenekit.plan.changes import Seen, changes

VIEW = (90, 60)
PICTURES = 40


@pytest.mark.parametrize("seed", range(60))
def test_many_pictures_are_as_each_alone(seed: int) -> None:
    """Few and many sprites, small and large, near each other and apart, so that some pictures are full."""
    chosen = np.random.default_rng(seed)
    sprites, spread, largest = int(chosen.integers(0, 70)), int(chosen.integers(1, 60)), (2, 6, 30)[seed % 3]
    x, y = chosen.integers(-20, 100, (2, 1, sprites, PICTURES))
    x = np.concatenate([x, x + chosen.integers(-spread, spread, x.shape)])
    y = np.concatenate([y, y + chosen.integers(-spread, spread, y.shape)])
    looks, w, h = chosen.integers(0, (3, largest, largest), (2, sprites, PICTURES, 3)).transpose(3, 0, 1, 2)
    rest = chosen.random((sprites, PICTURES)) < (0.0, 0.5, 0.9)[seed % 3]
    for part in (x, y, w, h, looks):
        part[1] = np.where(rest, part[0], part[1])
    moved = chosen.integers(-3, 4, (2, PICTURES)) * (chosen.random((2, PICTURES)) < 0.5)
    split = chosen.random(PICTURES) < 0.4
    moved[:, split] = 0
    apart = []
    for _ in range(int(chosen.integers(1, 4))):
        who = np.flatnonzero(split & (chosen.random(PICTURES) < 0.7))
        apart.append((who, tuple(chosen.integers(-9, 60, (4, len(who))))))
    changed = ~np.all([part[0] == part[1] for part in (x, y, w, h, looks)], axis=0)
    sprites_then = Moved(
        changed=changed,
        before=(x[0], y[0], x[0] + w[0], y[0] + h[0]),
        now=(x[1], y[1], x[1] + w[1], y[1] + h[1]),
    )
    found = changes_along(VIEW, (moved[0], moved[1]), sprites_then, apart)
    for place in range(PICTURES):
        by = (int(moved[0, place]), int(moved[1, place]))
        pairs = []
        for number in range(sprites):
            a, b = (
                (
                    int(x[n, number, place]),
                    int(y[n, number, place]),
                    *map(int, (w[n, number, place], h[n, number, place])),
                )
                for n in (0, 1)
            )
            before = Seen(
                box=(a[0] + by[0], a[1] + by[1], *a[2:]), piece=0, flip=0, look=int(looks[0, number, place])
            )
            pairs.append((before, Seen(box=b, piece=0, flip=0, look=int(looks[1, number, place]))))
        planes = [tuple(int(part[who == place][0]) for part in box) for who, box in apart if place in who]
        one = changes(VIEW, by, pairs, planes if split[place] else None)
        mine = found.boxes[found.boxes[:, 0] == place, 1:]
        assert tuple(map(tuple, mine.tolist())) == one.boxes
        assert bool(found.whole[place]) == one.whole
        assert (int(found.added[place]), int(found.pairs[place])) == (one.added, one.pairs)

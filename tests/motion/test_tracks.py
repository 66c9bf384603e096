"""Positions, scrolls and looks at many ticks at once against one by one."""

import numpy as np
import pytest
from random_scenes import random_project

from scenekit.motion.expand import expand_project
from scenekit.motion.looks import look_at
from scenekit.motion.parallax import camera_at, scroll_at
from scenekit.motion.paths import place_at, step_at
from scenekit.motion.tracks import cameras_along, looks_along, places_along, scrolls_along

FAR = (7919, 100_003, 4_000_001)


@pytest.mark.parametrize("seed", range(12))
def test_random_scenes(tmp_path, seed):
    project = expand_project(random_project(tmp_path / "p", seed))
    scene = project.scenes[0]
    ticks = np.array([*range(140), *FAR], dtype=np.int64)
    camera = cameras_along(scene, ticks)
    assert list(zip(*map(list, camera), strict=True)) == [camera_at(scene, int(tick)) for tick in ticks]
    for plane in scene.planes:
        found = scrolls_along(plane, camera, ticks)
        wanted = [scroll_at(plane, camera_at(scene, int(tick)), int(tick)) for tick in ticks]
        assert list(zip(*map(list, found), strict=True)) == wanted
    for placed in scene.placed:
        x, y = places_along(placed.path, placed.at, ticks)
        places = [place_at(placed.path, placed.at, int(tick)) for tick in ticks]
        assert list(zip(x, y, strict=True)) == [(place.x, place.y) for place in places]
        sprite = project.sprite(placed.sprite)
        found = list(zip(*looks_along(sprite, placed, ticks), strict=True))
        wanted = []
        for tick in ticks.tolist():
            look = look_at(sprite, placed, tick)
            animation = sprite.animations[look.animation]
            step = step_at(animation, look.elapsed)
            wanted.append((look.animation, step, look.flip ^ animation.steps[step].flip))
        assert found == wanted

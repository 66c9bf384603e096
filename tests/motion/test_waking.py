"""Sprites that sleep until the view comes to their start places."""

from dataclasses import replace

import pytest
from random_scenes import random_project, sleeping

from scenekit.errors import ProjectError
from scenekit.model.scene import Camera, Placed, Plane, Scene, Segment, Wakes, read_scene
from scenekit.model.scene import Path as Route
from scenekit.motion.parallax import camera_at, scroll_at
from scenekit.motion.waking import own_tick, wake_groups, woken_at


def runner(x: int) -> Placed:
    return Placed(name=f"at{x}", sprite="imp", over="road", moves_with="road", at=(x, 0), asleep=True)


def scene_of(*starts: int) -> Scene:
    """Return a scene whose camera goes 100 px right, then 150 px left, one a tick; the view is 40 px wide."""
    from fractions import Fraction

    way = Route(
        segments=tuple(Segment(ticks=t, speed=(Fraction(x), Fraction(0))) for t, x in ((100, 1), (150, -1))),
        repeat="no",
    )
    return Scene(
        name="one",
        ticks=300,
        ticks_per_update=1,
        missed="slow",
        backdrop=(0, 0, 0),
        camera=Camera(path=way),
        planes=(Plane(name="road", picture="road.png"),),
        placed=tuple(runner(x) for x in starts),
        events=(),
        wakes=Wakes(axis=0, start=-10, end=50),
    )


def test_sprites_wake_as_the_camera_comes() -> None:
    """By hand: pixels -10 to 49 of the view, so 60 is reached at tick 11, and -11 on the way back at 201."""
    scene = scene_of(-10, 49, 50, 60, 149, 150, -11, -60, -61)
    found = {p.at[0]: woken_at(scene, p, 299) for p in scene.placed}
    assert found == {-10: 0, 49: 0, 50: 1, 60: 11, 149: 100, 150: None, -11: 201, -60: 250, -61: None}
    assert [own_tick(scene, scene.placed[3], t) for t in (0, 11, 12, 40)] == [0, 0, 1, 29]
    assert woken_at(scene, scene.placed[3], 10) is None


def test_places_are_sorted_by_plane_and_position() -> None:
    scene = scene_of(70, 20, 50, 20)
    scene = replace(scene, placed=(*scene.placed, replace(runner(5), asleep=False)))
    assert wake_groups(scene) == [(0, [1, 3, 2, 0])]


@pytest.mark.parametrize("seed", range(12))
def test_waking_by_its_definition(tmp_path, seed: int) -> None:
    """Against its definition: not left of the leftmost view so far, nor right of the rightmost."""
    scene = sleeping(random_project(tmp_path / "p", seed), seed).scenes[0]
    for placed in scene.placed:
        if not placed.asleep:
            continue
        plane, axis = scene.planes[scene.plane_number(placed.moves_with)], scene.wakes.axis
        if plane.bands or plane.depth is not None:
            continue
        scrolls: list[int] = []
        wanted = None
        for tick in range(150):
            scrolls.append(scroll_at(plane, camera_at(scene, tick), tick)[axis])
            low, high = min(scrolls) + scene.wakes.start, max(scrolls) + scene.wakes.end
            if wanted is None and low <= placed.at[axis] < high:
                wanted = tick
        assert woken_at(scene, placed, 149) == wanted


def document(**more: object) -> dict[str, object]:
    placed = {"name": "imp", "sprite": "imp", "over": "road", "at": [1, 2], "asleep": True, **more}
    return {"format": 1, "planes": [{"name": "road", "picture": "road.png"}], "placed": [placed]}


@pytest.mark.parametrize(
    ("table", "message"),
    [
        (document(), "wakes: missing"),
        ({**document(moves_with="screen"), "wakes": {"from": 0, "to": 9}}, "moves with the screen"),
        ({**document(), "wakes": {"from": 0, "to": 0}}, "whole number from 1"),
        (
            {**document(), "wakes": {"from": 0, "to": 9}, "camera": {"keeps": "imp", "zone": [0, 0, 9, 9]}},
            "kept by the camera",
        ),
    ],
)
def test_bad_sleepers_are_said(table, message) -> None:
    with pytest.raises(ProjectError, match=message):
        read_scene(table, "one")

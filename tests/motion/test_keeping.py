"""A camera that keeps a sprite within a zone of the view."""

from dataclasses import replace
from fractions import Fraction

import pytest

from scenekit.errors import ProjectError, UnknownNameError
from scenekit.model.scene import Camera, Placed, Plane, Scene, Segment, read_scene
from scenekit.model.scene import Path as Route
from scenekit.motion.parallax import camera_at


def scene_of(camera: Camera, speeds: list[tuple[int, int, int]], offset: tuple[int, int] = (0, 0)) -> Scene:
    path = Route(
        segments=tuple(Segment(ticks=t, speed=(Fraction(x), Fraction(y))) for t, x, y in speeds), repeat="no"
    )
    return Scene(
        name="one",
        ticks=100,
        ticks_per_update=1,
        missed="slow",
        backdrop=(0, 0, 0),
        camera=camera,
        planes=(Plane(name="road", picture="road.png", offset=offset),),
        placed=(Placed(name="hero", sprite="hero", over="road", moves_with="road", at=(50, 60), path=path),),
        events=(),
    )


def test_camera_stands_while_the_sprite_is_in_its_zone() -> None:
    """By hand: zone x 40 to 59, so from 50 the sprite can go 9 px right before the camera moves."""
    scene = scene_of(Camera(keeps="hero", zone=(40, 50, 20, 20)), [(30, 1, 0), (60, -1, 0)])
    assert [camera_at(scene, t)[0] for t in (0, 9, 10, 30)] == [0, 0, 1, 21]
    # back from 80: the camera stands until the sprite, at 21 + 40 = 61, leaves on the left
    assert [camera_at(scene, t)[0] for t in (31, 49, 50, 90)] == [21, 21, 20, -20]
    assert camera_at(scene, 90)[1] == 0


def test_camera_is_put_right_at_the_start_and_held_by_its_limits() -> None:
    scene = scene_of(Camera(start=(500, -9), keeps="hero", zone=(0, 0, 10, 10)), [(40, 2, 3)])
    assert camera_at(scene, 0) == (50, 51)
    held = replace(scene, camera=replace(scene.camera, limits=(0, 0, 60, 55)))
    assert [camera_at(held, t) for t in (0, 2, 40)] == [(50, 51), (50, 55), (60, 55)]


def test_offset_of_the_plane_counts() -> None:
    scene = scene_of(Camera(keeps="hero", zone=(40, 50, 20, 20)), [(30, 1, 0)], offset=(7, 0))
    assert [camera_at(scene, t)[0] for t in (2, 3)] == [0, 1]


def document(camera: dict[str, object], plane: dict[str, object] | None = None) -> dict[str, object]:
    placed = {"name": "hero", "sprite": "hero", "over": "road", "at": [1, 2]}
    return {
        "format": 1,
        "camera": camera,
        "planes": [{"name": "road", "picture": "road.png", **(plane or {})}],
        "placed": [placed],
    }


@pytest.mark.parametrize(
    ("camera", "plane", "message"),
    [
        ({"keeps": "hero"}, {}, "zone: missing"),
        ({"keeps": "hero", "zone": [0, 0, 0, 4]}, {}, "at least 1"),
        ({"keeps": "hreo", "zone": [0, 0, 4, 4]}, {}, "did you mean 'hero'"),
        ({"keeps": "hero", "zone": [0, 0, 4, 4]}, {"ratio": ["1/2", 1]}, "ratio 1"),
        ({"keeps": "hero", "zone": [0, 0, 4, 4]}, {"depth": 2}, "ratio 1"),
        ({"keeps": "hero", "zone": [0, 0, 4, 4]}, {"drift": [1, 0]}, "ratio 1"),
        (
            {"keeps": "hero", "zone": [0, 0, 4, 4], "path": [{"ticks": 4, "speed": [1, 0]}]},
            {},
            "either a path or a sprite",
        ),
    ],
)
def test_bad_cameras_are_said(camera, plane, message) -> None:
    with pytest.raises((ProjectError, UnknownNameError), match=message):
        read_scene(document(camera, plane), "one")

"""What a look over a document finds of its motion."""

from dataclasses import replace
from fractions import Fraction
from pathlib import Path as FilePath
from typing import Any

import pytest

from scenekit.inspection import document_findings
from scenekit.model.paths import Path, Segment, Shape
from scenekit.model.project import Project
from scenekit.model.store import load
from scenekit.motion.expand import expand_scene
from scenekit.motion.parallax import camera_at

DEMO = FilePath(__file__).parents[1] / "demo_assets"


def speed(ticks: int, x: str, y: str = "0") -> Segment:
    return Segment(ticks=ticks, speed=(Fraction(x), Fraction(y)))


WAYS = {
    "there and back": Path(segments=(speed(60, "3/2"), speed(60, "-3/2")), repeat="from-start"),
    "onward": Path(segments=(speed(7, "1"), speed(5, "-1/3"), speed(1, "0", "2")), repeat="onward"),
    "once": Path(segments=(speed(30, "5/7", "1/9"),)),
    "longer than the scene": Path(segments=(speed(700, "1/3"), speed(500, "-1"))),
    "standing": Path(),
    "eased": Path(
        segments=(
            Segment(
                ticks=50,
                speed=(Fraction(0), Fraction(0)),
                shape=Shape(kind="ease", curve="ease-in-out", by=(90, 4)),
            ),
        )
    ),
    "a circle": Path(
        segments=(Segment(ticks=80, speed=(Fraction(0), Fraction(0)), shape=Shape(kind="circle", radius=20)),)
    ),
}


def with_camera(limits: tuple[int, int, int, int], **changes: Any) -> Project:
    project = load(DEMO)
    scene = project.scenes[0]
    camera = replace(scene.camera, limits=limits, **changes)
    return replace(project, scenes=(replace(scene, camera=camera, ticks=900),))


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("limits", [(0, 0, 20, 0), (0, 0, 90, 3), (-30, -30, 400, 400), (0, 0, 59, 0)])
def test_the_first_tick_out_of_limits_is_that_of_a_look_at_every_tick(
    way: str, limits: tuple[int, int, int, int]
) -> None:
    project = with_camera(limits, path=WAYS[way], start=(0, 0))
    scene = expand_scene(project, project.scenes[0])
    places = [camera_at(scene, tick) for tick in range(scene.ticks)]
    left, top, right, bottom = limits
    out = [t for t, (x, y) in enumerate(places) if not (left <= x <= right and top <= y <= bottom)]
    found = [f.text for f in document_findings(project) if f.code == "camera-limits"]
    assert len(found) == bool(out)
    if out:
        x, y = places[out[0]]
        assert found[0].startswith(f"the camera is at {x}, {y} at tick {out[0]};")


def test_a_shape_that_cannot_be_sampled_is_a_finding() -> None:
    still = Shape(kind="ease", curve="not-a-curve", by=(5, 0))
    path = Path(segments=(Segment(ticks=5, speed=(Fraction(0), Fraction(0)), shape=still),))
    findings = [f for f in document_findings(with_camera((0, 0, 9, 9), path=path)) if f.code == "motion"]
    assert [f.level for f in findings] == ["error"]
    assert "not-a-curve" in findings[0].text

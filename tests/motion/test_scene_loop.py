"""Loop of whole scenes against walking the scroll positions tick by tick."""

import random
from fractions import Fraction

import pytest

from scenekit.model.scene import Camera, Path, Plane, Scene, Segment
from scenekit.motion.parallax import camera_at, scroll_at, shown_scroll
from scenekit.motion.scene_loop import scene_loop

STILL = (Fraction(0), Fraction(0))


def scene_of(planes: list[Plane], path: Path) -> Scene:
    return Scene(
        name="quay",
        ticks=600,
        ticks_per_update=1,
        missed="slow",
        backdrop=(0, 0, 0),
        camera=Camera(start=(7, 0), path=path),
        planes=tuple(planes),
        placed=(),
        events=(),
    )


def shown(scene: Scene, sizes: dict[str, tuple[int, int]], tick: int) -> list[tuple[int, int]]:
    """Where each plane stands at a tick, wrapped."""
    places = []
    for plane in scene.planes:
        x, y = scroll_at(plane, camera_at(scene, tick), tick)
        width, height = sizes[plane.name]
        places.append((x % width if plane.wrap[0] else x, y % height if plane.wrap[1] else y))
    return places


def onward(*segments: tuple[int, Fraction]) -> Path:
    parts = tuple(Segment(ticks=ticks, speed=(speed, Fraction(0))) for ticks, speed in segments)
    return Path(segments=parts, repeat="onward")


def test_constant_camera_gives_the_published_loop() -> None:
    """source: tests/reference/loop_lcm.csv, 320px@1 ; 320px@1/2 ; 320px@1/4 repeats after 1280 ticks."""
    ratios = {"quay": Fraction(1), "hills": Fraction(1, 2), "sky": Fraction(1, 4)}
    planes = [Plane(name=name, ratio=(ratio, Fraction(0))) for name, ratio in ratios.items()]
    found = scene_loop(scene_of(planes, onward((600, Fraction(1)))), dict.fromkeys(ratios, (320, 200)))
    assert (found.from_tick, found.ticks) == (0, 1280)
    assert [plane.ticks for plane in found.planes] == [320, 640, 1280]


@pytest.mark.parametrize("repeat", ["onward", "from-start", "no"])
def test_random_scenes_repeat_after_their_loop_and_not_before(repeat: str) -> None:
    source = random.Random(11)
    tried = 0
    while tried < 25:
        segments = [
            (source.randint(1, 4), Fraction(source.randint(-3, 6), source.randint(1, 3))) for _ in range(2)
        ]
        path = Path(segments=onward(*segments).segments, repeat=repeat)
        planes = [
            Plane(
                name=f"p{number}",
                ratio=(Fraction(source.randint(0, 6), source.randint(1, 4)), Fraction(0)),
                drift=(Fraction(source.randint(-2, 2), source.randint(1, 3)), Fraction(0)),
            )
            for number in range(2)
        ]
        sizes = {plane.name: (source.randint(1, 9), 20) for plane in planes}
        scene = scene_of(planes, path)
        found = scene_loop(scene, sizes)
        assert found.ticks is not None
        if found.ticks > 500:
            continue
        tried += 1
        first = found.from_tick
        walk = [shown(scene, sizes, first + tick) for tick in range(3 * found.ticks)]
        assert walk[: found.ticks] == walk[found.ticks : 2 * found.ticks] == walk[2 * found.ticks :]


def test_loop_is_the_shortest_for_whole_camera_speeds() -> None:
    source = random.Random(3)
    for _ in range(40):
        speed = Fraction(source.randint(1, 5))
        plane = Plane(name="hills", ratio=(Fraction(source.randint(1, 4), source.randint(1, 3)), Fraction(0)))
        sizes = {"hills": (source.randint(2, 9), 20)}
        scene = scene_of([plane], onward((6, speed)))
        ticks = scene_loop(scene, sizes).ticks
        assert ticks is not None
        walk = [shown(scene, sizes, tick) for tick in range(4 * ticks)]
        shortest = next(n for n in range(1, ticks + 1) if walk[n:] == walk[:-n])
        assert shortest == ticks


def test_plane_that_leaves_never_repeats() -> None:
    plane = Plane(name="quay", wrap=(False, False))
    found = scene_loop(scene_of([plane], onward((10, Fraction(2)))), {"quay": (900, 200)})
    assert found.ticks is None
    assert found.planes[0].ticks is None
    assert "sideways" in found.planes[0].why


def test_further_periods_count() -> None:
    plane = Plane(name="sky", ratio=STILL)
    found = scene_loop(scene_of([plane], Path()), {"sky": (320, 200)}, [12, 18])
    assert (found.from_tick, found.ticks) == (0, 36)


def test_uneven_last_steps_of_a_lap_are_counted() -> None:
    """2 ticks of 2/3 px move 1 px a lap, not 4/3: the loop is that of the laps."""
    plane = Plane(name="quay")
    scene = scene_of([plane], onward((2, Fraction(2, 3))))
    assert scene_loop(scene, {"quay": (10, 20)}).ticks == 20


def test_both_axes_count() -> None:
    drifting = Plane(name="snow", drift=(Fraction(1), Fraction(1, 2)), wrap=(True, True))
    assert scene_loop(scene_of([drifting], Path()), {"snow": (6, 5)}).ticks == 30
    leaving = Plane(name="snow", drift=(Fraction(1), Fraction(1, 2)))
    assert "up or down" in scene_loop(scene_of([leaving], Path()), {"snow": (6, 5)}).planes[0].why


def test_held_planes_repeat_after_their_loop() -> None:
    """A plane of 12 px at 1 px a tick, held for 5, repeats after 60 ticks and not before."""
    planes = [Plane(name="quay", ratio=(Fraction(1), Fraction(0)), cadence=(5, 2))]
    scene = scene_of(planes, onward((600, Fraction(1))))
    assert scene_loop(scene, {"quay": (12, 200)}).ticks == 60
    places = [shown_scroll(scene, planes[0], tick)[0] % 12 for tick in range(2, 200)]
    repeats = [n for n in range(1, 120) if places[n:] == places[:-n]]
    assert repeats[0] == 60

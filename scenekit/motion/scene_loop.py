"""When the planes of a scene are all where they were, from its camera path, ratios and drifts."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from scenekit.model.scene import Path, Plane, Scene
from scenekit.motion.paths import lap_travel


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneLoop:
    """When one plane is where it was.

    ticks   after which it repeats for good; None when it never does
    why     what keeps it from repeating, else ""
    """

    name: str
    ticks: int | None
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SceneLoop:
    """When a scene repeats.

    from_tick   tick from which everything repeats: a path that ends has to end first
    ticks       length of the loop; None when a plane never repeats
    """

    from_tick: int
    ticks: int | None
    planes: tuple[PlaneLoop, ...]


def scene_loop(
    scene: Scene, sizes_px: Mapping[str, tuple[int, int]], whole_periods: Sequence[int] = ()
) -> SceneLoop:
    """Return when a scene's planes, and further whole periods, are all where they were.

    The loop is the shortest when the camera keeps one speed of whole pixels a tick.
    sizes_px        (width, height) of each plane's picture by plane name
    whole_periods   ticks of palette cycles, animations and closed paths of sprites
    """
    path = scene.camera.path
    if scene.camera.keeps:  # it has come round at the latest when its sprite has
        path = next(placed.path for placed in scene.placed if placed.name == scene.camera.keeps)
    total = sum(segment.ticks for segment in path.segments)
    ends = path.repeat == "no"
    stride, travel = (1, (Fraction(0), Fraction(0))) if ends else _stride(path, total)
    planes = tuple(_plane_loop(plane, sizes_px[plane.name], stride, travel) for plane in scene.planes)
    lengths = [plane.ticks for plane in planes if plane.ticks is not None]
    whole = lcm(stride, *lengths, *whole_periods) if len(lengths) == len(planes) else None
    held = max(plane.cadence[0] for plane in scene.planes) - 1
    return SceneLoop(from_tick=total + held if ends else 0, ticks=whole, planes=planes)


def _stride(path: Path, total: int) -> tuple[int, tuple[Fraction, Fraction]]:
    """Ticks after which the camera moves on as before, and how far it came in them."""
    if not path.segments:
        return 1, (Fraction(0), Fraction(0))
    across, down = lap_travel(path)
    travel = (Fraction(across), Fraction(down)) if path.repeat == "onward" else (Fraction(0), Fraction(0))
    speeds = {segment.speed for segment in path.segments}
    if path.repeat == "onward" and len(speeds) == 1:
        x, y = next(iter(speeds))
        even = all((part * segment.ticks).denominator == 1 for part in (x, y) for segment in path.segments)
        if even:
            ticks = lcm(x.denominator, y.denominator)
            return ticks, (x * ticks, y * ticks)
    return total, travel


def _plane_loop(
    plane: Plane, size_px: tuple[int, int], stride: int, travel: tuple[Fraction, Fraction]
) -> PlaneLoop:
    """Strides until both axes are back: every floored term whole, and their sum a whole picture."""
    strides = 1
    for axis, direction in ((0, "sideways"), (1, "up or down")):
        by_camera, by_drift = plane.ratio[axis] * travel[axis], plane.drift[axis] * stride
        moved = by_camera + by_drift
        if moved and not plane.wrap[axis]:
            return PlaneLoop(name=plane.name, ticks=None, why=f"moves {direction} and does not wrap there")
        around = (moved / size_px[axis]).denominator if moved else 1
        strides = lcm(strides, by_camera.denominator, by_drift.denominator, around)
    ticks = stride * strides
    return PlaneLoop(name=plane.name, ticks=ticks if ticks == 1 else lcm(ticks, plane.cadence[0]))

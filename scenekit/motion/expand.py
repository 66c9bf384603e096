"""Turns what a document may say of motion into planes and speeds alone: shapes, following facings, bands."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import groupby
from math import cos, floor, pi, sin

from scenekit.errors import ProjectError
from scenekit.model.paths import Path, Segment, Shape
from scenekit.model.project import Project
from scenekit.model.scene import Placed, Plane, Scene
from scenekit.model.sprites import Sprite
from scenekit.motion.depths import ratio_from_depth
from scenekit.motion.easing import ease_between, parse_easing
from scenekit.motion.kinematics import drive, jump
from scenekit.motion.paths import unroll

CORNER_ANGLES = {"right": 0.0, "bottom": 0.5, "left": 1.0, "top": 1.5}
Steps = list[tuple[int, int]]


def expand_project(project: Project) -> Project:
    """Return a project whose scenes hold plain planes and paths only; the same one if they already do.

    raises   ProjectError, UnknownNameError: a shape that cannot be sampled
    """
    scenes = tuple(expand_scene(project, scene) for scene in project.scenes)
    if all(new is old for new, old in zip(scenes, project.scenes, strict=True)):
        return project
    return replace(project, scenes=scenes)


def expand_scene(project: Project, scene: Scene) -> Scene:
    """Return a scene with plain planes and paths; the same one if it already has."""
    if scene.plain:
        return scene
    where = f"scenes/{scene.name}.toml"
    camera = replace(scene.camera, path=expand_path(scene.camera.path, None, None, f"{where}: camera"))
    placed = []
    for sprite in scene.placed:
        label = f"{where}: placed sprite {sprite.name}"
        path = expand_path(sprite.path, project.sprite(sprite.sprite), sprite, label)
        placed.append(_on_bands(scene, replace(sprite, path=path)))
    usual = camera_speed(camera.path)
    planes = tuple(part for plane in scene.planes for part in plane_parts(with_ratio(plane, usual, where)))
    return replace(scene, camera=camera, planes=planes, placed=tuple(placed))


def camera_speed(path: Path) -> Fraction:
    """Return the speed along x that a camera keeps longest, standing still not counted.

    returns   px a tick; 1 if it never moves
    """
    ticks: dict[Fraction, int] = {}
    for segment in path.segments:
        speed = abs(segment.speed[0])
        ticks[speed] = ticks.get(speed, 0) + segment.ticks
    moving = {speed: count for speed, count in ticks.items() if speed}
    return max(moving, key=lambda speed: (moving[speed], -speed)) if moving else Fraction(1)


def with_ratio(plane: Plane, usual: Fraction, where: str) -> Plane:
    """Return a plane whose depth or pace is turned into a ratio.

    usual    speed of the camera that a pace is meant for
    source   pinhole relation: things twice as far away move half as fast (textbook)
    """
    if plane.depth is not None:
        ratio = ratio_from_depth(Fraction(1), plane.depth)
        return replace(plane, ratio=(ratio, ratio), depth=None)
    if plane.pace is not None:
        ratio = plane.pace / usual
        if max(abs(ratio.numerator), ratio.denominator) > 9_999:
            raise ProjectError(f"{where}: plane {plane.name}: pace: a ratio of {ratio} is too fine")
        return replace(plane, ratio=(ratio, Fraction(1)), pace=None)
    return plane


def plane_parts(plane: Plane) -> tuple[Plane, ...]:
    """Return the planes that a plane with bands stands for, from top to bottom.

    Rows of no band keep the plane's own ratio.
    """
    if not plane.bands:
        return (plane,)
    last = plane.rows[1] if plane.rows is not None else 32_767
    parts: list[Plane] = []
    end = plane.rows[0] if plane.rows is not None else 0
    for band in plane.bands:
        if band.rows[0] > end:
            parts.append(_part(plane, (end, band.rows[0]), len(parts)))
        ratio, drift = band.ratio, band.drift
        parts.append(replace(_part(plane, band.rows, len(parts)), ratio=ratio, drift=drift))
        end = band.rows[1]
    if end < last:
        parts.append(_part(plane, (end, last), len(parts)))
    return tuple(parts)


def _part(plane: Plane, rows: tuple[int, int], number: int) -> Plane:
    top = plane.offset[1] + rows[0] - (plane.rows[0] if plane.rows is not None else 0)
    name = f"{plane.name[:34]}-band{number}"
    return replace(plane, name=name, rows=rows, bands=(), offset=(plane.offset[0], top))


def _on_bands(scene: Scene, placed: Placed) -> Placed:
    """Let a sprite move with the band that its start place is in, and stand in front of the last one."""
    over = plane_parts(scene.planes[scene.plane_number(placed.over)])[-1].name
    if placed.moves_with == "screen":
        return replace(placed, over=over)
    plane = scene.planes[scene.plane_number(placed.moves_with)]
    if not plane.bands:
        return replace(placed, over=over)
    parts = plane_parts(plane)
    base = parts[0].rows[0] if parts[0].rows is not None else 0
    row = placed.at[1] + base
    carrier = next((part for part in parts if part.rows is not None and row < part.rows[1]), parts[-1])
    top = carrier.rows[0] - base if carrier.rows is not None else 0
    return replace(placed, over=over, moves_with=carrier.name, at=(placed.at[0], placed.at[1] - top))


def expand_path(path: Path, sprite: Sprite | None, placed: Placed | None, where: str) -> Path:
    """Return a path of speeds alone; sprite and placed are None for the camera."""
    if path.plain:
        return path
    segments: list[Segment] = []
    for number, segment in enumerate(path.segments, 1):
        segments += sample(segment, f"{where}: path segment {number}")
    if path.follow and sprite is not None and placed is not None:
        segments = _follow(path, segments, sprite, placed, where)
    return Path(segments=tuple(segments), repeat=path.repeat)


def sample(segment: Segment, where: str) -> list[Segment]:
    """Return the stretches of whole speeds that a segment's shape gives, tick by tick, equal ones joined."""
    if segment.shape is None:
        return [segment]
    steps = _SAMPLERS[segment.shape.kind](segment, segment.shape, where)
    if not steps:
        raise ProjectError(f"{where}: {segment.shape.kind}: moves nowhere in no time; leave it out")
    found = []
    for speed, group in groupby(steps):
        found.append(Segment(ticks=len(list(group)), speed=(Fraction(speed[0]), Fraction(speed[1]))))
    found[0] = replace(found[0], animation=segment.animation, facing=segment.facing)
    return found


def _differences(across: Sequence[int], down: Sequence[int]) -> Steps:
    return [(across[n] - across[n - 1], down[n] - down[n - 1]) for n in range(1, len(across))]


def _ease(segment: Segment, shape: Shape, where: str) -> Steps:
    curve = parse_easing(where, shape.curve)
    across, down = (ease_between(curve, 0, way, segment.ticks) for way in shape.by)
    return _differences(across, down)


def _drive(segment: Segment, shape: Shape, where: str) -> Steps:
    """Drive along the longer axis; the other one keeps its share of the way, rounded."""
    try:
        long_axis = 0 if abs(shape.by[0]) >= abs(shape.by[1]) else 1
        places = drive(shape.by[long_axis], shape.top, shape.gain, shape.brake)
    except ValueError as error:
        raise ProjectError(f"{where}: drive: {error}") from None
    way, side = shape.by[long_axis], shape.by[1 - long_axis]
    others = [floor(Fraction(side * place, way) + Fraction(1, 2)) if way else 0 for place in places]
    return _differences(*((places, others) if long_axis == 0 else (others, places)))


def _jump(segment: Segment, shape: Shape, where: str) -> Steps:
    try:
        heights = jump(shape.push, shape.pull).heights_px
    except ValueError as error:
        raise ProjectError(f"{where}: jump: {error}") from None
    across = [floor(segment.speed[0] * tick) for tick in range(len(heights))]
    return _differences(across, [-height for height in heights])


def _circle(segment: Segment, shape: Shape, where: str) -> Steps:
    start = CORNER_ANGLES[shape.corner] * pi
    angles = [start + 2 * pi * float(shape.turns) * tick / segment.ticks for tick in range(segment.ticks + 1)]
    across = [_rounded(shape.radius * (cos(angle) - cos(start))) for angle in angles]
    return _differences(across, [_rounded(shape.radius * (sin(angle) - sin(start))) for angle in angles])


def _wave(segment: Segment, shape: Shape, where: str) -> Steps:
    ticks = range(segment.ticks + 1)
    across = [floor(segment.speed[0] * tick) for tick in ticks]
    down = [
        floor(segment.speed[1] * tick) + _rounded(shape.radius * sin(2 * pi * tick / shape.period))
        for tick in ticks
    ]
    return _differences(across, down)


def _rounded(value: float) -> int:
    """Return the nearest whole number, a half going up; rounded first, so that all machines agree."""
    return floor(round(value, 6) + 0.5)


_SAMPLERS = {"ease": _ease, "drive": _drive, "jump": _jump, "circle": _circle, "wave": _wave}


def _follow(path: Path, segments: list[Segment], sprite: Sprite, placed: Placed, where: str) -> list[Segment]:
    """Let the facing follow the direction of travel, with a turn animation at each reversal."""
    known = {facing.facing for facing in sprite.facings}
    turn = _turn_ticks(path, sprite, where)
    facing = placed.facing or sprite.facings[0].facing
    animation = placed.animation or sprite.animations[0].name
    found: list[Segment] = []
    for segment in segments:
        animation = segment.animation or animation
        wanted = segment.facing or _direction(segment, known, facing)
        if wanted == facing:
            found.append(segment)
            continue
        if turn:
            still = (Fraction(0), Fraction(0))
            found.append(Segment(ticks=turn, speed=still, animation=path.turn, facing=facing))
        facing = wanted
        found.append(replace(segment, animation=animation, facing=facing))
    return found if path.repeat == "no" else _closed(found, facing, turn, path, sprite, placed)


def _closed(
    found: list[Segment], facing: str, turn: int, path: Path, sprite: Sprite, placed: Placed
) -> list[Segment]:
    """Let a path begin again with the facing, and after a turn the animation, of its first lap."""
    start = found[0].facing or placed.facing or sprite.facings[0].facing
    found[0] = replace(found[0], facing=start)
    if turn and facing != start:
        animation = found[0].animation or placed.animation or sprite.animations[0].name
        found[0] = replace(found[0], animation=animation)
        still = (Fraction(0), Fraction(0))
        found.append(Segment(ticks=turn, speed=still, animation=path.turn, facing=facing))
    return found


def _direction(segment: Segment, known: set[str], facing: str) -> str:
    """Return the facing of a segment's direction, sideways before up and down, or the old one."""
    x, y = segment.speed
    ways = [("right", x > 0), ("left", x < 0), ("down", x == 0 and y > 0), ("up", x == 0 and y < 0)]
    return next((way for way, runs in ways if runs and way in known), facing)


def _turn_ticks(path: Path, sprite: Sprite, where: str) -> int:
    if not path.turn:
        return 0
    number = sprite.animation_number(path.turn)
    if number is None:
        raise ProjectError(f"{where}: turn: sprite {sprite.name} has no animation {path.turn}")
    animation = sprite.animations[number]
    return sum(animation.steps[n].ticks for n in unroll(animation)[0])

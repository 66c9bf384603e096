"""The tables of what moves: frames and animations of sprites, their paths and the camera's."""

from scenekit.model.project import Project
from scenekit.model.scene import Path, Placed, Scene
from scenekit.model.sprites import FACINGS, Sprite
from scenekit.motion.looks import shown_animation, start_state
from scenekit.motion.parallax import camera_at
from scenekit.motion.paths import split_speed, unroll
from scenekit.tables.collected import Collected, starts_of
from scenekit.tables.pieces import Pieces

REPEAT_CODES = {"no": 0, "from-start": 1, "onward": 2}


def sprite_tables(tables: Collected, project: Project, scene: Scene, pieces: Pieces) -> dict[str, int]:
    """Add frames, animations and looks; return the first look of each sprite."""
    frames = pieces.frames
    tables.add("frame_cell", [f.cell for f in frames], "4 x piece + flip of each frame, -1 is empty")
    tables.add("frame_x", [f.x for f in frames], "left edge from the pivot")
    tables.add("frame_y", [f.y for f in frames], "top edge from the pivot")
    if pieces.turned:
        turned = [pieces.turned.get((n, flip), -1) for n in range(len(frames)) for flip in range(4)]
        tables.add("frame_turned", turned, "mirrored copy by frame and flip, -1 when the machine mirrors")
    tables.add("pivot_x", [f.pivot[0] for f in frames], "pivot from the frame's box on the sheet")
    tables.add("pivot_y", [f.pivot[1] for f in frames], "")
    for n, name in enumerate(("hit_x", "hit_y", "hit_w", "hit_h")):
        remark = "hit box from the pivot, width 0 is none" if n == 0 else ""
        tables.add(
            name, [f.hit_box[n] - (f.pivot[n] if n < 2 and f.hit_box[2] else 0) for f in frames], remark
        )
    used = [project.sprite(name) for name in dict.fromkeys(placed.sprite for placed in scene.placed)]
    first, looks = 0, dict[str, int]()
    counts, again, steps, table = list[int](), list[int](), list[tuple[int, int, int]](), list[int]()
    for sprite in used:
        looks[sprite.name] = len(table)
        table += _looks(sprite, first)
        for animation in sprite.animations:
            numbers, repeats = unroll(animation)
            counts.append(len(numbers))
            again.append(int(repeats))
            for number in numbers:
                step = animation.steps[number]
                steps.append((pieces.frame_number(animation.sheet, step.frame), step.ticks, step.flip))
        first += len(sprite.animations)
    tables.add("animation_first", starts_of(counts), "first step of each animation")
    tables.add("animation_count", counts, "its steps")
    tables.add("animation_again", again, "1 when it begins again after the last")
    tables.add("step_frame", [s[0] for s in steps], "frame of each step")
    tables.add("step_ticks", [s[1] for s in steps], "its ticks")
    tables.add("step_flip", [s[2] for s in steps], "its flip: 1 left-right, 2 top-bottom, 3 both")
    tables.add("look", table, "4 x animation + flip, by sprite, its animation and facing")
    return looks


def _looks(sprite: Sprite, first: int) -> list[int]:
    looks = []
    for number in range(len(sprite.animations)):
        for facing in FACINGS:
            animation, flip = shown_animation(sprite, number, facing)
            looks.append(4 * (first + animation) + flip)
    return looks


def path_tables(tables: Collected, project: Project, scene: Scene) -> None:
    paths: list[tuple[Path, Placed | None]] = [
        (scene.camera.path, None),
        *((p.path, p) for p in scene.placed),
    ]
    starts = [camera_at(scene, 0), *(placed.at for placed in scene.placed)]
    tables.add("start_x", [s[0] for s in starts], "start places: camera first, then sprites")
    tables.add("start_y", [s[1] for s in starts], "")
    tables.add("path_first", starts_of([len(p.segments) for p, _ in paths]), "first segment of each path")
    tables.add("path_count", [len(p.segments) for p, _ in paths], "its segments")
    codes = [REPEAT_CODES[p.repeat] for p, _ in paths]
    tables.add("path_repeat", codes, "after the last: 0 stay, 1 from the start place, 2 onward")
    segments = [(segment, placed) for path, placed in paths for segment in path.segments]
    tables.add("segment_ticks", [s.ticks for s, _ in segments], "ticks of each segment")
    for axis, name in enumerate("xy"):
        speeds = [split_speed(s.speed[axis]) for s, _ in segments]
        tables.add(f"segment_{name}", [s[0] for s in speeds], f"pixels a tick along {name}")
        tables.add(f"segment_part_{name}", [s[1] for s in speeds], "and this many")
        tables.add(f"segment_parts_{name}", [s[2] for s in speeds], "parts of so many")
    does = [_number(project, placed, s.animation) for s, placed in segments]
    tables.add("segment_does", does, "animation to take, -1 goes on")
    faces = [FACINGS.index(s.facing) if s.facing else -1 for s, _ in segments]
    tables.add("segment_face", faces, "facing to take, -1 goes on")


def _number(project: Project, placed: Placed | None, animation: str) -> int:
    if placed is None or not animation:
        return -1
    number = project.sprite(placed.sprite).animation_number(animation)
    return -1 if number is None else number


def placed_tables(tables: Collected, project: Project, scene: Scene, looks: dict[str, int]) -> None:
    states = [start_state(project.sprite(placed.sprite), placed) for placed in scene.placed]
    tables.add("actor_look", [looks[p.sprite] for p in scene.placed], "first place of each sprite in look")
    carriers = [-1 if p.moves_with == "screen" else scene.plane_number(p.moves_with) for p in scene.placed]
    tables.add("actor_plane", carriers, "plane that carries it, -1 is the screen")
    tables.add("start_does", [s[0] for s in states], "animation at the start")
    tables.add("start_face", [FACINGS.index(s[1]) for s in states], "facing at the start")

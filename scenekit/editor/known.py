"""A list of triangles read once: the steps that paint it, where it reaches, and what it covers."""

from dataclasses import dataclass, field
from typing import Any

import numpy as np
import pygame
from numpy.typing import NDArray

from scenekit.editor.triangles import VERTEX, DrawList, Glyph, Run, Shape, Step, Texture, shapes_of, steps_of

LEAST_COVER_PX = 10_000

Runs = dict[tuple[object, ...], tuple[pygame.Rect, list[Step]]]
"""What runs became, by all that they hang on."""


@dataclass(slots=True, eq=False)
class Known:
    """A draw list that was painted, ready to be painted again."""

    source: DrawList
    versions: tuple[int, ...]
    bounds: pygame.Rect
    steps: list[Step] = field(default_factory=list)
    covers: list[tuple[int, pygame.Rect]] = field(default_factory=list)


@dataclass(slots=True, eq=False)
class _Reach:
    """One run of a list: its key, its clip, where it reaches, and its triangles."""

    key: tuple[object, ...]
    clip: pygame.Rect
    reach: pygame.Rect
    texture: int
    triangles: NDArray[np.int64]


def read_list(
    source: DrawList, versions: tuple[int, ...], textures: dict[int, Texture], screen: pygame.Rect,
    kept: Runs, fresh: Runs, glyph: Glyph,
) -> Known:  # fmt: skip
    """Turn a draw list into steps; runs that were read before are taken as they are, all go to `fresh`."""
    vertices = np.frombuffer(source.vertices, VERTEX)
    reaches = _reaches(source, vertices, textures, screen)
    unread = [run for run in reaches if run.key not in kept and run.reach.w and run.reach.h]
    for run, shapes, triangles, first in _shaped(vertices, unread):
        steps = steps_of(
            shapes, vertices, triangles, run.texture, textures.get(run.texture), run.clip, glyph, first
        )
        fresh[run.key] = (run.reach, steps)
    steps, bounds = [], []
    for run in reaches:
        made = fresh.get(run.key) or kept.get(run.key) or (run.reach, [])
        fresh[run.key] = made
        if made[0].w and made[0].h:
            bounds.append(made[0])
            steps += made[1]
    whole = bounds[0].unionall(bounds[1:]) if bounds else pygame.Rect(0, 0, 0, 0)
    covers = [
        (place, rect) for place, step in enumerate(steps) if (rect := _covered(step, textures)) is not None
    ]
    return Known(source=source, versions=versions, bounds=whole, steps=steps, covers=covers)


def _reaches(
    source: DrawList, vertices: NDArray[Any], textures: dict[int, Texture], screen: pygame.Rect
) -> list[_Reach]:
    """Return the runs that can be seen, each with where it reaches."""
    indices = np.frombuffer(source.indices, np.uint16).astype(np.int64)
    seen: list[tuple[Run, pygame.Rect]] = []
    for run in source.runs:
        left, top, right, bottom = (int(side) for side in run[0])
        clip = pygame.Rect(left, top, right - left, bottom - top).clip(screen)
        if run[3] and clip.w > 0 and clip.h > 0:
            seen.append((run, clip))
    if not seen:
        return []
    used = [indices[run[2] : run[2] + run[3]] + run[4] for run, _ in seen]
    starts = np.cumsum([0, *(len(part) for part in used[:-1])])
    joined = np.concatenate(used)
    low, high = np.minimum.reduceat(joined, starts).tolist(), np.maximum.reduceat(joined, starts).tolist()
    x, y = vertices["x"][joined], vertices["y"][joined]
    edges = [np.floor(np.minimum.reduceat(part, starts)).astype(int).tolist() for part in (x, y)]
    edges += [np.ceil(np.maximum.reduceat(part, starts)).astype(int).tolist() for part in (x, y)]
    found = []
    for number, (run, clip) in enumerate(seen):
        texture = textures.get(run[1])
        version = texture.version if texture is not None else -1
        part = vertices[low[number] : high[number] + 1].tobytes()
        key = (tuple(clip), run[1], version, part, (used[number] - low[number]).tobytes())
        left, top, right, bottom = (edge[number] for edge in edges)
        reach = pygame.Rect(left, top, right - left + 1, bottom - top + 1).clip(clip)
        triangles = used[number].reshape(-1, 3)
        found.append(_Reach(key=key, clip=clip, reach=reach, texture=run[1], triangles=triangles))
    return found


def _shaped(
    vertices: NDArray[Any], runs: list[_Reach]
) -> list[tuple[_Reach, list[Shape], NDArray[np.int64], int]]:
    """Return the shapes of many runs, found all at once."""
    if not runs:
        return []
    triangles = np.concatenate([run.triangles for run in runs])
    shapes = shapes_of(vertices, triangles)
    found, place, first = [], 0, 0
    for run in runs:
        end, start = first + len(run.triangles), place
        while place < len(shapes) and shapes[place][3] < end:
            place += 1
        found.append((run, shapes[start:place], run.triangles, first))
        first = end
    return found


def _covered(step: Step, textures: dict[int, Texture]) -> pygame.Rect | None:
    """Return the rectangle that a step covers wholly, where it is large enough to matter."""
    clip, kind, data = step
    if kind == "fill":
        rect = data[1].clip(clip)
    elif kind == "picture":
        texture = textures.get(data[0])
        if texture is None or texture.picture is None or texture.picture.get_flags() & pygame.SRCALPHA:
            return None
        x0, y0, x1, y1 = data[2]
        rect = pygame.Rect(x0, y0, x1 - x0, y1 - y0).clip(clip)
    else:
        return None
    return rect if rect.w * rect.h >= LEAST_COVER_PX else None

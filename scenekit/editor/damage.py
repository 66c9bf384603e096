"""Where a window has to be painted anew: what two lists of steps have not in common."""

from collections.abc import Sequence

import pygame

from scenekit.editor.triangles import Step


def changes(old: Sequence[Step], new: Sequence[Step]) -> list[pygame.Rect]:
    """Return where two lists of steps differ; what both begin and end with is the same."""
    first, last = 0, 0
    shorter = min(len(old), len(new))
    while first < shorter and old[first] == new[first]:
        first += 1
    while last < shorter - first and old[-1 - last] == new[-1 - last]:
        last += 1
    before, after = old[first : len(old) - last], new[first : len(new) - last]
    if len(before) == len(after):
        pairs = [(a, b) for a, b in zip(before, after, strict=True) if a != b]
        return [rect for a, b in pairs for rect in _different(a, b)]
    return [rect for step in (*before, *after) for rect in places(step)]


def _different(one: Step, two: Step) -> list[pygame.Rect]:
    """Return where two steps differ; of glyphs, only around those that do."""
    if one[1] == two[1] == "glyphs" and one[0] == two[0] and len(one[2]) == len(two[2]):
        parts = [(a, b) for a, b in zip(one[2], two[2], strict=True) if a[1] != b[1] or a[0] is not b[0]]
        glyphs = [glyph for pair in parts for glyph in pair]
        return places((one[0], "glyphs", glyphs))
    return [*places(one), *places(two)]


def places(step: Step) -> list[pygame.Rect]:
    """Return the rectangles that a step touches."""
    clip, kind, data = step
    if kind in ("fill", "veil"):
        return [data[1].clip(clip)]
    if kind == "glyphs":
        rects = [pygame.Rect(place, glyph.get_size()) for glyph, place in data]
        return [rects[0].unionall(rects[1:]).clip(clip)] if rects else []
    if kind == "picture":
        x0, y0, x1, y1 = data[2]
        return [pygame.Rect(x0, y0, x1 - x0, y1 - y0).clip(clip)]
    points = data[1] if kind == "polygon" else data[1:3]
    xs, ys = [point[0] for point in points], [point[1] for point in points]
    left, top = int(min(xs)) - 2, int(min(ys)) - 2
    return [pygame.Rect(left, top, int(max(xs)) - left + 4, int(max(ys)) - top + 4).clip(clip)]


def joined(rects: Sequence[pygame.Rect], screen: pygame.Rect) -> list[pygame.Rect]:
    """Return rectangles that cover the given ones and do not overlap."""
    areas: list[pygame.Rect] = []
    for rect in rects:
        area = rect.clip(screen)
        if not area.w or not area.h:
            continue
        while True:
            hit = area.collidelist(areas)
            if hit < 0:
                break
            area = area.union(areas.pop(hit))
        areas.append(area)
    return areas

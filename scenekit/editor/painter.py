"""Paints lists of triangles onto a surface in software, and only where something changed."""

from collections.abc import Sequence
from typing import Any

import numpy as np
import pygame

from scenekit.editor.damage import changes, joined, places
from scenekit.editor.known import Known, Runs, read_list
from scenekit.editor.triangles import DrawList, Rgba, Texture, rgba

MOST_GLYPHS, MOST_SCALED = 6000, 300
MOST_PARTS, MOST_RUNS = 10, 400
"""A list that changed in more places is repainted around all of them at once."""


class Painter:
    """Keeps what each list looked like, and repaints the rectangles in which lists changed."""

    def __init__(self, surface: pygame.Surface) -> None:
        self.surface = surface
        self.textures: dict[int, Texture] = {}
        self.known: list[Known] = []
        self.runs: Runs = {}
        self.glyphs: dict[tuple[int, int, int, int, int, int], pygame.Surface] = {}
        self.scaled: dict[tuple[object, ...], tuple[int, pygame.Surface]] = {}

    def forget(self) -> None:
        """Paint everything anew next time."""
        self.known, self.glyphs, self.runs = [], {}, {}

    def paint(self, lists: Sequence[DrawList]) -> list[pygame.Rect]:
        """Paint what changed since the last call and return where."""
        fresh: list[Known] = []
        dirty: list[pygame.Rect] = []
        runs: Runs = {}
        for number, source in enumerate(lists):
            old = self.known[number] if number < len(self.known) else None
            versions = tuple(self.textures[run[1]].version for run in source.runs if run[1] in self.textures)
            if old is not None and old.versions == versions and old.source == source:
                fresh.append(old)
                continue
            screen = self.surface.get_rect()
            new = read_list(source, versions, self.textures, screen, self.runs, runs, self._glyph)
            fresh.append(new)
            parts = [new.bounds] if old is None else changes(old.steps, new.steps)
            dirty += parts if len(parts) <= MOST_PARTS else [parts[0].unionall(parts[1:])]
        for old in self.known[len(lists) :]:
            dirty.append(old.bounds)
        self.known = fresh
        if runs:
            self.runs = {**self.runs, **runs} if len(self.runs) < MOST_RUNS else runs
        areas = joined(dirty, self.surface.get_rect())
        for area in areas:
            self._repaint(area)
        return areas

    def refresh(self) -> list[pygame.Rect]:
        """Paint anew only those pictures that have other content since, and return where."""
        dirty = [
            rect
            for known in self.known
            for step in known.steps
            if step[1] == "picture" and self._is_new(step[2])
            for rect in places(step)
        ]
        areas = joined(dirty, self.surface.get_rect())
        for area in areas:
            self._repaint(area)
        return areas

    def _is_new(self, data: Any) -> bool:
        texture = self.textures.get(data[0])
        return texture is not None and texture.version != data[3]

    def _start(self, area: pygame.Rect) -> tuple[int, int]:
        """Return the list and step from which on to paint an area: the last that covers all of it."""
        for number in range(len(self.known) - 1, -1, -1):
            known = self.known[number]
            if known.bounds.contains(area):
                for place, rect in reversed(known.covers):
                    if rect.contains(area):
                        return number, place
        return 0, 0

    def _repaint(self, area: pygame.Rect) -> None:
        first, begin = self._start(area)
        for number in range(first, len(self.known)):
            known = self.known[number]
            if not known.bounds.colliderect(area):
                continue
            last = None
            for clip, kind, data in known.steps[begin if number == first else 0 :]:
                if clip is not last:
                    part, last = clip.clip(area), clip
                    self.surface.set_clip(part)
                if not part.w or not part.h:
                    continue
                if kind == "fill":
                    if data[1].colliderect(part):
                        self.surface.fill(data[0], data[1])
                elif kind == "veil":
                    _veil(self.surface, data[1].clip(part), data[0])
                elif kind == "glyphs":
                    self.surface.blits(data, False)
                elif kind == "line":
                    _line(self.surface, *data)
                elif kind == "polygon":
                    pygame.draw.polygon(self.surface, data[0], data[1])
                else:
                    self._picture(data, part)
                    self.surface.set_clip(part)
        self.surface.set_clip(None)

    def _glyph(
        self, number: int, texture: Texture, uv: tuple[float, float, float, float], packed: int
    ) -> pygame.Surface:
        width, height = texture.size
        left, top = round(uv[0] * width), round(uv[1] * height)
        right, bottom = round(uv[2] * width), round(uv[3] * height)
        key = (number, left, top, right, bottom, packed)
        found = self.glyphs.get(key)
        if found is None:
            if len(self.glyphs) > MOST_GLYPHS:
                self.glyphs.clear()
            assert texture.mask is not None
            part = texture.mask[top:bottom, left:right]
            red, green, blue, alpha = rgba(packed)
            pixels = np.empty((*part.shape, 4), dtype=np.uint8)
            pixels[..., 0], pixels[..., 1], pixels[..., 2] = red, green, blue
            pixels[..., 3] = (part.astype(np.uint16) * alpha + 127) // 255
            size = (part.shape[1], part.shape[0])
            found = pygame.image.frombuffer(pixels.tobytes(), size, "RGBA").convert_alpha()
            self.glyphs[key] = found
        return found

    def _picture(self, data: Any, part: pygame.Rect) -> None:
        """Draw the part of a picture that shows, each of its pixels equally large and sharp."""
        number, (u0, v0, u1, v1), (x0, y0, x1, y1), _ = data
        texture = self.textures.get(number)
        if texture is None or texture.picture is None or x1 <= x0 or y1 <= y0:
            return
        width, height = texture.size
        left, top, wide, high = u0 * width, v0 * height, (u1 - u0) * width, (v1 - v0) * height
        if wide == x1 - x0 and high == y1 - y0:
            area = pygame.Rect(round(left), round(top), round(wide), round(high))
            self.surface.blit(texture.picture, (x0, y0), area)
            return
        part = part.clip(pygame.Rect(x0, y0, x1 - x0, y1 - y0))
        if not part.w or not part.h:
            return
        self.surface.set_clip(part)
        zoom_x, zoom_y = (x1 - x0) / wide, (y1 - y0) / high
        first_x = max(0, int((part.left - x0) / zoom_x + left))
        first_y = max(0, int((part.top - y0) / zoom_y + top))
        last_x = min(width, int((part.right - x0) / zoom_x + left) + 1)
        last_y = min(height, int((part.bottom - y0) / zoom_y + top) + 1)
        if last_x <= first_x or last_y <= first_y:
            return
        place = (round(x0 + (first_x - left) * zoom_x), round(y0 + (first_y - top) * zoom_y))
        end = (round(x0 + (last_x - left) * zoom_x), round(y0 + (last_y - top) * zoom_y))
        size = (max(1, end[0] - place[0]), max(1, end[1] - place[1]))
        key = (number, first_x, first_y, last_x, last_y, size)
        kept = self.scaled.get(key)
        if kept is None or kept[0] != texture.version:
            if len(self.scaled) > MOST_SCALED:
                self.scaled.clear()
            area = pygame.Rect(first_x, first_y, last_x - first_x, last_y - first_y)
            piece = texture.picture.subsurface(area)
            kept = (texture.version, pygame.transform.scale(piece, size))
            self.scaled[key] = kept
        self.surface.blit(kept[1], place)


def _veil(surface: pygame.Surface, rect: pygame.Rect, colour: Rgba) -> None:
    if rect.w > 0 and rect.h > 0:
        veil = pygame.Surface(rect.size)
        veil.fill(colour[:3])
        veil.set_alpha(colour[3])
        surface.blit(veil, rect)


def _line(surface: pygame.Surface, colour: Rgba, one: Any, two: Any, width: int) -> None:
    if width == 1:
        pygame.draw.aaline(surface, colour, one, two)
    else:
        pygame.draw.line(surface, colour, one, two, width)

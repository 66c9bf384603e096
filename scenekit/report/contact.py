"""Contact sheets: every frame or step of a group beside the others, named, at a whole scale."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

import numpy as np
from numpy.typing import NDArray

from scenekit.model.arrays import Pixels
from scenekit.model.project import Project
from scenekit.model.sprites import Animation, Frame, Sprite, Step
from scenekit.report.paper import QUIET, Paper
from scenekit.symmetry.flips import flip_picture

WIDTH_PX, EDGE_PX, GAP_PX = 1000, 20, 10
LABEL_PX, HEADING_PX = 16, 30
COMFORTABLE_PX, MOST_SCALE, LEAST_CELL_PX = 72, 4, 84
MOST_LABEL_PX = 180
MIDDLE = (138, 146, 158)
"""Behind art: neither dark nor light outlines vanish on it."""

MOST_HEIGHT_PX = 30_000


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Group:
    """Pictures that belong together, each with what is written under it."""

    title: str
    pictures: tuple[tuple[str, Pixels], ...]


def sheet_groups(project: Project, sheets: dict[str, Pixels]) -> tuple[Group, ...]:
    """Return the frames of every sheet that has some."""
    groups = []
    for sheet in project.sheets:
        cut = tuple((frame.name, cut_frame(sheets[sheet.name], frame)) for frame in sheet.frames)
        if cut:
            groups.append(Group(title=f"sheet {sheet.name}, {len(cut)} frames", pictures=cut))
    return tuple(groups)


def animation_groups(project: Project, sheets: dict[str, Pixels]) -> tuple[Group, ...]:
    """Return the steps of every animation, with the ticks of each."""
    groups = []
    for sprite in project.sprites:
        for animation in sprite.animations:
            shown = animation_steps(project, sprite, animation, sheets)
            names = [f"{step.ticks}: {step.frame}" for step in animation.steps]
            title = f"{sprite.name}: {animation.name}, {animation.play}; ticks and frame"
            pictures = tuple(zip(names, shown[: len(names)], strict=True))
            groups.append(Group(title=title, pictures=pictures))
    return tuple(groups)


def cut_frame(pixels: Pixels, frame: Frame) -> Pixels:
    """Return the picture of a frame."""
    x, y, w, h = frame.box
    return pixels[y : y + h, x : x + w]


def played(animation: Animation) -> tuple[Step, ...]:
    """Return the steps of one round as they are played."""
    back = animation.steps[-2:0:-1] if animation.play == "there-and-back" else ()
    return (*animation.steps, *back)


def animation_steps(
    project: Project, sprite: Sprite, animation: Animation, sheets: dict[str, Pixels], facing: str = ""
) -> tuple[Pixels, ...]:
    """Return one round of an animation, all steps of one size and their pivots in one place.

    facing   as which it is shown: mirrored, or by the animation drawn for it
    returns  (H, W, 4) uint8 each
    """
    turned = next((f for f in sprite.facings if f.facing == facing), None)
    flip = 0
    if turned is not None:
        own = dict(turned.own)
        if animation.name in own:
            animation = next(a for a in sprite.animations if a.name == own[animation.name])
        else:
            flip = turned.flip
    sheet = project.sheet(animation.sheet)
    parts = [_flipped(sheets[sheet.name], sheet.frame(s.frame), s.flip ^ flip) for s in played(animation)]
    left, top = max(x for _, (x, _) in parts), max(y for _, (_, y) in parts)
    right = max(picture.shape[1] - x for picture, (x, _) in parts)
    bottom = max(picture.shape[0] - y for picture, (_, y) in parts)
    steps = []
    for picture, (x, y) in parts:
        step = np.zeros((top + bottom, left + right, 4), np.uint8)
        h, w = picture.shape[:2]
        step[top - y : top - y + h, left - x : left - x + w] = picture
        steps.append(step)
    return tuple(steps)


def _flipped(pixels: Pixels, frame: Frame | None, flip: int) -> tuple[Pixels, tuple[int, int]]:
    if frame is None:
        return np.zeros((1, 1, 4), np.uint8), (0, 0)
    (_, _, w, h), (x, y) = frame.box, frame.pivot
    picture = flip_picture(cut_frame(pixels, frame), flip)
    return picture, (w - 1 - x if flip & 1 else x, h - 1 - y if flip & 2 else y)


def contact_sheet(groups: Sequence[Group], title: str) -> NDArray[np.uint8]:
    """Return one picture of all groups, (H, W, 3) uint8; what does not fit its longest height is left out."""
    placed, height = _layout(groups)
    paper = Paper(WIDTH_PX, min(height, MOST_HEIGHT_PX))
    paper.text(EDGE_PX, 14, paper.fitted(title, WIDTH_PX - 2 * EDGE_PX, 20), 20)
    pictures = []
    for y, words, cells in placed:
        if y + HEADING_PX > MOST_HEIGHT_PX:
            break
        paper.text(EDGE_PX, y, paper.fitted(words, WIDTH_PX - 2 * EDGE_PX, 14), 14)
        for (x, top, w, h), label, picture, scale in cells:
            if top + h + LABEL_PX > MOST_HEIGHT_PX:
                continue
            paper.box((x, top, min(picture.shape[1] * scale, w), h), MIDDLE)
            paper.text(x, top + h + 2, paper.fitted(label, w, 11), 11, QUIET)
            pictures.append((x, top, picture, scale))
    drawn = paper.array()
    for x, top, picture, scale in pictures:
        large = picture.repeat(scale, axis=0).repeat(scale, axis=1)[:, : WIDTH_PX - EDGE_PX - x]
        h, w = large.shape[:2]
        area = drawn[top : top + h, x : x + w]
        solid = large[: area.shape[0], :, 3] >= 128
        area[solid] = large[: area.shape[0]][solid][:, :3]
    return drawn


Cell = tuple[tuple[int, int, int, int], str, Pixels, int]


def _layout(groups: Sequence[Group]) -> tuple[list[tuple[int, str, list[Cell]]], int]:
    """Return each group's place, heading and cells, and the height of all."""
    measure = Paper(1, 1).length_px
    y, placed = 56, []
    for group in groups:
        start, cells = y, list[Cell]()
        tallest = max((picture.shape[0] for _, picture in group.pictures), default=1)
        widest = max((picture.shape[1] for _, picture in group.pictures), default=1)
        scale = max(1, min(MOST_SCALE, COMFORTABLE_PX // max(tallest, widest)))
        x, y, row = EDGE_PX, y + HEADING_PX - 6, 0
        for label, picture in group.pictures:
            named = min(ceil(measure(label, 11)), MOST_LABEL_PX)
            w = min(max(picture.shape[1] * scale, LEAST_CELL_PX, named), WIDTH_PX - 2 * EDGE_PX)
            h = picture.shape[0] * scale
            if x + w > WIDTH_PX - EDGE_PX:
                x, y, row = EDGE_PX, y + row + LABEL_PX + GAP_PX, 0
            cells.append(((x, y, w, h), label, picture, scale))
            x, row = x + w + GAP_PX, max(row, h)
        y += row + LABEL_PX + GAP_PX + 8
        placed.append((start, group.title, cells))
    return placed, y + EDGE_PX

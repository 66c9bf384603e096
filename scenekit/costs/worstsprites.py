"""Sprites at their worst: as many as asked for, each as its dearest look, wholly in view."""

from collections.abc import Mapping

from scenekit.costs.pricing import PriceList, time_us
from scenekit.errors import ProjectError
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.model.sprites import FACINGS
from scenekit.motion.looks import shown_animation
from scenekit.plan.drawplan import DrawPlanner
from scenekit.plan.work import Work
from scenekit.tables.pieces import EMPTY

MOST_OF_A_SPRITE = 1000


def sprite_numbers(scene: Scene, numbers: Mapping[str, int]) -> dict[str, int]:
    """Return how many of each sprite are on screen at most: as placed, or as said.

    raises   ProjectError: a sprite that the scene does not place, or a number out of range
    """
    held: dict[str, int] = {}
    for placed in scene.placed:
        held[placed.sprite] = held.get(placed.sprite, 0) + 1
    for name, number in numbers.items():
        if name not in held:
            raise ProjectError(
                f"scene {scene.name}: sprite {name}: not placed in it; must be one of "
                f"{', '.join(held) or 'none'}"
            )
        if not 0 <= number <= MOST_OF_A_SPRITE:
            raise ProjectError(
                f"scene {scene.name}: sprite {name}: got {number}; must be 0 to {MOST_OF_A_SPRITE}"
            )
        held[name] = number
    return held


def sprite_work(
    project: Project, planner: DrawPlanner, prices: PriceList, held: Mapping[str, int]
) -> list[Work]:
    """Return the work of every sprite as its dearest frame and facing, wholly in view."""
    found = []
    for name, number in held.items():
        if number:
            choices = _looks(project, planner, name)
            dearest = max(choices, key=lambda choice: round(time_us(choice, prices), 6))
            found += [
                Work(
                    name=name,
                    operation=w.operation,
                    calls=w.calls * number,
                    rows=w.rows * number,
                    pixels=w.pixels * number,
                )
                for w in dearest
            ]
    return found


def _looks(project: Project, planner: DrawPlanner, name: str) -> list[list[Work]]:
    asked = ("seen-sprite", "box-sprite") if planner.changes else ("sprite",)
    looked = [Work(name=name, operation=o, calls=1, rows=0, pixels=0) for o in asked]
    handed = Work(name=name, operation="piece", calls=1, rows=0, pixels=0)
    shown = _shown_pieces(project, planner, name)
    return [looked, *([*looked, handed, *planner.piece_work(p, 0, 0, flip)] for p, flip in shown)]


def largest_look(project: Project, planner: DrawPlanner, name: str) -> tuple[int, int]:
    """Return (width, height) of the largest look of a sprite, 0 where it never shows anything."""
    shapes = [planner.pieces.pictures[piece].shape for piece, _ in _shown_pieces(project, planner, name)]
    high, wide = max(shapes, key=lambda shape: (shape[0] * shape[1], shape), default=(0, 0))
    return int(wide), int(high)


def _shown_pieces(project: Project, planner: DrawPlanner, name: str) -> list[tuple[int, int]]:
    """Return piece and flip of every look of a sprite that shows something."""
    sprite, pieces, found = project.sprite(name), planner.pieces, []
    for number in range(len(sprite.animations)):
        for facing in FACINGS:
            shown, turn = shown_animation(sprite, number, facing)
            animation = sprite.animations[shown]
            for step in animation.steps:
                frame, flip = planner.numbers[animation.sheet, step.frame], step.flip ^ turn
                if (frame, flip) in pieces.turned:
                    frame, flip = pieces.turned[frame, flip], 0
                cell = pieces.frames[frame].cell
                if cell != EMPTY:
                    found.append((cell // 4, cell % 4 ^ flip))
    return found

"""Cells of maps whose frames take turns."""

from collections.abc import Mapping, Sequence

import numpy as np

from scenekit.errors import ProjectError, UnknownNameError
from scenekit.model.arrays import Indices, freeze
from scenekit.model.planes import Turn
from scenekit.model.project import Project
from scenekit.model.scene import Plane
from scenekit.model.sprites import Sheet
from scenekit.symmetry.flips import flip_picture

TurningCell = tuple[int, int, int, int, int]
"""Row, column, number of the turn, place in it, and flip."""


def turning_cells(
    plane: Plane, sheet: Sheet, cells: Sequence[Sequence[tuple[int, int]]], where: str
) -> tuple[TurningCell, ...]:
    """Return the cells of a map whose frames take turns, in reading order.

    cells    (frame number, flip) by row
    raises   UnknownNameError, ProjectError: a frame that the sheet has not, tiles of another size
    """
    if not plane.turns:
        return ()
    names = [frame.name for frame in sheet.frames]
    places: dict[int, tuple[int, int]] = {}
    for number, turn in enumerate(plane.turns):
        for place, name in enumerate(turn.frames):
            if name not in names:
                raise UnknownNameError(f"{where}: turns: frame of sheet {sheet.name}", name, names)
            places[names.index(name)] = (number, place)
    size = sheet.frames[0].box[2:]
    if plane.tile != size:
        raise ProjectError(
            f"{where}: tile: got {list(plane.tile)}; must be {list(size)} as frames that take turns"
        )
    return tuple(
        (row, column, *places[number], flip)
        for row, line in enumerate(cells)
        for column, (number, flip) in enumerate(line)
        if number in places
    )


def place_at(turn: Turn, place: int, tick: int) -> int:
    """Return the place of a turn that a cell shows at a tick when it holds one of its frames."""
    return (place + tick // turn.ticks) % len(turn.frames)


def cell_picture(sheet: Sheet, pixels: Indices, name: str, flip: int) -> Indices:
    """Return the picture of a frame, mirrored by a flip."""
    frame = sheet.frame(name)
    assert frame is not None
    x, y, w, h = frame.box
    return flip_picture(pixels[y : y + h, x : x + w], flip)


def turned_picture(
    picture: Indices,
    plane: Plane,
    sheet: Sheet,
    sheets: Mapping[str, Indices],
    cells: Sequence[TurningCell],
    tick: int,
) -> Indices:
    """Return the picture of a plane with each cell that takes turns as it is at a tick."""
    turned = picture.copy()
    shown: dict[tuple[int, int, int], Indices] = {}
    for row, column, number, place, flip in cells:
        key = (number, place, flip)
        if key not in shown:
            turn = plane.turns[number]
            name = turn.frames[place_at(turn, place, tick)]
            shown[key] = cell_picture(sheet, sheets[sheet.name], name, flip)
        h, w = shown[key].shape
        turned[row * h : (row + 1) * h, column * w : (column + 1) * w] = shown[key]
    return freeze(np.asarray(turned))


def project_turning(
    project: Project, maps: Mapping[tuple[str, str], Sequence[Sequence[tuple[int, int]]]]
) -> dict[tuple[str, str], tuple[TurningCell, ...]]:
    """Return the cells whose frames take turns of every plane that has some, by (scene, plane)."""
    found = {}
    for scene in project.scenes:
        for plane in scene.planes:
            if plane.turns:
                where = f"scenes/{scene.name}.toml: plane {plane.name}"
                cells = turning_cells(plane, project.sheet(plane.sheet), maps[scene.name, plane.name], where)
                found[scene.name, plane.name] = cells
    return found


def first_pictures(
    project: Project,
    turning: Mapping[tuple[str, str], Sequence[TurningCell]],
    planes: Mapping[tuple[str, str], Indices],
    sheets: Mapping[str, Indices],
) -> dict[tuple[str, str], Indices]:
    """Return the pictures of planes at tick 0, cells that take turns as on their sheet, dithered or not."""
    found = dict(planes)
    for (scene, name), cells in turning.items():
        plane = next(plane for plane in project.scene(scene).planes if plane.name == name)
        sheet = project.sheet(plane.sheet)
        found[scene, name] = turned_picture(found[scene, name], plane, sheet, sheets, cells, 0)
    return found

"""Flags of map cells: solid, ladder, deadly, or names of one's own."""

from collections.abc import Mapping
from dataclasses import dataclass

from scenekit.errors import ProjectError
from scenekit.model.project import Project
from scenekit.model.scene import Scene

MOST_FLAGS = 14
Cells = list[list[tuple[int, int]]]


@dataclass(frozen=True, slots=True, kw_only=True)
class FlagMap:
    """The flags of one plane's cells.

    size   (width, height) of a cell in pixels
    cells  flags added up, by row
    """

    size: tuple[int, int]
    cells: tuple[tuple[int, ...], ...]

    def at(self, x: int, y: int) -> int:
        """Return the flags at a pixel inside the map."""
        return self.cells[y // self.size[1]][x // self.size[0]]


def flag_values(project: Project) -> dict[str, int]:
    """Return the number of each flag: 1, 2, 4 ... in the order of the document.

    raises   ProjectError: more flags than a small integer holds
    """
    names = [flag for sheet in project.sheets for frame in sheet.frames for flag in frame.flags]
    found = list(dict.fromkeys(names))
    if len(found) > MOST_FLAGS:
        raise ProjectError(f"project.toml: {len(found)} different tile flags; at most {MOST_FLAGS}")
    return {name: 1 << number for number, name in enumerate(found)}


def flag_maps(
    project: Project, scene: Scene, maps: Mapping[tuple[str, str], Cells]
) -> tuple[FlagMap | None, ...]:
    """Return the flags of each plane of a scene; None for planes without any."""
    values = flag_values(project)
    found: list[FlagMap | None] = []
    for plane in scene.planes:
        cells = maps.get((scene.name, plane.name))
        sheet = project.sheet(plane.sheet) if cells is not None else None
        if cells is None or sheet is None or not any(frame.flags for frame in sheet.frames):
            found.append(None)
            continue
        sums = [sum(values[flag] for flag in frame.flags) for frame in sheet.frames]
        rows = tuple(tuple(sums[n] if n >= 0 else 0 for n, _ in row) for row in cells)
        found.append(FlagMap(size=(sheet.frames[0].box[2], sheet.frames[0].box[3]), cells=rows))
    return tuple(found)

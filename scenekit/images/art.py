"""Loads a project's art: its sheets, and the whole picture of every plane."""

import io
import re
from collections.abc import Callable
from pathlib import Path

import numpy as np

from scenekit.errors import ProjectError
from scenekit.findings import Finding
from scenekit.images.flat import read_picture
from scenekit.images.picture import Colour, Picture
from scenekit.model.arrays import Pixels, freeze
from scenekit.model.project import Project
from scenekit.model.scene import Plane
from scenekit.model.sprites import Sheet
from scenekit.model.store import inside
from scenekit.records import record
from scenekit.symmetry.flips import flip_picture

Cells = list[list[tuple[int, int]]]
Reader = Callable[[Path, Colour | None], Picture]
LARGEST_PLANE_PIXELS = 64_000_000
FOOT = 32_767
"""Stands for the last row of any picture."""
LARGEST_MAP_BYTES = 4_000_000
CELL = re.compile(r"\s*(-1|\d{1,6})(h|v|hv)?\s*")


@record(frozen=True, slots=True, kw_only=True, eq=False)
class Art:
    """A project's pictures.

    sheets  by name
    planes  by (scene, plane)
    maps    cells (frame number, flip) of planes that are maps, by (scene, plane)
    """

    sheets: dict[str, Pixels]
    planes: dict[tuple[str, str], Pixels]
    maps: dict[tuple[str, str], Cells]
    findings: tuple[Finding, ...]


def _read_keyed(path: Path, key: Colour | None) -> Picture:
    return read_picture(path, key=key)


def load_art(project: Project, read: Reader = _read_keyed) -> Art:
    """Read every sheet and plane of a project.

    read     how a picture is read, with its key colour
    raises   ImageReadError, ProjectError: a file is missing or bad, a frame leaves its sheet
    """
    findings: list[Finding] = []
    sheets = {sheet.name: _read_sheet(project.folder, sheet, findings, read) for sheet in project.sheets}
    planes: dict[tuple[str, str], Pixels] = {}
    files: dict[tuple[str, object], Pixels] = {}
    maps: dict[tuple[str, str], Cells] = {}
    for scene in project.scenes:
        for plane in scene.planes:
            where = f"scenes/{scene.name}.toml: plane {plane.name}"
            if plane.picture:
                key = (plane.picture, plane.key)
                if key not in files:
                    files[key] = _read(project.folder, plane.picture, plane.key, where, findings, read)
                planes[scene.name, plane.name] = files[key]
            else:
                maps[scene.name, plane.name] = read_map(inside(project.folder, plane.map), where)
                cells = maps[scene.name, plane.name]
                planes[scene.name, plane.name] = _map_picture(project, plane, cells, sheets, where)
            if plane.rows is not None:
                planes[scene.name, plane.name] = _rows(planes[scene.name, plane.name], plane.rows, where)
    return Art(sheets=sheets, planes=planes, maps=maps, findings=tuple(findings))


def _rows(picture: Pixels, rows: tuple[int, int], where: str) -> Pixels:
    """Return some rows of a picture; the last may lie beyond its foot.

    What is left below bands that reach the foot is one clear row.
    """
    if rows == (picture.shape[0], FOOT):
        return freeze(np.zeros((1, picture.shape[1], 4), dtype=np.uint8))
    if rows[0] >= picture.shape[0]:
        raise ProjectError(f"{where}: rows from {rows[0]} on; the picture has {picture.shape[0]}")
    return freeze(picture[rows[0] : rows[1]])


def _read(
    folder: Path,
    file: str,
    key: Colour | None,
    where: str,
    findings: list[Finding],
    read: Reader,
) -> Pixels:
    picture = read(inside(folder, file), key)
    findings += picture.findings
    alpha = picture.pixels[..., 3]
    soft = int(np.count_nonzero((alpha > 0) & (alpha < 255)))
    if soft:
        text = f"{soft} half-transparent pixels; those of alpha 128 and more are drawn, the rest left out"
        findings.append(Finding(level="warning", code="soft-alpha", where=where, text=text))
    return picture.pixels


def _read_sheet(folder: Path, sheet: Sheet, findings: list[Finding], read: Reader) -> Pixels:
    pixels = _read(folder, sheet.file, sheet.key, f"sheet {sheet.name}", findings, read)
    height, width = pixels.shape[:2]
    for frame in sheet.frames:
        x, y, w, h = frame.box
        if x + w > width or y + h > height:
            raise ProjectError(
                f"project.toml: sheet {sheet.name}: frame {frame.name}: box {list(frame.box)} "
                f"leaves the picture; it is {width} x {height} px"
            )
    return pixels


def _map_picture(
    project: Project, plane: Plane, rows: Cells, sheets: dict[str, Pixels], where: str
) -> Pixels:
    """Return the whole picture of a plane that is a map of frame numbers."""
    sheet = project.sheet(plane.sheet)
    if not sheet.frames:
        raise ProjectError(f"{where}: sheet {sheet.name} has no frames yet; cut it first")
    width, height = sheet.frames[0].box[2:]
    if len(rows) * len(rows[0]) * width * height > LARGEST_PLANE_PIXELS:
        raise ProjectError(f"{where}: {plane.map}: more than {LARGEST_PLANE_PIXELS} pixels")
    used = sorted({cell for cells in rows for cell in cells})
    tiles = np.zeros((len(used), height, width, 4), dtype=np.uint8)
    for place, (number, flip) in enumerate(used):
        if number < 0:
            continue
        if number >= len(sheet.frames):
            row = next(row for row, cells in enumerate(rows) if (number, flip) in cells)
            column = rows[row].index((number, flip))
            raise ProjectError(
                f"{where}: {plane.map}: row {row + 1}, column {column + 1}: got {number}; "
                f"sheet {sheet.name} has frames 0 to {len(sheet.frames) - 1}"
            )
        x, y, w, h = sheet.frames[number].box
        if (w, h) != (width, height):
            raise ProjectError(f"{where}: frames of sheet {sheet.name} must all be {width} x {height} px")
        tiles[place] = flip_picture(sheets[sheet.name][y : y + h, x : x + w], flip)
    places = {cell: place for place, cell in enumerate(used)}
    picture = np.empty((len(rows), height, len(rows[0]), width, 4), dtype=np.uint8)
    for row, cells in enumerate(rows):
        picture[row] = tiles[[places[cell] for cell in cells]].swapaxes(0, 1)
    whole: Pixels = picture.reshape(len(rows) * height, len(rows[0]) * width, 4)
    whole.flags.writeable = False
    return whole


def read_map(path: Path, where: str) -> Cells:
    """Return the cells of a map file as (frame number, flip); -1 is empty.

    The file is CSV: one line a row; a cell is a frame number counted from 0, then h, v or hv.
    raises   ProjectError: with row and column
    """
    try:
        with path.open("rb") as file:  # what has no size, such as a device, is bounded too
            data = file.read(LARGEST_MAP_BYTES + 1)
        if len(data) > LARGEST_MAP_BYTES:
            raise ProjectError(f"{where}: {path.name}: must be at most {LARGEST_MAP_BYTES} bytes")
        text = data.decode("utf-8")
    except FileNotFoundError:
        raise ProjectError(f"{where}: {path}: no such file") from None
    except OSError as error:
        raise ProjectError(f"{where}: {path}: cannot be read: {error.strerror}") from None
    except UnicodeDecodeError:
        raise ProjectError(f"{where}: {path.name}: not UTF-8") from None
    import csv

    rows: Cells = []
    known: dict[str, tuple[int, int]] = {}
    try:
        for number, row in enumerate(csv.reader(io.StringIO(text)), 1):
            if row:
                for column, cell in enumerate(row, 1):
                    if cell not in known:
                        known[cell] = _cell(cell, where, path.name, (number, column))
                rows.append([known[cell] for cell in row])
    except csv.Error as error:
        raise ProjectError(f"{where}: {path.name}: not CSV: {error}") from None
    if not rows or any(len(row) != len(rows[0]) for row in rows):
        raise ProjectError(f"{where}: {path.name}: rows must be equally long and at least one")
    return rows


def _cell(text: str, where: str, name: str, at: tuple[int, int]) -> tuple[int, int]:
    match = CELL.fullmatch(text)
    if not match:
        raise ProjectError(
            f"{where}: {name}: row {at[0]}, column {at[1]}: got {text[:20]!r}; "
            "must be a frame number from 0 with h, v or hv, or -1"
        )
    return int(match.group(1)), ("", "h", "v", "hv").index(match.group(2) or "")

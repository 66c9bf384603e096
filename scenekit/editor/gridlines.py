"""The lines of a grid over a sheet: margins, cells and gutters, dragged or typed."""

from dataclasses import dataclass, replace
from functools import partial

from scenekit.editor import canvas, cutting
from scenekit.editor.arithmetic import whole
from scenekit.editor.backend import Box, Press
from scenekit.editor.cutting import Cutting
from scenekit.editor.desk import Desk
from scenekit.errors import ProjectError, SliceError
from scenekit.model.arrays import Pixels
from scenekit.slicing.cut import Grid

KINDS = ("margin", "cell", "gutter")
REACH_PX = 5
MOST_LIVE_PX = 1_000_000
"""A larger picture is cut again only once a line is let go."""

TIPS = {
    "margin": "Pixels left of and above the first cell.",
    "cell": "Width and height of a cell.",
    "gutter": "Empty pixels between cells.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line that can be dragged: across (axis 0) or down (axis 1) the sheet, in px of the picture.

    margin is at the first cell's start, cell at its end, gutter at the second cell's end
    """

    axis: int
    kind: str
    at: int


def whole_cells(grid: Grid) -> Grid:
    """Return a grid that begins with its first cell wholly on the picture."""
    margin = tuple(
        start % (cell + gutter) if start < 0 else start
        for start, cell, gutter in zip(grid.margin, grid.cell, grid.gutter, strict=True)
    )
    return replace(grid, margin=(margin[0], margin[1]))


def lines_of(grid: Grid) -> tuple[Line, ...]:
    """Return the lines of a grid; a gutter has one only where there is a second cell."""
    lines = []
    for axis, count in ((0, grid.columns), (1, grid.rows)):
        start, cell, gutter = grid.margin[axis], grid.cell[axis], grid.gutter[axis]
        lines += [Line(axis=axis, kind="margin", at=start), Line(axis=axis, kind="cell", at=start + cell)]
        if count > 1:
            lines.append(Line(axis=axis, kind="gutter", at=start + 2 * cell + gutter))
    return tuple(lines)


def dragged(grid: Grid, line: Line, at: int) -> Grid:
    """Return a grid with one of its lines elsewhere; the others keep their meaning."""
    axis = line.axis
    start, cell = grid.margin[axis], grid.cell[axis]
    value = {"margin": at, "cell": at - start, "gutter": at - start - 2 * cell}[line.kind]
    return with_value(grid, line.kind, axis, max(1 if line.kind == "cell" else 0, value))


def with_value(grid: Grid, kind: str, axis: int, value: int) -> Grid:
    """Return a grid with one number changed."""
    old = {"margin": grid.margin, "cell": grid.cell, "gutter": grid.gutter}[kind]
    new = (value, old[1]) if axis == 0 else (old[0], value)
    if kind == "margin":
        return replace(grid, margin=new)
    return replace(grid, cell=new) if kind == "cell" else replace(grid, gutter=new)


def draw_lines(desk: Desk, now: Cutting, view: canvas.View, felt: Press, area: Box) -> bool:
    """Draw the lines of the cut on show and drag them; say whether a line has the pointer."""
    cut = now.cut
    if cut is None or cut.grid is None or now.pixels is None:
        return False
    place = (felt.at[0] + area[0], felt.at[1] + area[1])
    first = whole_cells(cut.grid)
    grid = now.line_grid or first
    lines = lines_of(grid)
    near = _nearest(view, lines, place) if felt.hovered and view.drag is None else None
    if felt.started and near is not None:
        now.line, now.line_grid = near, first
    held = now.line
    if isinstance(held, Line) and now.line_grid is not None:
        at = round((place[held.axis] - (view.x, view.y)[held.axis]) / view.zoom)
        grid = dragged(first, held, at)
        lines = lines_of(grid)
        _take(desk, now, grid, felt)
    for line in lines:
        chosen = isinstance(held, Line) and (line.axis, line.kind) == (held.axis, held.kind)
        _draw_line(desk, view, area, grid, line, chosen or line == near)
    felt_line = held if isinstance(held, Line) else near
    if felt_line is not None:
        desk.ui.pointer = "across" if felt_line.axis == 0 else "updown"
    return held is not None


def _take(desk: Desk, now: Cutting, grid: Grid, felt: Press) -> None:
    """Cut the sheet by a grid while its line is dragged, or once it is let go."""
    assert now.pixels is not None
    small = now.pixels.shape[0] * now.pixels.shape[1] <= MOST_LIVE_PX
    before = now.cut.grid if now.cut is not None else None
    changed = before is not None and _numbers(whole_cells(before)) != _numbers(grid)
    if changed and (small or felt.ended):
        cut_anew(desk, now, now.pixels, grid)
    if felt.ended:
        now.line = now.line_grid = None


def _numbers(grid: Grid) -> tuple[object, ...]:
    return grid.cell, grid.margin, grid.gutter


def cut_anew(desk: Desk, now: Cutting, pixels: Pixels, grid: Grid) -> None:
    """Show the cut that a grid gives; say why where it gives none."""
    try:
        cut = cutting.cut_grid(pixels, grid, f"sheet {now.path.name}")
    except SliceError as error:
        desk.session.say(str(error), "alarm")
        return
    now.show_own(cut)


def _nearest(view: canvas.View, lines: tuple[Line, ...], place: tuple[float, float]) -> Line | None:
    """Return the line next to a place on the window, if one is within reach."""
    found = []
    for number, line in enumerate(lines):
        spot = (view.x, view.y)[line.axis] + line.at * view.zoom
        found.append((abs(place[line.axis] - spot), number))
    nearest = min(found, default=(REACH_PX + 1.0, 0))
    return lines[nearest[1]] if nearest[0] <= REACH_PX else None


def _draw_line(desk: Desk, view: canvas.View, area: Box, grid: Grid, line: Line, strong: bool) -> None:
    """Draw one line over the whole canvas, with its name and number in a tab at the edge."""
    ui = desk.ui
    x, y, w, h = area
    spot = round((view.x, view.y)[line.axis] + line.at * view.zoom)
    limits = (x, x + w) if line.axis == 0 else (y, y + h)
    if not limits[0] <= spot <= limits[1]:
        return
    width = 2 if strong else 1
    whole_line: Box = (spot, y, width, h) if line.axis == 0 else (x, spot, w, width)
    ui.fill(whole_line, ui.look.accent)
    value = {"margin": grid.margin, "cell": grid.cell, "gutter": grid.gutter}[line.kind][line.axis]
    words = f"{line.kind} {value}"
    wide, high = ui.width(words, "small") + 8, ui.px(16)
    step = KINDS.index(line.kind) * high
    tab: Box = (spot, y + step, wide, high) if line.axis == 0 else (x, spot, wide, high)
    if line.axis == 1 and tab[1] < y + 3 * high:
        tab = (x + w - wide, spot, wide, high)
    ui.fill(tab, ui.look.accent)
    ui.text(tab[0] + 4, tab[1] + high / 2, words, "small", ui.look.on_accent)
    ui.mark(f"line:{line.kind}:{line.axis}", tab)


def grid_fields(desk: Desk, now: Cutting, box: Box) -> None:
    """The numbers of the grid to type; a cut without a grid gets one by typing a cell."""
    ui = desk.ui
    x, y, w, h = box
    if now.cut is None or now.pixels is None:
        return
    grid = whole_cells(now.cut.grid or Grid(cell=(16, 16), columns=1, rows=1))
    wide = (w - 16) / 3
    for number, kind in enumerate(("cell", "margin", "gutter")):
        old = {"margin": grid.margin, "cell": grid.cell, "gutter": grid.gutter}[kind]
        shown = f"{old[0]}, {old[1]}" if now.cut.grid is not None else ""
        place = (x + number * (wide + 8), y, wide, h)
        low = 1 if kind == "cell" else 0
        made = ui.field(f"cut:{kind}", place, shown, partial(read_pair, low=low), tip=TIPS[kind], unit=kind)
        if made is not None:
            for axis in (0, 1):
                grid = with_value(grid, kind, axis, made[axis])
            cut_anew(desk, now, now.pixels, grid)


def read_pair(text: str, low: int) -> tuple[int, int]:
    """Return two numbers from a text such as `12, 16`; one number counts for both.

    raises   ProjectError: not one or two numbers from low to 32767
    """
    parts = text.replace("x", ",").split(",")
    if len(parts) > 2:
        raise ProjectError(f"got {text[:40]!r}; must be one or two numbers")
    numbers = [whole(part, low, 32_767) for part in parts]
    return numbers[0], numbers[-1]

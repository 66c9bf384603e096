"""Cutting a picture before it is kept: the likeliest cut, its runners-up, and what is kept of one."""

import threading
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from scenekit.editor.history import Edit
from scenekit.errors import SceneKitError, SliceError
from scenekit.model.arrays import Pixels
from scenekit.model.edits import put_sheet
from scenekit.model.project import Project
from scenekit.model.sprites import Frame, Sheet
from scenekit.model.store import inside, write_atomically
from scenekit.slicing.cut import Alternative, Cut, Grid, SliceOptions

WIDEST_MERGE_PX = 12


@dataclass(slots=True, eq=False)
class Cutting:
    """A picture file that is being cut: its pixels, the ways to cut it, and the one on show."""

    path: Path
    name: str
    pixels: Pixels | None = None
    cuts: list[Cut] = field(default_factory=list)
    shown: int = 0
    error: str = ""
    done: bool = False
    author: str = ""
    licence: str = ""
    own: bool = False
    line: Any = None
    line_grid: Grid | None = None

    @property
    def cut(self) -> Cut | None:
        """Return the cut on show."""
        return self.cuts[self.shown] if self.cuts else None

    def show_own(self, cut: Cut) -> None:
        """Show a cut made by hand; it stands before the others, and there is one of it."""
        self.cuts = [cut, *self.cuts[1 if self.own else 0 :]]
        self.own, self.shown = True, 0


def begin(path: Path, name: str) -> Cutting:
    """Begin to cut a picture in the background."""
    cutting = Cutting(path=path, name=name)
    threading.Thread(target=_work, args=(cutting,), daemon=True).start()
    return cutting


def _work(cutting: Cutting) -> None:
    from scenekit.images.flat import read_picture
    from scenekit.slicing import cut_sheet
    from scenekit.slicing.guess import cut_guess

    try:
        cutting.pixels = read_picture(cutting.path).pixels
        options = SliceOptions(where=f"sheet {cutting.path.name}")
        best = cut_guess(cutting.pixels, options)
        cutting.cuts = [best]
        plain = cut_sheet(cutting.pixels, options, method="islands")
        if _boxes(plain) != _boxes(best):
            cutting.cuts = [best, plain]
        for alternative in best.alternatives:
            other = _recut(cutting.pixels, options, alternative)
            if other is not None and all(_boxes(other) != _boxes(known) for known in cutting.cuts):
                cutting.cuts = [*cutting.cuts, other]
    except SceneKitError as error:
        cutting.error = str(error)
    cutting.done = True


def _boxes(cut: Cut) -> tuple[object, ...]:
    return tuple(frame.box for frame in cut.frames)


def _recut(pixels: Pixels, options: SliceOptions, wanted: Alternative) -> Cut | None:
    """Return the cut that a runner-up stands for; None where it cannot be had again."""
    from dataclasses import replace

    from scenekit.slicing import cut_sheet

    if wanted.grid is not None:
        grid = wanted.grid
        told = replace(options, cell=grid.cell, margin=grid.margin, gutter=grid.gutter)
        try:
            return replace(cut_sheet(pixels, told, method="cells"), confidence=wanted.confidence)
        except SliceError:
            return None
    for merge in range(WIDEST_MERGE_PX + 1):
        cut = cut_sheet(pixels, replace(options, merge_px=merge), method="islands")
        if len(cut.frames) == wanted.count:
            return replace(cut, confidence=wanted.confidence)
    return None


def cut_grid(pixels: Pixels, grid: Grid, where: str) -> Cut:
    """Cut a sheet into the cells of a grid.

    raises   SliceError: it cannot be cut so
    """
    from scenekit.slicing import cut_sheet

    options = SliceOptions(where=where, cell=grid.cell, margin=grid.margin, gutter=grid.gutter)
    return cut_sheet(pixels, options, method="cells")


def cut_like(pixels: Pixels, cell: tuple[int, int, int, int], where: str) -> Cut:
    """Cut a sheet into cells of which one is given as a box (x, y, w, h).

    raises   SliceError: it cannot be cut so
    """
    from scenekit.slicing import cut_sheet

    x, y, w, h = cell
    options = SliceOptions(where=where, cell=(w, h), margin=(x % w, y % h))
    return cut_sheet(pixels, options, method="cells")


def kept_frames(cut: Cut) -> tuple[Frame, ...]:
    """Return frames with pivots and hit boxes; cells of a grid share one pivot, so that nothing jumps."""
    from scenekit.sprites.trim import default_hit_box, default_pivot

    same = len({found.box[2:] for found in cut.frames}) == 1
    foot = max((f.content[1] + f.content[3] - f.box[1] for f in cut.frames), default=1) - 1
    frames = []
    for found in cut.frames:
        shared = ((found.box[2] - 1) // 2, foot)
        pivot = found.pivot or (shared if same else default_pivot(found.box, found.content))
        hit = default_hit_box(found.box, found.content)
        frames.append(Frame(name=found.name, box=found.box, pivot=pivot, hit_box=hit))
    return tuple(frames)


def keep(project: Project, cutting: Cutting, cut: Cut) -> Edit:
    """Copy the picture into the project's folder and return the edit that adds the sheet.

    raises   SliceError, ProjectError: two key colours, another file of that name, frames still in use
    """
    if len(cut.background.colours) > 1:
        raise SliceError("a sheet in a project can have one key colour; repaint the other one first")
    file = f"sheets/{cutting.name}{cutting.path.suffix.lower()}"
    sheet = Sheet(
        name=cutting.name,
        file=file,
        key=cut.background.colours[0] if cut.background.kind == "key" else None,
        author=cutting.author,
        licence=cutting.licence,
        frames=kept_frames(cut),
    )
    changed = put_sheet(project, sheet)
    copy_in(project, file, cutting.path)
    return Edit(document=changed, label=f"adding sheet {cutting.name}")


def copy_in(project: Project, file: str, path: Path) -> None:
    """Copy a picture to a place in the project's folder; never over another picture.

    raises   SliceError: another file is there
    """
    target = inside(project.folder, file)
    data = path.read_bytes()
    if target.exists():
        if target.read_bytes() != data:
            raise SliceError(f"{file}: is there already and is another picture; choose another name")
        return
    target.parent.mkdir(parents=True, exist_ok=True)
    write_atomically(target, data)

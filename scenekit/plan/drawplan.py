"""The draw plan: what drawing one tick takes, from the scene and the abilities of its target."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from scenekit.images.reduced import ReducedArt
from scenekit.model.project import Project
from scenekit.model.scene import Scene
from scenekit.motion.parallax import camera_at, shown_scroll
from scenekit.motion.shown import Looks, Shown
from scenekit.plan.changes import Seen
from scenekit.plan.changework import changed_work
from scenekit.plan.copywork import copy_work
from scenekit.plan.coverwork import Covers
from scenekit.plan.mapwork import map_work
from scenekit.plan.panelwork import border_work, fill_work, item_boxes, item_frames
from scenekit.plan.schemes import Abilities, Scheme
from scenekit.plan.shown import Line, colour_numbers, covers_view, shown_cells, turned_map, walked_cells
from scenekit.plan.stepwork import step_counts
from scenekit.plan.work import Work, called, merged, unnamed
from scenekit.sprites.panels import ItemPlace, changed_between, place_items, values_at
from scenekit.symmetry.flips import flip_picture
from scenekit.tables.changes import inked_box
from scenekit.tables.pieces import EMPTY, Pieces, runs_of

Box = tuple[int, int, int, int]
Whole = NDArray[np.int64]
MOST_REMEMBERED = 50_000


class DrawPlanner:
    """Plans the ticks of one scene for one target; keeps what does not change between ticks.

    looks      of the scene's sprites, when another target's planner has them already
    bordered   whether the screen, of (width, height), shows a border or panel beside the view
    changes    whether only what changed is drawn, and the rest moved along
    windows    (columns, rows) in memory of each plane whose map stays in a file
    """

    def __init__(
        self,
        project: Project,
        scene: Scene,
        art: ReducedArt,
        pieces: Pieces,
        scheme: Scheme,
        abilities: Abilities,
        view: tuple[int, int],
        looks: Looks | None = None,
        bordered: bool = False,
        screen: tuple[int, int] = (0, 0),
        changes: bool = False,
        windows: Sequence[tuple[int, int] | None] = (),
    ) -> None:
        self.project = project
        self.scene = scene
        self.art = art
        self.pieces = pieces
        self.scheme = scheme
        self.abilities = abilities
        self.view = view
        self.looks = looks or Looks(project, scene)
        self.bordered = bordered
        self.screen = screen
        self.changes = changes
        self.windows = tuple(windows) or (None,) * len(scene.planes)
        self.places = place_items(project, scene, art.sheets, art.transparent) if bordered else ()
        self.covers = Covers(scene.name, view)
        self.clears = not covers_view(scene, art, view)
        entries = {entry for change in art.changes[scene.name] for entry in change.entries}
        self.moving = len(entries.union(*(range(c.first, c.first + c.count) for c in art.cycles)))
        self.counter: object = None
        self.done: dict[tuple[int, tuple[int, int], tuple[int, int]], tuple[Work, ...]] = {}
        self.runs: dict[tuple[int, int], Whole] = {}
        self.cut: dict[tuple[int, int, Box], Work | None] = {}
        self._look_at_planes()
        self._look_at_pieces()

    def _look_at_planes(self) -> None:
        """Keep the maps of planes at tick 0, which of them turn, and where planes show anything."""
        pieces, art = self.pieces, self.art
        pictures = (art.planes[self.scene.name, plane.name] for plane in self.scene.planes)
        self.inked = tuple(inked_box(picture, art.transparent) for picture in pictures)
        self.raw = [
            np.array(m).reshape(c.rows, c.columns) for m, c in zip(pieces.maps, pieces.planes, strict=True)
        ]
        self.maps = [turned_map(pieces, raw, 0) for raw in self.raw]
        self.turning = tuple(
            bool(pieces.turns.lists) and bool(np.any(raw >= pieces.turns.base)) for raw in self.raw
        )

    def _look_at_pieces(self) -> None:
        """Keep the number of each frame, which pieces are solid, and how many runs and pixels they have."""
        pieces = self.pieces
        self.numbers: dict[tuple[str, str], int] = {}
        for number, frame in enumerate(pieces.frames):
            self.numbers.setdefault((frame.sheet, frame.name), number)
        self.solid = np.array([*pieces.solid, False], dtype=np.int64)
        counted = [] if self.scheme.copies else [self._runs(n, 0) for n in range(len(pieces.pictures))]
        self.run_counts = np.array([len(runs) for runs in counted], dtype=np.int64)
        self.run_pixels = np.array([runs[:, 2].sum() for runs in counted], dtype=np.int64)

    def plan(
        self, tick: int, shown_tick: int | None = None, page_tick: int | None = None
    ) -> tuple[Work, ...]:
        """Return the work of drawing a tick, in drawing order.

        shown_tick   the tick that is on show before, below 0 for none; default the one before
        page_tick    the tick that was drawn last on the same page, -1 for none; default as many ticks
                     before as there are pages
        """
        if not self.scheme.draws:
            return ()
        work: list[Work] = []
        if page_tick is None and (self.bordered or self.changes):
            page_tick = max(-1, tick - self.abilities.pages)
        if self.bordered and page_tick == -1:
            work += border_work(self.scene, self.screen)
        before = max(0, tick - 1 if shown_tick is None else shown_tick)
        steps = step_counts(self.scene, self.art, before, tick)
        work += [called("scene", operation, count) for operation, count in steps.items()]
        if any(self.windows):
            work += map_work(
                self.scene, self.pieces, self.windows, tick, tick - 1 if shown_tick is None else shown_tick
            )
        if self.changes:
            work += changed_work(self, tick, -1 if page_tick is None else page_tick)
        else:
            work += self._everything(tick)
        for transition in self.scene.transitions:
            work += self.covers.work(transition, tick)
        if page_tick is not None and self.bordered:
            for place in self.places:
                if page_tick < 0 or changed_between(self.scene, place.item.value, page_tick, tick):
                    work += merged(place.item.name, self.item_work(place, tick))
        work.append(Work(name="page", operation="page", calls=1, rows=0, pixels=1))
        if self.moving and self.abilities.recolours:
            work.append(called("palette", "entry", self.moving))
        writes = self._palette_writes(tick, before)
        if writes:
            work.append(Work(name="palette", operation="palette", calls=writes, rows=0, pixels=writes))
        return tuple(work)

    def _everything(self, tick: int) -> list[Work]:
        """Return the work of drawing planes and sprites anew."""
        work = [self.clear_work(self.view)] if self.clears else []
        camera = camera_at(self.scene, tick)
        for number, plane in enumerate(self.scene.planes):
            work += self.plane_work(number, shown_scroll(self.scene, plane, tick, camera), tick=tick)
            for placed, shown in zip(self.scene.placed, self.looks.at(tick), strict=True):
                if placed.over == plane.name:
                    work += merged(placed.name, self.sprite_work(shown))
        return work

    def clear_work(self, view: tuple[int, int]) -> Work:
        """Return the work of filling a view with the backdrop."""
        return Work(name="backdrop", operation="fill", calls=1, rows=view[1], pixels=view[0] * view[1])

    def item_work(self, place: ItemPlace, tick: int) -> list[Work]:
        """Return the work of redrawing an item of the panel."""
        return self.value_work(place, values_at(self.project, self.scene, tick).get(place.item.value, 0))

    def value_work(self, place: ItemPlace, value: int) -> list[Work]:
        """Return the work of drawing an item of the panel with a value."""
        work = [fill_work(box) for box in item_boxes(self.project, place, value)]
        for frame, x, y in item_frames(self.project, place, value):
            shown = self.pieces.frames[self.numbers[frame]]
            if shown.cell != EMPTY:
                pivot = shown.pivot
                left, top = x + pivot[0] + shown.x, y + pivot[1] + shown.y
                drawn = self.piece_work(shown.cell // 4, left, top, shown.cell % 4, self.screen)
                work += [unnamed("piece", 1, 0, 0), *drawn]
        return work

    def plane_work(
        self, number: int, scroll: tuple[int, int], view: tuple[int, int] | None = None, tick: int = 0
    ) -> tuple[Work, ...]:
        """Return the work of a plane at a scroll position, remembered, since planes often stand still.

        view   size of the part that is drawn, its corner at the scroll position; the whole view if left out
        """
        key = (number, scroll, view or self.view)
        if self.turning[number] and tick:
            old, self.maps[number] = self.maps[number], turned_map(self.pieces, self.raw[number], tick)
            found = tuple(merged(self.scene.planes[number].name, self._plane(*key)))
            self.maps[number] = old
            return found
        if key not in self.done:
            if len(self.done) >= MOST_REMEMBERED:
                self.done.clear()
            self.done[key] = tuple(merged(self.scene.planes[number].name, self._plane(*key)))
        return self.done[key]

    def _plane(self, number: int, scroll: tuple[int, int], view: tuple[int, int]) -> list[Work]:
        """Return the work of a plane's visible cells."""
        plane, cut = self.scene.planes[number], self.pieces.planes[number]
        across = (scroll[0], view[0], cut.columns, cut.tile_w_px, cut.last_w_px, plane.wrap[0])
        down = (scroll[1], view[1], cut.rows, cut.tile_h_px, cut.last_h_px, plane.wrap[1])
        columns, rows = shown_cells(*across), shown_cells(*down)
        walked = self.maps[number][np.ix_(walked_cells(*down), walked_cells(*across))]
        walk = [unnamed("plane", 1, 0, 0), unnamed("row", walked.shape[0], 0, 0)]
        walk.append(unnamed("map-row", 0 if self.windows[number] is None else walked.shape[0], 0, 0))
        walk.append(unnamed("cell", walked.size, 0, 0))
        walk.append(unnamed("piece", int(np.count_nonzero(walked != EMPTY)), 0, 0))
        walk = [work for work in walk if work.calls]
        return [*walk, *self._visible(number, rows, columns, view)] if rows and columns else walk

    def _visible(
        self, number: int, rows: list[Line], columns: list[Line], view: tuple[int, int]
    ) -> list[Work]:
        """Return the work of drawing the cells that the view shows."""
        cells = self.maps[number][np.ix_([r for r, *_ in rows], [c for c, *_ in columns])]
        if self.scheme.copies:
            return copy_work(cells, self.solid, rows, columns)
        whole = np.outer([not cut for _, _, _, cut in rows], [not cut for _, _, _, cut in columns])
        inner = cells[whole & (cells != EMPTY)] // 4
        count = int(self.run_counts[inner].sum())
        work = unnamed("run", count, count, int(self.run_pixels[inner].sum()))
        parts = [work] if work.calls else []
        turned = int(self.run_counts[cells[whole & (cells != EMPTY) & (cells % 4 > 0)] // 4].sum())
        parts += [unnamed("turned-run", turned, 0, 0)] if turned else []
        for row, column in np.argwhere(~whole & (cells != EMPTY)):
            cell = int(cells[row, column])
            parts += self.piece_work(cell // 4, columns[column][1], rows[row][1], cell % 4, view)
        return parts

    def sprite_work(self, shown: Shown) -> list[Work]:
        """Return the work of a sprite."""
        looked, seen = unnamed("sprite", 1, 0, 0), self.seen(shown)
        if not seen.box[2]:
            return [looked]
        return [looked, unnamed("piece", 1, 0, 0), *self.piece_work(seen.piece, *seen.box[:2], seen.flip)]

    def seen(self, shown: Shown) -> Seen:
        """Return what is drawn of a sprite and where."""
        number, flip = self.numbers[shown.sheet, shown.frame], shown.flip
        if (number, flip) in self.pieces.turned:
            number, flip = self.pieces.turned[number, flip], 0
        frame, look = self.pieces.frames[number], 4 * number + flip
        if frame.cell == EMPTY:
            return Seen(box=(shown.x, shown.y, 0, 0), piece=0, flip=0, look=look)
        h, w = self.pieces.pictures[frame.cell // 4].shape
        x = shown.x - frame.x - w + 1 if flip & 1 else shown.x + frame.x
        y = shown.y - frame.y - h + 1 if flip & 2 else shown.y + frame.y
        return Seen(box=(x, y, w, h), piece=frame.cell // 4, flip=frame.cell % 4 ^ flip, look=look)

    def piece_work(
        self, piece: int, x: int, y: int, flip: int, view: tuple[int, int] | None = None
    ) -> list[Work]:
        """Return the work of one piece, clipped to the view, or to another part of the screen."""
        view = view or self.view
        h, w = self.pieces.pictures[piece].shape
        left, top = max(0, x), max(0, y)
        right, bottom = min(view[0], x + w), min(view[1], y + h)
        if left >= right or top >= bottom:
            return []
        if self.scheme.copies:
            operation = "blit-flipped" if flip else "blit" if self.pieces.solid[piece] else "blit-keyed"
            return [unnamed(operation, 1, bottom - top, (right - left) * (bottom - top))]
        box = (left - x, top - y, right - x, bottom - y)
        work = self._cut_runs(piece, flip, box)
        parts = [work] if work is not None else []
        count = int(self.run_counts[piece])
        if box != (0, 0, w, h):
            return [*parts, unnamed("edge-run", count, 0, 0)]
        return [*parts, unnamed("turned-run", count, 0, 0)] if flip else parts

    def _cut_runs(self, piece: int, flip: int, box: Box) -> Work | None:
        """Return the work of the runs of a piece within a box (left, top, right, bottom) of it."""
        key = (piece, flip, box)
        if key not in self.cut:
            runs = self._runs(piece, flip)
            lengths = np.minimum(runs[:, 0] + runs[:, 2], box[2]) - np.maximum(runs[:, 0], box[0])
            lengths = lengths[(runs[:, 1] >= box[1]) & (runs[:, 1] < box[3]) & (lengths > 0)]
            count = len(lengths)
            self.cut[key] = unnamed("run", count, count, int(lengths.sum())) if count else None
        return self.cut[key]

    def _runs(self, piece: int, flip: int) -> Whole:
        if (piece, flip) not in self.runs:
            runs = runs_of(flip_picture(self.pieces.pictures[piece], flip), self.art.transparent)
            self.runs[piece, flip] = np.array(runs, dtype=np.int64).reshape(-1, 4)
        return self.runs[piece, flip]

    def _palette_writes(self, tick: int, shown_tick: int) -> int:
        """Return how many entries show another colour number than on the page before."""
        if not self.abilities.recolours:
            return 0
        before = colour_numbers(self.art, self.scene.name, max(0, shown_tick))
        return int(np.count_nonzero(colour_numbers(self.art, self.scene.name, tick) != before))

"""What a placed sprite takes at many ticks at once."""

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from scenekit.images.reduced import ReducedArt
from scenekit.model.scene import Placed
from scenekit.motion.tracks import longest_animation, places_along, rows_along
from scenekit.motion.waking import FAR, own_ticks
from scenekit.plan.amounts import Amounts
from scenekit.plan.areas import Areas
from scenekit.plan.drawplan import DrawPlanner
from scenekit.symmetry.flips import flip_picture
from scenekit.tables.pieces import EMPTY, Pieces

Whole = NDArray[np.int64]
Seen = NDArray[np.bool_]
View = tuple[Whole | int, Whole | int]
Scrolls = list[tuple[Whole, Whole]]
KINDS = ("blit", "blit-keyed", "blit-flipped")


class PieceRuns:
    """Counts runs of pieces within boxes of them."""

    def __init__(self, pieces: Pieces, art: ReducedArt) -> None:
        self.pieces = pieces
        self.transparent = art.transparent
        self.known: dict[tuple[int, int], tuple[Areas, Areas, Areas]] = {}

    def within(self, piece: int, flip: int, box: tuple[Whole, Whole, Whole, Whole]) -> tuple[Whole, Whole]:
        """Return how many runs a piece has within boxes (left, top, right, bottom), and their pixels."""
        if (piece, flip) not in self.known:
            picture = flip_picture(self.pieces.pictures[piece], flip)
            drawn = picture != self.transparent
            goes_on = np.zeros_like(drawn)
            goes_on[:, 1:] = drawn[:, 1:] & (picture[:, 1:] == picture[:, :-1])
            self.known[piece, flip] = (Areas(drawn & ~goes_on), Areas(goes_on), Areas(drawn))
        begun, goes_on_there, pixels = self.known[piece, flip]
        left, top, right, bottom = box
        cut = goes_on_there.within(left, top, np.minimum(left + 1, right), bottom)
        return begun.within(*box) + cut, pixels.within(*box)


class SpriteCounts:
    """Counts the work of the sprites of a planner; what frames look like is gathered once.

    A look is 4 x frame + flip. `add` notes sprites that the view's edge cuts, `finish` counts their runs.
    """

    def __init__(self, planner: DrawPlanner) -> None:
        self.planner = planner
        self.runs = PieceRuns(planner.pieces, planner.art)
        names = (placed.name for placed in planner.scene.placed)
        self.tables = dict(zip(names, planner.looks.tables, strict=True))
        frames = planner.pieces.frames
        rows = [self._shape(number, flip) for number in range(len(frames)) for flip in range(4)]
        self.shapes = np.array(rows, dtype=np.int64).reshape(-1, 6)
        self.left, self.top, self.wide, self.high = np.ascontiguousarray(self.shapes[:, :4].T)
        self.kinds = np.array([self._kind(look) for look in range(len(rows))], dtype=np.int64)
        counts = (planner.run_counts, planner.run_pixels)
        drawn = [0 if planner.scheme.copies else 1 if row[4] != EMPTY else 0 for row in rows]
        self.counts = [
            np.array([int(count[row[4]]) if d else 0 for row, d in zip(rows, drawn, strict=True)], np.int64)
            for count in counts
        ]
        self.turned = np.where(self.shapes[:, 5] > 0, self.counts[0], 0)
        self.cut: list[tuple[Whole, ...]] = []

    def _shape(self, number: int, flip: int) -> tuple[int, int, int, int, int, int]:
        """Return (offset x, offset y, width, height, piece or EMPTY, flip) of a frame as it is drawn."""
        pieces = self.planner.pieces
        if (number, flip) in pieces.turned:
            number, flip = pieces.turned[number, flip], 0
        frame = pieces.frames[number]
        if frame.cell == EMPTY:
            return 0, 0, 0, 0, EMPTY, 0
        h, w = pieces.pictures[frame.cell // 4].shape
        x = -frame.x - w + 1 if flip & 1 else frame.x
        y = -frame.y - h + 1 if flip & 2 else frame.y
        return x, y, w, h, frame.cell // 4, frame.cell % 4 ^ flip

    def _kind(self, look: int) -> int:
        """Return which of KINDS copies a look, or EMPTY."""
        piece, flip = int(self.shapes[look, 4]), int(self.shapes[look, 5])
        return EMPTY if piece == EMPTY else 2 if flip else 0 if self.planner.pieces.solid[piece] else 1

    def add(self, amounts: Amounts, placed: Placed, ticks: Whole, scrolls: Scrolls) -> None:
        """Add the work of a placed sprite at ticks, with the scroll positions of all planes then."""
        looks, x, y = self.boxes(placed, ticks, scrolls)
        amounts.add("seen-sprite" if self.planner.changes else "sprite", 1)
        self.add_drawn(amounts, looks, x, y, self.planner.view)

    def boxes(self, placed: Placed, ticks: Whole, scrolls: Scrolls) -> tuple[Whole, Whole, Whole]:
        """Return the look of a placed sprite at ticks, and where the left top corner of its box is."""
        own, asleep = own_ticks(self.planner.scene, placed, ticks)
        looks = self._looks(placed, own)
        x, y = places_along(placed.path, placed.at, own)
        if placed.moves_with != "screen":
            across, down = scrolls[self.planner.scene.plane_number(placed.moves_with)]
            x, y = x - across, y - down
            if placed.asleep:
                x[asleep], y[asleep] = FAR, FAR
        return looks, x + self.left.take(looks), y + self.top.take(looks)

    def add_drawn(self, amounts: Amounts, looks: Whole, x: Whole, y: Whole, view: View) -> None:
        """Add what drawing looks takes whose left top corners are at x, y in the view, or in boxes."""
        wide, high = self.wide.take(looks), self.high.take(looks)
        shown_w = np.minimum(x + wide, view[0]) - np.maximum(x, 0)
        shown_h = np.minimum(y + high, view[1]) - np.maximum(y, 0)
        seen = (shown_w > 0) & (shown_h > 0)
        kinds = self.kinds.take(looks)
        amounts.add("piece", (seen if self.planner.changes else kinds != EMPTY).astype(np.int64))
        if self.planner.scheme.copies:
            rows = shown_h * seen
            self._add_copies(amounts, kinds, seen, rows, rows * shown_w)
            return
        whole = seen & (shown_w == wide) & (shown_h == high)
        count = self.counts[0][looks] * whole
        amounts.add("run", count, count, self.counts[1][looks] * whole)
        amounts.add("turned-run", self.turned[looks] * whole)
        cut = np.flatnonzero(seen & ~whole)
        if len(cut):
            sizes = [np.broadcast_to(np.asarray(side), looks.shape)[cut] for side in view]
            self.cut.append((looks[cut], cut, x[cut], y[cut], *sizes))

    def _looks(self, placed: Placed, ticks: Whole) -> Whole:
        """Return the look that a sprite has at ticks."""
        planner, sprite = self.planner, self.planner.project.sprite(placed.sprite)
        table, longest = self.tables[placed.name], longest_animation(sprite)
        looks = np.zeros((len(table.changes), longest), dtype=np.int64)
        for row, (_, number, flip) in enumerate(table.changes):
            animation = sprite.animations[number]
            for place, step in enumerate(animation.steps):
                looks[row, place] = 4 * planner.numbers[animation.sheet, step.frame] + (flip ^ step.flip)
        rows, steps = rows_along(sprite, ticks, table)
        return looks.ravel().take(rows * longest + steps)

    def _add_copies(self, amounts: Amounts, kinds: Whole, seen: Seen, rows: Whole, pixels: Whole) -> None:
        present = np.flatnonzero(np.bincount(kinds + 1, minlength=4)) - 1
        for kind in present[present >= 0].tolist():
            if len(present) == 1:
                amounts.add(KINDS[kind], seen.astype(np.int64), rows, pixels)
            else:
                mine = kinds == kind
                amounts.add(KINDS[kind], (seen & mine).astype(np.int64), rows * mine, pixels * mine)

    def finish(self, amounts: Amounts) -> None:
        """Count the runs of all sprites that the view's edge cuts, each look's at once."""
        if not self.cut:
            return
        looks, ticks, x, y, view_w, view_h = (np.concatenate(parts) for parts in zip(*self.cut, strict=True))
        self.cut.clear()
        order = np.argsort(looks, kind="stable")
        looks, ticks, x, y = looks[order], ticks[order], x[order], y[order]
        view_w, view_h = view_w[order], view_h[order]
        edges = [0, *(np.flatnonzero(np.diff(looks)) + 1).tolist(), len(looks)]
        runs, pixels = np.zeros_like(looks), np.zeros_like(looks)
        for first, last in pairwise(edges):
            _, _, wide, high, piece, flip = (int(part) for part in self.shapes[looks[first]])
            left, top = np.maximum(0, -x[first:last]), np.maximum(0, -y[first:last])
            right = np.minimum(view_w[first:last] - x[first:last], wide)
            bottom = np.minimum(view_h[first:last] - y[first:last], high)
            box = left, top, right, bottom
            runs[first:last], pixels[first:last] = self.runs.within(piece, flip, box)
        total = amounts.of("run")
        for number, part in enumerate((runs, runs, pixels)):
            np.add.at(total[number], ticks, part)
        np.add.at(amounts.of("edge-run")[0], ticks, self.counts[0][looks])
